"""Every position of every sample sheet, sound and under every single fault, against ngspice."""

from __future__ import annotations

import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from parity.ngspice_rig import (
    Difference,
    compare,
    faulty_cases,
    healthy_cases,
    load,
    sample_sheets,
)

SHARES_FROM_VOLTS = 1.0
"""Below, a share of the voltage says nothing: it would be that of a rounding."""


def main() -> int:
    print(f"{'sheet':22} cases  largest difference                            seconds  floor")
    results = [measure(sheet) for sheet in sample_sheets()]
    return 0 if all(results) else 1


def measure(sheet: str) -> bool:
    circuit, begun = load(sheet), time.perf_counter()
    found = list(compare(circuit, [*healthy_cases(circuit), *faulty_cases(circuit)]))
    seconds = time.perf_counter() - begun
    worst = max(found, key=lambda d: d.volts)
    share = max((d.share for d in found if abs(d.theirs) > SHARES_FROM_VOLTS), default=0.0)
    kept = all(d.within_floor for d in found)
    print(
        f"{sheet:22} {len(found):5}  {worst.volts * 1e3:8.5f} mV at {worst.node:10} "
        f"{share * 100:9.6f} %  {seconds:13.1f}  {'kept' if kept else 'MISSED'}"
    )
    print(f"{'':22} {told(worst)}; without floating supplies {grounded(found) * 1e3:.6f} mV")
    return kept


def told(difference: Difference) -> str:
    faults = ", ".join(
        f"{f.element} {f.mode} {f.size or ''}".strip() for f in difference.case.faults
    )
    controls = ", ".join(f"{part} {position}" for part, position in difference.case.setup.controls)
    return f"with {controls}: {faults or 'sound'}"


def grounded(found: list[Difference]) -> float:
    """Largest difference (V) where the battery's earth is not open: there only 10 GΩ hold it."""
    return max(
        d.volts
        for d in found
        if not any(f.mode == "open" and f.element in ("E0", "W0") for f in d.case.faults)
    )


if __name__ == "__main__":
    sys.exit(main())
