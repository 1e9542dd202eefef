"""What a check would read under many suspects at once, roughly: enough to rank checks.

Numbers come from the kept outlooks with the spread of a divider of uncertain resistances: between two
resistances of relative spread t the voltage scatters by t*v*(V-v)/V. The exact reading and spread belong
to `predict`.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from footwell.checks.check import CLAMP, FEED, LAMP, LOOK, OHMS, Check, nodes
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
        self._outlooks: dict[SetupState, list[Weights]] = {}

    def numbers(self, check: Check) -> list[list[Number]]:
        """The number that each suspect gives, or numbers, for checks that read one."""
        if check.instrument == OHMS:
            return self._ohms(check)
        seen = self._seen(check.setup)
        if check.instrument == CLAMP:
            return [[_clamped(p, s.amps.get(check.red, 0.0)) for p, s in row] for row in seen]
        return self._volts(seen, self._ends(check))

    def words(self, check: Check) -> list[Words]:
        """Chances of each word for each suspect, for checks by eye and ear."""
        if check.instrument == LAMP:
            return self._lamps(check)
        only = check.red if check.instrument in (FEED, LOOK) else None
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

    def _volts(
        self, seen: Sequence[Weights], ends: Sequence[tuple[int, int]]
    ) -> list[list[Number]]:
        """Voltage between two nodes under each suspect. This is asked for every suspect at every place in
        every set-up, so it is one loop."""
        shared, supply = self._shared, float(self._circuit.context.system_volts)
        found: list[list[Number]] = []
        for row, (a, b) in zip(seen, ends, strict=True):
            numbers: list[Number] = []
            for chance, outlook in row:
                volts = outlook.volts[a] - outlook.volts[b]
                ohms = outlook.own_ohms[a] + outlook.own_ohms[b]
                if ohms > METER_OHMS * 1e-4:
                    volts *= METER_OHMS / (METER_OHMS + ohms)
                size = abs(volts)
                # What a divider scatters, the joints in the way, and the supply, each by itself.
                divided = DIVIDED * size * (supply - size) / supply if size < supply else 0.0
                joints = JOINTS * (size if size < 0.01 * supply else 0.01 * supply)
                own = shared * size
                spread = math.sqrt(own * own + divided * divided + joints * joints)
                numbers.append((chance, volts, spread + _meter(size)))
            found.append(numbers)
        return found

    def _lamps(self, check: Check) -> list[Words]:
        lamp = test_lamp(self._circuit)

        def light(seen: Outlook, a: int, b: int) -> Words:
            volts, ohms = seen.volts[a] - seen.volts[b], seen.own_ohms[a] + seen.own_ohms[b]
            return light_words(self._circuit, _through(lamp, volts, ohms))

        every = zip(self._seen(check.setup), self._ends(check), strict=True)
        return [mixed([(p, light(s, *ends)) for p, s in row]) for row, ends in every]


def _meter(size: float) -> float:
    """About half the limit of the meter on volts: percent of reading and two counts of its range."""
    counts = 0.01 if size > 2.0 else 0.001 if size > 0.2 else 0.0001
    return size * meters.DC_ACCURACY.percent / 200.0 + counts


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
