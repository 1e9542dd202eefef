"""Export of an operating point as a SPICE netlist, so that any engineer can check a prediction.

The netlist holds the same laws and the same leak of 10 GΩ from every node to earth. What switches
by itself, relays and fuses, stands as it was found, and comments say how. The vehicle's body is
node 0; a simulator that prints the node voltages prints them against the body, as here.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence

from footwell.circuit.circuit import Circuit, Element
from footwell.circuit.fault import broken_branches
from footwell.electrics.laying import is_apart
from footwell.electrics.mesh import LEAK_SIEMENS
from footwell.electrics.network import Slot
from footwell.electrics.operating_point import OperatingPoint
from footwell.parts.laws import Open

OPTIONS = ".options reltol=1e-5 vntol=1e-6 abstol=1e-12 gmin=1e-15 itl1=1000"
"""Limits of iteration far below a meter's last digit; the usual ones stop at 0.1 % of a voltage,
and the usual conductance of 1 pS that a simulator puts across junctions would add to the leak.
Stricter ones never come to rest where a supply floats, whose own rounding is larger."""


def netlist(point: OperatingPoint, notes: Sequence[str] = ()) -> str:
    """The circuit of an operating point, with its set-up and faults, ready to run as it stands.

    What is clipped in is an element named clip; `notes` go into the comments at the head.

    >>> from footwell.circuit.example import work_lamp
    >>> from footwell.circuit.setup import set_up
    >>> from footwell.electrics.operating_point import operate
    >>> circuit = work_lamp()
    >>> deck = netlist(operate(circuit, set_up(circuit, {"S1": "off"}))).splitlines()
    >>> deck[:3]
    ['* Work lamp, example', '* controls: S1 in off', '* engine: off']
    >>> [line for line in deck if line.startswith(("VG1", "RG1", "RW0"))]
    ['VG1 G1_plus G1_emf 12.5', 'RG1 G1_emf G1_minus 0.02', 'RW0 G1_minus 0 0.007144']
    """
    nodes = node_names(point.circuit)
    return "\n".join(
        [*_head(point, notes), *_elements(point, nodes), *_leaks(nodes), OPTIONS, ".op", ".end", ""]
    )


def node_names(circuit: Circuit) -> tuple[str, ...]:
    """Name of every node in the netlist, by number; the last is the body, "0"."""
    return (*_distinct(circuit.points), "0")


def _distinct(names: Iterable[str]) -> Iterator[str]:
    """Names that a simulator accepts, still distinct where capitals do not count."""
    taken: set[str] = set()
    for name in names:
        plain = re.sub(r"\W", "_", name.replace("+", "plus").replace("-", "minus"))
        chosen, n = plain, 2
        while chosen.lower() in taken:
            chosen, n = f"{plain}_{n}", n + 1
        taken.add(chosen.lower())
        yield chosen


def _head(point: OperatingPoint, notes: Sequence[str]) -> list[str]:
    sheet, setup = point.circuit.sheet, point.setup
    controls = ", ".join(f"{part} in {position}" for part, position in setup.controls)
    told = {
        "controls": controls,
        "engine": setup.engine,
        "unplugged or pulled out": ", ".join(setup.apart),
        "lamp in place of a load or fuse": ", ".join(f"{w:g} W at {c}" for c, w in setup.stand_in),
        "faults": ", ".join(f"{f.element} {f.mode} {f.size or ''}".strip() for f in point.faults),
        "fuses blown": ", ".join(point.blown),
        "relays that chatter, shown in one of their states": ", ".join(point.chatters),
        "no rest found": "" if point.settled else "voltages may differ",
    }
    lines = [f"{sheet.title}, {sheet.vehicle}", *(f"{k}: {v}" for k, v in told.items() if v)]
    lines += notes
    return [f"* {' '.join(line.split())}" for line in lines]


def _elements(point: OperatingPoint, nodes: tuple[str, ...]) -> Iterator[str]:
    slots: dict[str, list[Slot]] = {}
    for slot in point.slots:
        slots.setdefault(slot.element, []).append(slot)
    names = _distinct(f"{s.element}_{s.branch.name}" for group in slots.values() for s in group)
    for element in point.circuit.elements.values():
        yield from _remarks(point, element)
    for group in slots.values():
        for slot in group:
            yield slot.branch.law.spice(next(names).rstrip("_"), nodes[slot.a], nodes[slot.b])


def _remarks(point: OperatingPoint, element: Element) -> Iterator[str]:
    """What is not to be seen from the element's own lines: its state, and what is open."""
    state = point.states[element.id]
    if state:
        yield f"* {element.id}: {state}"
    if is_apart(element, point.setup.apart):
        yield f"* {element.id}: apart"
        return
    for branch in broken_branches(point.circuit, element, state, point.faults):
        if isinstance(branch.law, Open):
            yield f"* {f'{element.id} {branch.name}'.strip()}: open"


def _leaks(nodes: tuple[str, ...]) -> Iterator[str]:
    ohms = 1.0 / LEAK_SIEMENS
    return (f"Rleak{n} {name} 0 {ohms:.12g}" for n, name in enumerate(nodes[:-1]))
