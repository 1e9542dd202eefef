"""From what was built to a sheet: what is not known gets a value from the tables, marked as assumed, and
what is not drawn yet becomes an unknown stretch.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from footwell.parts import fuse
from footwell.parts.base import EARTH
from footwell.parts.twin_lamp import filaments
from footwell.reference import conductors, fuses, lamp_ratings, loads
from footwell.sheet.building.loom import PLUS, SIDES, Connector, Loom, Piece, joined
from footwell.sheet.building.recipes import RESISTOR_OHMS, WATTS, twin
from footwell.sheet.starter import SPEED_STEP_SHARE

CHARGED = 1.125
"""Voltage at work over the nominal one, as `parts.motor` and `parts.heater` take it."""

PINS_A_ROW = 12
MOTORS = ("motor", "reversing_motor")


class Closing:
    """A sheet of what stands. `finished` lets each open end behind a load lead to earth through an unknown
    stretch; else it stays open, as it is drawn while building."""

    def __init__(self, loom: Loom, finished: bool) -> None:
        self._loom, self._volts, self._finished = loom, loom.volts, finished
        self.fuse_of = _fuses(loom)
        self._pieces = list(loom.pieces.values())
        self._amps = {p.id: a for p in self._pieces if (a := self._own_amps(p)) is not None}
        self._share_fuses()

    def sheet(self, title: str, vehicle: str) -> dict[str, Any]:
        """The sheet as plain data, in the form that is read from files. `loads` may be empty."""
        parts = [self._part(piece) for piece in self._pieces]
        wires = [self._wire(name) for name in self._loom.wires]
        if self._finished:
            self._unseen(parts, wires)
        working = min(max(sum(self._amps.values()), 0.1), 300.0)
        return {
            "format": 1,
            "id": "built",
            "title": title,
            "vehicle": vehicle,
            "system_volts": self._volts,
            "summary": "Built from its wiring diagram.",
            "working_amps": round(working, 1),
            "loads": [piece.id for piece in self._pieces if piece.load][:12],
            "controls": [_control(p) for p in self._pieces if p.kind == "switch"][:8],
            "parts": parts,
            "connectors": [self._plug(each) for each in self._loom.plugs.values()],
            "wires": wires,
        }

    # ---- currents

    def _own_amps(self, piece: Piece) -> float | None:
        """Current (A) of a load by what is known of itself."""
        if piece.kind == "relay":
            return None
        if piece.kind == "horn":
            return _number(piece) or loads.HORN_AMPS[self._volts].value
        if piece.kind == "solenoid":
            return self._volts / (_number(piece) or self._volts**2 / loads.MAGNET_WATTS.value)
        number = _number(piece)
        lamp = twin(piece.code) if piece.kind == "twin_lamp" else None
        if lamp is not None:
            rows = (lamp_ratings.lamp(lamp.code, self._volts, f) for f in filaments(lamp))
            return sum(row.rated_watts for row in rows) / self._volts
        if piece.code:
            return _lamp(piece.code, self._volts).rated_watts / self._volts
        if not piece.load or number is None:
            return None
        return number if piece.kind in MOTORS else number / (self._volts * CHARGED)

    def _share_fuses(self) -> None:
        """Loads of which nothing is known share what their fuse carries for good; those without a known
        fuse take what is usual."""
        for piece in self._pieces:
            if not piece.load or piece.id in self._amps:
                continue
            usual = WATTS[piece.what] / (self._volts * CHARGED) if piece.what else 0.0
            rating = self._rating(piece) if piece.kind in (*MOTORS, "heater") else None
            if rating is not None:
                beside = [p for p in self._pieces if p.load and self._fuse(p) == self._fuse(piece)]
                rest = rating * fuses.CONTINUOUS_SHARE.value
                usual = max(
                    rest / len(beside), rest - sum(self._amps.get(p.id, rest) for p in beside)
                )
            self._amps[piece.id] = usual

    def _fuse(self, piece: Piece) -> str:
        return self.fuse_of.get(piece.point(piece.ways[0][0][0]), "")

    def _rating(self, piece: Piece) -> float | None:
        found = self._loom.pieces.get(self._fuse(piece))
        return _number(found) if found else None

    def behind(self, name: str) -> float:
        """Current (A) of all loads behind a fuse."""
        return sum(a for p, a in self._amps.items() if self._fuse(self._loom.pieces[p]) == name)

    # ---- elements

    def _part(self, piece: Piece) -> dict[str, Any]:
        values, assumed = self._values(piece)
        own = any(plug.part == piece.id for plug in self._loom.plugs.values())
        bare = [] if own or piece.kind in ("splice", "unknown_stretch") else piece.terminals
        used = {point for w in self._loom.wires.values() for point in (w.start, w.end)}
        spare = [t for t in piece.terminals if not own and piece.point(t) not in used]
        spare += ["link"] if piece.kind == "resistor_pack" else []
        open_here = {end.point for end in self._loom.ends} if self._finished else set()
        rows = {
            "values": values,
            "assumed": assumed,
            "at": piece.at,
            "probe": [t for t in bare if t != "link"],
            "spare": [t for t in spare if not self._is_closed(piece.point(t), open_here)],
            "hazards": list(_hazards(piece)),
        }
        name = (
            piece.name
            if piece.id in piece.name or piece.id in ("G1", "E0")
            else f"{piece.name} {piece.id}"
        )
        return {
            "id": piece.id,
            "kind": piece.kind,
            "name": name,
            **{key: value for key, value in rows.items() if value},
        }

    def _is_closed(self, point: str, open_here: set[str]) -> bool:
        return point in open_here and self.is_behind_load(point)

    def _values(self, piece: Piece) -> tuple[dict[str, Any], list[str]]:
        """A part's values, and which of them are assumed."""
        if piece.kind == "splice":
            return {"wires": piece.count}, []
        if piece.kind == "switch":
            return _switch(piece), []
        if piece.kind == "resistor_pack":
            return self._pack(piece)
        lamp = twin(piece.code) if piece.kind == "twin_lamp" else None
        if lamp is not None:
            return {"code": lamp.code}, [] if piece.code else ["code"]
        if piece.code:
            row = _lamp(piece.code, self._volts)
            return {"watts": round(row.typical_watts_at_test, 1), "volts": row.test_volts}, []
        known = piece.recipe.known if piece.recipe else ""
        value = _number(piece) or self._guess(piece)
        own = dict(piece.recipe.values) if piece.recipe else {}
        if not known or not value:
            return own, []
        assumed: list[str] = [] if piece.amount else [known]
        return {known: value, **own}, assumed

    def _guess(self, piece: Piece) -> float | None:
        """What is taken where nothing is known; None where the kind of part has its own usual value."""
        amps = self._amps.get(piece.id, 0.0)
        if piece.kind == "fuse":
            behind = self.behind(piece.id)
            return fuse.next_rating(behind) if behind else None
        if piece.kind == "resistor":
            return RESISTOR_OHMS
        if piece.kind in MOTORS:
            return round(amps, 1)
        if piece.kind in ("lamp", "led_lamp", "heater"):
            return round(amps * self._volts * CHARGED, 1)
        return None

    def _pack(self, piece: Piece) -> tuple[dict[str, Any], list[str]]:
        """Steps as told from the lowest speed on, the last one for all that were not."""
        told = [float(word) for word in piece.amount.split()]
        fan = next((p.id for p in self._pieces if p.kind == "motor"), "")
        steps = told or [round(SPEED_STEP_SHARE * self._volts / self._amps.get(fan, 8.0), 2)]
        values: dict[str, Any] = {"steps_ohms": (steps + steps[-1:] * piece.count)[: piece.count]}
        return values | ({"cooled_by": fan} if fan else {}), [] if told else ["steps_ohms"]

    def _wire(self, name: str) -> dict[str, Any]:
        wire = self._loom.wires[name]
        row: dict[str, Any] = {
            "id": name,
            "start": self.outside(wire.start),
            "end": self.outside(wire.end),
        }
        told = {"colour": wire.colour, "mm2": wire.mm2, "metres": wire.metres}
        row |= {key: value for key, value in told.items() if value is not None}
        found = self._loom.pieces.get(self.fuse_of.get(wire.start, ""))
        rating = _number(found) if found else None
        if wire.mm2 is None and rating is not None:
            row |= {"mm2": conductors.section_for_amps(rating), "assumed": ["mm2"]}
        return row

    def outside(self, point: str) -> str:
        """The way of the part's own plug in front of a terminal."""
        owner, _, terminal = point.partition(".")
        for plug in self._loom.plugs.values():
            if plug.part == owner:
                pin = plug.pins[self._loom.pieces[owner].terminals.index(terminal)]
                return f"{plug.id}.{pin}.a"
        return point

    def _plug(self, plug: Connector) -> dict[str, Any]:
        rows = [plug.pins[n : n + PINS_A_ROW] for n in range(0, len(plug.pins), PINS_A_ROW)]
        made: dict[str, Any] = {"id": plug.id, "rows": rows}
        used = {point for w in self._loom.wires.values() for point in (w.start, w.end)}
        closed = {
            e.point for e in self._loom.ends if self._finished and self.is_behind_load(e.point)
        }
        if plug.part:
            piece = self._loom.pieces[plug.part]
            points = dict(zip(plug.pins, map(piece.point, piece.terminals), strict=True))
            kind = "socket" if piece.kind == "relay" else "plug"
            made |= {
                "name": plug.name or f"{piece.name} {kind} {plug.id}",
                "half_a": "wire side",
                "half_b": piece.name,
                "part_ways": points,
            }
            spare = [pin for pin, point in points.items() if point not in used | closed]
        else:
            made |= {
                "name": plug.name or f"plug {plug.id}",
                "half_a": "near side",
                "half_b": "far side",
            }
            spare = [
                pin
                for pin, side in plug.entered.items()
                if any(f"{plug.id}.{pin}.{s}" not in used | closed for s in "ab")
            ]
        return made | ({"spare": spare} if spare else {}) | ({"at": plug.at} if plug.at else {})

    # ---- what is not drawn yet

    def is_behind_load(self, point: str) -> bool:
        return point not in joined(self._loom.carriers(), PLUS)

    def _unseen(self, parts: list[dict[str, Any]], wires: list[dict[str, Any]]) -> None:
        names = self._loom.names
        free = (f"U{n}" for n in range(1, 999) if f"U{n}" not in names)
        more = (f"W{n}" for n in range(1, 999) if f"W{n}" not in names)
        for end in self._loom.ends:
            if self.is_behind_load(end.point):
                name = next(free)
                title = f"way to earth not drawn {name}"
                parts.append({"id": name, "kind": "unknown_stretch", "name": title})
                wires.append(
                    {"id": next(more), "start": self.outside(end.point), "end": f"{name}.1"}
                )
                wires.append({"id": next(more), "start": f"{name}.2", "end": EARTH})


