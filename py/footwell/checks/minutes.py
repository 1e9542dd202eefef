"""What a check costs in minutes, after the one before it."""

from __future__ import annotations

from footwell.checks.check import (
    BENCH,
    CLAMP,
    FEED,
    FUSE_LAMP,
    LAMP,
    LISTEN,
    LOOK,
    OHMS,
    SUBSTITUTE,
    VOLTS,
    Check,
    bared,
)
from footwell.checks.hands import CLIP_MINUTES, held_down
from footwell.circuit.circuit import Circuit
from footwell.parts.base import EARTH

TAKE = {
    VOLTS: 0.5,
    LAMP: 0.5,
    FUSE_LAMP: 0.7,
    CLAMP: 0.7,
    OHMS: 0.7,
    FEED: 2.0,
    BENCH: 2.5,
    SUBSTITUTE: 0.3,
    LOOK: 0.5,
    LISTEN: 0.3,
}
"""Minutes to take a reading once there (common practice, no source)."""

ENDS_MINUTES = 3.0
"""For finding both ends of a wire (common practice, no source)."""

UNWRAP_MINUTES = 3.0
"""For the tape off a splice and on again (common practice, no source)."""


def minutes(circuit: Circuit, check: Check, before: Check | None) -> float:
    """Minutes for a check after another: reach the places, change the set-up, read."""
    here = _owners(before) if before else set()
    reach = sum(
        reach_minutes(circuit, owner) for owner in sorted(_owners(check)) if owner not in here
    )
    change = 0.0
    controls = (
        dict(before.setup.controls) if before else {c.part: c.off for c in circuit.sheet.controls}
    )
    change += 0.15 * sum(controls.get(part) != position for part, position in check.setup.controls)
    apart = set(before.setup.apart) if before else set()
    for name in sorted(apart ^ set(check.setup.apart)):
        change += circuit.connectors[name].unplug_minutes if name in circuit.connectors else 0.5
    lamps = dict(before.setup.stand_in) if before else {}
    change += 0.7 * len(set(check.setup.stand_in) ^ set(lamps.items()))
    second_hand = 0.5 if check.instrument == VOLTS and check.black != EARTH else 0.0
    if held_down(circuit, check):
        change += CLIP_MINUTES
    joint = bared(circuit, check)
    if joint and not (before and bared(circuit, before) == joint):
        change += UNWRAP_MINUTES
    return round(reach + change + TAKE.get(check.instrument, 0.5) + second_hand, 2)


def _owners(check: Check) -> set[str]:
    return {p.split(".")[0] for p in (check.red, check.black) if p not in ("", EARTH)} | set(
        check.setup.apart
    )


def reach_minutes(circuit: Circuit, owner: str) -> float:
    """Minutes to get at a connector, a part or a wire."""
    if owner in circuit.connectors:
        return circuit.connectors[owner].minutes
    for part in circuit.sheet.parts:
        if part.id == owner:
            return part.minutes or 2.0
    return 2.0
