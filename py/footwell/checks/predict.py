"""What a check would read under a suspect, exactly and with its tolerances.

`expected` solves the circuit with the instrument in it and says how the reading leans on every
tolerance, so that readings that share a cause of error can be taken together.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from footwell.checks import sights
from footwell.checks.bench import on_the_bench
from footwell.checks.check import (
    BENCH,
    CLAMP,
    FEED,
    FUSE_LAMP,
    LAMP,
    LISTEN,
    LOAD,
    LOOK,
    OHMS,
    SUBSTITUTE,
    VOLTS,
    Check,
    nodes,
)
from footwell.checks.clamped import along, entering
from footwell.checks.clipped import OHMMETER, clipped, held_to, part_of
from footwell.checks.outlook import activities, broken_at, from_outside, outlooks, summarised
from footwell.checks.phases import effective_volts, phases
from footwell.checks.quiet import quiet_nodes, quiet_of, throughout
from footwell.circuit.chains import alike
from footwell.circuit.circuit import Circuit
from footwell.circuit.fault import Fault
from footwell.electrics.laying import lamp_volts
from footwell.electrics.operating_point import OperatingPoint
from footwell.electrics.spread import Nuisance as Nuisance
from footwell.electrics.spread import amps_leans, leans
from footwell.electrics.tipping import alternatives
from footwell.electrics.turns import NOTHING, Known, Turn, given, possible
from footwell.parts.laws import Source
from footwell.reference import meters
from footwell.reference.lamps import light_share

OVER_RANGE_OHMS = meters.OVER_RANGE_OHMS

Faults = tuple[Fault, ...]


@dataclass(frozen=True, slots=True)
class Reading:
    """A predicted number: its mean, how it moves with one standard deviation of each tolerance, and
    the instrument's own standard deviation. Unit V, A or Ω.

    Tolerances are independent of each other and of the instrument, so their variances add up (law of
    propagation of uncertainty, JCGM 100:2008, 5.1.2; first order, so for spreads that are small beside
    the curvature of the laws).

    >>> round(Reading(12.0, {("supply", ""): 0.3}, 0.4).sigma, 3)
    0.5
    """

    mean: float
    leans: dict[Nuisance, float]
    instrument_sigma: float

    @property
    def sigma(self) -> float:
        return math.sqrt(sum(x * x for x in self.leans.values()) + self.instrument_sigma**2)


Words = dict[str, float]
"""A predicted word: chance of each."""


@dataclass(frozen=True, slots=True)
class Foretold:
    """What a check says in one of the states that can be: the state's chance, how doubts have turned out
    for it, and the fuses that have opened."""

    weight: float
    said: Reading | Words
    turns: tuple[Turn, ...] = ()
    blown: tuple[str, ...] = ()
    quiet: int = 0
    """Nodes (bits) without voltage all the time from switch-off, with the instrument in place."""


@dataclass(frozen=True, slots=True)
class Branched:
    """A number that is one or another, each with its chance, likeliest first: a relay may or may not hold,
    a fuse may or may not open."""

    rows: tuple[Foretold, ...]

    @property
    def readings(self) -> tuple[tuple[float, Reading], ...]:
        return tuple((r.weight, r.said) for r in self.rows if isinstance(r.said, Reading))

    def each(self, change: Callable[[Reading], Reading]) -> Branched:
        """The same with every number changed."""
        return Branched(
            tuple(replace(r, said=change(r.said)) for r in self.rows if isinstance(r.said, Reading))
        )


Prediction = Reading | Words | Branched


def expected(circuit: Circuit, check: Check, faults: Faults, known: Known = NOTHING) -> Prediction:
    """What the check reads under the faults, as exactly as the circuit is known; `known` is what earlier
    readings suppose of relays and fuses in doubt.

    >>> from footwell.circuit.example import work_lamp
    >>> from footwell.circuit.setup import set_up
    >>> circuit = work_lamp()
    >>> on = set_up(circuit, {"S1": "on"})
    >>> lit = expected(circuit, Check(VOLTS, "H1.1", "earth", on), ())
    >>> broken = expected(circuit, Check(VOLTS, "H1.1", "earth", on), (Fault("W3", "open"),))
    >>> [f"{each.mean:.2f} V ± {each.sigma:.2f} V" for each in (lit, broken)]
    ['12.18 V ± 0.16 V', '0.00 V ± 0.00 V']
    """
    every = foretold(circuit, check, faults)
    if len(every) == 1:
        return every[0].said
    rows = [replace(row, weight=weight) for weight, row in possible(every, known)]
    if len(rows) == 1:
        return rows[0].said
    if isinstance(rows[0].said, Reading):
        return Branched(tuple(sorted(rows, key=lambda r: -round(r.weight, 9))))
    return mixed([(row.weight, row.said) for row in rows if isinstance(row.said, dict)])


def mixed(rows: Sequence[tuple[float, Words]]) -> Words:
    """Chance of each word where several states can be."""
    if len(rows) == 1:
        return rows[0][1]
    found: Words = {}
    for weight, words in rows:
        for word, chance in words.items():
            found[word] = found.get(word, 0.0) + weight * chance
    return found


def readings(predicted: Prediction) -> tuple[tuple[float, Reading], ...]:
    """The numbers that a check may read, each with its chance; none where it answers with a word."""
    if isinstance(predicted, Reading):
        return ((1.0, predicted),)
    return predicted.readings if isinstance(predicted, Branched) else ()


def likeliest(predicted: Prediction) -> Reading | Words:
    """The prediction itself, or the likeliest of its numbers."""
    return predicted.readings[0][1] if isinstance(predicted, Branched) else predicted


def foretold(circuit: Circuit, check: Check, faults: Faults) -> tuple[Foretold, ...]:
    """What the check says in each state that can be: nearly always one; weights sum to one."""
    if check.instrument in FROM_OUTSIDE:
        faults = alike(circuit, faults, _watched_nodes(circuit, check))
    return _foretold_there(circuit, check, faults)


def _foretold_there(circuit: Circuit, check: Check, faults: Faults) -> tuple[Foretold, ...]:
    """The same with each fault where it is, not at the first place of its stretch."""
    key = ("expected", check, faults)
    if key not in circuit.cache:
        fewer = _fewer(circuit, check, faults)
        circuit.cache[key] = (
            foretold(circuit, check, fewer)
            if fewer != faults
            else tuple(_felt(row) for row in _foretold(circuit, check, faults))
        )
    return circuit.cache[key]  # type: ignore[no-any-return]


def _fewer(circuit: Circuit, check: Check, faults: Faults) -> Faults:
    """The faults without those that lie where the instrument in its place finds and brings no voltage.

    A break that stood for its stretch would tell of places behind it that they are dead."""
    if check.instrument not in PROBES:
        return faults

    def nodes(under: Faults) -> int:
        return throughout(row.quiet for row in _foretold_there(circuit, check, under))

    return quiet_of(circuit, check, nodes).fewer(faults)


UNFELT = 1e-4
"""Variance, as a share of the instrument's own, below which leans are left out of what is kept."""