def _lamp(code: str, volts: int) -> lamp_ratings.Lamp:
    return lamp_ratings.lamp(code, volts)


def _number(piece: Piece) -> float | None:
    word = piece.amount.split()[:1]
    return float(word[0]) if word else None


def _hazards(piece: Piece) -> Iterator[str]:
    yield from piece.recipe.hazards if piece.recipe else ()
    if piece.kind == "battery":
        yield "battery"


def _switch(piece: Piece) -> dict[str, Any]:
    """Off, and one position for each outlet; a reversing switch lifts one outlet, the other rests on E."""
    if piece.what == "reversing switch":
        closes = {"0": [["1", "E"], ["2", "E"]]}
        closes |= {"1": [["B", "1"], ["2", "E"]], "2": [["1", "E"], ["B", "2"]]}
        return {"terminals": ["B", "E", "1", "2"], "closes": closes, "momentary": True}
    outlets = [t for t in piece.terminals if t != "B"]
    closes = {"0": list[list[str]]()}
    closes |= {t: [["B", t]] for t in outlets}
    return {"terminals": ["B", *outlets], "closes": closes}


def _control(piece: Piece) -> dict[str, Any]:
    on = {"1": "on"} if piece.count == 1 else {str(n + 1): str(n + 1) for n in range(piece.count)}
    named = {"0": "off", **on}
    if piece.what == "reversing switch":
        named = {"0": "released", "1": "one way", "2": "the other way"}
    return {
        "part": piece.id,
        "name": f"{piece.name} {piece.id}" if piece.id not in piece.name else piece.name,
        "off": "0",
        "positions": [{"id": key, "name": name} for key, name in named.items()],
    }


