"""Where somebody has followed wires to, and what that explains of what is seen in plugs."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass

from footwell.circuit.circuit import ENDS, Arrangement, Circuit, HalfId
from footwell.faults.miswiring import SPARE, as_drawn
from footwell.job.events import Body, WireFollowed, WirePutBack, WiringCorrected
from footwell.job.stored import NotOnSheet, wire_on_sheet
from footwell.sheet.models import Sheet
from footwell.sheet.points import pieces, way_point


@dataclass(frozen=True, slots=True)
class Run:
    """The points between which a wire was found; `since` where that was later than the look into a plug, so
    that it counts for more."""

    ends: tuple[str, str]
    since: bool


def followed(circuit: Circuit, bodies: Sequence[Body]) -> Iterator[tuple[int, WireFollowed]]:
    """The entries that tell of a wire's ends, with their numbers, as far as the circuit has the places."""
    for number, body in enumerate(bodies):
        if isinstance(body, WireFollowed):
            try:
                wire_on_sheet(circuit, body.wire, body.start, body.end)
            except NotOnSheet:
                continue  # Said where the entry is taken.
            yield number, body


def misplaced(sheet: Sheet, told: WireFollowed) -> frozenset[HalfId]:
    """The halves in which a wire was found in another way than the sheet has it, where nothing else of its
    run is otherwise: its plug is wired wrongly then, and other wires of it sit elsewhere too."""
    plugs = {connector.id for connector in sheet.connectors}
    on_sheet = {p for w in sheet.wires if w.id == told.wire for p in (w.start, w.end)}
    found = {told.start, told.end}
    left = sorted(_seat(plugs, point) for point in on_sheet - found)
    taken = sorted(_seat(plugs, point) for point in found - on_sheet)
    return frozenset(left) if left == taken and all(side for _, side in left) else frozenset()


def without_runs_in(sheet: Sheet, arrangement: Arrangement, half: HalfId) -> Arrangement:
    """An arrangement without the wires that are otherwise only by sitting in another way of a half."""
    return tuple(
        (where, found)
        for where, found in arrangement
        if where[1] != ENDS
        or misplaced(sheet, WireFollowed(wire=where[0], **dict(found))) != frozenset({half})
    )


def _seat(plugs: Collection[str], point: str) -> HalfId:
    """The half that a point lies in; the point and "" where it is no plug's."""
    owner, _, rest = point.partition(".")
    return (owner, rest.rpartition(".")[2]) if owner in plugs else (point, "")


def runs_at(circuit: Circuit, bodies: Sequence[Body], half: HalfId, number: int) -> dict[str, Run]:
    """What is known of wires' ends at an entry that tells of a half: nothing of a wire that was put back, or
    of a half that was put right, in between, nor of one that led to this look since it sat in another way."""
    changes = [(n, body) for n, body in enumerate(bodies) if n != number]
    return {
        told.wire: Run((told.start, told.end), n > number)
        for n, told in followed(circuit, bodies)
        if not (n < number and half in misplaced(circuit.sheet, told))
        and not any(
            min(n, number) < at < max(n, number) and _changes(body, told.wire, half)
            for at, body in changes
        )
    }


def _changes(body: Body, wire: str, half: HalfId) -> bool:
    if isinstance(body, WiringCorrected):
        return (body.connector, body.half) == half
    return isinstance(body, WirePutBack) and body.wire == wire


def told_of_runs(
    circuit: Circuit, half: HalfId, found: Mapping[str, str | None], runs: Mapping[str, Run]
) -> dict[str, str | None]:
    """A wiring as found, with what following wires to their ends explains: a wire that was on no sheet there
    has its name, and one that is known to run elsewhere counts as seated. Where both tell of one wire and
    do not agree, the later counts."""
    drawn = as_drawn(circuit, half) if half[0] in circuit.connectors else {}
    come = [wire for wire in circuit.sheet.wires if wire.id in runs]
    named = {wire for wires in found.values() for wire in pieces(wires)}
    told: dict[str, str | None] = {}
    for way, wires in found.items():
        here = way_point(half[0], way, half[1])
        seen, belong = pieces(wires), pieces(drawn.get(way))
        for wire in (w for w in come if here in runs[w.id].ends and w.id not in seen):
            spare = f"{SPARE}{wire.colour or ''}"
            if spare in seen:
                seen[seen.index(spare)] = wire.id
            elif runs[wire.id].since and wire.id in belong:
                seen.append(wire.id)
        away = {w for w, run in runs.items() if here not in run.ends}
        gone = [
            w for w in belong if w in away and w not in seen and (w not in named or runs[w].since)
        ]
        seated = [
            w for w in seen if w in belong or w not in runs or (w in away and not runs[w].since)
        ]
        # What is crimped together has no order.
        same = sorted(seated + gone) == sorted(belong)
        told[way] = drawn[way] if same and belong else "+".join(seated + gone) or None
    return told
