"""What nobody can get at, as somebody has said."""

from __future__ import annotations

from collections.abc import Sequence

from footwell.circuit.circuit import HalfId
from footwell.diagnosis.case import look_id
from footwell.job.events import Body, CheckSkipped, WiringCorrected, WiringFound
from footwell.names import composed
from footwell.sheet.points import HALVES


def out_of_reach(body: CheckSkipped) -> set[str]:
    """The part or plug of a check for which nobody can reach it."""
    place = next((word for word in body.check.split() if "." in word), "")
    return {place.split(".")[0]} if place else set()


def passed_over(bodies: Sequence[Body]) -> frozenset[HalfId]:
    """The halves that somebody has said cannot be looked into, and that nobody has looked into at any time:
    what they hold is known from following wires alone."""
    seen = {(b.connector, b.half) for b in bodies if isinstance(b, (WiringFound, WiringCorrected))}
    shut: set[HalfId] = set()
    for body in bodies:
        if isinstance(body, CheckSkipped):
            far = out_of_reach(body) if body.reason == "cannot reach" else ()
            shut |= {(owner, side) for owner in far for side in HALVES}
            shut |= _half_of(composed(body.check))
    return frozenset(shut - seen)


def _half_of(check: str) -> set[HalfId]:
    """The half that a look goes into."""
    owner, _, side = check.rpartition(" ")[2].rpartition(".")
    return {(owner, side)} if check == look_id((owner, side)) else set()
