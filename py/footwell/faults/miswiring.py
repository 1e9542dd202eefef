"""Slips in wiring one half of a connector: generated, named, and told from each other.

A slip maps each way to the wires that should sit in another way. The wires are those of the sheet; a
half with n ways can be numbered from the wrong face (mirrored), turned round, shifted by one, have two
wires exchanged, one left out, or one in an empty way.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import combinations

from footwell.circuit.circuit import Circuit, HalfId, bundles
from footwell.sheet.models import SheetConnector

Wiring = dict[str, str | None]
"""Every way of a half to its wires, None for an empty way."""

SLIP_ODDS = 0.35
"""Chance that a connector that an untrained hand has just wired is wired wrongly (common practice,
no source)."""

SHARES = {
    "mirrored": 0.35,
    "exchanged": 0.3,
    "shifted": 0.1,
    "left out": 0.1,
    "in an empty way": 0.1,
    "turned": 0.05,
}


@dataclass(frozen=True, slots=True)
class Slip:
    """One wrong wiring of a half: its kind, its name in words, and the odds before evidence."""

    half: HalfId
    kind: str
    title: str
    wiring: tuple[tuple[str, str | None], ...]
    odds: float


def ways(connector: SheetConnector) -> list[str]:
    return [way for row in connector.rows for way in row]


def as_drawn(circuit: Circuit, half: HalfId) -> Wiring:
    """What should sit in each way of a half."""
    drawn = bundles(circuit.sheet, half)
    return {way: drawn.get(way) for way in ways(circuit.connectors[half[0]])}


def slips(circuit: Circuit, half: HalfId) -> list[Slip]:
    """Every plausible slip of a half that differs from the drawing, each wiring once."""
    drawn = as_drawn(circuit, half)
    named: dict[tuple[tuple[str, str | None], ...], tuple[str, str]] = {}
    for kind, title, wiring in _generated(circuit.connectors[half[0]], drawn):
        key = tuple(wiring.items())
        if wiring != drawn and key not in named:
            named[key] = (kind, title)
    counts = {kind: sum(k == kind for k, _ in named.values()) for kind in SHARES}
    return [
        Slip(half, kind, title, key, SLIP_ODDS * SHARES[kind] / counts[kind])
        for key, (kind, title) in named.items()
    ]


def _generated(connector: SheetConnector, drawn: Wiring) -> Iterator[tuple[str, str, Wiring]]:
    order = ways(connector)
    mirrored = [way for row in connector.rows for way in reversed(row)]
    used = [way for way in order if drawn[way]]
    for a, b in combinations(used, 2):
        yield (
            "exchanged",
            f"the wires of ways {a} and {b} exchanged",
            drawn | {a: drawn[b], b: drawn[a]},
        )
    yield (
        "mirrored",
        "wired in mirror image: the face was read from the wrong side",
        _moved(drawn, order, mirrored),
    )
    yield "turned", "turned round: first and last row exchanged", _moved(drawn, order, order[::-1])
    for step in (1, -1):
        shifted = order[-step:] + order[:-step]
        yield (
            "shifted",
            f"every wire one way too far {'up' if step > 0 else 'down'}",
            _moved(drawn, order, shifted),
        )
    for way in used:
        yield "left out", f"the wire of way {way} left out", drawn | {way: None}
        for empty in (w for w in order if not drawn[w]):
            yield (
                "in an empty way",
                f"the wire of way {way} put into empty way {empty}",
                drawn | {way: None, empty: drawn[way]},
            )


def _moved(drawn: Wiring, order: list[str], source: list[str]) -> Wiring:
    """Wiring in which each way of `order` holds what the same position of `source` should hold."""
    return {way: drawn[other] for way, other in zip(order, source, strict=True)}


def slip_named(circuit: Circuit, half: HalfId, found: Mapping[str, str | None]) -> str:
    """The single slip that explains a wiring as found, in words; "" where none does or none is needed."""
    whole = {way: found.get(way) for way in as_drawn(circuit, half)}
    for _, title, wiring in _generated(circuit.connectors[half[0]], as_drawn(circuit, half)):
        if wiring == whole and wiring != as_drawn(circuit, half):
            return title
    return ""


def nearest_slip(
    circuit: Circuit, half: HalfId, found: Mapping[str, str | None]
) -> tuple[str, list[str]] | None:
    """The single slip that leaves the fewest ways unexplained, in words, with those ways; None where none
    explains at least half of what differs from the drawing."""
    drawn = as_drawn(circuit, half)
    whole = {way: found.get(way) for way in drawn}
    differing = sum(whole[way] != wires for way, wires in drawn.items())
    rows = [
        (title, [way for way in drawn if wiring[way] != whole[way]])
        for _, title, wiring in _generated(circuit.connectors[half[0]], drawn)
        if wiring != drawn
    ]
    best = min(rows, key=lambda row: len(row[1]), default=None)
    return best if best is not None and 2 * len(best[1]) <= differing else None


def moves(
    drawn: Wiring, found: Mapping[str, str | None]
) -> list[tuple[str, str | None, str | None]]:
    """Shortest list of moves (wires, from way, to way) that puts a half right; None is outside.

    Every wire in a wrong way moves once. Wires that would meet in one way on the road are taken out
    first, which the order shows: a move into a way follows the move out of it, and a ring of wires is
    opened by its first wire waiting outside.
    """
    goal = {wires: way for way, wires in drawn.items() if wires}
    place = {wires: way for way, wires in found.items() if wires}
    wrong = [w for w in goal if place.get(w) != goal[w]]
    extra = [w for w in place if w not in goal]
    steps: list[tuple[str, str | None, str | None]] = [(w, place.pop(w), None) for w in extra]
    while wrong:
        taken = {way: w for w, way in place.items()}
        free = next((w for w in wrong if goal[w] not in taken), None)
        if free is None:
            free = wrong[0]
            steps.append((free, place.pop(free), None))
            continue
        steps.append((free, place.get(free), goal[free]))
        place[free] = goal[free]
        wrong.remove(free)
    return steps
