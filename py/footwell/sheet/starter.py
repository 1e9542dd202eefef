"""A sheet to begin with where there is no diagram: what must be there, and unknown stretches between.

Four answers make it: the kind of load, the nominal voltage, the control's positions, a relay or none.
What can be reached in any vehicle stands on it: battery, the control's plug, the relay's socket, the
load's plug, the body. Every figure in it is marked as assumed.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any, Literal

LoadKind = Literal[
    "fan", "lamp", "pump", "heater", "lock or window", "horn", "starter", "sensor", "other"
]


@dataclass(frozen=True, slots=True)
class Usual:
    """The load of a starter sheet: kind of part, its two terminals, its power (W) as a rule."""

    kind: str
    name: str
    watts: float
    plus: str = "+"
    minus: str = "-"
    hazards: tuple[str, ...] = ()
    rated: Literal["amps", "watts", ""] = "amps"
    values: Mapping[str, Any] = field(default_factory=dict)


USUAL: Mapping[LoadKind, Usual] = {
    "fan": Usual("motor", "fan motor", 150, hazards=("moving fan",)),
    "lamp": Usual("lamp", "lamp", 21, "1", "2", rated="watts"),
    "pump": Usual("motor", "pump motor", 70, values={"load": "steady"}),
    "heater": Usual("heater", "heater", 150, hazards=("hot part",), rated="watts"),
    "lock or window": Usual("reversing_motor", "motor", 80, hazards=("moving lock",)),
    "horn": Usual("horn", "horn", 60),
    "starter": Usual("motor", "starter motor", 2000, hazards=("battery",)),
    "sensor": Usual(
        "module_input", "sensor signal", 5, rated="", values={"ohms": 100_000, "reads": "sensor"}
    ),
    "other": Usual("solenoid", "coil of the load", 20, "1", "2", rated=""),
}
"""Power of a usual load of each kind (common practice, no source)."""

SPEED_STEP_SHARE = 0.4
"""Resistance of one step of a fan's resistor pack, as a share of the motor's volts over its amps
(common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Wanted:
    """The four answers. `positions` counts the control's positions, off among them."""

    load: LoadKind
    volts: Literal[12, 24] = 12
    positions: int = 2
    relay: bool = False


def starter_sheet(wanted: Wanted) -> dict[str, Any]:
    """The sheet as plain data, in the form that is read from files."""
    return _Maker(wanted).sheet()


class _Maker:
    """Puts a sheet together along the current."""

    def __init__(self, wanted: Wanted) -> None:
        self._wanted, self._usual = wanted, USUAL[wanted.load]
        self._amps = round(self._usual.watts / (wanted.volts * 1.1), 1)
        self._parts: list[dict[str, Any]] = []
        self._connectors: list[dict[str, Any]] = []
        self._wires: list[dict[str, Any]] = []
        self._stretches = 0
        self._sensors: list[dict[str, Any]] = []
        self._complaints: list[dict[str, Any]] = []

    def sheet(self) -> dict[str, Any]:
        self._part("G1", "battery", "battery", minutes=3, probe=["+", "-"], hazards=["battery"])
        self._part("E0", "earth_point", "battery earth", minutes=3, probe=["1"])
        self._wire("G1.-", "E0.1")
        if self._wanted.load == "sensor":
            self._by_control_unit()
            return self._whole()
        self._add_load()
        if self._wanted.load == "lock or window":
            self._both_ways()
        elif self._wanted.load == "starter":
            self._by_solenoid()
        elif self._wanted.relay:
            self._by_relay()
        else:
            self._by_switch()
        return self._whole()

    def _whole(self) -> dict[str, Any]:
        return {
            "format": 1,
            "id": "starter-" + self._wanted.load.replace(" ", "-"),
            "title": f"{self._usual.name[:1].upper()}{self._usual.name[1:]}, without a diagram",
            "vehicle": f"Vehicle, {self._wanted.volts} V",
            "system_volts": self._wanted.volts,
            "summary": "Begun without a diagram: what lies between the places named is not known yet. "
            "Every figure is assumed.",
            "working_amps": min(self._amps, 300.0),
            "loads": ["M1"],
            "controls": [self._control(), *self._sensors],
            "parts": self._parts,
            "connectors": self._connectors,
            "wires": self._wires,
            "complaints": self._complaints,
        }

    def _add_load(self) -> None:
        usual = self._usual
        rated = {"amps": self._amps, "watts": usual.watts}
        values: dict[str, Any] = {usual.rated: rated[usual.rated]} if usual.rated else {}
        values |= usual.values
        self._part(
            "M1",
            usual.kind,
            usual.name,
            values=values,
            assumed=sorted(values),
            hazards=list(usual.hazards),
        )
        self._plug("X1", f"{usual.name} plug", "M1", [usual.plus, usual.minus])

    def _by_switch(self) -> None:
        """Supply, control, load, earth: one after the other."""
        self._add_switch()
        self._stretch("unseen feed", "G1.+", "X2.1.a")
        self._stretches_to_load()
        self._earth("X1.2.a", "unseen earth side")

    def _stretches_to_load(self) -> None:
        speeds = self._wanted.positions - 1
        if self._wanted.load == "fan" and speeds > 1:
            self._pack(speeds)
            return
        self._stretch("unseen way to the load", "X2.2.a", "X1.1.a")

    def _pack(self, speeds: int) -> None:
        """A stepped resistor on the supply side, the top position past it."""
        step = round(SPEED_STEP_SHARE * self._wanted.volts / self._amps, 2)
        inlets = [f"in{n}" for n in range(1, speeds)]
        self._part(
            "R1",
            "resistor_pack",
            "resistor pack",
            values={"steps_ohms": [step] * len(inlets), "cooled_by": "M1"},
            assumed=["steps_ohms"],
            hazards=["hot part"],
            spare=["link"],
        )
        self._plug("X4", "resistor plug", "R1", [*inlets, "out"])
        for n in range(1, speeds):
            self._stretch(f"unseen wire of speed {n}", f"X2.{n + 1}.a", f"X4.{n}.a")
        self._stretch("unseen wire of full speed", f"X2.{speeds + 1}.a", "X1.1.a")
        self._stretch("unseen way to the motor", f"X4.{speeds}.a", "X1.1.a")

    def _by_relay(self) -> None:
        """The control works the relay's coil, the relay feeds the load."""
        self._add_switch(one_way=True)
        self._part("K1", "relay", "relay")
        self._plug("X3", "relay socket", "K1", ["30", "87", "86", "85"], by_name=True)
        self._stretch("unseen feed of the relay", "G1.+", "X3.30.a")
        self._stretch("unseen way to the load", "X3.87.a", "X1.1.a")
        self._earth("X1.2.a", "unseen earth side")
        self._coil("X3.86.a")
        self._earth("X3.85.a", "unseen earth of the coil")

    def _coil(self, coil: str) -> None:
        """From the supply over the control to a relay's coil, or whatever is fed like one."""
        self._stretch("unseen feed of the control", "G1.+", "X2.1.a")
        self._stretch("unseen way to the coil", "X2.2.a", coil)

    def _by_solenoid(self) -> None:
        """The starter's own solenoid; a relay ahead of it is part of what nobody has seen."""
        self._add_switch(one_way=True)
        self._part("K1", "starter_solenoid", "starter solenoid", minutes=5, probe=["30", "45"])
        self._plug("X3", "solenoid plug", "K1", ["50"], by_name=True)
        self._wire("G1.+", "K1.30")
        self._wire("K1.45", "X1.1.a")
        self._wire("K1.31", "earth")
        self._earth("X1.2.a", "unseen engine earth")
        self._coil("X3.50.a")

    def _by_control_unit(self) -> None:
        """A sensor of three wires: 5 V, signal and earth all come from its control unit, which the
        ignition feeds. What a display of the unit shows is what people notice."""
        usual, line, unit = self._usual, ["sensor line"], ["module input"]
        self._add_switch(one_way=True)
        self._part(
            "M1", usual.kind, usual.name, values=usual.values, assumed=["ohms"], hazards=unit
        )
        self._part("N1", "regulator", "5 V supply of the control unit", hazards=line)
        self._part(
            "B1",
            "potentiometer",
            "sensor",
            values={"travels": [50]},
            assumed=["travels"],
            hazards=line,
        )
        self._complaints = [
            {
                "words": f"Signal wrong: {word}",
                "states": [{"controls": {"S1": "1"}, "load": "M1", "state": f"signal {word}"}],
            }
            for word in ("too low", "too high")
        ]
        as_it_stands = [{"id": "50 %", "name": "as it stands"}]
        self._sensors = [{"part": "B1", "name": "sensor", "off": "50 %", "positions": as_it_stands}]
        self._part("SP1", "splice", "control unit feed", values={"wires": 3})
        self._part("SP2", "splice", "control unit earth", values={"wires": 4})
        self._plug("X1", "sensor plug", "B1", ["+", "wiper", "-"], hazards=line)
        inside = ["N1.out", "M1.in", "SP2.1", "SP1.1", "SP2.2"]
        self._plug("X3", "control unit plug", "", inside, hazards=unit)
        for start, end in (
            ("SP1.2", "M1.+"),
            ("SP1.3", "N1.in"),
            ("M1.-", "SP2.3"),
            ("N1.-", "SP2.4"),
        ):
            self._wire(start, end)
        self._coil("X3.4.a")
        self._earth("X3.5.a", "unseen earth of the control unit")
        self._stretch("unseen 5 V wire", "X3.1.a", "X1.1.a")
        self._stretch("unseen signal wire", "X1.2.a", "X3.2.a")
        self._stretch("unseen sensor earth wire", "X1.3.a", "X3.3.a")

    def _both_ways(self) -> None:
        """Both sides of the motor rest on earth; the switch lifts one of them to supply."""
        self._part(
            "S1",
            "switch",
            "switch",
            values={
                "terminals": ["B", "E", "U", "D"],
                "closes": {
                    "rest": [["U", "E"], ["D", "E"]],
                    "one": [["B", "U"], ["D", "E"]],
                    "other": [["U", "E"], ["B", "D"]],
                },
                "momentary": True,
            },
        )
        self._plug("X2", "switch plug", "S1", ["B", "E", "U", "D"])
        self._stretch("unseen feed", "G1.+", "X2.1.a")
        self._earth("X2.2.a", "unseen earth of the switch")
        self._stretch("unseen wire to the motor", "X2.3.a", "X1.1.a")
        self._stretch("other unseen wire to the motor", "X2.4.a", "X1.2.a")

    def _add_switch(self, one_way: bool = False) -> None:
        """A way for each speed of a fan; everything else has one way, closed in all positions but off."""
        positions = 2 if self._wanted.load == "sensor" else self._wanted.positions
        on = [str(n) for n in range(1, positions)]
        each = self._wanted.load == "fan" and not one_way
        ways = on if each else ["1"]
        closes: dict[str, list[list[str]]] = {"0": []}
        closes |= {n: [["B", n if each else "1"]] for n in on}
        self._part("S1", "switch", "control", values={"terminals": ["B", *ways], "closes": closes})
        self._plug("X2", "control plug", "S1", ["B", *ways])

    def _control(self) -> dict[str, Any]:
        if self._wanted.load == "lock or window":
            named = {"rest": "released", "one": "one way", "other": "the other way"}
        elif self._wanted.positions == 2 or self._wanted.load == "sensor":
            named = {"0": "off", "1": "on"}
        else:
            named = {str(n): str(n) if n else "off" for n in range(self._wanted.positions)}
        return {
            "part": "S1",
            "name": "ignition" if self._wanted.load == "sensor" else "control",
            "off": next(iter(named)),
            "positions": [{"id": key, "name": name} for key, name in named.items()],
        }

    def _part(self, name: str, kind: str, title: str, **more: Any) -> None:
        given = {key: value for key, value in more.items() if value}
        self._parts.append({"id": name, "kind": kind, "name": title, **given})

    def _plug(
        self,
        name: str,
        title: str,
        part: str,
        terminals: list[str],
        by_name: bool = False,
        hazards: Sequence[str] = (),
    ) -> None:
        """A plug on a part; terminals have their part's name where there are several."""
        ways = terminals if by_name else [str(n + 1) for n in range(len(terminals))]
        self._connectors.append(
            {
                "id": name,
                "name": title,
                "half_a": "wire side",
                "half_b": "part",
                "rows": [ways],
                "part_ways": {
                    w: f"{part}.{t}" if part else t for w, t in zip(ways, terminals, strict=True)
                },
                "hazards": list(hazards),
            }
        )

    def _stretch(self, title: str, start: str, end: str) -> None:
        self._stretches += 1
        name = f"U{self._stretches}"
        self._part(name, "unknown_stretch", title)
        self._wire(start, f"{name}.1")
        self._wire(f"{name}.2", end)

    def _earth(self, start: str, title: str) -> None:
        self._stretch(title, start, "earth")

    def _wire(self, start: str, end: str) -> None:
        self._wires.append({"id": f"W{len(self._wires)}", "start": start, "end": end})
