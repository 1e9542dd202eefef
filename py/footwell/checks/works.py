"""What loads are seen to do in a circuit, in the likeliest word, and whether two circuits work alike."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from footwell.checks import sights
from footwell.checks.catalogue import working_setups
from footwell.checks.outlook import outlook
from footwell.checks.predict import seen_as
from footwell.circuit.circuit import Circuit
from footwell.circuit.fault import Fault
from footwell.circuit.setup import SetupState, set_up


def engines(circuit: Circuit) -> tuple[str, ...]:
    """The states of the engine in which a circuit is tried: running too where something charges."""
    charges = any(e.kind.charges for e in circuit.elements.values())
    return ("off", "on") if charges else ("off",)


def word(
    sound: Circuit,
    circuit: Circuit,
    setup: SetupState,
    load: str,
    faults: tuple[Fault, ...] = (),
) -> str:
    """The likeliest word for what a load does in a circuit, judged against the sound one."""
    now = outlook(circuit, setup, faults).activity[load]
    usual = outlook(sound, setup, ()).activity[load]
    chances = sights.chances(seen_as(sound, load), now, usual, sights.SLIP["me"])
    return max(chances, key=lambda w: chances[w])


@dataclass(frozen=True, slots=True)
class Difference:
    """A fuse that a circuit blows without a fault, or a load that does otherwise than in the drawn one."""

    setup: SetupState
    element: str
    does: str = ""
    should: str = ""
    """What a load does and should do; "" for a fuse."""


def differences(drawn: Circuit, found: Circuit) -> Iterator[Difference]:
    """What a circuit without a fault does otherwise than the drawn one, position by position."""
    for engine in engines(drawn):
        for setup in (set_up(drawn, engine=engine), *working_setups(drawn, engine)):
            for fuse in outlook(found, setup, ()).blown:
                yield Difference(setup, fuse)
            for load in drawn.sheet.loads:
                does, should = (word(drawn, each, setup, load) for each in (found, drawn))
                if does != should:
                    yield Difference(setup, load, does, should)


def works_alike(drawn: Circuit, found: Circuit) -> bool:
    """Whether a circuit without a fault does in every position what the drawn one does, and blows no fuse."""
    return next(differences(drawn, found), None) is None
