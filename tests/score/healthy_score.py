"""What every load of the library reads when all is well: each terminal against the body, and its current, in
every position, with the band that holds 95 % of sound readings.

With `--write` it becomes `fixtures/circuits/HEALTHY.md`.
"""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from core.sample_circuits import FOLDER, sample

from footwell.checks.catalogue import working_setups
from footwell.checks.check import VOLTS, Check
from footwell.checks.phases import phases
from footwell.checks.predict import expected
from footwell.checks.works import engines
from footwell.circuit.circuit import Circuit, Element
from footwell.circuit.setup import SetupState, set_up
from footwell.electrics.operating_point import operate
from footwell.page import words as say
from footwell.page.bands import spans
from footwell.parts.base import EARTH
from footwell.practice.hidden import usual

SHEETS = tuple(sorted(path.stem for path in FOLDER.glob("*.json")))
TABLE = FOLDER / "HEALTHY.md"
HEAD = """# Healthy readings

What each load of the library's circuits reads when all is well: volts of its terminals against clean metal of
the body, with the band that holds 95 % of sound readings, its current, and what people say of it. At rest
and in the first twelve other positions; with the engine running too where something charges. Written by
`npm run score -- healthy --write`.
"""


def setups(circuit: Circuit) -> list[SetupState]:
    """At rest and in every position that is asked."""
    return [
        setup
        for engine in engines(circuit)
        for setup in (set_up(circuit, engine=engine), *working_setups(circuit, engine))
    ]


def volts(circuit: Circuit, point: str, setup: SetupState) -> str:
    """ "12.31 (12.00 to 12.62)"."""
    found = spans(circuit, expected(circuit, Check(VOLTS, point, EARTH, setup), ()), "V")
    return "; or ".join(f"{two(s.value)} ({two(s.low)} to {two(s.high)})" for s in found)


def two(number: float) -> str:
    """Two decimals, and nought without a sign."""
    return f"{round(number, 2) + 0.0:.2f}"


def drawn(circuit: Circuit, load: Element, setup: SetupState) -> float | None:
    """Current (A) in a load's unnamed branch, on average; None where it has none."""
    if all(b.name for b in circuit.branches(load, load.rest)):
        return None
    points = [(share, operate(circuit, each)) for share, each in phases(circuit, setup)]
    return sum(share * point.amps(load.id) for share, point in points)


def rows(sheet: str) -> list[list[str]]:
    """A row for each load in each position."""
    circuit, found = sample(sheet), []
    for setup in setups(circuit):
        where = say.controls_words(circuit, setup)
        if len(engines(circuit)) > 1:
            where += f"; engine {'running' if setup.engine == 'on' else 'off'}"
        for load in circuit.sheet.loads:
            element = circuit.elements[load]
            terminals = element.kind.terminals(element.values)
            amps = drawn(circuit, element, setup)
            found.append(
                [
                    where,
                    say.short_named(circuit, load),
                    ", ".join(f"{t}: {volts(circuit, f'{load}.{t}', setup)}" for t in terminals),
                    "" if amps is None else f"{abs(amps):.2f}",
                    usual(circuit, setup, load),
                ]
            )
    return found


def section(sheet: str) -> str:
    """A sheet's table in Markdown."""
    read = sample(sheet).sheet
    cells = [["position", "load", "V at its terminals", "A", "seen"], ["---"] * 5, *rows(sheet)]
    lines = [f"| {' | '.join(row)} |" for row in cells]
    return "\n".join([f"## {read.title} ({sheet})", "", *lines, ""])


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--sheets", nargs="+", default=list(SHEETS))
    parser.add_argument("--write", action="store_true", help="write the table of all sheets")
    asked = parser.parse_args()
    if asked.write:
        TABLE.write_text("\n".join([HEAD, *map(section, SHEETS)]), encoding="utf-8")
        print(f"Written to {TABLE.relative_to(FOLDER.parents[1])}")
    else:
        print("\n".join(map(section, asked.sheets)))


if __name__ == "__main__":
    main()
