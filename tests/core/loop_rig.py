"""Whole jobs by a simulated electrician on hidden faults: which cases there are, and what came of each."""

from __future__ import annotations

import random
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from footwell.circuit.circuit import AS_DRAWN, Arrangement, arranged
from footwell.circuit.fault import Fault
from footwell.diagnosis.case import Case
from footwell.diagnosis.conclude import Conclusion, Next, conclude
from footwell.faults.miswiring import slips
from footwell.faults.suspects import Circumstances, single_faults
from footwell.job.replay import circuits_of, replay
from footwell.practice.electrician import Run, begin, do, work
from footwell.practice.hidden import complains
from footwell.practice.orders import Order
from footwell.practice.vehicle import Vehicle
from footwell.sheet.reading import ReadSheet, read_sheet

from .sample_circuits import FOLDER, sample

ALL_TOOLS = ("meter", "clamp", "fused jumper", "substitute lamp", "test lamp")
PAIRED_SLIPS = ("mirrored", "exchanged")
"""Slips of which every one is paired with every break."""


@dataclass(frozen=True, slots=True)
class Trial:
    """A vehicle with hidden faults, and the connector that somebody wired anew, "" for none."""

    sheet: str
    faults: tuple[Fault, ...]
    arrangement: Arrangement = AS_DRAWN
    rewired: str = ""

    def __str__(self) -> str:
        faults = [f"{f.element} {f.mode} {f.size:g}".removesuffix(" 0") for f in self.faults]
        wired = [f"{h[0]}.{h[1]} " + ",".join(":".join(w) for w in s) for h, s in self.arrangement]
        return f"{self.sheet}: {'; '.join([*wired, *faults])}"


@dataclass(frozen=True, slots=True)
class Result:
    """What came of a trial. `right`: every true fault mended, complaint gone, and said to be so."""

    trial: Trial
    right: bool
    good_parts: tuple[str, ...]
    readings: int
    minutes: float
    why: str
    steps: tuple[str, ...]


def read(sheet: str) -> ReadSheet:
    return read_sheet((FOLDER / f"{sheet}.json").read_text("utf-8"))


def single_trials(sheet: str, sizes: int = 3) -> list[Trial]:
    """Every mode of every element; those of unknown size at some sizes spread over their ladder."""
    ladders: dict[tuple[str, str], list[Fault]] = {}
    for single in single_faults(sample(sheet), Circumstances()):
        f = single.fault
        ladders.setdefault((f.element, f.mode), []).append(f)
    return [Trial(sheet, (fault,)) for rows in ladders.values() for fault in _spread(rows, sizes)]


def _spread(rows: list[Fault], count: int) -> list[Fault]:
    """First, last and evenly between."""
    if len(rows) <= count:
        return rows
    return [rows[round(n * (len(rows) - 1) / (count - 1))] for n in range(count)]


def pair_trials(sheet: str) -> list[Trial]:
    """Every mirrored face and every exchange of two wires of every half a, with every break that
    shows in some position."""
    circuit = sample(sheet)
    breaks = [
        Fault(e.id, mode)
        for e in circuit.elements.values()
        for mode in e.modes
        if mode.split(":")[0] == "open"
    ]
    found: list[Trial] = []
    for connector in circuit.connectors:
        half = (connector, "a")
        for slip in slips(circuit, half):
            if slip.kind in PAIRED_SLIPS:
                wired = arranged(AS_DRAWN, half, dict(slip.wiring))
                found += [Trial(sheet, (fault,), wired, connector) for fault in breaks]
    shows = set(complaining(Trial(sheet, (fault,)) for fault in breaks))
    return [t for t in found if Trial(sheet, t.faults) in shows]


def sampled(rows: Sequence[Trial], count: int, seed: int) -> list[Trial]:
    """Some of the trials, drawn by a seed, in their own order."""
    if count >= len(rows):
        return list(rows)
    kept = set(random.Random(seed).sample(range(len(rows)), count))
    return [row for n, row in enumerate(rows) if n in kept]


def vehicle_of(trial: Trial, chance: random.Random | None = None) -> Vehicle:
    return Vehicle(circuits_of(read(trial.sheet)), trial.faults, trial.arrangement, chance)


def tried(
    trial: Trial,
    tools: Sequence[str] = ALL_TOOLS,
    order: Order | None = None,
    chance: random.Random | None = None,
) -> Result:
    """One job from the complaint to its end."""
    vehicle = vehicle_of(trial, chance)
    story = {"rewired": [trial.rewired]} if trial.rewired else {}
    run = begin(read(trial.sheet).sheet, vehicle, tools, **story)
    vehicle = work(run, vehicle, order=order)
    cleared = not complains(vehicle)
    return Result(
        trial,
        cleared and run.solved and not vehicle.standing,
        tuple(dict.fromkeys(run.good_parts)),
        run.readings,
        run.minutes,
        _why(run, vehicle, cleared),
        tuple(run.steps),
    )


def _why(run: Run, vehicle: Vehicle, cleared: bool) -> str:
    left = ", ".join(f"{f.element} {f.mode}" for f in vehicle.standing)
    if not run.solved:
        return f"not finished, left {left or 'nothing'}"
    if not cleared:
        return f"said to be solved, but {left} still shows"
    return f"{left} unseen" if left else ""


def complaining(trials: Iterable[Trial]) -> list[Trial]:
    """Those trials whose faults show in some position."""
    return [trial for trial in trials if complains(vehicle_of(trial))]


def until(
    trial: Trial,
    there: Callable[[Next], bool],
    tools: Sequence[str] = ALL_TOOLS,
    skipped: str = "",
) -> tuple[Case, Conclusion]:
    """A job as far as some step, of somebody who passes over the checks of one purpose."""
    vehicle = vehicle_of(trial)
    run = begin(read(trial.sheet).sheet, vehicle, tools)
    while True:
        replayed = replay(run.events)
        conclusion = conclude(replayed.case)
        step = conclusion.step
        if there(step):
            return replayed.case, conclusion
        assert step.kind != "finished"
        if skipped and step.purpose == skipped:
            assert step.choice and step.choice.check
            run.add("check skipped", check=step.choice.check.id, reason="other")
        else:
            vehicle = do(run, replayed, conclusion, vehicle)
