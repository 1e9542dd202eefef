"""Row D10: a connector wired wrongly, in any permutation of up to six wires, alone or with one damaged part.

Connectors are those of the sheets and drawn plugs with a lamp on every way. Up to four wires have all their
permutations, more are drawn. Tried are those that somebody would complain of: others are electrically equal.
"Found": the job looked into the connector, or what is left is electrically equal. "Right": found, put
right, every damage mended, and said to be so. The story names the connector or does not.
First every order of two to six wires is held against what it must come to: see `every_order.py`.
"""

from __future__ import annotations

import argparse
import math
import random
import sys
import time
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import asdict, dataclass, replace
from itertools import permutations
from math import factorial
from pathlib import Path
from statistics import mean
from typing import Any

sys.path.insert(0, str(Path(__file__).parents[1]))
sys.path.insert(0, str(Path(__file__).parents[1] / "bench"))

from core.loop_rig import ALL_TOOLS, complains, read
from core.sample_circuits import FOLDER
from core.wiring_rig import sheet_of
from every_order import HEAD as ORDERS_HEAD
from every_order import every_order
from kept import Kept, worked
from table import print_table

from footwell.circuit.circuit import AS_DRAWN, Circuit, HalfId, arranged
from footwell.circuit.fault import Fault
from footwell.faults.miswiring import as_drawn
from footwell.job.replay import circuits_of
from footwell.practice.electrician import begin, work
from footwell.practice.vehicle import Vehicle
from footwell.sheet.reading import ReadSheet, read_data

MOST_WIRES = 6
ALL_UP_TO = 4
TRIES = 20


@dataclass(frozen=True)
class Plug:
    """A half of a connector on a sheet, and what to call it."""

    name: str
    read: ReadSheet
    half: HalfId

    @property
    def circuit(self) -> Circuit:
        return circuits_of(self.read)(AS_DRAWN)


@dataclass(frozen=True)
class Case:
    """A plug, the wires in its ways, what else is broken, and whether the story names the plug."""

    plug: Plug
    wiring: dict[str, str | None]
    faults: tuple[Fault, ...]
    told: bool
    seed: int

    @property
    def what(self) -> str:
        said = ", ".join(f"{way}:{held}" for way, held in self.wiring.items())
        return said + "".join(f"; {f.element} {f.mode}" for f in self.faults)


@dataclass(frozen=True)
class Done:
    plug: str
    what: str
    found: bool
    right: bool
    good: tuple[str, ...]
    readings: int
    minutes: float


def plugs() -> Iterator[Plug]:
    """Every connector of the sheets with two to six wires in its half a, and plugs of as many ways."""
    for path in sorted(FOLDER.glob("*.json")):
        sheet = read(path.stem)
        for connector in sheet.sheet.connectors:
            plug = Plug(f"{path.stem} {connector.id}", sheet, (connector.id, "a"))
            if 2 <= wires(plug) <= MOST_WIRES:
                yield plug
    for count in range(2, MOST_WIRES + 1):
        yield Plug(f"plug of {count}", read_data(sheet_of(count)), ("X1", "a"))


def wires(plug: Plug) -> int:
    return sum(1 for held in as_drawn(plug.circuit, plug.half).values() if held)


def permuted(plug: Plug, most: int, chance: random.Random) -> list[dict[str, str | None]]:
    """Other ways to put the same wires into the same ways: all of few wires, of more as many as asked."""
    drawn = as_drawn(plug.circuit, plug.half)
    used = [way for way, held in drawn.items() if held]
    if len(used) <= ALL_UP_TO:
        every = [list(p) for p in permutations(used)][1:]
        orders = every if len(every) <= most else chance.sample(every, most)
    else:
        orders = [chance.sample(used, len(used)) for _ in range(min(most, factorial(len(used))))]
    found = [
        drawn | {way: drawn[o] for way, o in zip(used, order, strict=True)} for order in orders
    ]
    return [wiring for wiring in found if wiring != drawn]


def damaged(plug: Plug, chance: random.Random) -> Fault:
    """A break of some part, wire or contact that shows when the connector is wired as drawn."""
    modes = [(e.id, m) for e in plug.circuit.elements.values() for m in e.modes]
    breaks = [Fault(element, mode) for element, mode in modes if mode.split(":")[0] == "open"]
    for _ in range(TRIES):
        fault = chance.choice(breaks)
        if complains(Vehicle(circuits_of(plug.read), (fault,))):
            break
    return fault


def vehicle_of(case: Case) -> Vehicle:
    chance = random.Random(f"{case.plug.name} {case.wiring} {case.faults} {case.seed}")
    wired = arranged(AS_DRAWN, case.plug.half, case.wiring)
    return Vehicle(circuits_of(case.plug.read), case.faults, wired, chance)


