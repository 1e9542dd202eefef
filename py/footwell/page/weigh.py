"""A reading as typed: is it a number, can it be, is it likely to be a slip of the finger?

Impossible readings are refused with the reason. A surprising one that would make sense ten times
larger or smaller, with the other prefix or the other sign is asked back once. A bad reading is normal in
this work and is not questioned for being bad.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from footwell.checks.check import CLAMP, OHMS, Check
from footwell.checks.predict import Prediction, Reading, expected, readings
from footwell.circuit.circuit import Circuit
from footwell.diagnosis.belief import Belief, believe
from footwell.diagnosis.case import Case
from footwell.job.events import ReadingTaken
from footwell.job.stored import NotOnSheet, check_of
from footwell.messages import Weighed
from footwell.page import words as say
from footwell.page.bands import spans
from footwell.page.check_view import UNITS
from footwell.page.typed import FACTORS, Typed, number, slips

KNOWN_STATES = 60
"""Suspects whose predictions count as states we know."""

CLOSE = 4.0
"""A value this many standard deviations from a known state still belongs to it."""

SURE = 2.0
"""What is offered instead lies this close to the sound reading, or to those of likely suspects."""

TELLING = 0.1
"""Least share of the suspects that an offer fits; some suspect reads nearly anything."""

NOTHING = 0.05
"""Share of the sound reading up to which another is about nothing beside it."""


def weigh(case: Case, record: ReadingTaken, typed: str, unit: str) -> Weighed:
    """Judge a reading before it is kept."""
    try:
        check = check_of(case.now, record, case.engine)
    except NotOnSheet as error:
        return _refused(error.sentence)
    value = number(typed)
    if not check.numeric or value is None or unit not in UNITS[check.instrument]:
        return _refused(_unreadable(check, typed, unit))
    reading = Typed(value * FACTORS[unit], typed.replace(" ", ""), unit)
    refusal = _impossible(case, check, reading)
    offer = _meant(case, check, reading, possible=not refusal)
    verdict = _verdict(case, check, reading)
    return Weighed(
        refuse=refusal,
        ask=_question(reading, offer, refusal) if offer else "",
        offer=str(offer) if offer else "",
        offer_typed=offer.text if offer else "",
        offer_unit=offer.unit if offer else "",
        text=str(reading),
        verdict=verdict,
        mark=reading.value,
        record=None if refusal else _kept(record, reading, verdict),
    )


def _question(reading: Typed, offer: Typed, refusal: str) -> str:
    if refusal:
        return f"{reading} cannot be read here. Was it {offer}?"
    return f"{reading} fits nothing here; {offer} would. Which is it?"


def _meant(case: Case, check: Check, reading: Typed, possible: bool) -> Typed | None:
    """What may have been meant in place of a reading that fits no state we know."""
    states = _states(case, check, believe(case))
    if possible and any(_near(state.reading, reading.value, CLOSE) for state in states):
        return _likelier(case, check, reading, states)
    sound = states[0].reading
    telling = [s for s in states if s.reading is sound or not _about_nothing(s.reading, sound)]
    offers = [s for s in slips(reading) if not _impossible(case, check, s)]
    for slip in offers:
        near = sum(s.share for s in telling if _near(s.reading, slip.value, SURE))
        if near >= TELLING:
            return slip
    prefixed = (s for s in offers if s.unit != reading.unit)
    return None if possible else next(prefixed, None)


UNLIKELY, LIKELY = 0.05, 0.3
"""Shares of the suspects that a reading fits, and that the same number with the other prefix fits, at which
it is asked back: "24" on a key left at mV."""


def _likelier(case: Case, check: Check, reading: Typed, states: list[_State]) -> Typed | None:
    """The same number with another prefix, where hardly any suspect gives what was typed."""
    sound, suspects = states[0].reading, states[1:]

    def share(value: float, among: list[_State]) -> float:
        return sum(s.share for s in among if _near(s.reading, value, CLOSE))

    if share(reading.value, suspects) >= UNLIKELY:
        return None
    telling = [s for s in suspects if not _about_nothing(s.reading, sound)]
    for slip in slips(reading):
        other = slip.unit != reading.unit and not _impossible(case, check, slip)
        if other and share(slip.value, telling) >= LIKELY:
            return slip
    return None


def _verdict(case: Case, check: Check, reading: Typed) -> str:
    healthy = expected(case.now, check, ())
    return verdict_of(case.now, healthy, reading.value, check.unit)


def _unreadable(check: Check, typed: str, unit: str) -> str:
    """Why what was typed is no number of this check's kind."""
    if not check.numeric:
        return "This check is answered with a word. Choose one of its answers."
    if not typed.strip():
        return "Nothing was entered. Type the number on the meter."
    if number(typed) is None:
        return f"“{typed[:20]}” is not a number. Use digits and one decimal mark."
    units = ", ".join(UNITS[check.instrument])
    return f"The unit {unit[:8]} does not fit this check. Choose one of {units}."


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
            f"{str(reading).replace('-', '−')} is more than a {supply} V vehicle can show"
            f" (at most {most:g} V). Check number and unit."
        )
    return ""


def _kept(record: ReadingTaken, reading: Typed, verdict: str) -> ReadingTaken:
    """The reading as it is stored, with its verdict among what was shown."""
    shown = record.shown.model_copy(update={"verdict": verdict}) if record.shown else None
    return record.model_copy(update={"value": reading.value, "typed": str(reading), "shown": shown})


def verdict_of(circuit: Circuit, healthy: Prediction, value: float, unit: str) -> str:
    """The reading against the sound band as it is shown, in two or three words; where a doubt leaves two,
    against either."""
    found = spans(circuit, healthy, unit)
    if not found or math.isinf(value):
        return "as expected" if not found and math.isinf(value) else "not as expected"
    limits = [say.shown_limits(s.low, s.high, unit) for s in found]
    if any(low <= value <= high for low, high in limits):
        return "in the band"
    return "below the band" if value < limits[0][0] else "above the band"


@dataclass(frozen=True)
class _State:
    """What a check reads if all is well (share 1) or under a suspect, with the suspect's share."""

    reading: Reading
    share: float


def _states(case: Case, check: Check, belief: Belief) -> list[_State]:
    """Predictions of a sound circuit, which comes first, and of the likeliest suspects."""
    now = len(case.epochs) - 1
    rows = [(expected(case.now, check, ()), 1.0)]
    for w in belief.suspects[:KNOWN_STATES]:
        circuit = case.circuit(now, w.hypothesis.slip)
        rows.append((expected(circuit, check, w.now, w.known), w.share))
    return [
        _State(reading, share * chance)
        for predicted, share in rows
        for chance, reading in readings(predicted)
    ]


def _about_nothing(state: Reading, sound: Reading) -> bool:
    """Millivolts are always near to no voltage, and would explain every slip."""
    return abs(state.mean) <= max(SURE * state.sigma, NOTHING * abs(sound.mean))


def _near(state: Reading, value: float, sigmas: float) -> bool:
    """Whether a value may be a reading of a state."""
    if not math.isfinite(state.mean):
        return False
    return abs(value - state.mean) <= sigmas * state.sigma + 0.01 * abs(state.mean)
