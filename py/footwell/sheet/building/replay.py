"""From the steps of building to what stands: one small act for each step, the same every time.

A step that cannot be is left out and told; so undoing is dropping the last step, and nothing is lost.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import Any, get_args

from footwell.parts.base import EARTH
from footwell.parts.twin_lamp import Code, filaments
from footwell.reference import lamp_ratings
from footwell.reference.colours import parse_wire_colour
from footwell.reference.conductors import LARGEST_MM2, SMALLEST_MM2
from footwell.sheet.building.loom import PLUS, SIDES, Connector, End, Loom, Piece, joined
from footwell.sheet.building.recipes import RECIPES, twin, ways_of
from footwell.sheet.building.steps import (
    Change,
    Clear,
    Copy,
    Earth,
    Go,
    Join,
    Plug,
    Put,
    Split,
    Step,
)
from footwell.sheet.errors import ChangeError

MOST_PINS = 60
TWINS = get_args(Code)


@dataclass
class Done:
    """A step with the parts, plugs and wires it made."""

    step: Step
    made: list[str] = field(default_factory=list)


@dataclass
class Built:
    """What stands, and what was said of steps that could not be, by their number."""

    loom: Loom
    refused: dict[int, str] = field(default_factory=dict)
    done: list[Done] = field(default_factory=list)


MOST_REFUSED = 20
"""Steps that cannot be, after which the rest is not looked at."""


def built(steps: Sequence[Step], volts: int = 12) -> Built:
    """Replay all steps from the last `Clear` on, for a vehicle of a nominal voltage."""
    start = next((n + 1 for n in reversed(range(len(steps))) if isinstance(steps[n], Clear)), 0)
    so_far = Built(Loom(volts))
    for number, step in enumerate(steps[start:], start):
        try:
            _do(so_far, step)
        except ChangeError as refused:
            # Half of it may stand already: what stood before is made anew.
            refusals = {**so_far.refused, number: refused.sentence}
            so_far = _again_from([done.step for done in so_far.done], refusals, volts)
            if len(refusals) >= MOST_REFUSED:
                break
    return so_far


def _again_from(steps: list[Step], refused: dict[int, str], volts: int) -> Built:
    so_far = Built(Loom(volts), refused)
    for step in steps:
        _do(so_far, step)
    return so_far


def _do(so_far: Built, step: Step) -> None:
    before = so_far.loom.names
    _ACTS[type(step)](so_far, step)
    so_far.done.append(Done(step, _made(so_far.loom, before)))


def _made(loom: Loom, before: set[str]) -> list[str]:
    """Names that are new, parts first, then plugs, then wires."""
    return [n for n in (*loom.pieces, *loom.plugs, *loom.wires) if n not in before]


def _lead(loom: Loom, end: End, to: str) -> None:
    """A wire from an open end to a point."""
    loom.wire(loom.meeting(end.point), to)


def _put(so_far: Built, step: Put) -> None:
    loom, recipe = so_far.loom, RECIPES[step.what]
    name = loom.name(step.id, recipe.letter)
    if step.what == "twin-filament lamp" and twin(step.code) is None:
        raise loom.refuse(step.code, f"has not two filaments; those that have: {', '.join(TWINS)}")
    ways = ways_of(step.what, step.ways, step.turned, step.code)
    amount = "" if step.amount is None else f"{step.amount:g}"
    piece = Piece(
        name,
        recipe.kind,
        step.name or recipe.name,
        ways,
        step.what,
        step.ways,
        step.turned,
        amount,
        step.code,
    )
    _known_code(loom, piece)
    loom.add(piece)
    if recipe.plug:
        _own_plug(loom, piece, recipe.by_name)
    come, _ = ways[0]
    ends = loom.group()[: len(come)]
    place = loom.take(ends)
    for end, terminal in zip(ends, come, strict=False):
        _lead(loom, end, piece.point(terminal))
    _enter(loom, piece, 0, come[: len(ends)], place)
    behind = place + len(ways[0][1])
    loom.open((piece.point(t) for come, leave in ways if not come for t in leave), behind)


def _known_code(loom: Loom, piece: Piece) -> None:
    lamp = twin(piece.code) if piece.kind == "twin_lamp" else None
    if piece.code and piece.kind != "lamp" and lamp is None:
        raise loom.refuse(piece.id, "is no lamp with such a code")
    if lamp is not None and filaments(lamp) != piece.ways[0][0]:
        raise loom.refuse(
            piece.id, "has other filaments than that lamp. Undo it, and put in the right one"
        )
    try:
        for filament in filaments(lamp) if lamp else [""] if piece.code else []:
            lamp_ratings.lamp(lamp.code if lamp else piece.code, loom.volts, filament)
    except ValueError as error:
        raise ChangeError(piece.id, "code", str(error)) from None


def _own_plug(loom: Loom, piece: Piece, by_name: bool) -> None:
    pins = piece.terminals if by_name else [str(n + 1) for n in range(len(piece.terminals))]
    wanted = f"X{piece.id}"[:24]
    loom.connect(Connector(loom.free("X") if wanted in loom.names else wanted, pins, piece.id))


def _enter(loom: Loom, piece: Piece, way: int, inlets: Sequence[str], place: int) -> None:
    """Current comes to inlets of a path: its outlets open, once."""
    come, leave = piece.ways[way]
    first = not any(t in piece.fed for t in come)
    piece.fed += inlets
    if first:
        loom.open((piece.point(t) for t in leave), place)
        loom.at = piece.point(leave[0])
    else:
        loom.next()


def _plug(so_far: Built, step: Plug) -> None:
    loom = so_far.loom
    plug = loom.plugs.get(step.id)
    if plug is None:
        plug = loom.connect(Connector(loom.name(step.id, "X"), _pins(loom, step)))
    elif plug.part:
        raise loom.refuse(plug.id, f"sits on {loom.called(plug.part)}; no wire goes through it")
    elif step.pins:
        plug.pins += [pin for pin in _pins(loom, step) if pin not in plug.pins]
    if step.wires:
        _into_wires(loom, plug, step)
        return
    ends = loom.group() if step.together else loom.group()[:1]
    for end, pin in zip(ends, _free_pins(loom, plug, len(ends), step.way), strict=True):
        _through(loom, plug, pin, end)


def _through(loom: Loom, plug: Connector, pin: str, end: End) -> None:
    """A wire comes in by the half that lies on its own side."""
    side = SIDES[_left_by(loom, plug, end.point)]
    plug.entered[pin] = side
    _lead(loom, end, f"{plug.id}.{pin}.{side}")
    out = f"{plug.id}.{pin}.{SIDES[side]}"
    if end in loom.ends:
        loom.ends[loom.ends.index(end)] = End(out, end.group)
    else:
        loom.open([out])
    if loom.at == end.point:
        loom.at = out


def _left_by(loom: Loom, plug: Connector, point: str) -> str:
    """The half on the other side of the plug, seen from a point: "b" unless what leads to the point
    left the plug by its half b."""
    behind: dict[str, list[str]] = {}
    for wire in loom.wires.values():
        behind.setdefault(wire.end, []).append(wire.start)
    seen, left = {point}, [point]
    while left:
        here = left.pop(0)
        owner, _, rest = here.partition(".")
        if owner == plug.id:
            return "a" if rest.endswith("b") else "b"
        for before in [*behind.get(here, ()), *_inside(loom, here)]:
            if before not in seen:
                seen.add(before)
                left.append(before)
    return "b"


def _inside(loom: Loom, point: str) -> list[str]:
    """Where the current came in that leaves a part or a plug at a point."""
    owner, _, rest = point.partition(".")
    piece = loom.pieces.get(owner)
    if piece and piece.kind == "splice":
        return [piece.point(t) for t in piece.terminals]
    if piece:
        return [piece.point(c) for come, leave in piece.ways if rest in leave for c in come]
    return [f"{owner}.{rest[:-1]}{SIDES[rest[-1]]}"] if owner in loom.plugs else []


def _into_wires(loom: Loom, plug: Connector, step: Plug) -> None:
    wires = [loom.wires.get(name) for name in dict.fromkeys(step.wires)]
    if None in wires:
        raise loom.refuse(step.wires[wires.index(None)], "is no wire of this circuit")
    pins = _free_pins(loom, plug, len(wires), step.way)
    for wire, pin in zip(wires, pins, strict=True):
        assert wire is not None
        side = SIDES[_left_by(loom, plug, wire.start)]
        plug.entered[pin] = side
        far = loom.wire(f"{plug.id}.{pin}.{SIDES[side]}", wire.end, wire)
        if wire.metres:
            wire.metres = far.metres = wire.metres / 2
        wire.end = f"{plug.id}.{pin}.{side}"


def _free_pins(loom: Loom, plug: Connector, wanted: int, first: str) -> list[str]:
    if first and first not in plug.pins:
        raise loom.refuse(plug.id, f"has no way {first}; its ways are {', '.join(plug.pins)}")
    if first in plug.entered:
        raise loom.refuse(
            f"Way {first} of {plug.id}",
            "has a wire already, and two wires do not go through one way. Take another way, or join the "
            "two wires before the plug",
        )
    start = plug.pins.index(first) if first else 0
    free = [pin for pin in plug.pins[start:] if pin not in plug.entered]
    if len(free) < wanted:
        raise loom.refuse(
            plug.id,
            f"has {len(free) or 'no'} free way{'s' * (len(free) != 1)} for {wanted} "
            f"wire{'s' * (wanted != 1)}. Give it more ways, or take one wire alone",
        )
    return free[:wanted]


def _pins(loom: Loom, step: Plug) -> list[str]:
    """The ways that are named in bulk: "6", "1-4, 7", "30 87 86 85"."""
    words = re.split(r"[,;\s]+", step.pins.strip()) if step.pins.strip() else []
    if not words:
        words = [str(len(step.wires) or (len(loom.group()) if step.together else 1))]
    if len(words) == 1 and words[0].isdigit():
        words = [f"1-{words[0]}"]
    pins = [pin for word in words for pin in _run(word)]
    wrong = next((pin for pin in pins if not re.fullmatch(r"[A-Za-z0-9+-]{1,8}", pin)), None)
    if wrong is not None or not 1 <= len(pins) <= MOST_PINS:
        raise loom.refuse(
            f'"{step.pins}"',
            'does not name ways. Write how many there are ("6"), or their names ("1-4, 7"); at most 60',
        )
    doubled = next((pin for pin in pins if pins.count(pin) > 1), None)
    if doubled is not None:
        raise loom.refuse(f"Way {doubled}", "is named twice; each way has a number of its own")
    return pins


def _run(word: str) -> list[str]:
    run = re.fullmatch(r"([A-Za-z]?)(\d{1,3})-\1(\d{1,3})", word)
    if not run:
        return [word]
    letter, first, last = run.groups()
    return [f"{letter}{n}" for n in range(int(first), int(last) + 1)][: MOST_PINS + 1]


def _split(so_far: Built, step: Split) -> None:
    loom = so_far.loom
    end = loom.group()[0]
    if loom.is_post(end.point):
        raise loom.refuse(
            loom.place(end.point),
            "takes any number of wires: begin each branch there, without a split",
        )
    place = loom.take([end])
    splice = loom.splice(step.branches + 1)
    _lead(loom, end, splice.point("1"))
    loom.open((splice.point(t) for t in splice.ways[0][1]), place)
    loom.at = splice.point("2")


def _earth(so_far: Built, step: Earth) -> None:
    loom = so_far.loom
    piece = loom.pieces.get(step.id)
    if piece is None:
        name = loom.name(step.id, "E")
        piece = loom.add(Piece(name, "earth_point", f"earth point {name}", ((("1",), ()),)))
    _finish(loom, piece.point("1"))


def _join(so_far: Built, step: Join) -> None:
    _finish(so_far.loom, so_far.loom.known(step.to))


def _finish(loom: Loom, to: str) -> None:
    """A wire from the end in hand to a point where something is."""
    end = loom.group()[0]
    if to == PLUS:
        raise loom.refuse(
            "The battery's plus", "is where the current comes from; it cannot end there"
        )
    here, there = loom.place(end.point), loom.place(to)
    if here == there:
        raise loom.refuse(here, "is where this wire begins; it ends somewhere else")
    if to in joined(loom.conductors(), end.point):
        raise loom.refuse(
            f"{here} and {there}",
            "are joined already: this wire would close a ring through which current goes round past "
            "every load. Leave it out, or choose where it really ends",
        )
    place = loom.take([end, *(each for each in loom.ends if each.point == to)])
    _lead(loom, end, loom.meeting(to))
    if EARTH in joined(loom.carriers(), PLUS):
        raise loom.refuse(
            here,
            "would lead straight to earth, with no load between, and the fuse would blow. Put the load in "
            "first",
        )
    piece = loom.pieces.get(loom.owner(to))
    terminal = to.partition(".")[2]
    way = (
        next((n for n, (come, _) in enumerate(piece.ways) if terminal in come), -1) if piece else -1
    )
    if piece and way >= 0 and piece.ways[way][1] and terminal not in piece.fed:
        _enter(loom, piece, way, [terminal], place)
    else:
        loom.next()


def _go(so_far: Built, step: Go) -> None:
    loom = so_far.loom
    point = loom.known(step.to)
    piece = loom.pieces.get(loom.owner(point))
    unfed = piece and piece.terminals and not loom.at_point(point) and not _is_open(loom, point)
    if point == EARTH or (piece and piece.kind == "earth_point"):
        raise loom.refuse(
            loom.place(point), "is where the current ends; nothing goes on from there"
        )
    if unfed and point != PLUS:
        raise loom.refuse(
            loom.place(point), "is not fed yet. Go on from what feeds it, and let the wire end here"
        )
    loom.at = point


def _is_open(loom: Loom, point: str) -> bool:
    return any(end.point == point for end in loom.ends)


def _copy(so_far: Built, step: Copy) -> None:
    """The steps that made the branch, once more."""
    renamed: dict[str, str] = {}
    for done in _branch(so_far, _beginning(so_far, step.of)):
        loom, before = so_far.loom, so_far.loom.names
        again = _again(done.step, step.own_earth, renamed, so_far)
        if again is not None:
            _ACTS[type(again)](so_far, again)
            renamed |= _pairs(loom, done.made, _made(loom, before))


def _beginning(so_far: Built, name: str) -> int:
    """The step that put a part, also where it is a copy itself."""
    for number, done in enumerate(so_far.done):
        if name in done.made and isinstance(done.step, Copy):
            return _beginning(so_far, done.step.of)
        if name in done.made and isinstance(done.step, Put):
            return number
    raise so_far.loom.refuse(name, "does not begin a branch that can be copied")


def _pairs(loom: Loom, old: list[str], new: list[str]) -> dict[str, str]:
    """Each thing of a branch and the one made like it; a splice and its wire may have come first."""
    found: dict[str, str] = {}
    for rows in (loom.pieces, loom.plugs, loom.wires):
        kept = [[n for n in names if n in rows and n[:2] != "SP"] for names in (old, new)]
        found |= dict(zip(reversed(kept[0]), reversed(kept[1]), strict=False))
    return found


def _branch(so_far: Built, first: int) -> list[Done]:
    rows: list[Done] = []
    for done in so_far.done[first:]:
        if isinstance(done.step, Split):
            raise so_far.loom.refuse(
                so_far.done[first].made[0], "leads to a split. Copy each branch behind it by itself"
            )
        if isinstance(done.step, Go | Copy):
            break
        rows.append(done)
        if isinstance(done.step, Earth | Join):
            break
    own = {name for done in rows for name in done.made}
    later = [
        done
        for done in so_far.done
        if isinstance(done.step, Change) and done.step.element in own and done not in rows
    ]
    return rows + later


def _again(step: Step, own_earth: bool, renamed: dict[str, str], so_far: Built) -> Step | None:
    if isinstance(step, Put):
        return step.model_copy(update={"id": ""})
    if isinstance(step, Plug):
        plug = so_far.loom.plugs.get(step.id)
        free = plug and len(plug.pins) > len(plug.entered)
        return step.model_copy(update={"id": step.id if free else "", "way": "", "together": False})
    if isinstance(step, Earth) and own_earth:
        return Earth()
    if isinstance(step, Earth):
        made = next((d.made for d in so_far.done if d.step is step), [])
        point = next((n for n in made if n in so_far.loom.pieces), step.id)
        return Earth(id=point)
    if isinstance(step, Change):
        element = renamed.get(step.element)
        kept = step.field not in ("id", "name", "pins")
        return step.model_copy(update={"element": element}) if element and kept else None
    return step


def _change(so_far: Built, step: Change) -> None:
    loom, name, value = so_far.loom, step.element, step.value.strip()
    if name not in {*loom.pieces, *loom.plugs, *loom.wires}:
        raise loom.refuse(name, "is no part, plug or wire of this circuit")
    if step.field == "id":
        _rename(so_far, name, value)
    elif name in loom.wires:
        _change_wire(loom, name, step.field, value)
    elif name in loom.plugs:
        _change_plug(loom, loom.plugs[name], step.field, value)
    else:
        _change_piece(loom, loom.pieces[name], step.field, value)


def _change_wire(loom: Loom, name: str, what: str, value: str) -> None:
    wire = loom.wires[name]
    if what == "colour":
        try:
            wire.colour = str(parse_wire_colour(value)) if value else None
        except ValueError as error:
            raise ChangeError(name, what, str(error)) from None
    elif what in ("mm2", "metres"):
        most = LARGEST_MM2 if what == "mm2" else 60.0
        setattr(wire, what, _number(loom, value, SMALLEST_MM2 if what == "mm2" else 0.01, most))
    else:
        raise loom.refuse(name, f"is a wire, which has no {what}")


def _change_plug(loom: Loom, plug: Connector, what: str, value: str) -> None:
    if what in ("name", "at"):
        setattr(plug, what, value)
        return
    if what != "pins":
        raise loom.refuse(plug.id, f"is a plug, which has no {what}")
    pins = _pins(loom, Plug(pins=value, wires=[]))
    used = plug.pins if plug.part else [p for p in plug.pins if p in plug.entered]
    if len(pins) < len(used):
        raise loom.refuse(plug.id, f"has {len(used)} ways in use; name at least so many")
    named = dict(zip(used, pins, strict=False))
    moved = {f"{plug.id}.{p}.{s}": f"{plug.id}.{named[p]}.{s}" for p in used for s in SIDES}
    plug.entered = {named[p]: side for p, side in plug.entered.items()}
    plug.pins = pins[: len(used)] if plug.part else pins
    if not plug.part:
        _move(loom, lambda point: moved.get(point, point))


def _change_piece(loom: Loom, piece: Piece, what: str, value: str) -> None:
    if what in ("name", "at"):
        setattr(piece, what, value or piece.name if what == "name" else value)
    elif what == "amount":
        for word in value.split():
            _number(loom, word, 0.001, 5000.0)
        piece.amount, piece.code = value.replace(",", "."), ""
    elif what == "code":
        piece.code = value
        _known_code(loom, piece)
    else:
        raise loom.refuse(piece.id, f"has no {what}")


def _number(loom: Loom, value: str, least: float, most: float) -> float | None:
    if not value:
        return None
    try:
        number = float(value.replace(",", "."))
    except ValueError:
        raise loom.refuse(
            f'"{value}"', "is no number. Write it with digits and one decimal mark"
        ) from None
    if not least <= number <= most:
        raise loom.refuse(value, f"cannot be: it must lie between {least:g} and {most:g}")
    return number


def _rename(so_far: Built, old: str, new: str) -> None:
    loom = so_far.loom
    if new == old:
        return
    loom.name(new or "?", re.sub(r"\d+$", "", old))
    for rows in (loom.pieces, loom.plugs, loom.wires):
        if old in rows:
            renamed: dict[str, Any] = {new if k == old else k: v for k, v in rows.items()}
            rows.clear()
            rows.update(renamed)
            rows[new].id = new
    for plug in loom.plugs.values():
        plug.part = new if plug.part == old else plug.part
    for piece in loom.pieces.values():
        piece.name = re.sub(rf"\b{re.escape(old)}$", new, piece.name)
    loom.notes = {
        new if k == old else k: v.replace(f"{old}:", f"{new}:") for k, v in loom.notes.items()
    }
    for done in so_far.done:
        done.made = [new if n == old else n for n in done.made]
    _move(loom, lambda point: re.sub(rf"^{re.escape(old)}\.", f"{new}.", point))


def _move(loom: Loom, named: Callable[[str], str]) -> None:
    for wire in loom.wires.values():
        wire.start, wire.end = named(wire.start), named(wire.end)
    loom.ends = [End(named(end.point), end.group) for end in loom.ends]
    loom.at = named(loom.at)


_ACTS: dict[type[Any], Callable[[Built, Any], None]] = {
    Put: _put,
    Plug: _plug,
    Split: _split,
    Earth: _earth,
    Join: _join,
    Go: _go,
    Copy: _copy,
    Change: _change,
}
