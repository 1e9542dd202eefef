"""A check as the screen shows it: what we want to know, what to do, what to expect, what it means."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from footwell import RELEASE
from footwell.checks.behind_plug import behind_plug
from footwell.checks.bench import BENCH_WORDS
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
    bared,
)
from footwell.checks.clipped import between_lines, part_of
from footwell.checks.glance import Number
from footwell.checks.minutes import minutes
from footwell.checks.pairs import held_between
from footwell.checks.predict import (
    Prediction,
    Words,
    expected,
    readings,
    seen_as,
    sights_of,
)
from footwell.checks.safety import cautions
from footwell.circuit.circuit import Circuit
from footwell.circuit.fault import Fault
from footwell.circuit.places import places
from footwell.diagnosis.belief import Belief, Weighed
from footwell.diagnosis.case import Case, started
from footwell.diagnosis.choose import BLOWN_FROM, confirms, live_of, panel_of
from footwell.faults.suspects import Repair
from footwell.job.events import ReadingTaken, Setup, Shown
from footwell.messages import Band, Caution, Outcome
from footwell.messages import Check as CheckView
from footwell.page import words as say
from footwell.page.bands import others, spans, told
from footwell.page.do_words import condition_of, what_to_do
from footwell.page.suspect_view import SHOWN_FROM, shown
from footwell.parts.base import EARTH
from footwell.reference import sensors
from footwell.reference.sight_words import WORDS

INSTRUMENT_NAMES = {
    VOLTS: "Meter, V d.c.",
    LAMP: "Test lamp",
    SUBSTITUTE: "Substitute lamp",
    CLAMP: "Clamp, A d.c.",
    OHMS: "Meter, Ω",
    FEED: "Fused lead",
    BENCH: "Fused lead and meter",
    FUSE_LAMP: "Lamp in place of the fuse",
    LOOK: "Eyes",
    LISTEN: "Ears",
}
UNITS = {VOLTS: ["V", "mV"], CLAMP: ["A", "mA"], OHMS: ["Ω", "kΩ", "MΩ", "mΩ"]}
WORDS_BESIDE = {VOLTS: ["not steady"], CLAMP: ["not steady"], OHMS: ["over range", "not steady"]}


OVER_RANGE = 1e6
"""Ω from which the band of a check that should read nothing is kept."""


def check_view(case: Case, belief: Belief, check: Check, purpose: str = "narrow") -> CheckView:
    """Everything the screen needs of a check, with the event body to store."""
    circuit = case.now
    healthy = expected(circuit, check, ())
    band = None if isinstance(healthy, dict) else _band(circuit, check, healthy)
    outcomes = _outcomes(case, belief, check, band)
    goal = _once_more(case, check) if purpose == "again" else _goal(circuit, belief, check)
    do = what_to_do(case, check)
    shown = Shown(
        goal=goal,
        do=do,
        low=_kept(band.low) if band else None,
        high=_kept(band.high) if band else None,
        unit=check.unit,
        outcomes=[(o.when, o.means) for o in outcomes],
        release=RELEASE,
    )
    top = belief.suspects[0].now if belief.suspects else ()
    return CheckView(
        id=check.id,
        goal=goal,
        do=do,
        condition=condition_of(circuit, check),
        instrument=check.instrument,
        instrument_name=INSTRUMENT_NAMES.get(check.instrument, "Eyes and ears"),
        band=band,
        healthy_choice=max(healthy, key=lambda w: healthy[w]) if isinstance(healthy, dict) else "",
        entry="number" if check.numeric else "choice",
        units=_units(check, band),
        words=WORDS_BESIDE.get(check.instrument, []),
        choices=_choices(circuit, check),
        outcomes=outcomes,
        why=_why(case, belief, check, purpose),
        minutes=minutes(circuit, check, case.last_check),
        confirming=any(confirms(circuit, check, f) for f in top),
        cautions=[caution_view(c) for c in cautions(circuit, check)],
        place_points=list(_points(circuit, check)),
        record=_record(case, check, shown),
    )


def _points(circuit: Circuit, check: Check) -> Iterator[str]:
    """Places of a check as the diagram has them: a joint that is none is at its splice."""
    joint = bared(circuit, check)
    for point in (check.red, check.black):
        if point:
            yield joint if joint and point not in places(circuit) else point


def _once_more(case: Case, check: Check) -> str:
    """What is asked of a check whose number fits nothing."""
    values = [e.value for e in case.taken_now if e.check.id == check.id and e.value is not None]
    return f"{say.measured(values[-1], check.unit)} fits nothing: read it once more"


def caution_view(text: object) -> Caution:
    """A caution in the page's form."""
    return Caution.model_validate({name: getattr(text, name) for name in Caution.model_fields})


