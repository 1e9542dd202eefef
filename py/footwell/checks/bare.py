"""Readings at the joints of a splice whose tape is off: they tell a joint from the wires that end in it.

The tape comes off and goes on again for it, so they are thought of only where no other place has anything
left to tell.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from footwell.checks.check import LAMP, VOLTS, Check
from footwell.checks.hands import Tools, at_hand
from footwell.checks.safety import refusal
from footwell.circuit.circuit import Circuit
from footwell.circuit.places import places
from footwell.circuit.setup import SetupState
from footwell.parts.base import EARTH


def at_bare_joints(
    circuit: Circuit, elements: Iterable[str], tools: Tools, setups: Sequence[SetupState]
) -> Iterator[Check]:
    """Checks that may be done in some set-ups at the splices among some elements and at those that wires of
    them end in."""
    for splice in splices_at(circuit, elements):
        for setup in setups:
            for red, black in _pairs(circuit, splice):
                for instrument in (VOLTS, LAMP) if black == EARTH else (VOLTS,):
                    check = Check(instrument, red, black, setup)
                    if at_hand(circuit, check, tools) and not refusal(circuit, check):
                        yield check


def _pairs(circuit: Circuit, splice: str) -> Iterator[tuple[str, str]]:
    """Each joint to earth, across each joint, and along each wire to a place at its other end."""
    terminals = circuit.elements[splice].kind.terminals(circuit.values[splice])
    first, *others = (f"{splice}.{terminal}" for terminal in terminals)
    for joint in (first, *others):
        yield joint, EARTH
        yield from ((far, joint) for far in _far_ends(circuit, joint))
    yield from ((first, joint) for joint in others)


def splices_at(circuit: Circuit, elements: Iterable[str]) -> list[str]:
    """Splices among some elements or at an end of a wire among them."""
    known = {*elements}
    for wire in circuit.sheet.wires:
        if wire.id in known:
            known |= wire.owners
    return sorted(p.id for p in circuit.sheet.parts if p.kind == "splice" and p.id in known)


def _far_ends(circuit: Circuit, joint: str) -> Iterator[str]:
    """Places at the other ends of the wires in a joint."""
    for wire in circuit.sheet.wires:
        for near, far in ((wire.start, wire.end), (wire.end, wire.start)):
            place = places(circuit).get(far)
            if near == joint and place is not None and place.plugged and far != EARTH:
                yield far
