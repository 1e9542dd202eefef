"""Whole jobs on every sheet by the simulated electrician, and on vehicles that differ from their sheet.

Singles are drawn by element, then by its modes (sizes at three steps of their ladder), pairs and triples in
the same way, slips from every slip of every connector, with a story that names it;
all such that somebody would complain. The meter scatters, eyes and ears mistake. "Sound renewed" is the
share of jobs in which something sound was renewed, joints and wires included; "sound bought" without them.
"""

from __future__ import annotations

import argparse
import math
import random
import sys
import time
from collections.abc import Callable, Iterator, Sequence
from dataclasses import asdict, replace
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).parents[1]))
sys.path.insert(0, str(Path(__file__).parents[1] / "bench"))

from core.loop_rig import ALL_TOOLS, Trial, read, single_trials
from core.sample_circuits import FOLDER, sample
from kept import Kept, worked
from sheet_jobs import HEAD, ORDERS, Outcome, Real, done, row, shows, worst
from table import print_table
from wrong_sheets import CHANGES, REST, SPLICE, WIRE_END, differing, joined_elsewhere

from footwell.circuit.circuit import AS_DRAWN, Arrangement, arranged, astray
from footwell.circuit.fault import Fault
from footwell.faults.miswiring import slips
from footwell.faults.suspects import Circumstances, single_faults
from footwell.job.replay import circuits_of

SHEETS = tuple(sorted(path.stem for path in FOLDER.glob("*.json")))
LAMP_ALONE = ("test lamp",)
TRIES = 60
SHARP = "one fault, no eye mistaken"
GOES, HALF = "one fault, comes and goes", "one fault, sheet half known"
BY_ORDER = {f"one fault, {name}": name for name in ORDERS}
KINDS = {GOES: "comes and goes", HALF: "half known", **BY_ORDER}
BETWEEN = 1.6
"""From one size of a poor joint to about half way to the next."""
FULL_PAIRS, FULL_TRIPLES = 500, 300
BOUNDS = {
    "one fault, test lamp alone": "D15 solved: floor 0.80, goal 0.95",
    GOES: "D15 sound bought: floor 0.03, goal 0.01",
    "sheet wrong": "sound renewed: floor 0.05, goal 0.01",
}
Drawn = tuple[Trial, Real | None]


def drawn(count: int, draw: Callable[[], Drawn | None]) -> list[Drawn]:
    """So many vehicles that somebody would bring in, none twice; fewer where so many tries, or a draw that
    says None, find no more."""
    found: dict[str, Drawn] = {}
    for _ in range(max(TRIES, 6 * count)):
        one = draw() if len(found) < count else None
        if one is None:
            break
        if str(one[0]) not in found and shows(*one):
            found[str(one[0])] = one
    return list(found.values())


def faulty(sheet: str, faults: int, count: int, seed: int) -> list[Drawn]:
    """Vehicles with so many faults each."""
    chance = random.Random(f"{sheet} {faults} {seed}")
    every = [t.faults[0] for t in single_trials(sheet)]
    elements = list(dict.fromkeys(f.element for f in every))

    def draw() -> Drawn:
        chosen = [
            _one([f for f in every if f.element == e], chance)
            for e in chance.sample(elements, faults)
        ]
        return Trial(sheet, tuple(sorted(chosen))), None

    return drawn(count, draw)


def poor(sheet: str, count: int, seed: int, off: float = 1.0) -> list[Drawn]:
    """Vehicles with one poor joint each, in a size of the list or so far off it."""
    chance = random.Random(f"{sheet} poor {seed}")
    every = [t.faults[0] for t in single_trials(sheet)]
    joints = [f for f in every if f.mode.startswith("high_resistance")]

    def draw() -> Drawn:
        joint = _one(joints, chance)
        return Trial(sheet, (joint._replace(size=joint.size * off),)), None

    return drawn(count, draw)


