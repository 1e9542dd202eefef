"""Who is right where we and the simulator differ: the same equations in sixty digits."""

from __future__ import annotations

from decimal import Decimal, localcontext
from math import ulp

from footwell.electrics.mesh import LEAK_SIEMENS
from footwell.electrics.network import Slot
from footwell.electrics.operating_point import OperatingPoint
from footwell.electrics.spice import node_names

from .ngspice_rig import FLOATS_FROM_OHMS, GOAL_VOLTS, Difference

OURS_VOLTS = 1e-6
"""How far our own voltage may be from the true one where the simulator's is further than the goal."""

DIGITS = 60
ROUNDS = 3
"""Newton's steps from the point found, which is near: each doubles the digits that are right."""

Rows = list[dict[int, Decimal]]


def true_volts(point: OperatingPoint) -> list[float]:
    """Node voltages (V) at which the currents of every node sum to nothing in sixty digits.

    Laws that bend are taken by their tangents, whose own sixteen digits stand for those of the part.
    """
    volts = [Decimal(v) for v in point.volts]
    with localcontext() as context:
        context.prec = DIGITS
        for _ in range(ROUNDS):
            volts = _solved(point, volts)
    return [float(v) for v in volts]


def off(point: OperatingPoint, name: str) -> float:
    """How far (V) our voltage of a node, by its name in the netlist, is from the true one."""
    node = node_names(point.circuit).index(name)
    return abs(point.volts[node] - true_volts(point)[node])


def ours_holds(difference: Difference, point: OperatingPoint) -> bool:
    """Whether a difference beyond the goal is the simulator's alone: the place floats, and our voltage of
    it is the true one. A law that bends is a conductance to the simulator: where a battery beside a
    charging source floats, its 200 S drown the leak."""
    return difference.floats and off(point, difference.node) < resolved(point)


def resolved(point: OperatingPoint) -> float:
    """How far (V) our own voltage of a floating place may be from the true one. A loop that hangs on leakage
    alone, such as a battery that shorts itself, stands where the last digits of its currents leave it: those
    over the leak, and never more than the goal. Currents of what is held have no part in it."""
    ohms = [*point.seen_resistance[0], 0.0]
    loose = [s for s in point.slots if min(ohms[s.a], ohms[s.b]) > FLOATS_FROM_OHMS]
    greatest = max((abs(point.slot_amps(slot)) for slot in loose), default=0.0)
    return max(OURS_VOLTS, min(ulp(greatest) / LEAK_SIEMENS, GOAL_VOLTS))


def _solved(point: OperatingPoint, volts: list[Decimal]) -> list[Decimal]:
    n = point.mesh.n
    rows: Rows = [{node: Decimal(LEAK_SIEMENS)} for node in range(n)]
    out = [Decimal(0)] * n
    for slot in point.slots:
        siemens, amps = _line(slot, volts[slot.a] - volts[slot.b])
        for one, other, flow in ((slot.a, slot.b, amps), (slot.b, slot.a, -amps)):
            if one != n:
                rows[one][one] += siemens
                out[one] -= flow
                if other != n:
                    rows[one][other] = rows[one].get(other, Decimal(0)) - siemens
    _eliminate(rows, out, [step.node for step in point.mesh.steps])
    return [*out, Decimal(0)]


def _line(slot: Slot, volts: Decimal) -> tuple[Decimal, Decimal]:
    """A law's slope (S), and the current (A) at which its tangent crosses nought volts."""
    law = slot.branch.law
    if law.linear:
        ohms = Decimal(law.ohms)  # type: ignore[attr-defined]
        return 1 / ohms, -Decimal(getattr(law, "volts", 0.0)) / ohms
    amps, siemens = law.at(float(volts))
    return Decimal(siemens), Decimal(amps) - Decimal(siemens) * Decimal(float(volts))


def _eliminate(rows: Rows, out: list[Decimal], order: list[int]) -> None:
    """Gauss in an order that keeps the rows short; `out` becomes the voltages."""
    for k in order:
        for other in [x for x in rows[k] if x != k and k in rows[x]]:
            factor = rows[other].pop(k) / rows[k][k]
            for column, value in rows[k].items():
                if column != k:
                    rows[other][column] = rows[other].get(column, Decimal(0)) - factor * value
            out[other] -= factor * out[k]
    for k in reversed(order):
        known = sum((g * out[x] for x, g in rows[k].items() if x != k), Decimal(0))
        out[k] = (out[k] - known) / rows[k][k]
