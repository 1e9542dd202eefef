"""What a check would read under many suspects at once, roughly: enough to rank checks.

Numbers come from the kept outlooks with the spread of a divider of uncertain resistances: between two
resistances of relative spread t the voltage scatters by t*v*(V-v)/V. The exact reading and spread belong
to `predict`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import cached_property
from math import sqrt

from footwell.checks.check import BENCH, CLAMP, FEED, LAMP, LOOK, OHMS, VOLTS, Check, nodes
from footwell.checks.clamped import along
from footwell.checks.clipped import METER_OHMS, part_of, test_lamp
from footwell.checks.outlook import Outlook, outlooks
from footwell.checks.predict import (
    Faults,
    Reading,
    Words,
    expected,
    light_words,
    mixed,
)
from footwell.circuit.circuit import Circuit
from footwell.circuit.setup import SetupState
from footwell.electrics.turns import Known, possible
from footwell.parts.laws import Filament
from footwell.reference import meters

Number = tuple[float, float, float]
"""Chance of a number, its mean, and its standard deviation in V, A or Ω."""

Weights = list[tuple[float, Outlook]]
"""The states that can be, each with its chance; nearly always one."""

SHARED = {True: 0.003, False: 0.012}
"""Relative spread of the supply, measured in this sitting or not."""

DIVIDED = 0.08
JOINTS = 0.3

LOADS_FROM_OHMS = METER_OHMS * 1e-4
"""Resistance between two places from which the meter's own pulls the voltage down."""

HALF_LIMIT = meters.DC_ACCURACY.percent / 200.0
"""Half the limit of the meter on volts as a share of the reading."""


@dataclass
class _Sheaf:
    """Suspects in one circuit and set-up, a row for each state that can be: whose it is, its chance, and by
    node what stands there and what a probe sees (`volts` and `ohms`, a column for each node)."""

    whose: list[int] = field(default_factory=list)
    chances: list[float] = field(default_factory=list)
    seen: list[Outlook] = field(default_factory=list)

    @cached_property
    def volts(self) -> list[tuple[float, ...]]:
        return list(zip(*(each.volts for each in self.seen), strict=True))

    @cached_property
    def ohms(self) -> list[tuple[float, ...]]:
        return list(zip(*(each.own_ohms for each in self.seen), strict=True))