def _felt(row: Foretold) -> Foretold:
    """A prediction without the many small leans that the instrument does not feel: a large circuit has a
    hundred, of which a dozen count."""
    if not isinstance(row.said, Reading):
        return row
    left = UNFELT * row.said.instrument_sigma**2
    kept = dict(row.said.leans)
    for key, lean in sorted(kept.items(), key=lambda item: (abs(item[1]), item[0])):
        left -= lean * lean
        if left < 0.0:
            break
        del kept[key]
    return replace(row, said=replace(row.said, leans=kept))


FROM_OUTSIDE = (VOLTS, LAMP, CLAMP, SUBSTITUTE, FUSE_LAMP, LISTEN, LOAD)
"""Instruments that see a fault only through the rest of the circuit."""

PROBES = (VOLTS, LAMP, CLAMP, SUBSTITUTE, FUSE_LAMP)
"""Those of them that are not eyes and ears."""


def _watched_nodes(circuit: Circuit, check: Check) -> frozenset[int]:
    apart = broken_at(circuit, check.setup)
    return apart | frozenset(nodes(circuit, check)) if check.instrument in (VOLTS, LAMP) else apart


def _foretold(circuit: Circuit, check: Check, faults: Faults) -> tuple[Foretold, ...]:
    if check.instrument == LOOK:
        return (Foretold(1.0, _looked_at(circuit, check.red, faults)),)
    if check.instrument == BENCH:
        return (Foretold(1.0, on_the_bench(circuit, check.red, faults)),)
    if check.instrument in (LISTEN, LOAD):
        return _watched(circuit, check, faults)
    changing = phases(circuit, check.setup)
    if len(changing) > 1 and check.instrument not in (OHMS, FEED):
        each = [(share, replace(check, setup=setup)) for share, setup in changing]
        points = [(share, clipped(circuit, one, faults)) for share, one in each]
        quiet = throughout(quiet_nodes(point) for _, point in points)
        return (Foretold(1.0, _averaged(check, points), quiet=quiet),)
    point = clipped(circuit, check, faults)
    if check.instrument in (OHMS, FEED):
        return (Foretold(1.0, _said(check, point)),)
    return tuple(
        Foretold(
            a.weight,
            _said_after(check, a.point, a.turns),
            a.turns,
            a.point.blown,
            quiet_nodes(a.point),
        )
        for a in alternatives(point)
    )