def _fuses(loom: Loom) -> dict[str, str]:
    """Point to the nearest fuse that its current has come through, "" where none."""
    ahead: dict[str, list[str]] = {}
    for one, other in _onwards(loom):
        ahead.setdefault(one, []).append(other)
    found, left = {PLUS: ""}, [PLUS]
    while left:
        here = left.pop(0)
        piece = loom.pieces.get(loom.owner(here))
        through = piece.id if piece and piece.kind == "fuse" else found[here]
        for after in ahead.get(here, ()):
            if after not in found:
                found[after] = through
                left.append(after)
    return found


def _onwards(loom: Loom) -> Iterator[tuple[str, str]]:
    """Pairs of points, each with the one to which its current goes on."""
    for wire in loom.wires.values():
        yield wire.start, wire.end
    for plug in loom.plugs.values():
        for pin, side in plug.entered.items():
            yield f"{plug.id}.{pin}.{side}", f"{plug.id}.{pin}.{SIDES[side]}"
    for piece in loom.pieces.values():
        pairs = [(c, leave) for comes, leaves in piece.ways for c in comes for leave in leaves]
        if piece.kind == "splice":
            pairs = [(a, b) for a in piece.terminals for b in piece.terminals if a != b]
        if piece.kind != "battery":
            yield from ((piece.point(come), piece.point(leave)) for come, leave in pairs)
