"""Random small sheets for tests of the drawing."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from hypothesis import HealthCheck, settings
from hypothesis import strategies as st
from pydantic import TypeAdapter

from footwell.circuit.circuit import AS_DRAWN, Arrangement, Circuit, arranged, build, bundles
from footwell.parts import KINDS
from footwell.sheet.models import Sheet

unhurried = settings(deadline=None, max_examples=60, suppress_health_check=[HealthCheck.too_slow])

MOST_IN_A_SPLICE = 11
"""A splice joins up to twelve wires, and one of them leads on."""

Network = tuple[str, Any]
"""("part", kind), ("plugged", kind), ("way", None), ("series" or "parallel", networks)."""

VALUES: dict[str, dict[str, Any]] = {
    "lamp": {"watts": 21.0},
    "led_lamp": {"watts": 3.0},
    "motor": {"amps": 8.0},
    "heater": {"watts": 180.0},
    "resistor": {"ohms": 4.7},
    "fuse": {"amps": 15.0},
    "switch": {"terminals": ["1", "2"], "closes": {"off": [], "on": [["1", "2"]]}},
    "output": {"limit_amps": 5.0},
    "diode": {},
    "charging_source": {},
    "zener": {},
    "standing_load": {},
    "horn": {},
    "solenoid": {},
    "ptc_heater": {"watts": 300.0},
    "glow_plug": {},
    "fusible_link": {},
    "breaker": {"amps": 20.0},
}
TWO_ENDED = sorted(VALUES)

MANY_ENDED: dict[str, tuple[tuple[str, ...], str]] = {
    "twin_lamp": (("major", "minor"), "31"),
    "starter_solenoid": (("50", "30"), "45"),
    "latching_relay": (("86a", "86b", "30"), "87"),
}
"""Kinds of three and more terminals: those that are fed, and the one that leads on."""


def networks() -> st.SearchStrategy[Network]:
    """Series-parallel networks of a few parts."""
    kinds = st.sampled_from(TWO_ENDED)
    leaf = st.one_of(
        st.tuples(st.just("part"), kinds),
        st.tuples(st.just("plugged"), kinds),
        st.tuples(st.just("way"), st.none()),
        st.tuples(st.just("many"), st.sampled_from(sorted(MANY_ENDED))),
        st.tuples(st.sampled_from(["relay", "steps", "reversing"]), st.none()),
    )
    return st.recursive(
        leaf,
        lambda inner: st.tuples(
            st.sampled_from(["series", "parallel"]), st.lists(inner, min_size=2, max_size=3)
        ),
        max_leaves=8,
    )


def terminals_of(kind: str) -> tuple[str, ...]:
    values = TypeAdapter(KINDS[kind].values).validate_python(VALUES[kind])
    return KINDS[kind].terminals(values)


@dataclass
class SheetMaker:
    """Writes a network down as a sheet, part by part from the supply on."""

    parts: list[dict[str, Any]] = field(default_factory=list)
    connectors: list[dict[str, Any]] = field(default_factory=list)
    wires: list[dict[str, Any]] = field(default_factory=list)
    loom_ways: int = 0

    def sheet(self, network: Network, splices: bool) -> Sheet:
        self.part("battery", "G1", probe=["+", "-"])
        ends = self.network(network, ["G1.+"])
        if splices and 1 < len(ends) <= MOST_IN_A_SPLICE:
            ends = [self.splice(ends)]
        self.part("earth_point", "E1", probe=["1"])
        self.part("earth_point", "E0", probe=["1"])
        self.wire("G1.-", "E0.1")
        for end in ends:
            self.wire(end, "E1.1")
        if self.loom_ways:
            rows = [[str(n + 1) for n in range(self.loom_ways + 2)]]
            self.connector("X0", rows, {})
        loads = [p["id"] for p in self.parts if p["kind"] in ("lamp", "motor", "heater")]
        return Sheet.model_validate(
            {
                "format": 1,
                "id": "random",
                "title": "random",
                "vehicle": "none",
                "system_volts": 12,
                "summary": "random",
                "working_amps": 8.0,
                "loads": loads[:3] or [self.parts[1]["id"]],
                "controls": [],
                "parts": self.parts,
                "connectors": self.connectors,
                "wires": self.wires,
            }
        )

    def part(self, kind: str, id: str = "", probe: list[str] | None = None, **values: Any) -> str:
        named = id or f"P{len(self.parts)}"
        row = {"id": named, "kind": kind, "name": f"{kind.replace('_', ' ')} {named}"}
        values = values or VALUES.get(kind, {})
        self.parts.append(row | {"values": values, "probe": probe or []})
        return named

    def wire(self, start: str, end: str) -> None:
        number = len(self.wires)
        colour = [None, "RD", "GN/WH"][number % 3]
        self.wires.append(
            {"id": f"W{number}", "start": start, "end": end, "colour": colour, "mm2": 2.5}
        )

    def connector(self, id: str, rows: list[list[str]], part_ways: dict[str, str]) -> None:
        words = {"name": f"plug {id}", "half_a": "one", "half_b": "other"}
        self.connectors.append({"id": id, "rows": rows, "part_ways": part_ways} | words)

    def splice(self, starts: list[str]) -> str:
        named = self.part("splice", wires=len(starts) + 1)
        for n, start in enumerate(starts):
            self.wire(start, f"{named}.{n + 2}")
        return f"{named}.1"

    def network(self, network: Network, starts: list[str]) -> list[str]:
        """Adds a network fed from all starts; its own ends."""
        name, inner = network
        if name == "series":
            for part in inner:
                starts = self.network(part, starts)
            return starts
        if name == "parallel":
            return [end for part in inner for end in self.network(part, starts)]
        return getattr(self, f"_{name}")(inner, starts)  # type: ignore[no-any-return]

    def feed(self, starts: list[str], end: str) -> None:
        for start in starts:
            self.wire(start, end)

    def _part(self, kind: str, starts: list[str]) -> list[str]:
        one, other = terminals_of(kind)
        named = self.part(kind, probe=[one, other])
        self.feed(starts, f"{named}.{one}")
        return [f"{named}.{other}"]

    def _plugged(self, kind: str, starts: list[str]) -> list[str]:
        one, other = terminals_of(kind)
        named = self.part(kind)
        plug = f"X{named}"
        self.connector(plug, [["1", "2", "3"]], {"1": f"{named}.{one}", "2": f"{named}.{other}"})
        self.feed(starts, f"{plug}.1.a")
        return [f"{plug}.2.a"]

    def _way(self, _: None, starts: list[str]) -> list[str]:
        self.loom_ways += 1
        self.feed(starts, f"X0.{self.loom_ways}.a")
        return [f"X0.{self.loom_ways}.b"]

    def _relay(self, _: None, starts: list[str]) -> list[str]:
        named = self.part("relay", diode=True)
        self.feed(starts, f"{named}.30")
        self.feed(starts[:1], f"{named}.86")
        self.wire(f"{named}.85", "earth")
        return [f"{named}.87"]

    def _many(self, kind: str, starts: list[str]) -> list[str]:
        fed, onward = MANY_ENDED[kind]
        named = self.part(kind)
        for n, terminal in enumerate(fed):
            self.feed(starts[n % len(starts) :][:1], f"{named}.{terminal}")
        return [f"{named}.{onward}", *starts[len(fed) :]]

    def _steps(self, _: None, starts: list[str]) -> list[str]:
        """A switch of three positions, a resistor pack behind two of them."""
        closes = {"0": []} | {p: [["B", p]] for p in "123"}
        switch = self.part("switch", terminals=["B", "1", "2", "3"], closes=closes)
        pack = self.part("resistor_pack", probe=["link"], steps_ohms=[1.8, 1.2])
        self.feed(starts, f"{switch}.B")
        self.wire(f"{switch}.1", f"{pack}.in1")
        self.wire(f"{switch}.2", f"{pack}.in2")
        return [f"{pack}.out", f"{switch}.3"]

    def _reversing(self, _: None, starts: list[str]) -> list[str]:
        """A motor between two legs of a reversing switch."""
        closes = {
            "0": [["-", "1"], ["-", "2"]],
            "up": [["+", "1"], ["-", "2"]],
            "down": [["+", "2"], ["-", "1"]],
        }
        switch = self.part("switch", terminals=["+", "1", "2", "-"], closes=closes)
        motor = self.part("motor")
        self.feed(starts, f"{switch}.+")
        self.wire(f"{switch}.1", f"{motor}.+")
        self.wire(f"{switch}.2", f"{motor}.-")
        return [f"{switch}.-"]


def values_of(sheet: Sheet) -> dict[str, Any]:
    return {
        part.id: TypeAdapter(KINDS[part.kind].values).validate_python(part.values)
        for part in sheet.parts
    }


@st.composite
def circuits(draw: st.DrawFn, miswired: bool = False) -> Circuit:
    """A circuit of a random sheet, with the wires of one plug in any order if `miswired`."""
    sheet = SheetMaker().sheet(draw(networks()), draw(st.booleans()))
    found: Arrangement = AS_DRAWN
    if miswired and sheet.connectors:
        connector = draw(st.sampled_from(sheet.connectors))
        half = (connector.id, draw(st.sampled_from("ab")))
        wires = list(bundles(sheet, half).values())
        ways = draw(st.permutations([way for row in connector.rows for way in row]))
        left_out = draw(st.integers(0, 1))
        found = arranged(found, half, dict(zip(ways, wires[left_out:], strict=False)))
    return build(sheet, values_of(sheet), found)