def _kept(value: float) -> float | None:
    """A limit as it is stored: five digits, more than any meter shows; links carry every digit."""
    return float(f"{value:.5g}") if math.isfinite(value) else None


def _record(case: Case, check: Check, shown: Shown) -> ReadingTaken:
    setup = Setup(
        controls=dict(check.setup.controls),
        apart=list(check.setup.apart),
        stand_in={plug: f"{watts:g} W" for plug, watts in check.setup.stand_in},
        engine=started(case, check),
    )
    return ReadingTaken(
        check=check.id,
        instrument=check.instrument,
        red=check.red,
        black=check.black,
        setup=setup,
        shown=shown,
    )


def _units(check: Check, band: Band | None) -> list[str]:
    """Unit keys, the one that fits the expected value first."""
    units = UNITS.get(check.instrument, [])
    if check.instrument == VOLTS and band and 0.0 < abs(band.high) < 0.4:
        return ["mV", "V"]
    return units


def _choices(circuit: Circuit, check: Check) -> list[str]:
    if check.numeric:
        return []
    if check.instrument == LOOK:
        return list(sights_of(circuit, check.red))
    if check.instrument == BENCH:
        return list(BENCH_WORDS)
    if check.instrument in (LAMP, SUBSTITUTE, FUSE_LAMP):
        return list(WORDS["lamp"])
    return list(WORDS[seen_as(circuit, check.red)])


def _band(circuit: Circuit, check: Check, healthy: Prediction) -> Band:
    found = spans(circuit, healthy, check.unit)
    if not found:
        return Band(
            low=OVER_RANGE,
            high=2.0 * OVER_RANGE,
            unit="Ω",
            text="over range",
            scale_low=0.0,
            scale_high=2.0 * OVER_RANGE,
            others=[],
        )
    return Band(
        low=found[0].low,
        high=found[0].high,
        unit=check.unit,
        text=told(circuit, found, lambda low, high: say.band(low, high, check.unit)),
        scale_low=min(0.0, *(s.low for s in found)),
        scale_high=_scale_top(circuit, check, max(s.high for s in found)),
        others=others(circuit, found),
    )


def _scale_top(circuit: Circuit, check: Check, high: float) -> float:
    """Far end of the bar: a little over the supply for volts to earth, twice the band otherwise."""
    if check.instrument == VOLTS and (check.black == EARTH or high > 2.0):
        return circuit.context.system_volts * 1.2
    return max(high * 2.0, 0.01)


GIVING = ("battery", "second_battery", "charging_source")
"""Kinds that give a voltage: nothing is lost across them."""


GOALS = {
    FEED: "Does {red} work when fed directly?",
    BENCH: "Does {red} close its contact by itself?",
    FUSE_LAMP: "Is there a short behind {red}?",
    SUBSTITUTE: "Can the feed and the earth carry a lamp?",
    LISTEN: "Does {red} pull in?",
    LOOK: "Is {red} sound to the eye?",
    LOAD: "What does {red} do?",
}
"""What the checks ask that no meter is held to."""


def _goal(circuit: Circuit, belief: Belief, check: Check) -> str:
    red = say.place_named(circuit, check.red)
    if check.instrument in (VOLTS, LAMP) and check.black == EARTH:
        return (
            f"Does the feed reach {red}?"
            if _is_feed_side(circuit, check)
            else f"What stands at {red}?"
        )
    if check.instrument == VOLTS and check.setup.stand_in:
        return "Does the feed hold under a lamp in place of the load?"
    if check.instrument == VOLTS:
        return _goal_across(circuit, belief, check)
    if check.instrument == CLAMP:
        what = "Does the current of a short flow" if check.setup.stand_in else "What current flows"
        return f"{what} in {say.short_named(circuit, check.red)}?"
    if check.instrument == OHMS:
        return _goal_ohms(circuit, check)
    return GOALS[check.instrument].format(red=red)


def _goal_across(circuit: Circuit, belief: Belief, check: Check) -> str:
    held = sorted({element for element, _ in held_between(circuit, check)})
    names = say.joined([say.short_named(circuit, e) for e in held])
    if any(circuit.elements[e].kind.name in GIVING for e in held):
        return f"What does {names} give?"
    if any(e in check.setup.apart or _is_blown(circuit, belief, e) for e in held):
        return f"Is there a way to earth behind {names}?"
    return f"What is lost across {names}?"


