"""Slips in wiring one half of a connector: generated, named, and told from each other.

A slip maps each way to the wires that should sit in another way. The wires are those of the sheet; a
half with n ways can be numbered from the wrong face (mirrored), turned round, shifted by one, have its
rows or two wires exchanged, one left out, or one in an empty way. Every other order of the wires is in
`orders`.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import partial
from itertools import combinations

from footwell.circuit.circuit import Circuit, HalfId
from footwell.sheet.models import SheetConnector
from footwell.sheet.points import bundles, number, ways

Wiring = dict[str, str | None]
"""Every way of a half to its wires, None for an empty way."""

SLIP_ODDS = 0.35
"""Chance that a connector that an untrained hand has just wired is wired wrongly (common practice,
no source)."""

SHARES = {
    "mirrored": 0.33,
    "exchanged": 0.28,
    "shifted": 0.1,
    "left out": 0.1,
    "in an empty way": 0.1,
    "turned": 0.03,
    "rows exchanged": 0.02,
}
"""Shares of the slips (common practice, no source); what is left over is for any other order."""

OTHER_ORDERS = round(1.0 - sum(SHARES.values()), 6)
"""Share of all orders of the wires that are none of these slips, together."""


@dataclass(frozen=True, slots=True)
class Slip:
    """One wrong wiring of a half: its kind, its name in words, and the odds before evidence."""

    half: HalfId
    kind: str
    title: str
    wiring: tuple[tuple[str, str | None], ...]
    odds: float


SPARE = "spare "
"""Begins what stands for a wire in a way that is not on the sheet; its colour follows."""


def without_spares(found: Mapping[str, str | None]) -> Wiring:
    """A wiring as far as it conducts: a wire that is not on the sheet leads nowhere."""
    rest = {
        way: [wire for wire in (wires or "").split("+") if not wire.startswith(SPARE)]
        for way, wires in found.items()
    }
    return {way: "+".join(wires) or None for way, wires in rest.items()}


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
    order, seen = ways(connector), partial(number, connector)
    mirrored = [way for row in connector.rows for way in reversed(row)]
    used = [way for way in order if drawn[way]]
    for a, b in combinations(used, 2):
        yield (
            "exchanged",
            f"the wires of ways {seen(a)} and {seen(b)} exchanged",
            drawn | {a: drawn[b], b: drawn[a]},
        )
    yield (
        "mirrored",
        "wired in mirror image: the face was read from the wrong side",
        _moved(drawn, order, mirrored),
    )
    yield "turned", "turned round: first and last row exchanged", _moved(drawn, order, order[::-1])
    if len({len(row) for row in connector.rows}) == 1:
        upside_down = [way for row in reversed(connector.rows) for way in row]
        yield (
            "rows exchanged",
            "the rows exchanged, each way in its own column",
            _moved(drawn, order, upside_down),
        )
    for step in (1, -1):
        shifted = order[-step:] + order[:-step]
        yield (
            "shifted",
            f"every wire one way too far {'up' if step > 0 else 'down'}",
            _moved(drawn, order, shifted),
        )
    for way in used:
        yield "left out", f"the wire of way {seen(way)} left out", drawn | {way: None}
        for empty in (w for w in order if not drawn[w]):
            yield (
                "in an empty way",
                f"the wire of way {seen(way)} put into empty way {seen(empty)}",
                drawn | {way: None, empty: drawn[way]},
            )


def _moved(drawn: Wiring, order: list[str], source: list[str]) -> Wiring:
    """Wiring in which each way of `order` holds what the same position of `source` should hold."""
    return {way: drawn[other] for way, other in zip(order, source, strict=True)}


def slip_named(circuit: Circuit, half: HalfId, found: Mapping[str, str | None]) -> str:
    """The single slip that explains a wiring as found, in words; "" where none does or none is needed."""
    near = nearest_slip(circuit, half, found)
    return near[0] if near is not None and not near[1] else ""


def nearest_slip(
    circuit: Circuit, half: HalfId, found: Mapping[str, str | None]
) -> tuple[str, list[str]] | None:
    """The single slip that leaves the fewest ways unexplained, in words, with those ways; None where none
    explains at least half of what differs from the drawing."""
    drawn = as_drawn(circuit, half)
    seen = {way: found.get(way) for way in drawn}
    whole = without_spares(seen)
    differing = sum(whole[way] != wires for way, wires in drawn.items())
    rows = [
        (title, [way for way in drawn if wiring[way] != whole[way]], kind, wiring)
        for kind, title, wiring in _generated(circuit.connectors[half[0]], drawn)
        if wiring != drawn
    ]
    best = min(rows, key=lambda row: len(row[1]), default=None)
    if best is None or 2 * len(best[1]) > differing:
        return None
    title, rest, kind, wiring = best
    emptied = [way for way in drawn if wiring[way] is None and drawn[way] is not None]
    if kind == "left out" and any(seen[way] for way in emptied if way not in rest):
        title += " and a spare one fitted in its place"
    return title, rest
