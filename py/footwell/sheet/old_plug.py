"""As it should be, read off the old plug or off the half that it meets: which colour is in which way.

A wire is what the sheet says it is; where it sits and its colour follow the plug. A colour that the sheet
has in another way brings its wire along, and what the way is joined to on the other half with it: so a
way stays the place that was touched, and a sound plug stays sound.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import partial

from footwell.reference.colours import parse_wire_colour
from footwell.sheet.errors import ChangeError
from footwell.sheet.models import Sheet, SheetConnector, SheetWire
from footwell.sheet.places import short
from footwell.sheet.points import HALVES, HalfId, bundles, number, way_point, ways

UNKNOWN = ""
"""Stands for a colour that cannot be told, on the sheet or on the plug."""

Colours = tuple[str, ...]
"""Codes of the wires in one way, sorted."""


@dataclass(frozen=True, slots=True)
class ReadOff:
    """The sheet as the plug has it, what that changes in sentences, and colours in ways for which the
    sheet has no wire."""

    sheet: Sheet
    notices: tuple[str, ...]
    moved: bool
    unlisted: Mapping[str, str]


@dataclass
class _Seated:
    """What the sheet has in a way: its wires, and the way of the plug in which they were found."""

    way: str
    wires: list[SheetWire]
    found_in: str = ""

    @property
    def colours(self) -> Colours:
        return tuple(sorted(wire.colour or UNKNOWN for wire in self.wires))

    @property
    def known(self) -> bool:
        return UNKNOWN not in self.colours

    @property
    def named(self) -> str:
        return " + ".join(f"{w.colour} ({w.id})" if w.colour else w.id for w in self.wires)


def read_off(sheet: Sheet, half: HalfId, colours: Mapping[str, str | None]) -> ReadOff:
    """The sheet after a plug was read: way to colours, joined by "+"; "" is a wire whose colour cannot be
    told, None an empty way. Ways that nobody spoke of stay. Raises ChangeError with a sentence."""
    plug = next((each for each in sheet.connectors if each.id == half[0]), None)
    if plug is None:
        raise _refused(half[0], "is no connector on this sheet")
    match = _Match(sheet, plug, half, _codes(plug, colours))
    match.all()
    target = _target(plug, match)
    moved = any(way != end for way, end in target.items())
    after = _rewired(sheet, plug, target) if moved else sheet
    unlisted = {way: "+".join(codes) for way, codes in match.open.items()}
    notices = [*_notices(match), *_kept(match, colours)]
    if moved:
        notices.append(
            "The way numbers of the sheet follow the plug from now on, on both halves: a reading taken "
            "here before stays at the way it was taken at."
        )
    return ReadOff(_painted(after, match), tuple(notices), moved, unlisted)


def _refused(name: str, why: str) -> ChangeError:
    return ChangeError(name, "old plug", f"{short(name, 40)} {why}.")


def _codes(plug: SheetConnector, colours: Mapping[str, str | None]) -> dict[str, Colours]:
    """The codes read in each way that holds a wire."""
    read: dict[str, Colours] = {}
    for way, text in colours.items():
        if way not in ways(plug):
            known = ", ".join(number(plug, each) for each in ways(plug))
            raise _refused(plug.id, f"has no way {short(way, 8)}; its ways are {known}")
        if text is not None:
            read[way] = tuple(sorted(_code(plug, way, piece) for piece in text.split("+")))
    return read


def _code(plug: SheetConnector, way: str, text: str) -> str:
    try:
        return str(parse_wire_colour(text)) if text else UNKNOWN
    except ValueError as error:
        raise ChangeError(
            plug.id, "old plug", f"Way {number(plug, way)}: {short(str(error))}"
        ) from None


class _Match:
    """Which of the sheet's wires is which of the plug's; `open` are ways whose wires are still unknown."""

    def __init__(
        self, sheet: Sheet, plug: SheetConnector, half: HalfId, read: dict[str, Colours]
    ) -> None:
        by_id = {wire.id: wire for wire in sheet.wires}
        drawn = bundles(sheet, half)
        self.plug, self.read = plug, read
        self.seated = [
            _Seated(way, [by_id[name] for name in drawn[way].split("+")])
            for way in ways(plug)
            if way in drawn
        ]
        self.open = dict(read)

    @property
    def left(self) -> list[_Seated]:
        return [each for each in self.seated if not each.found_in]

    def all(self) -> None:
        """From what is sure to what is likely: the same colours in the same way, the same colours in
        another, another colour in the same way, the one that is left over."""
        for each in self.left:
            if each.known and self.open.get(each.way) == each.colours:
                self._pair(each, each.way)
        for each in self.left:
            same = [way for way, codes in self.open.items() if codes == each.colours]
            if same and each.known:
                self._pair(each, same[0])
        for each in self.left:
            if each.way in self.open:
                self._pair(each, each.way)
        self._last()

    @property
    def twice(self) -> set[Colours]:
        """Colours of several ways of which not all are where the sheet has them."""
        found = [each.colours for each in self.seated if each.known and each.found_in]
        moved = {each.colours for each in self.seated if each.found_in not in ("", each.way)}
        return {codes for codes in moved if found.count(codes) > 1}

    def _pair(self, each: _Seated, way: str) -> None:
        if len(each.wires) != len(self.open[way]):
            raise ChangeError(
                self.plug.id,
                "old plug",
                f"Way {number(self.plug, way)}: the sheet has {_counted(len(each.wires))} there "
                f"({each.named}), the plug {_counted(len(self.open[way]))}. Two wires in one way are right "
                "only where both are crimped into its terminal: look again, or put the splice in under "
                "Circuit first.",
            )
        each.found_in = way
        del self.open[way]

    def _last(self) -> None:
        """Wires whose way holds another wire, and ways that are left: one of each belong together."""
        lost = [each for each in self.left if each.way in self.read or not each.known]
        if len(lost) == 1 and len(self.open) == 1:
            self._pair(lost[0], next(iter(self.open)))
        elif lost and self.open:
            told = [
                f"{number(self.plug, way)} ({'+'.join(codes) or 'no colour to tell'})"
                for way, codes in self.open.items()
            ]
            raise ChangeError(
                self.plug.id,
                "old plug",
                f"Ways {', '.join(told)} hold wires that may be any of {_listed(lost)}. Give these their "
                "colours under Circuit first, or follow them to their other ends.",
            )
        elif any(each.way in self.read for each in lost):
            raise ChangeError(
                self.plug.id,
                "old plug",
                f"{_listed(lost)} of the sheet is in no way of the plug, and another wire sits where the "
                "sheet has it. Look at the ways that are empty again.",
            )


def _counted(wires: int) -> str:
    return "1 wire" if wires == 1 else f"{wires} wires"


def _listed(seated: list[_Seated]) -> str:
    return ", ".join(each.named for each in seated)


def _target(plug: SheetConnector, match: _Match) -> dict[str, str]:
    """Each way of the sheet with the way in which its wires are from now on."""
    target = {each.way: each.found_in or each.way for each in match.seated}
    free = [way for way in ways(plug) if way not in target.values()]
    rest = [way for way in ways(plug) if way not in target]
    for way in [way for way in rest if way in free]:
        target[way] = way
        free.remove(way)
    target |= dict(zip((way for way in rest if way not in target), free, strict=True))
    return target


def _rewired(sheet: Sheet, plug: SheetConnector, target: Mapping[str, str]) -> Sheet:
    moved = {
        way_point(plug.id, way, side): way_point(plug.id, end, side)
        for way, end in target.items()
        for side in HALVES
    }
    wires = [
        wire.model_copy(
            update={
                "start": moved.get(wire.start, wire.start),
                "end": moved.get(wire.end, wire.end),
            }
        )
        for wire in sheet.wires
    ]
    changed: dict[str, object] = {}
    if plug.part_ways:
        changed["part_ways"] = {target[way]: point for way, point in plug.part_ways.items()}
    if plug.spare:
        changed["spare"] = [target[way] for way in plug.spare]
    plugs = [plug.model_copy(update=changed) if each is plug else each for each in sheet.connectors]
    return sheet.model_copy(update={"wires": wires, "connectors": plugs})


def _painted(sheet: Sheet, match: _Match) -> Sheet:
    colours = dict(_new_colours(match))
    if not colours:
        return sheet
    wires = [
        wire.model_copy(update={"colour": colours[wire.id]}) if wire.id in colours else wire
        for wire in sheet.wires
    ]
    return sheet.model_copy(update={"wires": wires})


def _new_colours(match: _Match) -> Iterator[tuple[str, str]]:
    """Wires that have another colour on the plug than on the sheet, each with it."""
    for each in match.seated:
        codes = list(match.read.get(each.found_in, ()))
        unlike: list[SheetWire] = []
        for wire in each.wires:
            if wire.colour in codes:
                codes.remove(wire.colour)
            else:
                unlike.append(wire)
        for wire, code in zip(unlike, codes, strict=False):
            if code != UNKNOWN:
                yield wire.id, code


def _notices(match: _Match) -> Iterator[str]:
    """What the plug has otherwise than the sheet."""
    colours, seen = dict(_new_colours(match)), partial(number, match.plug)
    for each in match.seated:
        if each.found_in and each.found_in != each.way:
            there, drawn = seen(each.found_in), seen(each.way)
            yield f"{each.named} is in way {there}; the sheet has it in way {drawn}."
        for wire in each.wires:
            if wire.id in colours:
                before = wire.colour or "no colour"
                yield f"Way {seen(each.found_in)}: {wire.id} is {colours[wire.id]}; the sheet has {before}."
    for codes in sorted(match.twice):
        yield (
            f"More than one wire is {'+'.join(codes)}. They are taken in the order of the sheet: follow each "
            "to its other end before you rely on it."
        )
    for way, codes in match.open.items():
        named = "+".join(codes) or "a wire with no colour to tell"
        yield (
            f"Way {seen(way)} holds {named}, for which the sheet has no wire. It belongs there all the "
            "same."
        )


def _kept(match: _Match, colours: Mapping[str, str | None]) -> Iterator[str]:
    """Wires of the sheet whose way was seen to be empty."""
    for each in match.left:
        if each.way in colours:
            way = number(match.plug, each.way)
            yield f"{each.named} of the sheet was not seen in the plug. It stays in way {way}."