class Panel:
    """Suspects side by side, each a circuit with its faults and what is known of relays and fuses in
    doubt; outlooks are fetched once a set-up."""

    def __init__(
        self, circuit: Circuit, rows: Sequence[tuple[Circuit, Faults, Known]], supply_known: bool
    ) -> None:
        self._circuit = circuit
        self._rows = rows
        self._circuits = {id(each): each for each, _, _ in rows}
        self._whose = [id(each) for each, _, _ in rows]
        self._shared = SHARED[supply_known]
        self._supply = float(circuit.context.system_volts)
        self._outlooks: dict[SetupState, list[Weights]] = {}
        self._sheaves: dict[SetupState, dict[int, _Sheaf]] = {}

    def numbers(self, check: Check) -> list[list[Number]]:
        """The number that each suspect gives, or numbers, for checks that read one."""
        if check.instrument == OHMS:
            return self._ohms(check)
        if check.instrument == CLAMP:
            seen = self._seen(check.setup)
            end, arrow = along(self._circuit, check.red, check.setup)
            return [[_clamped(p, arrow * s.amps[check.red, end]) for p, s in row] for row in seen]
        return self._volts(check)

    def words(self, check: Check) -> list[Words]:
        """Chances of each word for each suspect, for checks by eye and ear."""
        if check.instrument == LAMP:
            return self._lamps(check)
        only = check.red if check.instrument in (BENCH, FEED, LOOK) else None
        found: list[Words] = []
        for circuit, faults, known in self._rows:
            mine = tuple(f for f in faults if f.element == only) if only else faults
            words = expected(circuit, check, mine, known)
            assert isinstance(words, dict)
            found.append(words)
        return found

    def _seen(self, setup: SetupState) -> list[Weights]:
        if setup not in self._outlooks:
            self._outlooks[setup] = [
                [(p, s.outlook) for p, s in possible(outlooks(c, setup, faults), known)]
                for c, faults, known in self._rows
            ]
        return self._outlooks[setup]

    def _ohms(self, check: Check) -> list[list[Number]]:
        part = part_of(self._circuit, check)
        found: list[list[Number]] = []
        for circuit, faults, _ in self._rows:
            mine = tuple(f for f in faults if part in ("", f.element))
            reading = expected(circuit, check, mine)
            assert isinstance(reading, Reading)
            found.append([(1.0, reading.mean, reading.sigma)])
        return found

    def _ends(self, check: Check) -> list[tuple[int, int]]:
        """Nodes under the probes in each suspect's circuit: where a wire hangs loose there is one node more,
        and earth another."""
        ends = {key: nodes(circuit, check) for key, circuit in self._circuits.items()}
        return [ends[key] for key in self._whose]

    def _sheaves_of(self, setup: SetupState) -> dict[int, _Sheaf]:
        """By circuit: its nodes are its own."""
        if setup not in self._sheaves:
            found: dict[int, _Sheaf] = {key: _Sheaf() for key in self._circuits}
            for n, (key, row) in enumerate(zip(self._whose, self._seen(setup), strict=True)):
                for chance, seen in row:
                    found[key].whose.append(n)
                    found[key].chances.append(chance)
                    found[key].seen.append(seen)
            self._sheaves[setup] = found
        return self._sheaves[setup]

    def is_level(self, check: Check, sigmas: float) -> bool:
        """Whether a check of volts reads so much the same under all suspects that none is told from another:
        the greatest within so many standard deviations of the least. Most places in most set-ups do."""
        if check.instrument != VOLTS:
            return False
        every = [
            v
            for key, sheaf in self._sheaves_of(check.setup).items()
            for v in self._across(key, sheaf, check)
        ]
        low, high = min(every, default=0.0), max(every, default=0.0)
        return high - low <= sigmas * self._spread(low)

    def _across(self, key: int, sheaf: _Sheaf, check: Check) -> list[float]:
        """Voltage that a meter shows between two nodes in each row. This is asked for every suspect at every
        place in every set-up, so it is one loop over columns."""
        a, b = nodes(self._circuits[key], check)
        columns = zip(sheaf.volts[a], sheaf.volts[b], sheaf.ohms[a], sheaf.ohms[b], strict=True)
        return [
            at_a - at_b
            if from_a + from_b <= LOADS_FROM_OHMS
            else (at_a - at_b) * METER_OHMS / (METER_OHMS + from_a + from_b)
            for at_a, at_b, from_a, from_b in columns
        ]

    def _volts(self, check: Check) -> list[list[Number]]:
        """Voltage between two nodes under each suspect."""
        found: list[list[Number]] = [[] for _ in self._rows]
        for key, sheaf in self._sheaves_of(check.setup).items():
            every = self._across(key, sheaf, check)
            for n, chance, volts in zip(sheaf.whose, sheaf.chances, every, strict=True):
                found[n].append((chance, volts, self._spread(volts)))
        return found

    def _spread(self, volts: float) -> float:
        """Standard deviation of a voltage: what a divider scatters, the joints in the way, and the supply,
        each by itself, and about half the limit of the meter, percent of reading and two counts."""
        size, supply = abs(volts), self._supply
        divided = DIVIDED * size * (supply - size) / supply if size < supply else 0.0
        joints = JOINTS * min(size, 0.01 * supply)
        own = self._shared * size
        counts = 0.01 if size > 2.0 else 0.001 if size > 0.2 else 0.0001
        return sqrt(own * own + divided * divided + joints * joints) + HALF_LIMIT * size + counts

    def _lamps(self, check: Check) -> list[Words]:
        lamp = test_lamp(self._circuit)

        def light(seen: Outlook, a: int, b: int) -> Words:
            volts, ohms = seen.volts[a] - seen.volts[b], seen.own_ohms[a] + seen.own_ohms[b]
            return light_words(self._circuit, _through(lamp, volts, ohms))

        every = zip(self._seen(check.setup), self._ends(check), strict=True)
        return [mixed([(p, light(s, *ends)) for p, s in row]) for row, ends in every]


def _clamped(chance: float, amps: float) -> Number:
    return chance, amps, meters.clamp_limit_amps(amps) / 2.0 + 0.05 * abs(amps)


def _through(lamp: Filament, volts: float, ohms: float) -> float:
    """Voltage (V) left at a lamp behind a resistance, by halving the interval."""
    low, high = 0.0, abs(volts)
    for _ in range(24):
        middle = 0.5 * (low + high)
        if lamp.at(middle)[0] * ohms < abs(volts) - middle:
            low = middle
        else:
            high = middle
    return low
