"""Bands that hold 95 % of what a check may read: one, or one for each way that a doubt may turn out."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from footwell.checks.predict import Branched, Prediction, Reading
from footwell.circuit.circuit import Circuit
from footwell.electrics.spread import Leans, reaches
from footwell.electrics.turns import Turn
from footwell.messages import OtherBand
from footwell.page import words as say

CENTRAL_95 = 1.96
"""Half width of the band that holds 95 % of sound readings, in standard deviations."""


@dataclass(frozen=True, slots=True)
class Span:
    """A band in V, A or Ω, how likely the reading is to belong to it, and what has to be so for that."""

    low: float
    high: float
    value: float
    share: float = 1.0
    turns: tuple[Turn, ...] = ()


def spans(circuit: Circuit, predicted: Prediction, unit: str) -> list[Span]:
    """The bands of a number that can be read, the likeliest first; none for words and over range."""
    if isinstance(predicted, Reading):
        return [_span(circuit, predicted, unit)] if math.isfinite(predicted.mean) else []
    if not isinstance(predicted, Branched):
        return []
    found: list[Span] = []
    for row in predicted.rows:
        assert isinstance(row.said, Reading)
        _add(found, _span(circuit, row.said, unit, row.weight, row.turns))
    return sorted(found, key=lambda s: (-round(s.share, 9), s.low))


def _span(
    circuit: Circuit,
    reading: Reading,
    unit: str,
    share: float = 1.0,
    turns: tuple[Turn, ...] = (),
) -> Span:
    low, high = edges(circuit, reading)
    return Span(max(low, 0.0) if unit == "Ω" else low, high, reading.mean, share, turns)


def edges(circuit: Circuit, reading: Reading) -> tuple[float, float]:
    """The central 95 % of a reading in its own unit. A tolerance wider than its resistance is cut off
    where the resistance would end, which is the side on which its current rises."""
    reach = reaches(circuit)

    def half(side: float) -> float:
        parts = [reading.instrument_sigma, *_towards(side, reading.leans, reach)]
        return CENTRAL_95 * math.sqrt(sum(part * part for part in parts))

    return reading.mean - half(-1.0), reading.mean + half(1.0)


def _towards(side: float, leans: Leans, reach: Leans) -> Iterator[float]:
    """Standard deviation of each tolerance towards one side (-1 or 1) of a reading."""
    for key, lean in leans.items():
        cut = min(reach.get(key, CENTRAL_95) / CENTRAL_95, 1.0) if lean * side > 0.0 else 1.0
        yield lean * cut


def _add(found: list[Span], new: Span) -> None:
    """Bands that overlap are one: nobody could tell them apart."""
    for n, old in enumerate(found):
        if new.low <= old.high and old.low <= new.high:
            low, high = min(old.low, new.low), max(old.high, new.high)
            found[n] = Span(low, high, old.value, old.share + new.share, old.turns)
            return
    found.append(new)


def others(circuit: Circuit, bands: Sequence[Span]) -> list[OtherBand]:
    """The bands but the first, each with what would have to be so."""
    return [
        OtherBand(low=s.low, high=s.high, share=s.share, when=_when(circuit, s, bands[0]))
        for s in bands[1:]
    ]


def _when(circuit: Circuit, span: Span, usual: Span) -> str:
    """What sets a band apart from the usual one: "relay K1 has dropped out"."""
    said = {t.doubt.key: t.tipped for t in usual.turns}
    apart = [t for t in span.turns if said.get(t.doubt.key) != t.tipped]
    return say.joined([f"{say.short_named(circuit, t.doubt.element)} {t.words}" for t in apart])


def told(circuit: Circuit, bands: Sequence[Span], text: Callable[[float, float], str]) -> str:
    """All bands in words: "12.1–12.6 V, or about 0 V if relay K1 has dropped out (30 %)"."""
    first = text(bands[0].low, bands[0].high)
    rest = [
        f"or {text(o.low, o.high)} if {o.when} ({say.percent(o.share)})"
        for o in others(circuit, bands)
    ]
    return ", ".join([first, *rest])
