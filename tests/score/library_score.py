"""Every sheet of the library: every single fault that shows, from complaint to cleared complaint.

Modes of unknown size are tried at the first and the last size of their ladder; the meter scatters, no eye
mistakes. With `--write` each row goes into the index of the library, `fixtures/circuits/README.md`, as soon
as it is found; the rows of other sheets stay there.
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Mapping
from multiprocessing import Pool
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))
sys.path.insert(0, str(Path(__file__).parents[1] / "bench"))

from core.loop_rig import ALL_TOOLS, Trial, read, sampled, single_trials
from core.sample_circuits import FOLDER
from sheet_jobs import Outcome, done, row, shows, worst
from table import print_table

SHEETS = tuple(sorted(path.stem for path in FOLDER.glob("*.json")))
INDEX = FOLDER / "README.md"
HEAD = ["sheet", "faults", "solved", "sound renewed", "readings", "p95", "minutes", "p95"]
KEPT = (0, 1, 2, 4, 6, 7, 8, 9)
"""Columns of `sheet_jobs.row` that the index shows."""


def trials(sheet: str, most: int, seed: int) -> tuple[list[Trial], int]:
    """The faults of a sheet that somebody would bring it in for, at most so many of them drawn by the seed,
    and how many there are."""
    showing = [t for t in single_trials(sheet, 2) if shows(t)]
    return (sampled(showing, most, seed) if most else showing), len(showing)


def outcome(asked: tuple[Trial, int]) -> Outcome:
    trial, seed = asked
    return done(trial, ALL_TOOLS, seed, sharp=True)


def index(rows: Mapping[str, list[str]]) -> str:
    """The index in Markdown, a line a sheet."""
    lines = [
        "# The library",
        "",
        "Generic circuits of no make, each from a common topology. A sheet is a starting point: what differs",
        "on the vehicle is changed in the job. Written by `npm run score -- library --write`: single faults",
        "that show, worked by the simulated electrician from complaint to cleared complaint. The meter",
        "scatters, no eye mistakes. *Faults* says how many of those that show were worked, drawn by a seed",
        "where it is not all. *Sound renewed* is the share of jobs in which something sound was renewed,",
        "joints and wires included. What every load reads when all is well: [HEALTHY.md](HEALTHY.md).",
        "",
        f"| {' | '.join(['circuit', *HEAD])} |",
        "|" + "---|" * (len(HEAD) + 1),
    ]
    for sheet in sorted(rows):
        lines.append(f"| {read(sheet).sheet.title} | {' | '.join(rows[sheet])} |")
    return "\n".join(lines) + "\n"


def indexed() -> dict[str, list[str]]:
    """The rows of the index as it stands, by sheet."""
    text = INDEX.read_text("utf-8") if INDEX.exists() else ""
    cells = [line.strip("|").split("|") for line in text.splitlines() if line.startswith("| ")]
    rows = ([cell.strip() for cell in row[1:]] for row in cells)
    return {row[0]: row for row in rows if row[0] in SHEETS}


def main() -> None:
    asked = arguments()
    print(f"Seed {asked.seed}; at most {asked.most or 'all'} faults a sheet")
    rows: dict[str, list[str]] = {}
    with Pool(asked.processes) as pool:
        for sheet in asked.sheets:
            chosen, showing = trials(sheet, asked.most, asked.seed)
            found = pool.map(outcome, [(t, asked.seed) for t in chosen], chunksize=1)
            cells = [row(sheet, found)[n] for n in KEPT]
            cells[1] = str(showing) if len(chosen) == showing else f"{len(chosen)} of {showing}"
            rows[sheet] = cells
            print("  ".join(cells), flush=True)
            worst(found, asked.worst)
            if asked.write:
                INDEX.write_text(index(indexed() | {sheet: cells}), encoding="utf-8")
    print_table("The library", HEAD, list(rows.values()))
    if asked.write:
        print(f"Written to {INDEX.relative_to(FOLDER.parents[1])}")


def arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--most", type=int, default=0, help="faults a sheet; 0 for all")
    parser.add_argument("--sheets", nargs="+", default=list(SHEETS))
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--worst", type=int, default=3, help="worst cases listed of each sheet")
    parser.add_argument("--processes", type=int, default=2)
    parser.add_argument("--write", action="store_true", help="write the index of the library")
    return parser.parse_args()


if __name__ == "__main__":
    main()
