"""A circuit's branches laid into its mesh and solved; a suspect is an update of the sound network.

The sound network of a set-up, in some states of relays and fuses, is eliminated once. Under a fault, or
with an instrument clipped on, few branches are others: the steps that these concern run again, and laws
that bend are iterated from the sound voltages.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from operator import itemgetter
from typing import Any, NamedTuple

from footwell.electrics.elimination import Factor, carry, eliminate, hold, response, restore
from footwell.electrics.mesh import LEAK_SIEMENS, Mesh
from footwell.electrics.newton import Bent, iterate
from footwell.parts.base import Branch

FLOATS_OHMS = 1e7
"""A stretch held by no more than a meter's 10 MΩ would show the rounding of large currents."""


@dataclass(frozen=True, slots=True)
class Slot:
    """A branch at its place in the network."""

    element: str
    branch: Branch
    a: int
    b: int
    edge: int


Groups = Mapping[str, Sequence[Slot]]
"""Slots of each element, in the order in which they are laid."""


class Solution(NamedTuple):
    """Voltages (V) by node, earth last; what elimination left, and whether iteration came to rest."""

    volts: list[float]
    factor: Factor
    settled: bool


Ranked = tuple[int, Any]
"""Something of an element, with the element's place in the order."""


class Laid:
    """What slots come to: conductances (S) on each edge, sources (from, to, A at no voltage), laws that
    bend."""

    def __init__(self, groups: Groups, rank: Mapping[str, int]) -> None:
        self.siemens: dict[int, list[Ranked]] = {}
        self.sources: list[Ranked] = []
        self.bent: list[Ranked] = []
        for element, slots in groups.items():
            place = rank.get(element, len(rank))
            for slot in slots:
                self._add(place, slot, slot.branch.law)

    def _add(self, place: int, slot: Slot, law: Any) -> None:
        if not law.linear:
            self.bent.append((place, Bent(law, slot.a, slot.b, slot.edge)))
            return
        self.siemens.setdefault(slot.edge, []).append((place, law.siemens))
        if law.amps_at_zero != 0.0:
            self.sources.append((place, (slot.a, slot.b, law.amps_at_zero)))


class Network:
    """All slots of a circuit in a set-up, eliminated once and solved."""

    def __init__(self, mesh: Mesh, groups: Groups) -> None:
        self.mesh = mesh
        self.groups = groups
        self._rank = {element: n for n, element in enumerate(groups)}
        self._laid = Laid(groups, self._rank)
        self._blank = mesh.blank()
        self._g = self._blank[:]
        for edge, parts in self._laid.siemens.items():
            self._g[edge] += sum(siemens for _, siemens in parts)
        self._factor = Factor.of(mesh)
        nought = [0.0] * (mesh.n + 1)
        sources, bent = self._laid.sources, self._laid.bent
        every = range(len(mesh.steps))
        solved = self._solved(every, self._g, self._factor, sources, bent, nought)
        self.solution = self._balanced(groups, *solved)

    def slots_of(self, element: str, changes: Groups) -> Sequence[Slot]:
        """An element's slots, with the changes made."""
        return changes[element] if element in changes else self.groups.get(element, ())

    def changed(self, groups: Groups) -> Solution:
        """The solution where some elements have other slots; elements not known are laid last."""
        rank, old = self._rank, self._laid
        new = Laid(groups, rank)
        gone = [rank[element] for element in groups if element in rank]
        touched = {slot.edge for slots in groups.values() for slot in slots}
        for element in groups:
            touched.update([slot.edge for slot in self.groups.get(element, ())])
        g = self._g[:]
        for edge in touched:
            parts = _merged(old.siemens.get(edge, ()), gone, new.siemens.get(edge, ()))
            g[edge] = self._blank[edge] + sum([siemens for _, siemens in parts])
        sources = _merged(old.sources, gone, new.sources)
        bent = _merged(old.bent, gone, new.bent)
        again = self.mesh.ways([self.mesh.first[edge] for edge in touched])
        start = self.solution.volts
        solved = self._solved(again, g, self._factor.copy(), sources, bent, start)
        return self._balanced({**self.groups, **groups}, *solved)

    def _solved(
        self,
        again: Iterable[int],
        laid: Sequence[float],
        factor: Factor,
        sources: Sequence[Ranked],
        bent: Sequence[Ranked],
        start: Sequence[float],
    ) -> tuple[Solution, float]:
        """Run the steps that are to be done again, then the kept ones, and restore all voltages; also
        the highest resistance (Ω) that a current met on the way to earth."""
        mesh = self.mesh
        laws: list[Bent] = [law for _, law in bent]
        kept = mesh.kept(tuple(sorted({law.edge for law in laws})))
        eliminate([mesh.steps[n] for n in sorted(again) if n not in kept.positions], laid, factor)
        hold(kept.held, laid, factor)
        current, volts = [0.0] * (mesh.n + 1), [0.0] * (mesh.n + 1)
        for _, (a, b, amps) in sources:
            current[a] -= amps
            current[b] += amps
        driven = mesh.node_ways([node for _, (a, b, _) in sources for node in (a, b)])
        steps = [mesh.steps[n] for n in driven if n not in kept.positions]
        most = carry(steps, factor, current, volts)
        settled = True
        if laws:
            found, settled, there = iterate(kept, factor, current, laws, start)
            most = max(most, there)
            for step in kept.steps:
                volts[step.node] = found[step.node]
        restore(kept.rest, factor.share, volts)
        return Solution(volts, factor, settled), most

    def _balanced(self, groups: Groups, found: Solution, most: float) -> Solution:
        """The solution after one more step, from the currents that are left over at each node, where a
        stretch with a source in it floats.

        A battery stands in the equations as its short-circuit current, and the last digit of some
        kiloamperes on 10 GΩ is a millivolt. What is left over comes from the currents that flow, which
        on a stretch that hangs on the leak are picoamperes: its last digit is nothing.
        """
        if most < FLOATS_OHMS:
            return found
        volts = found.volts
        left = [-LEAK_SIEMENS * v for v in volts]
        for slots in groups.values():
            for slot in slots:
                amps, _ = slot.branch.law.at(volts[slot.a] - volts[slot.b])
                left[slot.a] -= amps
                left[slot.b] += amps
        moved = response(self.mesh, found.factor, left)
        return found._replace(volts=[v + move for v, move in zip(volts, moved, strict=True)])


def _merged(old: Sequence[Ranked], gone: Collection[int], new: Sequence[Ranked]) -> list[Ranked]:
    """Old entries but for those of some elements, and new ones, in the order of their elements."""
    left = [entry for entry in old if entry[0] not in gone]
    return sorted([*left, *new], key=_rank_of) if new else left


_rank_of = itemgetter(0)
