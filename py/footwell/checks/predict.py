"""What a check would read under a suspect, exactly and with its tolerances.

`expected` solves the circuit with the instrument in it and says how the reading leans on every
tolerance, so that readings that share a cause of error can be taken together.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from footwell.checks import sights
from footwell.checks.check import (
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
from footwell.checks.clipped import OHMMETER, clipped, held_to, part_of
from footwell.checks.outlook import activities, broken_at, summarised
from footwell.circuit.chains import alike
from footwell.circuit.circuit import Circuit
from footwell.circuit.fault import Fault
from footwell.electrics.operating_point import OperatingPoint, lamp_volts
from footwell.parts.laws import Source
from footwell.reference import meters
from footwell.reference.lamps import light_share

OVER_RANGE_OHMS = meters.OVER_RANGE_OHMS

Faults = tuple[Fault, ...]
Nuisance = tuple[str, str]
"""What a tolerance belongs to: (element, branch), or ("supply", "")."""


@dataclass(frozen=True, slots=True)
class Reading:
    """A predicted number: its mean, how it moves with one standard deviation of each tolerance, and
    the instrument's own standard deviation. Unit V, A or Ω."""

    mean: float
    leans: dict[Nuisance, float]
    instrument_sigma: float

    @property
    def sigma(self) -> float:
        return math.sqrt(sum(x * x for x in self.leans.values()) + self.instrument_sigma**2)


Words = dict[str, float]
"""A predicted word: chance of each."""


def expected(circuit: Circuit, check: Check, faults: Faults) -> Reading | Words:
    """What the check reads under the faults, as exactly as the circuit is known."""
    if check.instrument in FROM_OUTSIDE:
        faults = alike(circuit, faults, _watched_nodes(circuit, check))
    key = ("expected", check, faults)
    if key not in circuit.cache:
        circuit.cache[key] = _expected(circuit, check, faults)
    return circuit.cache[key]  # type: ignore[no-any-return]


FROM_OUTSIDE = (VOLTS, LAMP, CLAMP, SUBSTITUTE, FUSE_LAMP, LISTEN, LOAD)
"""Instruments that see a fault only through the rest of the circuit."""


def _watched_nodes(circuit: Circuit, check: Check) -> frozenset[int]:
    apart = broken_at(circuit, check.setup)
    return apart | frozenset(nodes(circuit, check)) if check.instrument in (VOLTS, LAMP) else apart


def _expected(circuit: Circuit, check: Check, faults: Faults) -> Reading | Words:
    if check.instrument == OHMS:
        return _ohms(circuit, check, faults)
    if check.instrument == CLAMP:
        return _clamped(circuit, check, faults)
    if check.numeric:
        return _volts(circuit, check, faults)
    ends = held_to(circuit, check)
    if ends is not None and check.instrument in (LAMP, FUSE_LAMP):
        point = clipped(circuit, check, faults)
        return light_words(circuit, point.volts[ends[0]] - point.volts[ends[1]])
    return _watched(circuit, check, faults)


def _volts(circuit: Circuit, check: Check, faults: Faults) -> Reading:
    a, b = nodes(circuit, check)
    point = clipped(circuit, check, faults)
    mean = point.volts[a] - point.volts[b]
    return Reading(mean, _leans(point, point.response(a, b)), volts_sigma(mean))


def _leans(point: OperatingPoint, lifted: list[float]) -> dict[Nuisance, float]:
    found: dict[Nuisance, float] = {}
    battery = point.circuit.supply_element.id
    for slot in point.slots:
        spread = slot.branch.spread
        if spread:
            nudge = slot.branch.law.nudge(point.across(slot)) * spread
            key = ("supply", "") if slot.element == battery else (slot.element, slot.branch.name)
            found[key] = (lifted[slot.b] - lifted[slot.a]) * nudge
    return found


def volts_sigma(volts: float) -> float:
    """Standard deviation of the meter on volts: half its limit."""
    return meters.volts_limit(min(abs(volts), 199.0)) / 2.0


def _clamped(circuit: Circuit, check: Check, faults: Faults) -> Reading:
    point = clipped(circuit, check, faults)
    slot = next((s for s in point.slots if s.element == check.red), None)
    if slot is None:
        return Reading(0.0, {}, meters.clamp_limit_amps(0.0) / 2.0)
    amps, slope = slot.branch.law.at(point.across(slot))
    leans = {key: slope * x for key, x in _leans(point, point.response(slot.a, slot.b)).items()}
    own = (slot.element, slot.branch.name)
    leans[own] = leans.get(own, 0.0) + amps * slot.branch.spread
    return Reading(amps, leans, meters.clamp_limit_amps(amps) / 2.0)


def _ohms(circuit: Circuit, check: Check, faults: Faults) -> Reading:
    a, b = nodes(circuit, check)
    element = part_of(circuit, check)
    point = clipped(circuit, check, faults)
    volts = point.volts[a] - point.volts[b]
    amps = (OHMMETER.volts - volts) / OHMMETER.ohms
    ohms = volts / amps if amps > 1e-9 else math.inf
    if ohms > OVER_RANGE_OHMS:
        return Reading(math.inf, {}, 0.0)
    lifted = point.response(a, b)
    per_volt = OHMMETER.ohms * OHMMETER.volts / (OHMMETER.volts - volts) ** 2
    leans = {key: x * per_volt for key, x in _leans(point, lifted).items() if key[0] == element}
    leans["leads", ""] = meters.LEAD_OHMS.sigma
    return Reading(ohms + meters.LEAD_OHMS.mean, leans, max(ohms * 0.01, 0.1) / 2.0)


def _watched(circuit: Circuit, check: Check, faults: Faults) -> Words:
    if check.instrument == LOOK:
        return _looked_at(circuit, check.red, faults)
    if check.instrument == SUBSTITUTE:
        point = clipped(circuit, check, faults)
        volts = next(point.across(s) for s in point.slots if s.element == "stand-in")
        return light_words(circuit, volts)
    if check.instrument == FEED:
        return _fed(circuit, check, faults)
    now = activities(circuit, check.setup, faults)[check.red]
    usual = activities(circuit, check.setup, ())[check.red]
    return sights.chances(seen_as(circuit, check.red), now, usual, sights.SLIP["me"])


def seen_as(circuit: Circuit, element: str) -> str:
    """Kind of sight that an element offers: "motor", "lamp", "heat" or "click"."""
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


def _looked_at(circuit: Circuit, element: str, faults: Faults) -> Words:
    """A blown fuse is nearly always seen; a bad contact four times in five (common practice, no source)."""
    modes = {f.mode for f in faults if f.element == element}
    if circuit.elements[element].kind.opens is not None:
        bad = 0.97 if "open" in modes else 0.01
        return dict(zip(FUSE_SIGHTS, (bad, 1.0 - bad), strict=True))
    bad = 0.8 if modes else 0.03
    return dict(zip(CONTACT_SIGHTS, (bad, 1.0 - bad), strict=True))


def _fed(circuit: Circuit, check: Check, faults: Faults) -> Words:
    """What a load does when fed straight from the battery."""
    now, usual = (summarised(clipped(circuit, check, x)).activity[check.red] for x in (faults, ()))
    return sights.chances(seen_as(circuit, check.red), now, usual, sights.SLIP["me"])
