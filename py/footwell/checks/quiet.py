"""Faults that change nothing: in a stretch without voltage or current, whole and broken look the same.

Behind an open switch, a blown fuse or another break every place stands at nought, and a second fault there
moves no current anywhere. So a set of faults is often as good as one with fewer.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable
from functools import reduce
from operator import and_

from footwell.circuit.circuit import Circuit
from footwell.circuit.fault import Fault, broken_branches
from footwell.electrics.operating_point import OperatingPoint
from footwell.electrics.zones import near

Faults = tuple[Fault, ...]

NOUGHT_VOLTS = 1e-15
"""What rounding leaves of nothing. A meter's microampere through a strap, or 10 GΩ of leak behind a joint,
is far more: a stretch that would float without that strap is not quiet."""


def quiet_nodes(point: OperatingPoint) -> int:
    """Nodes without voltage, as bits, at an operating point with at most one fault and at all it went through
    from switch-off: a stretch behind a fuse that has just opened was alive before. None where a relay or a
    fuse comes near its limit: by itself it might do otherwise."""
    if len(point.faults) > 1:
        return 0
    visited = (*point.trail, point)
    if any(element for each in visited for element in near(each)):
        return 0
    return throughout(_without_volts(each) for each in visited)


def _without_volts(point: OperatingPoint) -> int:
    return sum(1 << n for n, v in enumerate(point.volts) if -NOUGHT_VOLTS < v < NOUGHT_VOLTS)


def throughout(every: Iterable[int]) -> int:
    """Nodes (bits) that are quiet in all of some states."""
    return reduce(and_, every)


class Quiet:
    """What stands at nought in one set-up, or with one instrument in its place, kept for no fault and for
    each single one; `nodes` finds it. No answer depends on what was asked before."""

    def __init__(self, circuit: Circuit, nodes: Callable[[Faults], int]) -> None:
        self._circuit = circuit
        self._find = nodes
        self._nodes: dict[Faults, int] = {}
        self._singles: dict[Fault, Faults] = {}

    def fewer(self, faults: Faults) -> Faults:
        """The faults but for those that change nothing, where at most one is left; else all of them."""
        if len(faults) == 1:
            return self._single(faults[0])
        for n, fault in enumerate(faults):
            left = self.fewer(faults[:n] + faults[n + 1 :])
            if len(left) <= 1 and self._idle(fault, left):
                return left
        return faults

    def _single(self, fault: Fault) -> Faults:
        if fault not in self._singles:
            self._singles[fault] = () if self._idle(fault, ()) else (fault,)
        return self._singles[fault]

    def _idle(self, fault: Fault, beside: Faults) -> bool:
        if beside not in self._nodes:
            self._nodes[beside] = self._find(beside)
        return not touched(self._circuit, fault) & ~self._nodes[beside]


def quiet_of(circuit: Circuit, where: Hashable, nodes: Callable[[Faults], int]) -> Quiet:
    """What is kept of one set-up or of one check."""
    key = ("quiet", where)
    if key not in circuit.cache:
        circuit.cache[key] = Quiet(circuit, nodes)
    return circuit.cache[key]  # type: ignore[no-any-return]


def touched(circuit: Circuit, fault: Fault) -> int:
    """Nodes (bits) that an element touches in any of its states, sound or with the fault; all nodes where
    there is no such element."""
    key = ("touched", fault.element, fault.mode)
    if key not in circuit.cache:
        circuit.cache[key] = _touched(circuit, fault)
    return circuit.cache[key]  # type: ignore[no-any-return]


def _touched(circuit: Circuit, fault: Fault) -> int:
    element = circuit.elements.get(fault.element)
    if element is None:
        return -1
    nodes = set(element.ends)
    for state in element.kind.states(element.values):
        for branch in broken_branches(circuit, element, state, (fault,)):
            nodes.update((element.nodes[branch.a], element.nodes[branch.b]))
    return sum(1 << n for n in nodes)