def _said_after(check: Check, point: OperatingPoint, turns: tuple[Turn, ...]) -> Reading | Words:
    said = _said(check, point)
    if turns and isinstance(said, Reading):
        mean, leans_given = given(said.mean, said.leans, turns)
        return Reading(mean, leans_given, said.instrument_sigma)
    return said


def _averaged(check: Check, rows: Sequence[tuple[float, OperatingPoint]]) -> Reading | Words:
    """What the instrument says of operating points that change too quickly for it: a meter their
    average, a lamp the light of their mean power."""
    if not check.numeric:
        volts = [(share, _lamp_volts(check, point)) for share, point in rows]
        return light_words(rows[0][1].circuit, effective_volts(volts))
    said = [(share, _said(check, point)) for share, point in rows]
    every = [(share, one) for share, one in said if isinstance(one, Reading)]
    mean = sum(share * one.mean for share, one in every)
    summed: dict[Nuisance, float] = {}
    for share, one in every:
        for key, lean in one.leans.items():
            summed[key] = summed.get(key, 0.0) + share * lean
    return Reading(mean, summed, sum(share * one.instrument_sigma for share, one in every))


def _said(check: Check, point: OperatingPoint) -> Reading | Words:
    """What the instrument says at an operating point with it in the circuit."""
    if check.instrument == VOLTS:
        return _volts(check, point)
    if check.instrument == CLAMP:
        return _clamped(check, point)
    if check.instrument == OHMS:
        return _ohms(check, point)
    if check.instrument == FEED:
        return _fed(check, point)
    return light_words(point.circuit, _lamp_volts(check, point))


def _lamp_volts(check: Check, point: OperatingPoint) -> float:
    """Voltage (V) over the lamp that a check lays in."""
    if check.instrument == SUBSTITUTE:
        return next(point.across(s) for s in point.slots if s.element == "stand-in")
    ends = held_to(point.circuit, check)
    assert ends is not None
    return point.volts[ends[0]] - point.volts[ends[1]]


def _volts(check: Check, point: OperatingPoint) -> Reading:
    a, b = nodes(point.circuit, check)
    mean, added = point.volts[a] - point.volts[b], point.response(a, b)
    own = math.hypot(volts_sigma(mean), _stray(mean, added[a] - added[b]))
    return Reading(mean, leans(point, added), own)


LOOSE_FROM_OHMS = 0.9 * meters.VOLTMETER_OHMS.value
"""Resistance between the meter's places, the meter between them, from which nearly all of it is the meter's
own: one of the places hangs on leakage alone."""


def _stray(volts: float, ohms: float) -> float:
    """Standard deviation (V) of what a meter shows at a loose place: all of it. Nobody knows the leakage of
    a dead stretch, so no two breaks are told apart by it."""
    return abs(volts) if ohms > LOOSE_FROM_OHMS else 0.0


def volts_sigma(volts: float) -> float:
    """Standard deviation of the meter on volts: half its limit (V; limits and source: reference.meters).

    >>> [round(volts_sigma(volts), 5) for volts in (0.1, 12.0)]
    [0.00035, 0.04]
    """
    return meters.volts_limit(min(abs(volts), 199.0)) / 2.0