def _is_blown(circuit: Circuit, belief: Belief, element: str) -> bool:
    """Whether a fuse is thought to be blown: across it stands what the way behind it leaves to stand."""
    blown = (w.share for w in belief.suspects if any(_opens(f, element) for f in w.now))
    return circuit.elements[element].kind.name == "fuse" and sum(blown) >= BLOWN_FROM


def _opens(fault: Fault, element: str) -> bool:
    return (fault.element, fault.mode) == (element, "open")


def _goal_ohms(circuit: Circuit, check: Check) -> str:
    if between_lines(circuit, check):
        return _goal_between_lines(circuit, check)
    if behind_plug(circuit, check):
        connector, _, half = check.red.split(".")
        plug = circuit.connectors[connector]
        return f"Is what hangs on {plug.name}, {say.side_named(plug, half)}, sound by itself?"
    return f"Is {say.short_named(circuit, part_of(circuit, check))} sound by itself?"


def _goal_between_lines(circuit: Circuit, check: Check) -> str:
    """By what is left between the lines: both terminations, one behind a plug that is off, or none."""
    one = sensors.BUS_TERMINATION_OHMS.value
    left = one / readings(expected(circuit, check, ()))[0][1].mean
    if left > 1.5:
        return "Are both terminations of the bus there, and nothing else between its lines?"
    if left > 0.5:
        return "Is the other termination of the bus there, and nothing else between its lines?"
    return "Is there no path between the two lines of the bus here?"


def _is_feed_side(circuit: Circuit, check: Check) -> bool:
    healthy = expected(circuit, Check(VOLTS, check.red, check.black, check.setup), ())
    return readings(healthy)[0][1].mean > 0.2 * circuit.context.system_volts


RARE = 0.01
"""Outcomes rarer than this are not spelled out beforehand, but for the one that is expected."""

IN_BAND = "In the band"


@dataclass(frozen=True)
class _Zone:
    when: str
    rows: list[tuple[Weighed, float]]

    @property
    def weight(self) -> float:
        return sum(w.share * chance for w, chance in self.rows)


def _counted(belief: Belief) -> tuple[Weighed, ...]:
    """The suspects that matter for a choice, and the likeliest of every other set that is shown."""
    live = live_of(belief)
    known = {w.left for w in live}
    first = {w.left: w for w in reversed(belief.suspects)}
    return (*live, *(first[repairs] for repairs in shown(belief) if repairs not in known))


def _outcomes(case: Case, belief: Belief, check: Check, band: Band | None) -> list[Outcome]:
    live = _counted(belief)
    panel = panel_of(case, live)
    rows = (
        _number_zones(case, panel.numbers(check), check, live, band)
        if band
        else _word_zones(case.now, panel.words(check), check, live)
    )
    everything = _shares((w, 1.0) for w in live)
    total = sum(everything.values())
    likely = [z for z in rows if z.when == IN_BAND or z.weight > RARE * total] or rows
    return [Outcome(when=z.when, means=_means(case, z, everything, shown(belief))) for z in likely]


def _word_zones(
    circuit: Circuit, seen: Sequence[Words], check: Check, live: Sequence[Weighed]
) -> list[_Zone]:
    zones: dict[str, list[tuple[Weighed, float]]] = {w: [] for w in _choices(circuit, check)}
    for words, w in zip(seen, live, strict=True):
        for word, chance in words.items():
            zones.setdefault(word, []).append((w, chance))
    return [_Zone(say.capital(word), rows) for word, rows in zones.items()]


def _number_zones(
    case: Case, seen: Sequence[Sequence[Number]], check: Check, live: Sequence[Weighed], band: Band
) -> list[_Zone]:
    supply = float(case.now.context.system_volts)
    zones: dict[str, list[tuple[Weighed, float]]] = {IN_BAND: []}
    for numbers, w in zip(seen, live, strict=True):
        for chance, mean, _ in numbers:
            zones.setdefault(_zone(mean, check, band, supply), []).append((w, chance))
    order = (IN_BAND, "About 0 V", "Lower", "Higher", "Near supply voltage", "Over range")
    return [_Zone(name, zones[name]) for name in order if name in zones]


