"""The spread of readings by drawing lots: every branch's size and the supply by their spread, the circuit
solved anew in each draw, and the meter's own error on top."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from random import Random
from statistics import NormalDist
from typing import Any

from footwell.checks.check import CLAMP, OHMS, VOLTS, Check, nodes
from footwell.checks.clamped import along, entering
from footwell.checks.clipped import METER_OHMS, OHMMETER, clipped
from footwell.checks.phases import phases
from footwell.checks.predict import Reading, expected, volts_sigma
from footwell.circuit.circuit import Circuit
from footwell.electrics.network import Network, Slot
from footwell.electrics.operating_point import OperatingPoint, operate
from footwell.electrics.spread import reaches
from footwell.page.bands import edges
from footwell.page.expected import checks_in, setups_for
from footwell.parts.laws import Law, LimitedOutput, Resistance, Source
from footwell.parts.polyline import Polyline
from footwell.parts.series import InSeries
from footwell.parts.sources import Charging, Regulated
from footwell.reference import meters

STIFF_OHMS = 1e4
"""Up to here a meter of 10 MΩ takes a thousandth, whose own spread is nothing."""
LEAST_FACTOR = 0.01
"""No draw makes a size nothing or less."""

METER, LEADS = ("meter", ""), ("leads", "")
Lots = dict[tuple[str, str], float]
"""Each tolerance's draw, in standard deviations."""


@dataclass(frozen=True, slots=True)
class Scaled(Law):
    """A law whose current is so many times another's."""

    law: Law
    factor: float
    linear = False

    def at(self, volts: float) -> tuple[float, float]:
        amps, siemens = self.law.at(volts)
        return amps * self.factor, siemens * self.factor


def resized(law: Law, factor: float) -> Law:
    """The law with its size, as its `nudge` means it, so many times as large; of a resistance and of an
    output the ohms, in which their tolerance is given."""
    match law:
        case Resistance() | InSeries():
            return replace(law, ohms=law.ohms * factor)
        case LimitedOutput():
            most, flat = law.limit_amps * factor, law.flat_siemens * factor
            return LimitedOutput(law.ohms * factor, most, flat)
        case Source() | Regulated() | Charging():
            return replace(law, volts=law.volts * factor)
        case Polyline():
            return replace(law, points=tuple((u * factor, amps) for u, amps in law.points))
    return Scaled(law, factor)


def lots(points: Sequence[OperatingPoint], chance: Random, draws: int) -> list[Lots]:
    """So many draws of every tolerance of some operating points, and of the instrument's own error.

    Each takes one value from every slice of its normal distribution, in an order of its own (Latin
    hypercube: McKay, Beckman and Conover, 1979), so that 2,000 draws say as much as many more.
    """
    keys = dict.fromkeys(_key(p, s) for p in points for s in p.slots if s.branch.spread)
    columns = [_column(chance, draws) for _ in (*keys, METER, LEADS)]
    return [
        dict(zip((*keys, METER, LEADS), row, strict=True)) for row in zip(*columns, strict=True)
    ]


def _column(chance: Random, draws: int) -> list[float]:
    normal = NormalDist()
    column = [normal.inv_cdf((n + 1.0 - chance.random()) / draws) for n in range(draws)]
    chance.shuffle(column)
    return column


def _key(point: OperatingPoint, slot: Slot) -> tuple[str, str]:
    element = point.circuit.elements.get(slot.element)
    supply = element is not None and (
        element.kind.charges or element is point.circuit.supply_element
    )
    # Only what gives the voltage: a field winding has a spread of its own.
    shared = supply and not slot.branch.name
    return ("supply", "") if shared else (slot.element, slot.branch.name)


def volts_in(point: OperatingPoint, drawn: Lots) -> list[float]:
    """Node voltages (V) of the operating point in a draw, relays and fuses held as they were found."""
    groups: dict[str, list[Slot]] = {}
    for slot in point.slots:
        groups.setdefault(slot.element, []).append(_resized_slot(point, slot, drawn))
    return Network(point.mesh, groups).solution.volts


def _resized_slot(point: OperatingPoint, slot: Slot, drawn: Lots) -> Slot:
    if not slot.branch.spread:
        return slot
    factor = max(1.0 + slot.branch.spread * drawn[_key(point, slot)], LEAST_FACTOR)
    standing = point.circuit.elements[slot.element].kind.name == "standing_load"
    if slot.branch.name == "own" or standing:
        # What electronics take themselves is known as a current: ohms only stand for it.
        factor = 1.0 / factor
    return replace(slot, branch=replace(slot.branch, law=resized(slot.branch.law, factor)))


@dataclass(frozen=True)
class Band:
    """Edges of the central 95 % of a reading, foretold and as drawn."""

    circuit: Circuit
    check: Check
    reading: Reading
    low: float
    high: float

    @property
    def off(self) -> float:
        """How far the worse edge is off, as a share of the foretold band's width."""
        low, high = edges(self.circuit, self.reading)
        return max(abs(low - self.low), abs(high - self.high)) / (high - low)

    @property
    def most(self) -> tuple[tuple[str, str], float]:
        """The tolerance that the reading leans on most, with its share of the variance."""
        rows = self.reading.leans | {METER: self.reading.instrument_sigma}
        key = max(rows, key=lambda key: (abs(rows[key]), key))
        return key, rows[key] ** 2 / self.reading.sigma**2


