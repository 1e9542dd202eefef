"""Random circuits of any size from every kind of part.

Branches run from a feed to a return through parts drawn at random, so that there are trees, loops of
contacts, stretches that hang on nothing, two batteries, earths shared by many, loads switched on their
supply or on their earth side, and relays whose coils hang behind other relays' contacts.
"""

from __future__ import annotations

from math import prod
from random import Random
from typing import Any

from hypothesis import strategies as st

from footwell.circuit.circuit import Circuit, build
from footwell.parts import KINDS
from footwell.parts.base import Context
from footwell.sheet.models import Sheet

from .random_parts import DRAWS, drawn, weighted

BODY = "earth"
IN_THE_LOOM = ("wire", "contact")
"""Kinds that a sheet writes as wires and connectors, not as parts."""
PARTS = tuple(kind for kind in KINDS if kind in DRAWS and kind not in IN_THE_LOOM)
LOADS = tuple(k for k in PARTS if KINDS[k].seen_as not in ("", "click"))
MOST_SETUPS = 16
MOST_CONTROLS = 8
MOST_WAYS = 6
LENGTHS = (1, 1, 2, 2, 3, 4, 6)
"""Parts in a row, from one net to another."""


def circuits(smallest: int = 2, largest: int = 9) -> st.SearchStrategy[Circuit]:
    """Random circuits for properties."""
    chances = st.randoms(use_true_random=False)
    return st.builds(random_circuit, chances, st.integers(smallest, largest))


def random_circuit(chance: Random, size: int) -> Circuit:
    """A circuit of `size` parts, not counting wires and contacts."""
    return _Growing(chance).grown(size)


