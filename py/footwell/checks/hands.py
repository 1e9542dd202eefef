"""Whether tools and hands for a check are there."""

from __future__ import annotations

from dataclasses import dataclass

from footwell.checks.check import FEED, LISTEN, Check
from footwell.circuit.circuit import Circuit


@dataclass(frozen=True, slots=True)
class Tools:
    """Tools at hand, and whether somebody else can hold a pedal or a switch."""

    names: tuple[str, ...] = ("meter",)
    helper: bool = False


NEED_A_HAND = (LISTEN, FEED)
"""Checks that take a hand all the time. Leads and lamps are clipped or pushed in and stay, so that somebody
alone can hold a switch meanwhile."""

CLIP_MINUTES = 1.0
"""For leads that hold by themselves (common practice, no source)."""


def at_hand(circuit: Circuit, check: Check, tools: Tools) -> bool:
    """Whether tools that will do for the check are there, and hands enough."""
    equipped = all(any(tool in tools.names for tool in any_of) for any_of in check.needs)
    free = tools.helper or check.instrument not in NEED_A_HAND or not held_down(circuit, check)
    return equipped and free


def held_down(circuit: Circuit, check: Check) -> tuple[str, ...]:
    """Controls that have to be held while the check is made elsewhere: a pedal, a push."""
    off = {c.part: c.off for c in circuit.sheet.controls}
    return tuple(
        part
        for part, position in check.setup.controls
        if position != off[part] and getattr(circuit.elements[part].values, "momentary", False)
    )
