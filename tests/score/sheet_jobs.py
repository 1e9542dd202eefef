"""Whole jobs on a sheet: a vehicle with hidden faults, which may differ from its sheet, and how it ended."""

from __future__ import annotations

import random
import sys
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from statistics import mean
from typing import Any, Literal

sys.path.insert(0, str(Path(__file__).parents[1]))

from core.loop_rig import Trial, complains, read

from footwell.checks.check import Check
from footwell.circuit.circuit import HalfId
from footwell.circuit.fault import Fault
from footwell.diagnosis.case import Case
from footwell.diagnosis.conclude import Conclusion, conclude
from footwell.diagnosis.elimination import JOINTS
from footwell.job.replay import circuits_of, replay
from footwell.practice.electrician import begin, work
from footwell.practice.orders import Order, at_random, half_split, load_to_supply
from footwell.practice.vehicle import Vehicle
from footwell.sheet.models import Sheet
from footwell.sheet.reading import ReadSheet, read_data


@dataclass(frozen=True)
class Real:
    """The circuit of the vehicle where it differs from the sheet. `run` is the wire of the sheet that the
    elements `within` stand in for: to renew it mends them all. `differs` names what is not as drawn."""

    read: ReadSheet
    differs: tuple[str, ...]
    run: str = ""
    within: tuple[str, ...] = ()


@dataclass(frozen=True)
class Spliced(Vehicle):
    """A vehicle in which some elements are parts of one wire of the sheet. With `sharp` eyes nobody mistakes
    what a load does, while the meter scatters all the same."""

    run: str = ""
    within: tuple[str, ...] = ()
    sharp: bool = False

    def wiring(self, half: HalfId) -> dict[str, str | None]:
        """Whoever looks into a plug sees the wire of the sheet, whatever part of it ends there."""
        found = Vehicle.wiring(self, half)

        def seen(held: str) -> str:
            return "+".join(self.run if w in self.within else w for w in held.split("+"))

        return {way: seen(held) if held else None for way, held in found.items()}

    def _word(self, chances: dict[str, float]) -> str:
        exact = replace(self, chance=None) if self.sharp and self.chance else self
        return Vehicle._word(exact, chances)

    def mended(self, element: str) -> Vehicle:
        found: Vehicle = super().mended(element)
        for other in self.within if element == self.run else ():
            found = Vehicle.mended(found, other)
        return found


@dataclass(frozen=True)
class Intermittent(Vehicle):
    """A vehicle whose faults come and go: at half of the readings they are not there, and the electrician
    sees that they are not."""

    here: list[bool] = field(default_factory=lambda: [True])

    def complaint(self) -> Literal["present", "absent"]:
        assert self.chance is not None
        self.here[0] = self.chance.random() < 0.5
        return "present" if self.here[0] else "absent"

    def answer(self, check: Check) -> tuple[float | None, str]:
        now = self if self.here[0] else replace(self, faults=(), blown=set())
        return Vehicle.answer(now, check)


def half_known(sheet: str) -> Sheet:
    """A sheet on which nobody has read a colour, a section, a length or a rating."""
    data = read(sheet).sheet.model_dump(mode="json", exclude_unset=True)
    for wire in data["wires"]:
        for name in ("colour", "mm2", "metres"):
            wire[name] = None
    for connector in data["connectors"]:
        connector |= {"terminal_mm": None, "rating_amps": None}
    for part in data["parts"]:
        for name in ("coil_ohms", "rating_amps"):
            if name in part.get("values", {}):
                part["values"][name] = None
    return read_data(data).sheet


@dataclass
class Doubt:
    """An order of checks that notes the share of none-of-these; without an `inner` one it leaves Footwell's
    checks as they are."""

    inner: Order | None = None
    most: float = 0.0

    def __call__(self, case: Case, conclusion: Conclusion) -> Check | None:
        self.most = max(self.most, conclusion.belief.none)
        return self.inner(case, conclusion) if self.inner else None


ORDERS = ("fixed order", "half-split", "random")


def _order(name: str, seed: int) -> Order | None:
    """The order of measuring of a name, None for Footwell's own."""
    orders = {"fixed order": load_to_supply, "half-split": half_split, "random": at_random(seed)}
    return orders.get(name)


@dataclass(frozen=True)
class Outcome:
    """`solved`: the complaint gone, every fault mended, and said to be so; `gone`: the first of these alone,
    as a fault may stay that shows nowhere. `good`: sound elements renewed;
    `bought`: those of them that are neither joint nor wire. `none`: largest share of none-of-these."""

    trial: Trial
    solved: bool
    gone: bool
    good: tuple[str, ...]
    bought: tuple[str, ...]
    readings: int
    minutes: float
    none: float
    why: str
    steps: tuple[str, ...] = field(repr=False)