def _clamped(check: Check, point: OperatingPoint) -> Reading:
    circuit, amps, summed = point.circuit, 0.0, dict[Nuisance, float]()
    end, arrow = along(circuit, check.red, check.setup)
    for sign, slot in entering(circuit, check.red, end, point.own_slots(check.red)):
        amps += arrow * sign * point.slot_amps(slot)
        for key, lean in amps_leans(point, slot).items():
            summed[key] = summed.get(key, 0.0) + arrow * sign * lean
    return Reading(amps, summed, meters.clamp_limit_amps(amps) / 2.0)


def _ohms(check: Check, point: OperatingPoint) -> Reading:
    a, b = nodes(point.circuit, check)
    element = part_of(point.circuit, check)
    volts = point.volts[a] - point.volts[b]
    amps = (OHMMETER.volts - volts) / OHMMETER.ohms
    ohms = volts / amps if amps > 1e-9 else math.inf
    if ohms > OVER_RANGE_OHMS:
        return Reading(math.inf, {}, 0.0)
    per_volt = OHMMETER.ohms * OHMMETER.volts / (OHMMETER.volts - volts) ** 2
    every = leans(point, point.response(a, b))
    own = {key: x * per_volt for key, x in every.items() if element in ("", key[0])}
    own["leads", ""] = meters.LEAD_OHMS.sigma
    return Reading(ohms + meters.LEAD_OHMS.mean, own, max(ohms * 0.01, 0.1) / 2.0)


def _watched(circuit: Circuit, check: Check, faults: Faults) -> tuple[Foretold, ...]:
    """What a load does, by eye and ear."""
    kind, usual = seen_as(circuit, check.red), activities(circuit, check.setup, ())[check.red]
    found: list[Foretold] = []
    for seen in outlooks(circuit, check.setup, from_outside(circuit, check.setup, faults)):
        now = seen.outlook.activity[check.red]
        words = sights.chances(kind, now, usual, sights.SLIP["me"])
        found.append(Foretold(seen.weight, words, seen.turns, seen.outlook.blown))
    return tuple(found)


def seen_as(circuit: Circuit, element: str) -> str:
    """Kind of sight that an element offers: one of `sights.WORDS`, or ""."""
    return circuit.elements[element].kind.seen_as


def light_words(circuit: Circuit, volts: float) -> Words:
    """What people say of a lamp at a voltage (V): beside the same lamp straight on the battery."""
    battery = circuit.branches(circuit.supply_element, "off")[0].law
    assert isinstance(battery, Source)
    rated = lamp_volts(circuit)
    now, usual = light_share(volts, rated), light_share(battery.volts, rated)
    return sights.chances("lamp", now, usual, sights.SLIP["me"])


FUSE_SIGHTS = ("blown", "whole")
CONTACT_SIGHTS = ("burnt, green or loose", "clean and tight")
WIRE_SIGHTS = ("chafed or pinched", "looks sound")


def sights_of(circuit: Circuit, element: str) -> tuple[str, str]:
    """What a look at an element may show, the bad first."""
    kind = circuit.elements[element].kind
    if kind.opens is not None:
        return FUSE_SIGHTS
    return WIRE_SIGHTS if kind.name == "wire" else CONTACT_SIGHTS


SEEN = {
    FUSE_SIGHTS: (("open",), 0.97, 0.01, 0.01),
    CONTACT_SIGHTS: ((), 0.8, 0.8, 0.03),
    WIRE_SIGHTS: (("short_to_earth",), 0.75, 0.2, 0.02),
}
"""How often the bad is seen: modes that show best, then the share of those, of other modes, and where nothing
is wrong. A wire breaks inside its insulation, and where it lies on earth the insulation is through (common
practice, no source)."""


def _looked_at(circuit: Circuit, element: str, faults: Faults) -> Words:
    words = sights_of(circuit, element)
    plain, shown, hidden, sound = SEEN[words]
    modes = {f.mode for f in faults if f.element == element}
    bad = shown if modes & {*plain} else hidden if modes else sound
    return dict(zip(words, (bad, 1.0 - bad), strict=True))


def _fed(check: Check, point: OperatingPoint) -> Words:
    """What a load does when fed straight from the battery."""
    sound = clipped(point.circuit, check, ())
    now, usual = (summarised(p).activity[check.red] for p in (point, sound))
    return sights.chances(seen_as(point.circuit, check.red), now, usual, sights.SLIP["me"])
