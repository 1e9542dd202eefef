"""Checks, set-ups and wirings as they are stored or asked for, in the core's form.

They name places, controls and wires of a sheet by id, and may come from a stranger, from a newer
release or from before the sheet was changed. Each is held against the circuit before anything is
computed of it; what the circuit does not have raises NotOnSheet with a sentence.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Mapping, Sequence

from footwell.checks.behind_plug import behind_plug
from footwell.checks.bench import BENCHED
from footwell.checks.catalogue import FUSES, LOOKED_AT, fuses, load_plugs
from footwell.checks.check import (
    BENCH,
    CLAMP,
    FEED,
    FUSE_LAMP,
    LAMP,
    LISTEN,
    LOAD,
    LOOK,
    OHMS,
    SUBSTITUTE,
    VOLTS,
    Check,
)
from footwell.checks.clipped import between_lines, part_of
from footwell.circuit.circuit import Circuit, HalfId
from footwell.circuit.setup import SetupState, set_up
from footwell.errors import FootwellError
from footwell.faults.miswiring import SPARE, Wiring, as_drawn
from footwell.job.events import ReadingTaken
from footwell.names import composed
from footwell.parts.base import EARTH, Kind
from footwell.sheet.models import SheetWire
from footwell.sheet.points import pieces, seen_point

PROBED = (VOLTS, LAMP, OHMS)
"""Instruments held to two places; the others are held to one element or plug."""

HELD_TO: Mapping[str, tuple[Callable[[Kind], bool], str]] = {
    CLAMP: (lambda kind: kind.name == "wire", "a wire"),
    LOOK: (lambda kind: kind.name in LOOKED_AT, "a fuse, a contact, a wire or a splice"),
    BENCH: (lambda kind: kind.name in BENCHED, "a relay that is pulled out"),
    LISTEN: (lambda kind: kind.seen_as == "click", "a relay or magnet"),
    FUSE_LAMP: (lambda kind: kind.name in FUSES, "a fuse"),
}
"""Whether an instrument can be held to a kind of part, and what such parts are called."""

BY_HAND = (LOOK, OHMS, FEED, BENCH, FUSE_LAMP)
"""Instruments for which something is opened or held in the hand, never with the engine running."""

LARGEST_LAMP_WATTS = 200.0
_WATTS = re.compile(r"\d{1,4}(\.\d{1,3})? W")


class NotOnSheet(FootwellError):
    """A check, a set-up or a wiring names something that this circuit does not have."""

    def __init__(self, sentence: str) -> None:
        super().__init__("not_on_sheet", sentence)


def check_of(circuit: Circuit, body: ReadingTaken, engine: str) -> Check:
    """The check that a stored reading belongs to. Raises NotOnSheet."""
    stored = body.setup
    running = stored.engine or engine
    setup = setup_of(circuit, stored.controls, stored.apart, stored.stand_in, running)
    return fitting(circuit, body.instrument, body.red, body.black, setup)


def fitting(circuit: Circuit, instrument: str, red: str, black: str, setup: SetupState) -> Check:
    """A check that the circuit has all places for. Raises NotOnSheet."""
    held = (black or EARTH) if instrument in PROBED else ""
    check = Check(instrument, red, held, _stopped(instrument, setup))
    why = _why_not_probed(circuit, check) if instrument in PROBED else _why_not(circuit, check)
    if why:
        raise NotOnSheet(why)
    return check


def _stopped(instrument: str, setup: SetupState) -> SetupState:
    """The engine is stopped before anything is taken apart or held in the hand."""
    by_hand = instrument in BY_HAND or setup.apart
    return setup._replace(engine="off") if by_hand else setup


def _why_not_probed(circuit: Circuit, check: Check) -> str:
    for place in (check.red, check.black):
        if place not in circuit.node_of:
            return f"{_placed(circuit, place)} is not a place on this sheet. Choose one in the diagram."
    if circuit.node_of[check.red] == circuit.node_of[check.black]:
        return "Both leads would lie on one and the same metal. Choose two places."
    if check.instrument == OHMS and not _belongs_to_part(circuit, check):
        return f"{_placed(circuit, check.red)} belongs to no part, so there is nothing to measure in ohms."
    return ""


def _belongs_to_part(circuit: Circuit, check: Check) -> bool:
    if between_lines(circuit, check) or behind_plug(circuit, check):
        return True
    owner, _, rest = check.red.partition(".")
    if (
        owner in circuit.connectors
        and rest.split(".")[0] not in circuit.connectors[owner].part_ways
    ):
        return False
    return part_of(circuit, check) in circuit.elements


def _why_not(circuit: Circuit, check: Check) -> str:
    if check.instrument == SUBSTITUTE:
        lamps = dict(check.setup.stand_in)
        fits = check.red in lamps and check.red in circuit.connectors
        return "" if fits else "A substitute lamp needs a load's plug and its watts."
    if check.instrument in (FEED, LOAD):
        known = check.red in circuit.sheet.loads
        return "" if known else f"{_said(check.red)} is not a load on this sheet."
    if check.instrument not in HELD_TO:
        return f"The instrument {_said(check.instrument)} is not known to this release of Footwell."
    suits, named = HELD_TO[check.instrument]
    element = circuit.elements.get(check.red)
    fits = element is not None and suits(element.kind)
    return "" if fits else f"{_placed(circuit, check.red)} is not {named} on this sheet."


def setup_of(
    circuit: Circuit,
    controls: Mapping[str, str],
    apart: Sequence[str],
    stand_in: Mapping[str, str],
    engine: str,
) -> SetupState:
    """A set-up in the core's form; lamps come as "21 W". Raises NotOnSheet."""
    controls = {part: composed(position) for part, position in controls.items()}
    positions = {c.part: {p.id for p in c.positions} for c in circuit.sheet.controls}
    for part, position in controls.items():
        if position not in positions.get(part, set()):
            raise NotOnSheet(f"{_said(part)} has no position {_said(position)} on this sheet.")
    for name in apart:
        if name not in circuit.connectors and name not in circuit.elements:
            raise NotOnSheet(f"{_said(name)} is not on this sheet, so it cannot be taken apart.")
    lamps = {plug: _watts(circuit, plug, text) for plug, text in stand_in.items()}
    return set_up(circuit, controls, tuple(apart), lamps, engine)