def _zone(value: float, check: Check, band: Band, supply: float) -> str:
    if math.isinf(value):
        return IN_BAND if band.text == "over range" else "Over range"
    ends = [(band.low, band.high), *((other.low, other.high) for other in band.others)]
    if any(low <= value <= high for low, high in ends):
        return IN_BAND
    if check.unit == "V" and abs(value) < 0.03 * supply and band.low > 0.06 * supply:
        return "About 0 V"
    if check.unit == "V" and abs(value) > 0.9 * supply > band.high:
        return "Near supply voltage"
    return "Lower" if value < band.low else "Higher"


def _shares(rows: Iterable[tuple[Weighed, float]]) -> dict[tuple[Repair, ...], float]:
    """Share of each set of repairs among suspects, falling."""
    found: dict[tuple[Repair, ...], float] = {}
    for w, chance in rows:
        found[w.left] = found.get(w.left, 0.0) + w.share * chance
    return dict(sorted(found.items(), key=lambda item: (-round(item[1], 9), item[0])))


def _means(
    case: Case,
    zone: _Zone,
    everything: Mapping[tuple[Repair, ...], float],
    suspects: Collection[tuple[Repair, ...]],
) -> str:
    """What an outcome leaves, and how many it would clear of those that are shown as suspects."""
    found = _shares(zone.rows)
    mass = sum(found.values())
    if mass < RARE * sum(everything.values()):
        return "All is sound here, but no suspect explains that. Measure once more."
    likely = [repairs for repairs, share in found.items() if share > 0.03 * mass]
    kept = [r for r in likely if not _is_hardly(found[r], everything[r], mass)] or likely
    cleared = sum(1 for r in suspects if found.get(r, 0.0) < SHOWN_FROM * mass)
    if kept == [()]:
        return f"All well here.{_clears(cleared, len(suspects))}"
    names = (
        together([say.repair_title(case.now, r) for r in repairs]) or "all well now"
        for repairs in kept
    )
    pointed = _few(list(dict.fromkeys(names)))
    if suspects and cleared == len(suspects):
        return f"No suspect gives that. Next in line: {pointed}."
    return f"Points to {pointed}.{_clears(cleared, len(suspects))}"


MOST_WORDS = 16
"""Words of the names in an outcome: with what stands around them, nobody reads more than 25."""


def _few(names: list[str]) -> str:
    """The first names of a list, as many of two as a line takes."""
    two = say.joined(names, 2)
    return two if len(two.split()) <= MOST_WORDS else say.joined(names, 1)


def _is_hardly(share: float, before: float, mass: float) -> bool:
    """Whether an outcome speaks so much against a suspect that it does not point there, although some of
    its share is left."""
    return share < 0.05 * before and share < 0.2 * mass


def _clears(cleared: int, of: int) -> str:
    return f" Clears {cleared} of {of} suspects." if cleared else ""


def together(names: list[str]) -> str:
    """Faults that are there at once, as one phrase.

    >>> together(["F1"]), together(["F1", "W2", "M1"])
    ('F1', 'F1, W2 and M1 together')
    """
    return f"{say.joined_all(names)} together" if len(names) > 1 else "".join(names)


def _why_confirm(circuit: Circuit, belief: Belief, check: Check) -> str:
    """Why a check is held to the most suspected part, by its name."""
    top = belief.suspects[0].now if belief.suspects else ()
    meant = [say.short_named(circuit, f.element) for f in top if confirms(circuit, check, f)]
    if not meant:
        return "This proves or clears the most suspected fault, before a part is bought."
    return f"Most suspected is {meant[0]}. This proves or clears it, before a part is bought."


def _why(case: Case, belief: Belief, check: Check, purpose: str) -> str:
    spent = minutes(case.now, check, case.last_check)
    if purpose == "confirm":
        return _why_confirm(case.now, belief, check)
    if purpose == "look" and case.now.elements[check.red].kind.name == "splice":
        return "No measurement tells this joint from what is beside it. A bad one shows or gives when pulled."
    if purpose == "bare joint":
        return "No other place tells this joint from the wires that end in it."
    if purpose == "look":
        return "No measurement shows where a wire lies on earth. The eye often does."
    if purpose == "again":
        return (
            "Several readings fit no fault on this sheet. Read this one once more, with the probe on bare"
            " metal and the controls in their positions."
        )
    if purpose == "cause":
        return "What was found is often an effect. This shows whether the load draws too much and caused it."
    if purpose == "asked":
        return "You chose this place."
    if purpose == "along":
        return (
            "Same place, same positions: it costs little now and tells more than the first alone."
        )
    return f"For its {max(spent, 1.0):.0f} min no other check tells the suspects apart better."