SKEWED_FROM = 0.1
"""Relative spread of a size from which one over the size is no longer normal: drawn as ohms, a current that
rests on it reaches a tenth of the band's width and more beyond the upper edge."""


def is_skewed(circuit: Circuit, band: Band) -> bool:
    """Whether what the band leans on most is a size, not the supply, known so poorly; of a control unit's own
    supply current, of coils and horns no source says more."""
    element, name = band.most[0]
    known = circuit.elements.get(element)
    if known is None or known is circuit.supply_element:
        return False
    states = known.kind.states(known.values)
    rows = (b for state in states for b in circuit.branches(known, state) if b.name == name)
    return max((b.spread for b in rows), default=0.0) >= SKEWED_FROM


def is_wide(circuit: Circuit, band: Band) -> bool:
    """Whether what the band leans on most is a contact known to no better than half its resistance: a
    normal spread then reaches below nought, where no resistance goes."""
    return band.most[0] in reaches(circuit)


def bands(
    circuit: Circuit,
    chance: Random,
    draws: int,
    setups: int | None = None,
    checks: int | None = None,
) -> Iterator[Band | Check]:
    """The bands of all numeric readings of the tables of a sheet; or of so many set-ups of each
    instrument, and so many checks in each. A reading that is one of two, and one that has no end, has no
    such band: its check is given alone."""
    for instrument in (VOLTS, CLAMP, OHMS):
        for setup in _some(setups_for(circuit, instrument), setups, chance):
            chosen = _some(checks_in(circuit, instrument, setup), checks, chance)
            told = {check: expected(circuit, check, ()) for check in chosen}
            plain = {c: r for c, r in told.items() if isinstance(r, Reading) and r.sigma > 0.0}
            yield from (check for check in chosen if check not in plain)
            for check, samples in _sampled(circuit, list(plain), chance, draws):
                samples.sort()
                low, high = samples[round(0.025 * draws)], samples[round(0.975 * draws) - 1]
                yield Band(circuit, check, plain[check], low, high)


def _some(every: list[Any], most: int | None, chance: Random) -> list[Any]:
    return every if most is None or len(every) <= most else chance.sample(every, most)


def _sampled(
    circuit: Circuit, checks: list[Check], chance: Random, draws: int
) -> Iterator[tuple[Check, list[float]]]:
    """Readings in every draw. Those that hardly load the circuit share their draws."""
    shared = [c for c in checks if c.instrument == CLAMP or _is_stiff(circuit, c)]
    if shared:
        bare = [(w, operate(circuit, s)) for w, s in phases(circuit, shared[0].setup)]
        rows: dict[Check, list[float]] = {check: [] for check in shared}
        for drawn in lots([p for _, p in bare], chance, draws):
            solved = [(w, p, volts_in(p, drawn)) for w, p in bare]
            for check, found in rows.items():
                mean = sum(w * _exact(check, p, volts, drawn) for w, p, volts in solved)
                found.append(_with_meter(check, mean, drawn))
        yield from rows.items()
    for check in checks:
        if check not in shared:
            yield check, _alone(circuit, check, chance, draws)


def _is_stiff(circuit: Circuit, check: Check) -> bool:
    if check.instrument != VOLTS:
        return False
    each = [operate(circuit, s) for _, s in phases(circuit, check.setup)]
    return all(p.resistance_between(*nodes(circuit, check)) < STIFF_OHMS for p in each)


def _alone(circuit: Circuit, check: Check, chance: Random, draws: int) -> list[float]:
    each = [(w, clipped(circuit, replace(check, setup=s), ())) for w, s in _phases(circuit, check)]
    found: list[float] = []
    for drawn in lots([p for _, p in each], chance, draws):
        mean = sum(w * _exact(check, p, volts_in(p, drawn), drawn, True) for w, p in each)
        found.append(_with_meter(check, mean, drawn))
    return found


def _phases(circuit: Circuit, check: Check) -> Sequence[tuple[float, object]]:
    return [(1.0, check.setup)] if check.instrument == OHMS else phases(circuit, check.setup)


def _exact(
    check: Check, point: OperatingPoint, volts: list[float], drawn: Lots, in_place: bool = False
) -> float:
    """What a faultless instrument reads in a draw."""
    if check.instrument == CLAMP:
        # Only the arrow is the core's word: which way a current counts as more than nothing.
        end, sense = along(point.circuit, check.red, check.setup)
        own = [_resized_slot(point, s, drawn) for s in point.slots if s.element == check.red]
        into = entering(point.circuit, check.red, end, own)
        return sense * sum(sign * s.branch.law.at(volts[s.a] - volts[s.b])[0] for sign, s in into)
    a, b = nodes(point.circuit, check)
    u = volts[a] - volts[b]
    if check.instrument == OHMS:
        return u / ((OHMMETER.volts - u) / OHMMETER.ohms)
    if in_place:
        return u
    return u * METER_OHMS / (METER_OHMS + point.resistance_between(a, b))


def _with_meter(check: Check, exact: float, drawn: Lots) -> float:
    if check.instrument == VOLTS:
        return exact + drawn[METER] * volts_sigma(exact)
    if check.instrument == CLAMP:
        return exact + drawn[METER] * meters.clamp_limit_amps(exact) / 2.0
    leads = meters.LEAD_OHMS.mean + drawn[LEADS] * meters.LEAD_OHMS.sigma
    return exact + leads + drawn[METER] * max(exact * 0.01, 0.1) / 2.0