def slipped(sheet: str, count: int, seed: int) -> list[Drawn]:
    """Vehicles with one connector wired wrongly, and a story that names it."""
    chance = random.Random(f"{sheet} slip {seed}")
    circuit = sample(sheet)
    every = [s for c in circuit.connectors for s in slips(circuit, (c, "a"))]

    def draw() -> Drawn:
        slip = chance.choice(every)
        return Trial(
            sheet, (), arranged(AS_DRAWN, slip.half, dict(slip.wiring)), slip.half[0]
        ), None

    return drawn(count, draw) if every else []


def wrong(sheet: str, kind: str, count: int, seed: int) -> list[Drawn]:
    """Vehicles with one fault that differ from the sheet; half of the splices nobody drew are the fault."""
    chance = random.Random(f"{sheet} {kind} {seed}")

    def draw() -> Drawn | None:
        real = differing(read(sheet), kind, chance)
        if real is None:
            return None
        singles = single_faults(circuits_of(real.read)(AS_DRAWN), Circumstances())
        inside = [s.fault for s in singles if s.fault.element in (SPLICE, REST)]
        outside = [s.fault for s in singles if s.fault.element not in (SPLICE, REST)]
        fault = _one(inside if inside and chance.random() < 0.5 else outside, chance)
        runs = _runs_elsewhere(real) if kind == WIRE_END else AS_DRAWN
        told = Real(read(sheet), real.differs) if runs else real
        return Trial(sheet, (fault,), runs), told

    return drawn(count, draw)


def _runs_elsewhere(real: Real) -> Arrangement:
    (changed,) = (w for w in real.read.sheet.wires if w.id in real.differs)
    return astray(AS_DRAWN, changed.id, changed.start, changed.end)


def misjoined(sheet: str, count: int, seed: int) -> list[Drawn]:
    """Vehicles without a fault but for one wire that somebody joined to the wrong place."""
    chance = random.Random(f"{sheet} misjoined {seed}")

    def draw() -> Drawn | None:
        run = joined_elsewhere(read(sheet), chance)
        return (Trial(sheet, (), run), None) if run else None

    return drawn(count, draw)


def _one(faults: Sequence[Fault], chance: random.Random) -> Fault:
    """A fault drawn by element first, then by mode, then by size."""
    element = chance.choice(list(dict.fromkeys(f.element for f in faults)))
    mode = chance.choice(list(dict.fromkeys(f.mode for f in faults if f.element == element)))
    return chance.choice([f for f in faults if (f.element, f.mode) == (element, mode)])


def classes(asked: argparse.Namespace) -> Iterator[tuple[str, list[Drawn], tuple[str, ...]]]:
    """Name, vehicles and tools of every row."""

    def each(draw: Callable[[str, int], list[Drawn]], count: int) -> list[Drawn]:
        return [
            one
            for seed in asked.seeds
            for sheet in asked.sheets
            for one in draw(sheet, seed)
            if count
        ]

    single = each(lambda sheet, s: faulty(sheet, 1, asked.singles, s), asked.singles)
    yield "one fault", single, ALL_TOOLS
    yield SHARP, single, ALL_TOOLS
    yield "one fault, test lamp alone", single, LAMP_ALONE
    yield GOES, single, ALL_TOOLS
    yield HALF, single, ALL_TOOLS
    for name in BY_ORDER:
        yield name, single, ALL_TOOLS
    yield (
        "two faults",
        each(lambda sheet, s: faulty(sheet, 2, asked.pairs, s), asked.pairs),
        ALL_TOOLS,
    )
    yield (
        "three faults",
        each(lambda sheet, s: faulty(sheet, 3, asked.triples, s), asked.triples),
        ALL_TOOLS,
    )
    for name, off in (("one poor joint", 1.0), ("one poor joint, between two sizes", BETWEEN)):
        rows = each(lambda sheet, s, off=off: poor(sheet, asked.singles, s, off), asked.singles)  # type: ignore[misc]
        yield name, rows, ALL_TOOLS
    yield "one slip", each(lambda sheet, s: slipped(sheet, asked.slips, s), asked.slips), ALL_TOOLS
    for kind in CHANGES:
        rows = each(lambda sheet, s, kind=kind: wrong(sheet, kind, asked.wrong, s), asked.wrong)  # type: ignore[misc]
        yield f"sheet wrong: {kind}", rows, ALL_TOOLS
        same = [t for t, _ in rows if not {f.element for f in t.faults} & {SPLICE, REST}]
        right = [replace(t, arrangement=AS_DRAWN) for t in same]
        yield (
            f"  same faults, sheet right ({kind})",
            [(t, None) for t in right if shows(t)],
            ALL_TOOLS,
        )
    yield (
        "a wire joined elsewhere",
        each(lambda sheet, s: misjoined(sheet, asked.wrong, s), asked.wrong),
        ALL_TOOLS,
    )


