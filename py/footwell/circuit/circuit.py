"""The circuit as the core knows it: points, elements, connectors, and which wire sits in which way.

A `Circuit` is a sheet together with an arrangement: the wires as they really sit in the connectors
that somebody looked at. Everything electrical is asked of a circuit, never of the sheet.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import Any

from footwell.parts import KINDS
from footwell.parts.base import EARTH, SUPPLY, Branch, Context, Kind, Mode
from footwell.parts.contact import Contact
from footwell.parts.wire import Wire
from footwell.sheet.models import Sheet, SheetConnector
from footwell.sheet.points import HalfId as HalfId
from footwell.sheet.points import bundles as bundles
from footwell.sheet.points import number, pieces

Arrangement = tuple[tuple[HalfId, tuple[tuple[str, str], ...]], ...]
"""For each half that differs from the sheet: (way, wires) pairs, sorted; wires joined by "+". For each wire
that runs elsewhere, under (its id, ENDS): its points, named "start" and "end"."""

AS_DRAWN: Arrangement = ()
ENDS = "ends"

GUESSED_SIGMA = 0.3
"""Relative standard deviation of what a value assumed on the sheet decides, beside the part's own
(assumption)."""


@dataclass(frozen=True)
class Element:
    """A part, a wire ("W3") or a contact ("X2.3") between points of the circuit."""

    id: str
    kind: Kind
    name: str
    values: Any
    nodes: Mapping[str, int]
    """Terminal to node; EARTH and SUPPLY too, unless a terminal bears that name."""
    guessed: bool = False
    """Some value of it is written on the sheet but was not seen on the vehicle."""

    @cached_property
    def modes(self) -> dict[str, Mode]:
        return {mode.name: mode for mode in self.kind.modes(self.values)}

    @cached_property
    def ends(self) -> frozenset[int]:
        """Nodes of its terminals."""
        return frozenset(self.nodes[t] for t in self.kind.terminals(self.values))

    @cached_property
    def rest(self) -> str:
        """The state in which nothing has moved it."""
        return self.kind.states(self.values)[0]


@dataclass(frozen=True)
class Circuit:
    """Nodes are numbered from 0; the body of the vehicle is node `earth`, one past the last."""

    sheet: Sheet
    values: Mapping[str, Any]
    arrangement: Arrangement
    points: tuple[str, ...]
    node_of: Mapping[str, int]
    elements: Mapping[str, Element]
    wires_in: Mapping[str, str]
    """Way half ("X2.3.a") to the wires in it, joined by "+"; halves without a wire are absent."""
    connectors: Mapping[str, SheetConnector]
    context: Context
    cache: dict[Any, Any] = field(default_factory=dict, compare=False, repr=False)

    @property
    def earth(self) -> int:
        return len(self.points)

    @cached_property
    def supply_element(self) -> Element:
        return next(e for e in self.elements.values() if e.kind.name == "battery")

    def branches(self, element: Element, state: str) -> list[Branch]:
        """The element's healthy branches in a state."""
        sound = element.kind.branches(element.values, state, self.context)
        return [_widened(branch) for branch in sound] if element.guessed else sound


def _widened(branch: Branch) -> Branch:
    return replace(branch, spread=math.hypot(branch.spread, GUESSED_SIGMA))


def arranged(
    arrangement: Arrangement, half: HalfId, found: Mapping[str, str | None]
) -> Arrangement:
    """The arrangement with one half's wires as found: way to wires, None for an empty way."""
    others = {h: ways for h, ways in arrangement if h != half}
    others[half] = tuple(sorted((way, wires) for way, wires in found.items() if wires))
    return tuple(sorted(others.items()))


def as_on_sheet(arrangement: Arrangement, half: HalfId) -> Arrangement:
    """The arrangement with a half, or a wire under (its id, ENDS), where the sheet has it."""
    return tuple((h, found) for h, found in arrangement if h != half)


def astray(arrangement: Arrangement, wire: str, start: str, end: str) -> Arrangement:
    """The arrangement with one wire's ends as found."""
    return arranged(arrangement, (wire, ENDS), {"start": start, "end": end})


def build(sheet: Sheet, values: Mapping[str, Any], arrangement: Arrangement = AS_DRAWN) -> Circuit:
    """The circuit of a sheet whose connectors are wired as `arrangement` says."""
    ends, wires_in = wire_ends(sheet, arrangement)
    joined = {
        f"{c.id}.{way}.b": point for c in sheet.connectors for way, point in c.part_ways.items()
    }
    points = _points(sheet, values, ends, joined)
    node_of = {point: n for n, point in enumerate(points)}
    node_of.update({half: node_of[point] for half, point in joined.items()})
    node_of[EARTH] = len(points)
    context = Context(sheet.system_volts, sheet.working_amps)
    battery = next(p.id for p in sheet.parts if p.kind == "battery")
    shared = {EARTH: len(points), SUPPLY: node_of[f"{battery}.+"]}
    elements = _part_elements(sheet, values, node_of, shared)
    elements |= _wire_elements(sheet, ends, node_of, shared)
    elements |= _contact_elements(sheet, wires_in, node_of, shared)
    return Circuit(
        sheet,
        values,
        arrangement,
        points,
        node_of,
        elements,
        wires_in,
        {c.id: c for c in sheet.connectors},
        context,
    )


def by_the_sheet(circuit: Circuit) -> Circuit:
    """The circuit with every wire where the sheet has it, built once."""
    if circuit.arrangement == AS_DRAWN:
        return circuit
    if "by the sheet" not in circuit.cache:
        circuit.cache["by the sheet"] = build(circuit.sheet, circuit.values)
    return circuit.cache["by the sheet"]  # type: ignore[no-any-return]