def vehicle_of(
    trial: Trial, real: Real | None, chance: random.Random | None, sharp: bool = False
) -> Vehicle:
    found = real or Real(read(trial.sheet), ())
    return Spliced(
        circuits_of(found.read),
        trial.faults,
        trial.arrangement,
        chance,
        run=found.run,
        within=found.within,
        sharp=sharp,
    )


def shows(trial: Trial, real: Real | None = None) -> bool:
    """Whether somebody would bring the vehicle in."""
    return complains(vehicle_of(trial, real, None))


def done(
    trial: Trial,
    tools: Sequence[str],
    seed: int,
    real: Real | None = None,
    sharp: bool = False,
    kind: str = "",
) -> Outcome:
    """One job from the complaint to its end; the seed draws the meter's scatter and what eyes mistake.

    `kind` is "comes and goes" for a fault that is there half of the time, "half known" for a job on a sheet
    without what nobody has read, or one of `ORDERS` for narrowing checks chosen so.
    """
    chance = random.Random(f"{trial} {seed}")
    vehicle: Vehicle = vehicle_of(trial, real, chance, sharp)
    doubt = Doubt(_order(kind, seed))
    story: dict[str, Any] = {"rewired": [trial.rewired]} if trial.rewired else {}
    if kind == "comes and goes":
        vehicle = Intermittent(vehicle.circuit_for, trial.faults, trial.arrangement, chance)
        story["dead_now"] = kind
    sheet = half_known(trial.sheet) if kind == "half known" else read(trial.sheet).sheet
    run = begin(sheet, vehicle, tools, **story)
    vehicle = work(run, vehicle, order=doubt)
    doubt(*_end(run.events))
    cleared = not complains(replace(vehicle, chance=None))
    good = _good(run.good_parts, trial, real)
    kinds = vehicle.circuit.elements
    return Outcome(
        trial,
        cleared and run.solved and not vehicle.standing,
        cleared,
        good,
        tuple(p for p in good if kinds[p].kind.name not in JOINTS),
        run.readings,
        run.minutes,
        doubt.most,
        _why(run.solved, cleared, vehicle.standing),
        tuple(run.steps),
    )


def _end(events: Sequence[object]) -> tuple[Case, Conclusion]:
    case = replay(events).case  # type: ignore[arg-type]
    return case, conclude(case)


def _good(renewed: Sequence[str], trial: Trial, real: Real | None) -> tuple[str, ...]:
    """Sound elements renewed, but for what differs from the sheet and the wire that a fault lies in."""
    excused = set(real.differs if real else ())
    if real and any(f.element in real.within for f in trial.faults):
        excused.add(real.run)
    return tuple(p for p in dict.fromkeys(renewed) if p not in excused)


def _why(said: bool, cleared: bool, standing: tuple[Fault, ...]) -> str:
    left = ", ".join(f"{f.element} {f.mode}" for f in standing)
    if not said:
        return f"not finished, left {left or 'nothing'}, complaint {'gone' if cleared else 'there'}"
    if not cleared:
        return f"said to be solved, but {left or 'the wiring'} still shows"
    return f"{left} unseen" if left else ""


HEAD = [
    "",
    "cases",
    "solved",
    "gone",
    "sound renewed",
    "sound bought",
    "readings",
    "p95",
    "minutes",
    "p95",
    "none>0.5",
]


def row(name: str, found: Sequence[Outcome]) -> list[str]:
    """A table's row: shares of jobs, means and 95th percentiles."""
    readings, minutes = [r.readings for r in found], [r.minutes for r in found]
    return [
        name,
        str(len(found)),
        f"{mean(r.solved for r in found):.3f}",
        f"{mean(r.gone for r in found):.3f}",
        f"{mean(bool(r.good) for r in found):.3f}",
        f"{mean(bool(r.bought) for r in found):.3f}",
        f"{mean(readings):.1f}",
        f"{p95(readings):.0f}",
        f"{mean(minutes):.1f}",
        f"{p95(minutes):.0f}",
        f"{mean(r.none > 0.5 for r in found):.3f}",
    ]


def p95(rows: Sequence[float]) -> float:
    return sorted(rows)[min(int(0.95 * len(rows)), len(rows) - 1)]


def worst(found: Sequence[Outcome], most: int) -> None:
    """Jobs not solved, then those in which something sound was renewed, each with its reason."""
    bad = sorted(
        (r for r in found if not r.solved or r.good), key=lambda r: (r.solved, str(r.trial))
    )
    for r in bad[:most]:
        good = f"; sound but renewed: {', '.join(r.good)}" if r.good else ""
        print(f"  {r.trial}\n      {r.why or 'solved'}{good}; {r.readings} readings")
    if len(bad) > most:
        print(f"  and {len(bad) - most} more")
