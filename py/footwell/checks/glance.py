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
from footwell.checks.outlook import Outlook, outlook
from footwell.checks.predict import (
    Faults,
    Reading,
    Words,
    expected,
    light_words,
)
from footwell.circuit.circuit import Circuit
from footwell.circuit.setup import SetupState
from footwell.parts.laws import Filament
from footwell.reference import meters

Number = tuple[float, float]
"""Mean and standard deviation in V, A or Ω."""

SHARED = {True: 0.003, False: 0.012}
"""Relative spread of the supply, measured in this sitting or not."""

DIVIDED = 0.08
JOINTS = 0.3


class Panel:
    """Suspects side by side, each a circuit with its faults; outlooks are fetched once a set-up."""

    def __init__(
        self, circuit: Circuit, rows: Sequence[tuple[Circuit, Faults]], supply_known: bool
    ) -> None:
        self._circuit = circuit
        self._rows = rows
        self._shared = SHARED[supply_known]
        self._outlooks: dict[SetupState, list[Outlook]] = {}

    def numbers(self, check: Check) -> list[Number]:
        """A number for each suspect, for checks that read one."""
        if check.instrument == OHMS:
            return self._ohms(check)
        seen = self._seen(check.setup)
        if check.instrument == CLAMP:
            return [_clamped(s.amps.get(check.red, 0.0)) for s in seen]
        a, b = nodes(self._circuit, check)
        return [self._volts(s, a, b) for s in seen]

    def words(self, check: Check) -> list[Words]:
        """Chances of each word for each suspect, for checks by eye and ear."""
        if check.instrument == LAMP:
            return self._lamps(check)
        only = check.red if check.instrument in (FEED, LOOK) else None
        found: list[Words] = []
        for circuit, faults in self._rows:
            mine = tuple(f for f in faults if f.element == only) if only else faults
            words = expected(circuit, check, mine)
            assert isinstance(words, dict)
            found.append(words)
        return found

    def _seen(self, setup: SetupState) -> list[Outlook]:
        if setup not in self._outlooks:
            self._outlooks[setup] = [outlook(c, setup, faults) for c, faults in self._rows]
        return self._outlooks[setup]

    def _ohms(self, check: Check) -> list[Number]:
        part = part_of(self._circuit, check)
        found: list[Number] = []
        for circuit, faults in self._rows:
            reading = expected(circuit, check, tuple(f for f in faults if f.element == part))
            assert isinstance(reading, Reading)
            found.append((reading.mean, reading.sigma))
        return found

    def _volts(self, seen: Outlook, a: int, b: int) -> Number:
        volts = seen.volts[a] - seen.volts[b]
        ohms = seen.ohms(a) + seen.ohms(b)
        if ohms > METER_OHMS * 1e-4:
            volts *= METER_OHMS / (METER_OHMS + ohms)
        size = abs(volts)
        supply = float(self._circuit.context.system_volts)
        divided = DIVIDED * size * max(supply - size, 0.0) / supply
        joints = JOINTS * min(size, 0.01 * supply)
        shared = self._shared * size
        return volts, math.sqrt(shared * shared + divided * divided + joints * joints) + _meter(
            size
        )

    def _lamps(self, check: Check) -> list[Words]:
        a, b = nodes(self._circuit, check)
        lamp = test_lamp(self._circuit)
        return [
            light_words(
                self._circuit, _through(lamp, s.volts[a] - s.volts[b], s.ohms(a) + s.ohms(b))
            )
            for s in self._seen(check.setup)
        ]


def _meter(size: float) -> float:
    """About half the limit of the meter on volts: percent of reading and two counts of its range."""
    counts = 0.01 if size > 2.0 else 0.001 if size > 0.2 else 0.0001
    return size * meters.DC_ACCURACY.percent / 200.0 + counts


def _clamped(amps: float) -> Number:
    return amps, meters.clamp_limit_amps(amps) / 2.0 + 0.05 * abs(amps)


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
