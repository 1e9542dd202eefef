"""First-order bands of every numeric reading of every sheet against 2,000 draws of all tolerances."""

from __future__ import annotations

import sys
import time
from pathlib import Path
from random import Random

sys.path.insert(0, str(Path(__file__).parents[1]))

from core.spread_rig import Band, bands, is_skewed, is_wide
from parity.cases import load, sample_sheets
from table import print_table

DRAWS = 2000
ALLOWED = 0.05
SHOWN = 3


def main() -> int:
    rows, worst = [], []
    total = kept = 0
    for name in sample_sheets():
        circuit, begun = load(name), time.perf_counter()
        every = list(bands(circuit, Random(name), DRAWS))
        found = [b for b in every if isinstance(b, Band)]
        plain = [b for b in found if not is_wide(circuit, b) and not is_skewed(circuit, b)]
        total, kept = total + len(found), kept + _kept(found)
        worst_off = f"{max((b.off for b in found), default=0.0):.1%}"
        counts = (name, len(found), len(every) - len(found))
        seconds = round(time.perf_counter() - begun)
        rows.append((*counts, _share(found), _share(plain), worst_off, seconds))
        worst += [(name, b) for b in sorted(found, key=lambda b: -b.off)[:SHOWN]]
    head = ("sheet", "bands", "no band", "within 5 %", "but for sizes known poorly", "worst", "s")
    print_table(f"Edges of the band beside {DRAWS} draws, as a share of its width", head, rows)
    print(f"all sheets: {kept / total:.1%} of {total} readings within 5 %")
    lines = [
        (f"{b.off:.1%}", b.check.id, f"{' '.join(b.most[0]).strip()} {b.most[1]:.0%}", name)
        for name, b in sorted(worst, key=lambda row: -row[1].off)
    ]
    print_table("The worst, and what they lean on", ("off", "check", "most of it", "sheet"), lines)
    return 0


def _kept(found: list[Band]) -> int:
    return sum(band.off <= ALLOWED for band in found)


def _share(found: list[Band]) -> str:
    return f"{_kept(found) / len(found):.1%}" if found else "-"


if __name__ == "__main__":
    sys.exit(main())