def wire_ends(
    sheet: Sheet, arrangement: Arrangement
) -> tuple[dict[str, list[str]], dict[str, str]]:
    """Ends of each wire as they really sit, and the wires in each way half."""
    ends = {wire.id: [wire.start, wire.end] for wire in sheet.wires}
    wires_in = {
        f"{c.id}.{way}.{side}": wires
        for c in sheet.connectors
        for side in ("a", "b")
        for way, wires in bundles(sheet, (c.id, side)).items()
    }
    for half, ways in arrangement:
        if half[1] == ENDS:
            continue
        unseated = _pull_out(sheet, half, ends, wires_in)
        for way, wires in ways:
            seat = f"{half[0]}.{way}.{half[1]}"
            wires_in[seat] = wires
            for wire in wires.split("+"):
                if unseated.get(wire):
                    ends[wire][unseated[wire].pop(0)] = seat
    for (wire, what), found in arrangement:
        if what == ENDS:
            _move(sheet, wire, dict(found), ends, wires_in)
    return ends, wires_in


def _move(
    sheet: Sheet,
    wire: str,
    found: Mapping[str, str],
    ends: dict[str, list[str]],
    wires_in: dict[str, str],
) -> None:
    """Take both ends of a wire from where they sit to where they were found."""
    for seat in ends[wire]:
        rest = [w for w in pieces(wires_in.pop(seat, None)) if w != wire]
        wires_in |= {seat: "+".join(rest)} if rest else {}
    ends[wire] = [found["start"], found["end"]]
    connectors = {c.id for c in sheet.connectors}
    for seat in ends[wire]:
        if seat.split(".")[0] in connectors:
            wires_in[seat] = f"{wires_in[seat]}+{wire}" if seat in wires_in else wire


def _pull_out(
    sheet: Sheet, half: HalfId, ends: dict[str, list[str]], wires_in: dict[str, str]
) -> dict[str, list[int]]:
    """Leave loose every end that the sheet puts into a half; which ends of each wire those are."""
    unseated: dict[str, list[int]] = {}
    for way, wires in bundles(sheet, half).items():
        drawn = f"{half[0]}.{way}.{half[1]}"
        del wires_in[drawn]
        for wire in wires.split("+"):
            end = ends[wire].index(drawn)
            ends[wire][end] = f"{wire}.loose{end + 1}"
            unseated.setdefault(wire, []).append(end)
    return unseated


def _points(
    sheet: Sheet,
    values: Mapping[str, Any],
    ends: Mapping[str, list[str]],
    joined: Mapping[str, str],
) -> tuple[str, ...]:
    named: dict[str, None] = {}
    for part in sheet.parts:
        terminals = KINDS[part.kind].terminals(values[part.id])
        named.update(dict.fromkeys(f"{part.id}.{t}" for t in terminals))
    for connector in sheet.connectors:
        for row in connector.rows:
            for way in row:
                named.update(dict.fromkeys((f"{connector.id}.{way}.a", f"{connector.id}.{way}.b")))
    named.update(dict.fromkeys(end for pair in ends.values() for end in pair))
    named.pop(EARTH, None)
    return tuple(point for point in named if point not in joined)


def _part_elements(
    sheet: Sheet, values: Mapping[str, Any], node_of: Mapping[str, int], shared: Mapping[str, int]
) -> dict[str, Element]:
    found: dict[str, Element] = {}
    for part in sheet.parts:
        kind = KINDS[part.kind]
        nodes = {t: node_of[f"{part.id}.{t}"] for t in kind.terminals(values[part.id])}
        # A part's own terminal goes first: an output's is named "supply" too.
        found[part.id] = Element(
            part.id,
            kind,
            part.name,
            values[part.id],
            dict(shared) | nodes,
            guessed=bool(part.assumed),
        )
    return found


def _wire_elements(
    sheet: Sheet,
    ends: Mapping[str, list[str]],
    node_of: Mapping[str, int],
    shared: Mapping[str, int],
) -> dict[str, Element]:
    kind = KINDS["wire"]
    return {
        w.id: Element(
            w.id,
            kind,
            f"wire {w.id}",
            Wire(w.mm2, w.metres, w.celsius),
            {"1": node_of[ends[w.id][0]], "2": node_of[ends[w.id][1]]} | dict(shared),
            guessed=bool(w.assumed),
        )
        for w in sheet.wires
    }


def _contact_elements(
    sheet: Sheet, wires_in: Mapping[str, str], node_of: Mapping[str, int], shared: Mapping[str, int]
) -> dict[str, Element]:
    """One contact for each way whose half b holds a terminal, on the sheet or as found: a wire may be out of
    its way by mistake."""
    kind = KINDS["contact"]
    found: dict[str, Element] = {}
    for c in sheet.connectors:
        drawn = {*c.part_ways, *bundles(sheet, (c.id, "b"))}
        for row in c.rows:
            for way in row:
                if way in drawn or f"{c.id}.{way}.b" in wires_in:
                    nodes = {"1": node_of[f"{c.id}.{way}.a"], "2": node_of[f"{c.id}.{way}.b"]}
                    found[f"{c.id}.{way}"] = Element(
                        f"{c.id}.{way}",
                        kind,
                        f"way {number(c, way)} of {c.name}",
                        Contact(c.terminal_mm, c.rating_amps),
                        nodes | dict(shared),
                    )
    return found