class _Growing:
    """A sheet in the making: nets, each a list of the points to be joined."""

    def __init__(self, chance: Random) -> None:
        self.chance = chance
        self.context = Context(chance.choice((12, 24)), chance.choice((0.5, 5.0, 20.0)))
        self.values: dict[str, Any] = {}
        self.parts: list[dict[str, Any]] = []
        self.nets: dict[str, list[str]] = {BODY: [BODY], "feed": []}
        self.wires: list[dict[str, Any]] = []
        self.connectors: list[dict[str, Any]] = []

    def grown(self, size: int) -> Circuit:
        self._battery("feed", size)
        if self.chance.random() < 0.25 and size > 4:
            self._battery(weighted(self.chance, [(2, "feed"), (1, self._new_net())]), size)
        while len(self.parts) < size:
            self._branch(min(self.chance.choice(LENGTHS), size - len(self.parts)))
        for net in self.nets.values():
            self._join(net)
        return build(self._sheet(), self.values)

    def _battery(self, plus: str, size: int) -> None:
        minus = BODY if size < 5 or self.chance.random() < 0.3 else self._new_net()
        self._part("battery", [plus, minus])
        if minus != BODY:
            self._part("earth_point", [minus])

    def _branch(self, length: int) -> None:
        """Parts in a row from one net to another; further terminals lie anywhere."""
        here, end = self._ends()
        load = self.chance.randrange(length) if self.chance.random() < 0.8 else -1
        for place in range(length):
            kind = self.chance.choice(LOADS if place == load else PARTS)
            there = end if place == length - 1 else self._new_net()
            values = drawn(kind, self.chance, self.context)
            terminals = list(KINDS[kind].terminals(values))
            ends = [here, there] if self.chance.random() < 0.85 else [there, here]
            others = self._further(len(terminals) - 2)
            self._part(kind, [*ends, *others][: len(terminals)], values)
            here = there if len(terminals) > 1 else here

    def _ends(self) -> tuple[str, str]:
        """From the feed to the body, from there to a shared earth, between any two, or nowhere."""
        return weighted(  # type: ignore[no-any-return]
            self.chance,
            [
                (6, ("feed", BODY)),
                (4, (self._any_net(), BODY)),
                (2, ("feed", self._any_net())),
                (2, (self._any_net(), self._any_net())),
                (1, (self._new_net(), self._new_net())),
            ],
        )

    def _further(self, count: int) -> list[str]:
        """Nets of the terminals after the first two: anywhere; the last of them, as of a relay's coil,
        more often the body, and the one before it the feed or what some contact feeds."""
        fed = weighted(self.chance, [(6, "feed"), (4, self._any_net()), (1, self._new_net())])
        led_off = weighted(self.chance, [(8, BODY), (3, self._any_net()), (1, self._new_net())])
        return (
            [*(self._anywhere() for _ in range(count - 2)), fed, led_off][-count:]
            if count > 0
            else []
        )

    def _anywhere(self) -> str:
        return weighted(  # type: ignore[no-any-return]
            self.chance, [(5, self._any_net()), (3, BODY), (2, "feed"), (1, self._new_net())]
        )

    def _any_net(self) -> str:
        return self.chance.choice(list(self.nets))

    def _new_net(self) -> str:
        name = f"n{len(self.nets)}"
        self.nets[name] = []
        return name

    def _part(self, kind: str, nets: list[str], values: Any = None) -> None:
        """A part whose terminals lie on nets, some of them by a plug of its own."""
        name = f"P{len(self.parts)}"
        values = drawn(kind, self.chance, self.context) if values is None else values
        self.values[name] = values
        self.parts.append({"id": name, "kind": kind, "name": f"{kind} {name}"})
        terminals = KINDS[kind].terminals(values)
        plugged = kind not in ("battery", "earth_point") and self.chance.random() < 0.2
        plug = self._connector() if plugged else None
        for n, (terminal, net) in enumerate(zip(terminals, nets, strict=True)):
            point = f"{name}.{terminal}"
            if plug is not None:
                plug["rows"][0].append(str(n))
                plug["part_ways"][str(n)] = point
                point = f"{plug['id']}.{n}.a"
            self.nets[net].append(point)

    def _connector(self) -> dict[str, Any]:
        sound = drawn("contact", self.chance, self.context)
        name = f"X{len(self.connectors)}"
        fields = {"id": name, "name": name, "half_a": "harness", "half_b": "part", "rows": [[]]}
        widths = {"terminal_mm": sound.terminal_mm, "rating_amps": sound.rating_amps}
        self.connectors.append(fields | widths | {"part_ways": {}})
        return self.connectors[-1]

    def _join(self, points: list[str]) -> None:
        """Join a net's points by a tree of wires, now and then with one wire beside another."""
        for n, point in enumerate(points[1:], 1):
            start = points[self.chance.randrange(n)]
            if start == point:
                continue
            self._wire(start, point)
            if self.chance.random() < 0.03:
                self._wire(start, point)

    def _wire(self, start: str, end: str) -> None:
        """A wire, or two with a contact between them."""
        if self.chance.random() < 0.25 and len(self.connectors) < 60:
            connector = self._loom_plug()
            way = str(len(connector["rows"][0]))
            connector["rows"][0].append(way)
            self._wire(start, f"{connector['id']}.{way}.a")
            start = f"{connector['id']}.{way}.b"
        values = drawn("wire", self.chance, self.context)
        sizes = {"mm2": values.mm2, "metres": values.metres}
        self.wires.append({"id": f"W{len(self.wires)}", "start": start, "end": end} | sizes)

    def _loom_plug(self) -> dict[str, Any]:
        last = self.connectors[-1] if self.connectors else None
        if last and not last["part_ways"] and len(last["rows"][0]) < MOST_WAYS:
            return last
        return self._connector()

    def _sheet(self) -> Sheet:
        return Sheet.model_validate(
            {
                "format": 1,
                "id": "random",
                "title": "random",
                "vehicle": "random",
                "system_volts": self.context.system_volts,
                "summary": "random",
                "working_amps": self.context.default_amps,
                "loads": [self.parts[0]["id"]],
                "controls": self._controls(),
                "parts": self.parts,
                "connectors": self.connectors,
                "wires": self.wires,
            }
        )

    def _controls(self) -> list[dict[str, Any]]:
        """Controls for what is set by hand, as many as keep the set-ups few; the rest stay at rest."""
        by_hand = [p for p in self.parts if KINDS[p["kind"]].positions is not None]
        found: list[dict[str, Any]] = []
        for part in self.chance.sample(by_hand, min(len(by_hand), MOST_CONTROLS)):
            states = KINDS[part["kind"]].positions(self.values[part["id"]])  # type: ignore[misc]
            if prod([len(states), *(len(c["positions"]) for c in found)]) <= MOST_SETUPS:
                listed = [{"id": state, "name": state} for state in states]
                row = {"part": part["id"], "name": part["id"], "positions": listed}
                found.append(row | {"off": states[0]})
        return found