def main() -> None:
    asked = arguments()
    print(
        f"Sheets {', '.join(asked.sheets)}; seeds {asked.seeds}; a sheet and seed: {asked.singles} singles,"
    )
    print(
        f"{asked.pairs} pairs, {asked.triples} triples, {asked.slips} slips, {asked.wrong} of each difference"
    )
    table: list[list[str]] = []
    kept = Kept(asked.kept)
    for name, rows, tools in classes(asked):
        if not rows or (asked.rows and not name.startswith(tuple(asked.rows))):
            continue
        began = time.monotonic()
        found, count = outcomes(name, rows, tools, kept, asked)
        spent = (time.monotonic() - began) / max(count, 1)
        bound = next((b for start, b in BOUNDS.items() if name.startswith(start)), "")
        table.append([*row(name, found), f"{spent:.1f}", bound])
        print_table(name, [*HEAD, "s a job", "floor, goal"], table[-1:])
        worst(found, asked.worst)
    print_table("Whole jobs on the sheets", [*HEAD, "s a job", "floor, goal"], table)


def outcomes(
    name: str,
    rows: Sequence[Drawn],
    tools: tuple[str, ...],
    kept: Kept,
    asked: argparse.Namespace,
) -> tuple[list[Outcome], int]:
    """How the jobs of a row ended, in its order, and how many were worked now and not kept from before. Those
    that time does not allow are missing, from all sheets alike."""
    seed = asked.seeds[0]
    jobs = {f"{name.strip()} | {one[0]} | {seed}": (one, tools, seed, name) for one in rows}
    found, count = worked(jobs, _worked, kept, asked.processes, asked.minutes)
    return [Outcome(trial=jobs[key][0][0], **told) for key, told in found.items()], count


Job = tuple[Drawn, tuple[str, ...], int, str]


def _worked(asked: tuple[str, Job]) -> tuple[str, dict[str, Any]]:
    key, ((trial, real), tools, seed, name) = asked
    outcome = done(trial, tools, seed, real, name == SHARP, KINDS.get(name, ""))
    return key, {k: v for k, v in asdict(outcome).items() if k != "trial"}


def arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=__doc__)
    for name, count in (("singles", 3), ("pairs", 2), ("triples", 1), ("slips", 2), ("wrong", 1)):
        parser.add_argument(f"--{name}", type=int, default=count, help="a sheet and seed")
    parser.add_argument("--rows", nargs="+", default=[], help="how rows begin")
    parser.add_argument("--sheets", nargs="+", default=list(SHEETS))
    parser.add_argument("--seeds", type=int, nargs="+", default=[1])
    parser.add_argument("--processes", type=int, default=2)
    parser.add_argument("--minutes", type=float, default=math.inf, help="of each row, no longer")
    parser.add_argument("--worst", type=int, default=8, help="worst cases listed of each row")
    parser.add_argument(
        "--full",
        action="store_true",
        help=f"at least {FULL_PAIRS} pairs and {FULL_TRIPLES} triples drawn over all sheets and seeds; hours",
    )
    parser.add_argument(
        "--kept",
        type=Path,
        help="a file of outcomes: what it has is not worked again, the rest is added",
    )
    asked = parser.parse_args()
    if asked.full:
        draws = len(asked.sheets) * len(asked.seeds)
        asked.pairs = math.ceil(FULL_PAIRS / draws)
        asked.triples = math.ceil(FULL_TRIPLES / draws)
    return asked


if __name__ == "__main__":
    main()
