"""How an operating point leans on every tolerance, to first order.

Nothing in a vehicle is exact. A tolerance changes the current of its own branch at the voltage found,
and what that current does elsewhere follows from the same elimination as the point itself.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from footwell.circuit.circuit import Circuit
from footwell.electrics.network import Slot
from footwell.electrics.operating_point import OperatingPoint

Nuisance = tuple[str, str]
"""What a tolerance belongs to: (element, branch), or ("supply", "")."""

JOINT = "joint"
"""Stands for the branch where the tolerance is that of a poor joint in a source."""

Leans = Mapping[Nuisance, float]
"""Change of a figure, in its own unit, with one standard deviation of each tolerance."""


def leans(point: OperatingPoint, lifted: Sequence[float]) -> dict[Nuisance, float]:
    """How the voltage (V) between two nodes leans, where `lifted` is `point.response` of the two.

    dU = -Z * dI: a tolerance of relative standard deviation s changes its branch's current by I * s at
    the voltage found, and the transfer resistance Z carries that to the two nodes (sensitivity by the
    adjoint network: Director and Rohrer, IEEE Transactions on Circuit Theory 16, 1969;
    cited from memory).

    >>> from footwell.circuit.example import work_lamp
    >>> from footwell.circuit.setup import set_up
    >>> from footwell.electrics.operating_point import operate
    >>> circuit = work_lamp()
    >>> point = operate(circuit, set_up(circuit, {"S1": "on"}))
    >>> found = leans(point, point.response(circuit.node_of["H1.1"], circuit.earth))
    >>> round(found["supply", ""], 2), round(found["W1", ""], 5)
    (0.15, 0.00204)
    """
    found: dict[Nuisance, float] = {}
    for slot in point.slots:
        for key, amps in _nudges(point, slot):
            found[key] = found.get(key, 0.0) + (lifted[slot.b] - lifted[slot.a]) * amps
    return found


def _nudges(point: OperatingPoint, slot: Slot) -> Iterator[tuple[Nuisance, float]]:
    """Change of a branch's own current (A) at the voltage found with each of its tolerances."""
    branch, volts = slot.branch, point.across(slot)
    if branch.spread:
        shared = not branch.name and slot.element in _supplies(point.circuit)
        key = ("supply", "") if shared else (slot.element, branch.name)
        yield key, branch.law.nudge(volts) * branch.spread
    if branch.joint:
        amps, siemens = branch.law.at(volts)
        yield (slot.element, JOINT), amps * siemens * branch.joint


def reaches(circuit: Circuit) -> dict[Nuisance, float]:
    """How many standard deviations lie between a resistance and none at all, for those so wide that it
    shows in a band of 95 %: a contact known to 60 % has only 1.67 on that side.

    >>> from footwell.circuit.example import work_lamp
    >>> {key: round(reach, 2) for key, reach in reaches(work_lamp()).items()}
    {('S1', '1-2'): 1.67}
    """
    if "reaches" not in circuit.cache:
        circuit.cache["reaches"] = {
            (element.id, branch.name): 1.0 / branch.spread
            for element in circuit.elements.values()
            for state in element.kind.states(element.values)
            for branch in circuit.branches(element, state)
            if branch.spread > WIDE
        }
    return circuit.cache["reaches"]  # type: ignore[no-any-return]


WIDE = 0.5
"""Relative spread above which a normal distribution's lower end in a band of 95 % lies below nought."""


def _supplies(circuit: Circuit) -> tuple[str, ...]:
    """Battery and charging sources: what one of them lacks today, the others lack as well. That is the
    voltage of their unnamed branch; a generator's field winding is a resistance like any other."""
    if "supplies" not in circuit.cache:
        charging = (e.id for e in circuit.elements.values() if e.kind.charges)
        circuit.cache["supplies"] = (circuit.supply_element.id, *charging)
    return circuit.cache["supplies"]  # type: ignore[no-any-return]


def volts_leans(point: OperatingPoint, slot: Slot) -> dict[Nuisance, float]:
    """How the voltage (V) over a branch leans, from its end a to its end b."""
    return leans(point, point.response(slot.a, slot.b))


def amps_leans(point: OperatingPoint, slot: Slot) -> dict[Nuisance, float]:
    """How the current (A) through a branch leans, from its end a to its end b."""
    slope = slot.branch.law.at(point.across(slot))[1]
    found = {key: slope * x for key, x in volts_leans(point, slot).items()}
    for key, amps in _nudges(point, slot):
        found[key] = found.get(key, 0.0) + amps
    return found
