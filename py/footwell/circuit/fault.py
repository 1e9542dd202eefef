"""A fault: one element in one mode, perhaps with a size, and what it does to a branch."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import NamedTuple

from footwell.circuit.circuit import Circuit, Element
from footwell.parts.base import SHORT_OHMS, Branch
from footwell.parts.laws import Open, Resistance, Source
from footwell.parts.series import InSeries, add_ohms

STEP_SPREAD = 0.33
"""Relative spread of a resistance known to half a step of the ladder of sizes: evenly spread over
±0.25 decades, ln(10) * 0.25 / sqrt(3)."""


class Fault(NamedTuple):
    """`size`: ohms in series for resistance faults, a plain factor for others, 0 for none."""

    element: str
    mode: str
    size: float = 0.0


def broken_branches(
    circuit: Circuit, element: Element, state: str, faults: tuple[Fault, ...]
) -> list[Branch]:
    """The element's branches in a state under its faults; those of others are passed over."""
    branches = circuit.branches(element, state)
    for fault in faults:
        if fault.element == element.id:
            branches = _with(circuit, element, state, branches, fault)
    return branches


def _with(
    circuit: Circuit, element: Element, state: str, branches: list[Branch], fault: Fault
) -> list[Branch]:
    mode = element.modes[fault.mode]
    changed = element.kind.broken(
        mode, fault.size, branches, element.values, state, circuit.context
    )
    if changed is not None:
        return changed
    own = {b.name for b in circuit.branches(element, state)}
    return [
        _generic(b, fault) if b.name in own and mode.of in ("", b.name) else b for b in branches
    ]


def _generic(branch: Branch, fault: Fault) -> Branch:
    general = fault.mode.split(":")[0]
    if general in ("open", "not_commanded", "stuck_open"):
        return _law(branch, Open())
    if isinstance(branch.law, Open):
        return branch
    if general == "high_resistance":
        return _with_joint(branch, fault.size)
    return _law(branch, Resistance(SHORT_OHMS))


def _with_joint(branch: Branch, size: float) -> Branch:
    """The branch with a poor joint of a size (Ω) in it: the joint is known to half a step, and what it is in
    as well as before."""
    law, off = add_ohms(branch.law, size), size * STEP_SPREAD
    if isinstance(law, Source):
        return replace(branch, law=law, joint=math.hypot(branch.joint, off))
    own = branch.law.ohms if isinstance(branch.law, Resistance | InSeries) else 0.0
    return replace(branch, law=law, spread=math.hypot(own * branch.spread, off) / (own + size))


def _law(branch: Branch, law: Open | Resistance | object) -> Branch:
    return Branch(branch.name, branch.a, branch.b, law, branch.spread, branch.rating_amps)  # type: ignore[arg-type]


def sizes(system_volts: float, working_amps: float) -> list[float]:
    """Sizes of a high resistance to sum over (Ω), two a decade, from the joint that drops 2 % of
    the supply at the circuit's working current up to 20 kΩ.

    >>> [round(r, 4) for r in sizes(24, 8)][:3], sizes(24, 8)[-1]
    ([0.02, 0.0632, 0.2], 20000.0)
    """
    least = 0.02 * system_volts / working_amps
    count = math.ceil(2 * math.log10(20_000 / least)) + 1
    return [float(f"{20_000 / 10 ** (step / 2):.3g}") for step in range(count - 1, -1, -1)]
