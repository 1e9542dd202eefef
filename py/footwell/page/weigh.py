"""A reading as typed: is it a number, can it be, is it likely to be a slip of the finger?

Impossible readings are refused with the reason. A surprising one that would make sense ten times
larger or smaller, with the other prefix or the other sign is asked back once. A bad reading is normal in
this work and is not questioned for being bad.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass

from footwell.checks.check import CLAMP, OHMS, Check
from footwell.checks.predict import Reading, expected
from footwell.diagnosis.belief import Belief, believe
from footwell.diagnosis.case import Case
from footwell.job.events import ReadingTaken
from footwell.job.stored import NotOnSheet, check_of
from footwell.messages import Weighed
from footwell.page import words as say

UNITS = {"V": 1.0, "mV": 1e-3, "A": 1.0, "mA": 1e-3, "Ω": 1.0, "kΩ": 1e3, "MΩ": 1e6, "mΩ": 1e-3}
SMALLER = {"V": "mV", "A": "mA", "Ω": "mΩ", "kΩ": "Ω", "MΩ": "kΩ"}
LARGER = {"mV": "V", "mA": "A", "mΩ": "Ω", "Ω": "kΩ", "kΩ": "MΩ"}
KNOWN_STATES = 60
"""Suspects whose predictions count as states we know."""

CLOSE = 4.0
"""A value this many standard deviations from a known state still belongs to it."""

_NUMBER = re.compile(r"[+−-]?(\d+([.,]\d*)?|[.,]\d+)\Z")


@dataclass(frozen=True)
class Typed:
    """A number as typed, in the base unit, and what it was typed as."""

    value: float
    text: str
    unit: str


def number(text: str) -> float | None:
    """A typed number with comma or point as the decimal mark; None where it is not one.

    >>> number("12,3"), number("-.5"), number("1e9"), number("")
    (12.3, -0.5, None, None)
    """
    clean = text.strip().replace(" ", "")
    if not _NUMBER.match(clean):
        return None
    return float(clean.replace(",", ".").replace("−", "-"))


def weigh(case: Case, record: ReadingTaken, typed: str, unit: str) -> Weighed:
    """Judge a reading before it is kept."""
    try:
        check = check_of(case.now, record, case.engine)
    except NotOnSheet as error:
        return _refused(error.sentence)
    if not check.numeric:
        return _refused("This check is answered with a word. Choose one of its answers.")
    value = number(typed)
    if value is None:
        return _refused(
            "Nothing was entered. Type the number on the meter."
            if not typed.strip()
            else (f"“{typed[:20]}” is not a number. Use digits and one decimal mark.")
        )
    if unit not in UNITS:
        return _refused(f"The unit {unit[:8]} is not known here. Choose one of the unit keys.")
    reading = Typed(value * UNITS[unit], typed.strip(), unit)
    refusal = _impossible(case, check, reading)
    if refusal:
        return _refused(refusal)
    return _judged(case, check, record, reading)


def _refused(sentence: str) -> Weighed:
    return Weighed(
        refuse=sentence,
        ask="",
        offer="",
        offer_typed="",
        offer_unit="",
        text="",
        verdict="",
        mark=0.0,
        record=None,
    )


def _impossible(case: Case, check: Check, reading: Typed) -> str:
    """Why a value cannot be a reading of this check; "" where it can."""
    supply = case.now.context.system_volts
    size = abs(reading.value)
    if check.instrument == OHMS:
        if reading.value < 0:
            return "A resistance cannot be below zero. Check the sign."
        return "Above 100 MΩ the meter shows over range. Use that key." if size > 1e8 else ""
    if check.instrument == CLAMP:
        return (
            f"{say.amps(size)} is more than this circuit can carry. Check number and unit."
            if size > 2000
            else ""
        )
    most = 32.0 if supply == 24 else 16.5
    if size > most:
        return (
            f"{reading.text} {reading.unit} is more than a {supply} V vehicle can show"
            f" (at most {most:g} V). Check number and unit."
        )
    return ""


def _judged(case: Case, check: Check, record: ReadingTaken, reading: Typed) -> Weighed:
    healthy = expected(case.now, check, ())
    assert isinstance(healthy, Reading)
    verdict = verdict_of(healthy, reading.value)
    states = _states(case, check, believe(case))
    ask, offer = "", None
    if not _belongs(states, reading.value, check):
        offer = next((o for o in _slips(reading) if _belongs(states, o.value, check)), None)
        if offer is not None:
            typed, other = f"{reading.text} {reading.unit}", f"{offer.text} {offer.unit}"
            ask = f"{typed} fits nothing here; {other} would. Which is it?"
    shown = record.shown.model_copy(update={"verdict": verdict}) if record.shown else None
    kept = record.model_copy(
        update={"value": reading.value, "typed": f"{reading.text} {reading.unit}", "shown": shown}
    )
    return Weighed(
        refuse="",
        ask=ask,
        offer=f"{offer.text} {offer.unit}" if offer else "",
        offer_typed=offer.text if offer else "",
        offer_unit=offer.unit if offer else "",
        text=f"{reading.text} {reading.unit}",
        verdict=verdict,
        mark=reading.value,
        record=kept,
    )


def verdict_of(healthy: Reading, value: float) -> str:
    """The reading against the sound band, in two or three words."""
    if math.isinf(healthy.mean) or math.isinf(value):
        return "as expected" if healthy.mean == value else "not as expected"
    miss = (value - healthy.mean) / max(healthy.sigma, 1e-9)
    if abs(miss) <= 1.96:
        return "in the band"
    return "below the band" if miss < 0 else "above the band"


def _states(case: Case, check: Check, belief: Belief) -> list[Reading]:
    """Predictions of a sound circuit and of the likeliest suspects."""
    now = len(case.epochs) - 1
    found = [expected(case.now, check, ())]
    for w in belief.suspects[:KNOWN_STATES]:
        circuit = case.circuit(now, w.hypothesis.slip)
        found.append(expected(circuit, check, case.standing(w.hypothesis, now)))
    return [r for r in found if isinstance(r, Reading)]


def _belongs(states: list[Reading], value: float, check: Check) -> bool:
    """Whether a value lies near a state we know or between two of them as a poor joint would put it."""
    return any(
        abs(value - r.mean) <= CLOSE * r.sigma + 0.01 * abs(r.mean)
        for r in states
        if math.isfinite(r.mean)
    )


def _slips(reading: Typed) -> list[Typed]:
    """What may have been meant: the other prefix, the other sign, a decimal mark one place off."""
    found: list[Typed] = []
    bare = number(reading.text) or 0.0
    for other in (SMALLER.get(reading.unit), LARGER.get(reading.unit)):
        if other:
            found.append(Typed(bare * UNITS[other], reading.text, other))
    found.append(Typed(-reading.value, _plain(-bare), reading.unit))
    for factor in (0.1, 10.0):
        found.append(Typed(reading.value * factor, _plain(bare * factor), reading.unit))
    return found


def _plain(value: float) -> str:
    return f"{value:.6g}"