def _watts(circuit: Circuit, plug: str, text: str) -> float:
    if plug not in (*load_plugs(circuit), *fuses(circuit)):
        raise NotOnSheet(
            f"{_said(plug)} is no fuse and not the plug of a load, so no lamp fits there."
        )
    watts = float(text[:-2]) if _WATTS.fullmatch(text) else math.nan
    if not 0.0 < watts <= LARGEST_LAMP_WATTS:
        raise NotOnSheet(f"The lamp on {_said(plug)} needs its watts, such as “21 W”.")
    return watts


def on_sheet(circuit: Circuit, connector: str) -> None:
    """Raises NotOnSheet for a connector that the sheet does not have."""
    if connector not in circuit.connectors:
        raise NotOnSheet(f"{_said(connector)} is not a connector on this sheet.")


def wiring_of(circuit: Circuit, half: HalfId, found: Mapping[str, str | None]) -> Wiring:
    """A half's wiring as found, with every way named. Raises NotOnSheet.

    Ways nobody spoke of hold what they should, unless that wire was found in another way.
    """
    on_sheet(circuit, half[0])
    drawn = as_drawn(circuit, half)
    # A bridge from way to way begins and ends in the half: it is there twice.
    own = [wire for wires in drawn.values() for wire in pieces(wires)]
    placed = [wire for wires in found.values() for wire in pieces(wires)]
    seated = [wire for wire in placed if not SPARE_WIRE.fullmatch(wire)]
    for way in found:
        if way not in drawn:
            raise NotOnSheet(f"{_said(half[0])} has no way {_said(way)} on this sheet.")
    for wire in seated:
        if seated.count(wire) > own.count(wire):
            raise NotOnSheet(
                f"Wire {_said(wire)} cannot sit there: each wire of this half of {half[0]} once."
            )
    whole: dict[str, str | None] = {}
    for way, wires in drawn.items():
        left = [wire for wire in pieces(wires) if seated.count(wire) < own.count(wire)]
        whole[way] = (found[way] if way in found else "+".join(left)) or None
        seated += left if way not in found else []
    return whole


def wire_on_sheet(circuit: Circuit, wire: str, *points: str) -> SheetWire:
    """A wire of the sheet that may end at some points of it. Raises NotOnSheet."""
    found = next((w for w in circuit.sheet.wires if w.id == wire), None)
    if found is None:
        raise NotOnSheet(f"{_said(wire)} is not a wire on this sheet.")
    for point in points:
        if point not in circuit.node_of:
            raise NotOnSheet(f"{_placed(circuit, point)} is not a place on this sheet.")
        if _on_part(circuit, point):
            seat = _placed(circuit, point.removesuffix(".b") + ".a")
            raise NotOnSheet(
                f"{_placed(circuit, point)} is the part's own side, where no wire ends. Choose {seat}."
            )
    if len({circuit.node_of[point] for point in points}) < len(points):
        raise NotOnSheet(f"Wire {wire} cannot begin and end at one place.")
    return found


def _on_part(circuit: Circuit, point: str) -> bool:
    """Whether a point is the half of a way that sits on a part."""
    owner, _, rest = point.partition(".")
    plug = circuit.connectors.get(owner)
    return plug is not None and any(rest == f"{way}.b" for way in plug.part_ways)


SPARE_WIRE = re.compile(rf"{SPARE}[A-Z/]{{0,8}}")
"""A wire that is not on the sheet: its colour in codes, or nothing where it has none to tell."""


def _placed(circuit: Circuit, place: str) -> str:
    """A place by the numbers that people see."""
    return _said(seen_point(circuit.connectors, place))


def _said(name: str) -> str:
    """A name from outside, short enough for a sentence."""
    return name[:40] if name else "nothing"
