"""What practice hides: a fault, two faults, or a plug wired wrongly, such that somebody would complain."""

from __future__ import annotations

import random
from dataclasses import replace

from footwell.checks import sights
from footwell.checks.catalogue import working_setups
from footwell.checks.outlook import outlook
from footwell.checks.predict import seen_as
from footwell.checks.works import engines
from footwell.circuit.circuit import AS_DRAWN, Arrangement, Circuit, arranged
from footwell.circuit.fault import Fault
from footwell.circuit.setup import SetupState
from footwell.diagnosis.case import CircuitFor
from footwell.errors import FootwellError
from footwell.faults.miswiring import Slip, as_drawn, slips
from footwell.faults.suspects import Circumstances, single_faults
from footwell.job.events import (
    Body,
    JobOpened,
    PositionsTried,
    PracticeBegun,
    ReadingTaken,
    RepairDone,
    SittingBegun,
    WiringCorrected,
)
from footwell.job.replay import Replayed, circuits_of, words_of
from footwell.job.stored import NotOnSheet, check_of, setup_of, wiring_of
from footwell.practice.vehicle import Vehicle
from footwell.sheet.reading import read_data

TRIES = 200
TWO_FAULTS, SLIP = 0.15, 0.35
"""Share of practice jobs with two faults, and below the second limit with a plug wired wrongly."""


def complains(vehicle: Vehicle, engine: str = "") -> bool:
    """Whether in some position some load does not do what it should, with the engine so or, "", in any
    state in which the circuit is tried."""
    sound = vehicle.drawn
    still = replace(vehicle, blown=set(vehicle.blown), limits=dict(vehicle.limits))
    return any(
        still.does(setup, load) != usual(sound, setup, load)
        for each in ([engine] if engine else engines(sound))
        for setup in working_setups(sound, each)
        for load in sound.sheet.loads
    )


def usual(sound: Circuit, setup: SetupState, load: str) -> str:
    """The word for what a load does when all is well."""
    share = outlook(sound, setup, ()).activity[load]
    chances = sights.chances(seen_as(sound, load), share, share, 0.0)
    return max(chances, key=lambda word: chances[word])


def hide(circuit_for: CircuitFor, seed: int) -> tuple[Vehicle, list[str]]:
    """A vehicle with something hidden, and the connectors that the story says were worked on.

    Faults come up as often as they do on the road, connectors all alike. Raises FootwellError where no
    fault of the circuit shows.
    """
    chance = random.Random(seed)
    drawn = circuit_for(AS_DRAWN)
    for _ in range(TRIES):
        faults, arrangement, worked_on = _drawn(drawn, chance)
        vehicle = Vehicle(circuit_for, faults, arrangement)
        # One that shows only beside the other would stay when the complaint is gone.
        alone = [Vehicle(circuit_for, (fault,)) for fault in faults] if len(faults) > 1 else []
        # The page asks what the loads do with the engine off.
        if all(complains(one, "off") for one in (vehicle, *alone)):
            return vehicle, worked_on
    raise FootwellError(
        "practice", "No fault of this circuit would be noticed. Choose another circuit to practise."
    )


def _drawn(
    circuit: Circuit, chance: random.Random
) -> tuple[tuple[Fault, ...], Arrangement, list[str]]:
    kind = chance.random()
    found = [] if not TWO_FAULTS <= kind < SLIP else _slips(circuit)
    if found:
        slip = chance.choice(found)
        return (), arranged(AS_DRAWN, slip.half, dict(slip.wiring)), [slip.half[0]]
    rows = single_faults(circuit, Circumstances())
    count = 2 if kind < TWO_FAULTS else 1
    faults = chance.choices([s.fault for s in rows], [s.odds for s in rows], k=count)
    apart = {f.element: f for f in faults}
    return tuple(sorted(apart.values())), AS_DRAWN, []


def _slips(circuit: Circuit) -> list[Slip]:
    return [s for name in sorted(circuit.connectors) for s in slips(circuit, (name, "a"))]


def hidden_vehicle(replayed: Replayed) -> Vehicle:
    """The vehicle of a practice job as it was brought in. Raises FootwellError where it is none, or where
    the sheet has no place for what is hidden."""
    begun = next((t.body for t in replayed.told if isinstance(t.body, PracticeBegun)), None)
    opened = next(t.body for t in replayed.told if isinstance(t.body, JobOpened))
    if begun is None:
        raise FootwellError("practice", "This is a job of a real vehicle: take the reading there.")
    # What the person has noted on the sheet since changes the sheet, not the vehicle.
    circuit_for = circuits_of(read_data(opened.sheet))
    drawn = circuit_for(AS_DRAWN)
    arrangement = AS_DRAWN
    for move in begun.wired:
        half = (move.connector, move.half)
        arrangement = arranged(arrangement, half, wiring_of(drawn, half, move.now))
    faults = [Fault(f.element, f.mode, f.size) for f in begun.faults]
    for fault in faults:
        element = drawn.elements.get(fault.element)
        if element is None or fault.mode not in element.modes:
            raise FootwellError("practice", "What was hidden in this job is not on its sheet.")
    return Vehicle(circuit_for, tuple(sorted(faults)), arrangement)


def worked_on(replayed: Replayed) -> Vehicle:
    """The vehicle after all that was done in the job: renewed, moved, and blown by trying it."""
    vehicle, engine = hidden_vehicle(replayed), "off"
    for entry in replayed.told:
        if isinstance(entry.body, SittingBegun):
            engine = entry.body.engine
        try:
            vehicle = _after(vehicle, entry.body, engine)
        except NotOnSheet:
            # Kept in the job and told there; nothing was done to the vehicle.
            continue
    return vehicle


def _after(vehicle: Vehicle, body: Body, engine: str) -> Vehicle:
    if isinstance(body, RepairDone):
        return vehicle.mended(body.element)
    if isinstance(body, WiringCorrected):
        return _moved(vehicle, body)
    if isinstance(body, ReadingTaken):
        vehicle.answer(check_of(vehicle.circuit, body, engine))
    elif isinstance(body, PositionsTried):
        for seen in body.states:
            setup = setup_of(vehicle.circuit, seen.controls, (), {}, body.engine or engine)
            if words_of(vehicle.circuit, seen.load):
                vehicle.does(setup, seen.load)
    return vehicle


def _moved(vehicle: Vehicle, body: WiringCorrected) -> Vehicle:
    half, drawn = (body.connector, body.half), vehicle.drawn
    wired = wiring_of(drawn, half, body.now)
    right = vehicle.put_right(half)
    if wired == as_drawn(drawn, half):
        return right
    return replace(right, arrangement=arranged(right.arrangement, half, wired))
