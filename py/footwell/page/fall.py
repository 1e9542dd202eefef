"""The voltage along the current's path: what it ought to be at each place, and where too much falls.

The band of each place is what a sound circuit reads there, given the first reading of the path: a low
battery lowers all of them. Too much falls where the fall between two places that were measured lies
above what a sound circuit lets fall there; the body behind the path stands at 0 V by definition.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from footwell.checks.check import VOLTS, Check
from footwell.checks.predict import Nuisance, Reading, expected, likeliest
from footwell.circuit.circuit import Circuit
from footwell.circuit.fault import Fault
from footwell.circuit.setup import SetupState
from footwell.page.bands import CENTRAL_95, edges
from footwell.parts.base import EARTH

LEAST_VOLTS = 0.05
"""A fall that is larger than it should be by less than this is not worth a word (common practice, no
source)."""


@dataclass(frozen=True, slots=True)
class Level:
    """A place of the path: what a sound circuit reads there in V, its 95 %, and what was read."""

    place: str
    mean: float
    low: float
    high: float
    read: float | None

    @property
    def outside(self) -> bool:
        return self.read is not None and not self.low <= self.read <= self.high


@dataclass(frozen=True, slots=True)
class Excess:
    """Too much falls between two measured points: `volts` more than a sound circuit lets fall. -1 stands
    for the supply in front of the path, the number of places for the body behind it."""

    start: int
    end: int
    volts: float


def readings_along(
    circuit: Circuit, places: Sequence[str], setup: SetupState, faults: tuple[Fault, ...] = ()
) -> list[Reading]:
    """What a meter against the body reads at each place, in the likeliest state of relays and fuses. The
    meter's own spread is one of the leans: two falls with one reading in common share it."""
    found = [
        likeliest(expected(circuit, Check(VOLTS, place, EARTH, setup), faults)) for place in places
    ]
    return [
        Reading(one.mean, one.leans | {("meter", place): one.instrument_sigma}, 0.0)
        for place, one in zip(places, found, strict=True)
        if isinstance(one, Reading)
    ]


def levels(
    circuit: Circuit, places: Sequence[str], sound: Sequence[Reading], read: Mapping[str, float]
) -> list[Level]:
    """The places with their bands, given the first reading where a sound circuit can have it."""
    base = _base(circuit, places, sound, read)
    rows: list[Level] = []
    for n, (place, one) in enumerate(zip(places, sound, strict=True)):
        known = one if base is None or base == n else _given(one, sound[base], read[places[base]])
        rows.append(Level(place, known.mean, *edges(circuit, known), read.get(place)))
    return rows


def _base(
    circuit: Circuit, places: Sequence[str], sound: Sequence[Reading], read: Mapping[str, float]
) -> int | None:
    """The first place that was measured, unless it reads less than a sound circuit would: more is a
    matter of the supply alone."""
    first = next((n for n, place in enumerate(places) if place in read), None)
    if first is None:
        return None
    low, _ = edges(circuit, sound[first])
    return first if read[places[first]] >= low else None


def _given(one: Reading, base: Reading, value: float) -> Reading:
    """A reading once another one of the same set-up is known."""
    both = sum(lean * base.leans.get(key, 0.0) for key, lean in one.leans.items())
    share = both / base.sigma**2 if base.sigma else 0.0
    mean = one.mean + share * (value - base.mean)
    return Reading(mean, _less(one, base, share), 0.0)


def _less(one: Reading, other: Reading, share: float = 1.0) -> dict[Nuisance, float]:
    """Leans of a reading less a share of another one."""
    keys = dict.fromkeys([*one.leans, *other.leans])
    return {k: one.leans.get(k, 0.0) - share * other.leans.get(k, 0.0) for k in keys}


def worst_excess(
    circuit: Circuit, places: Sequence[str], sound: Sequence[Reading], read: Mapping[str, float]
) -> Excess | None:
    """The stretch in which most falls that should not; None where all that falls may fall."""
    base = _base(circuit, places, sound, read)
    known = [n for n, place in enumerate(places) if place in read]
    if not known:
        return None
    ends = [*([] if base is not None else [-1]), *known, len(places)]
    found = [
        Excess(start, end, volts)
        for start, end in pairwise(ends)
        if (volts := _excess(places, sound, read, base, start, end)) > LEAST_VOLTS
    ]
    return max(found, key=lambda e: (round(e.volts, 6), -e.start), default=None)


def _excess(
    places: Sequence[str],
    sound: Sequence[Reading],
    read: Mapping[str, float],
    base: int | None,
    start: int,
    end: int,
) -> float:
    """Volts that fall in a stretch beyond what should; 0 where its 95 % hold them."""
    body = Reading(0.0, {}, 0.0)
    behind = sound[end] if end < len(places) else body
    seen_behind = read[places[end]] if end < len(places) else 0.0
    if start < 0:
        more, sigma = behind.mean - seen_behind, behind.sigma
    else:
        fall = Reading(sound[start].mean - behind.mean, _less(sound[start], behind), 0.0)
        known = fall if base is None else _given(fall, sound[base], read[places[base]])
        more, sigma = read[places[start]] - seen_behind - known.mean, known.sigma
    return more if more > CENTRAL_95 * sigma else 0.0