def work_on(case: Case) -> Done | None:
    """One job from the complaint to its end; None where there is no complaint."""
    plug, vehicle = case.plug, vehicle_of(case)
    if not complains(replace(vehicle, chance=None, blown=set(), limits={})):
        return None
    story = {"rewired": [plug.half[0]]} if case.told else {}
    run = begin(plug.read.sheet, vehicle, ALL_TOOLS, **story)
    vehicle = work(run, vehicle)
    cleared = not complains(replace(vehicle, chance=None, blown=set(vehicle.blown)))
    equal = not complains(replace(vehicle, chance=None, faults=(), blown=set()))
    return Done(
        plug.name,
        case.what,
        f"look into {plug.half[0]}" in run.steps or equal,
        cleared and run.solved and not vehicle.standing,
        tuple(dict.fromkeys(run.good_parts)),
        run.readings,
        run.minutes,
    )


def drawn(asked: argparse.Namespace, told: bool, hurt: bool) -> Iterator[Case]:
    """Plugs, orders of their wires and damages, drawn alike whether the story names the plug or not."""
    for seed in asked.seeds:
        chance = random.Random(f"wiring {hurt} {seed}")
        every = list(plugs())
        for plug in every if asked.plugs == 0 else chance.sample(every, asked.plugs):
            for wiring in permuted(plug, asked.most, chance):
                faults = (damaged(plug, chance),) if hurt else ()
                yield Case(plug, wiring, faults, told, seed)


def measured(
    row: str, cases: Iterable[Case], kept: Kept, asked: argparse.Namespace
) -> tuple[list[Done], int]:
    """What the jobs of a row came to, and how many were worked now and not kept from before."""
    jobs = {f"{row} | {case.plug.name} | {case.what} | {case.seed}": case for case in cases}
    found, count = worked(jobs, _worked, kept, asked.processes, asked.minutes)
    return [Done(**told) for told in found.values() if told], count


def _worked(asked: tuple[str, Case]) -> tuple[str, dict[str, Any]]:
    key, case = asked
    done = work_on(case)
    return key, asdict(done) if done else {}


HEAD = ["", "cases", "found", "right", "good parts", "readings", "minutes", "s a job", "bounds"]


def report(name: str, found: Sequence[Done], seconds: float, most: int) -> list[str]:
    for done in [d for d in found if not d.right or d.good][:most]:
        state = "right" if done.right else "found, not right" if done.found else "not found"
        good = f"; sound but renewed: {', '.join(done.good)}" if done.good else ""
        print(f"  {done.plug}: {done.what}\n      {state}{good}; {done.readings} readings")
    return [
        name,
        str(len(found)),
        f"{mean(d.found for d in found):.3f}",
        f"{mean(d.right for d in found):.3f}",
        f"{mean(bool(d.good) for d in found):.3f}",
        f"{mean(d.readings for d in found):.1f}",
        f"{mean(d.minutes for d in found):.1f}",
        f"{seconds:.1f}",
        "floor 0.95, goal 0.99",
    ]


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--plugs", type=int, default=8, help="connectors drawn, 0 for all")
    parser.add_argument("--most", type=int, default=2, help="permutations of each connector")
    parser.add_argument("--seeds", type=int, nargs="+", default=[1])
    parser.add_argument("--worst", type=int, default=8, help="worst cases listed of each row")
    parser.add_argument("--processes", type=int, default=2)
    parser.add_argument("--minutes", type=float, default=math.inf, help="of each row, no longer")
    parser.add_argument(
        "--kept",
        type=Path,
        help="a file of outcomes: what it has is not worked again, the rest is added",
    )
    parser.add_argument("--orders", action="store_true", help="the orders alone, no jobs")
    asked = parser.parse_args()
    found = every_order()
    print_table(
        "Every order of the wires in a plug: all columns to fewest as many as orders",
        ORDERS_HEAD,
        [each.row for each in found],
    )
    for line in [line for each in found for line in each.wrong][: asked.worst]:
        print(f"  {line}")
    if not asked.orders:
        jobs(asked)


def jobs(asked: argparse.Namespace) -> None:
    """Jobs on connectors wired wrongly, with the table of them."""
    print(
        f"{len(list(plugs()))} connectors, {asked.plugs or 'all'} of them a seed, at most {asked.most}"
    )
    print(f"permutations of each; seeds {asked.seeds}")
    lines: list[list[str]] = []
    kept = Kept(asked.kept)
    for told in (True, False):
        for hurt in (False, True):
            name = f"{'with one damage' if hurt else 'alone'}, {'named' if told else 'not named'}"
            began = time.monotonic()
            print(f"\n{name}")
            found, count = measured(name, drawn(asked, told, hurt), kept, asked)
            if found:
                spent = (time.monotonic() - began) / max(count, 1)
                lines.append(report(name, found, spent, asked.worst))
                print_table(name, HEAD, lines[-1:])
    print_table("D10: connectors wired wrongly", HEAD, lines)


if __name__ == "__main__":
    main()
