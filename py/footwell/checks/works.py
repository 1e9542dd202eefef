"""What loads are seen to do in a circuit, in the likeliest word, and whether two circuits work alike."""

from __future__ import annotations

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


def works_alike(drawn: Circuit, found: Circuit) -> bool:
    """Whether a circuit without a fault does in every position what the drawn one does, and blows no fuse."""
    for engine in engines(drawn):
        for setup in (set_up(drawn, engine=engine), *working_setups(drawn, engine)):
            if outlook(found, setup, ()).blown or any(
                word(drawn, found, setup, load) != word(drawn, drawn, setup, load)
                for load in drawn.sheet.loads
            ):
                return False
    return True
