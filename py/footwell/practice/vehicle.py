"""The vehicle: the true circuit with its true faults, answering checks as instruments and eyes would."""

from __future__ import annotations

import math
import random
from collections.abc import Collection, Sequence
from dataclasses import dataclass, field, replace
from typing import Literal

from footwell.checks import sights
from footwell.checks.check import Check
from footwell.checks.outlook import outlook, outlooks
from footwell.checks.predict import Reading, foretold, seen_as
from footwell.circuit.circuit import (
    AS_DRAWN,
    ENDS,
    Arrangement,
    Circuit,
    HalfId,
    as_on_sheet,
    wire_ends,
)
from footwell.circuit.fault import Fault
from footwell.circuit.setup import SetupState
from footwell.diagnosis.case import CircuitFor
from footwell.electrics.turns import Doubt, S
from footwell.faults.miswiring import SPARE, as_drawn
from footwell.sheet.models import SheetWire
from footwell.sheet.points import pieces, way_point


@dataclass(frozen=True)
class Vehicle:
    """`faults` and `arrangement` are the truth now; a fuse that the current opens stays open, in
    `blown`, until it is renewed. `chance` draws noise, and the `limits` of relays and fuses in doubt once
    for good; None answers without any."""

    circuit_for: CircuitFor
    faults: tuple[Fault, ...]
    arrangement: Arrangement = AS_DRAWN
    chance: random.Random | None = None
    blown: set[str] = field(default_factory=set)
    limits: dict[tuple[str, str], float] = field(default_factory=dict)

    @property
    def standing(self) -> tuple[Fault, ...]:
        """The faults that are there now, blown fuses with them."""
        return tuple(sorted({*self.faults, *(Fault(fuse, "open") for fuse in self.blown)}))

    def complaint(self) -> Literal["present", "absent"]:
        """Whether the complaint is there just now, as the electrician notes with the next reading."""
        return "present"

    @property
    def circuit(self) -> Circuit:
        return self.circuit_for(self.arrangement)

    @property
    def drawn(self) -> Circuit:
        """The circuit as its sheet has it, with every wire in its place."""
        return self.circuit_for(AS_DRAWN)

    def answer(self, check: Check) -> tuple[float | None, str]:
        """A number in V, A or Ω (inf is over range), or a word."""
        predicted = self._as_it_is(foretold(self.circuit, check, self.standing)).said
        self._use(check.setup)
        if not isinstance(predicted, Reading):
            return None, self._word(predicted)
        if math.isinf(predicted.mean) or self.chance is None:
            return predicted.mean, ""
        return predicted.mean + self.chance.gauss(0.0, predicted.instrument_sigma), ""

    def does(self, setup: SetupState, load: str) -> str:
        """What a load does in a set-up, in the word people would use."""
        states = outlooks(self.circuit, setup, self.standing)
        now = self._as_it_is(states).outlook.activity[load]
        self._use(setup)
        usual = outlook(self.drawn, setup, ()).activity[load]
        return self._word(
            sights.chances(seen_as(self.circuit, load), now, usual, sights.SLIP["me"])
        )

    def _use(self, setup: SetupState) -> None:
        states = outlooks(self.circuit, setup, self.standing)
        self.blown.update(self._as_it_is(states).outlook.blown)

    def _as_it_is(self, states: Sequence[S]) -> S:
        """The state that this vehicle's own relays and fuses give, of those that can be."""
        agreeing = (s for s in states if all(self._tips(t.doubt) == t.tipped for t in s.turns))
        return next(agreeing, states[0])

    def _tips(self, doubt: Doubt) -> bool:
        if doubt.key not in self.limits:
            self.limits[doubt.key] = 0.0 if self.chance is None else self.chance.gauss(0.0, 1.0)
        return self.limits[doubt.key] <= doubt.score

    def _word(self, chances: dict[str, float]) -> str:
        if self.chance is None:
            return max(chances, key=lambda w: chances[w])
        return self.chance.choices(list(chances), list(chances.values()))[0]

    def wiring(self, half: HalfId) -> dict[str, str | None]:
        """What is seen in each way of a half; a wire that has no place in it on the sheet is a spare one."""
        wired = dict(self.arrangement).get(half)
        drawn = as_drawn(self.drawn, half)
        seated = drawn if wired is None else dict.fromkeys(drawn) | dict(wired)
        for wire in self._astray:
            own = any(wire.id in pieces(held) for held in drawn.values())
            name = wire.id if own else f"{SPARE}{wire.colour or ''}"
            for way, held in seated.items():
                here = way_point(half[0], way, half[1]) in (wire.start, wire.end)
                rest = [w for w in pieces(held) if w != wire.id]
                seated[way] = "+".join([*rest, name] if here else rest) or None
        return seated

    @property
    def _astray(self) -> list[SheetWire]:
        """Wires that run elsewhere than on the sheet, as they run."""
        by_id = {w.id: w for w in self.drawn.sheet.wires}
        found = ((wire, dict(run)) for (wire, what), run in self.arrangement if what == ENDS)
        return [by_id[wire].model_copy(update=run) for wire, run in found]

    def elsewhere(self, points: Collection[str]) -> list[SheetWire]:
        """Wires that run elsewhere than on the sheet and end at some of these points, on it or in truth."""
        drawn = {w.id: w for w in self.drawn.sheet.wires}
        ends = ((w, {w.start, w.end, drawn[w.id].start, drawn[w.id].end}) for w in self._astray)
        return [wire for wire, seen in ends if seen & {*points}]

    def run_of(self, wire: SheetWire) -> SheetWire:
        """A wire as it runs; as on the sheet where one of its ends hangs loose."""
        start, end = wire_ends(self.drawn.sheet, self.arrangement)[0][wire.id]
        known = {start, end} <= self.drawn.node_of.keys()
        return wire.model_copy(update={"start": start, "end": end}) if known else wire

    def put_right(self, half: HalfId) -> Vehicle:
        """The vehicle with the wires of a half, or a wire under (its id, ENDS), where the sheet has them."""
        return replace(self, arrangement=as_on_sheet(self.arrangement, half))

    def mended(self, element: str) -> Vehicle:
        kept = tuple(f for f in self.faults if f.element != element)
        limits = {key: z for key, z in self.limits.items() if key[0] != element}
        return replace(self, faults=kept, blown=self.blown - {element}, limits=limits)
