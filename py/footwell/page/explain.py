"""Why a value is expected, in words: where the current goes, what falls on the way, what may vary."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Literal

from footwell.checks.behind_plug import behind_plug
from footwell.checks.check import BENCH, CLAMP, FEED, LAMP, OHMS, VOLTS, Check
from footwell.checks.clipped import METER_OHMS, between_lines
from footwell.checks.explain import BandPart, Explanation, MeterLoad, explained, marks
from footwell.checks.phases import phases
from footwell.checks.predict import Reading, expected, likeliest
from footwell.checks.safety import refusal
from footwell.circuit.circuit import Circuit
from footwell.circuit.fault import Fault
from footwell.circuit.places import places
from footwell.electrics.flow import Leg
from footwell.electrics.operating_point import operate
from footwell.electrics.problems import troubles
from footwell.job.replay import replay
from footwell.job.stored import fitting, setup_of
from footwell.messages import ExplainAsked, ExplainRun, ExplainStep, SpreadPart
from footwell.messages import Explanation as ExplanationView
from footwell.page import words as say
from footwell.page.ask import AskError
from footwell.page.bands import CENTRAL_95
from footwell.page.expected import fault_of, row_of
from footwell.parts.base import EARTH

WEAK_OHMS = 1000.0
"""A place behind this much feeds no load, whatever a meter shows (common practice, no source)."""

NOTICED_VOLTS = 0.5
CLIPPED = {LAMP: "test lamp", FEED: "inside the battery and the lead"}
"""Names of what is clipped in; other instruments that carry current are lamps in place of a part."""

TOLD = 2
"""Elements with the largest drops that a sentence names."""

SMALL_SHARE = 0.01
"""Drops below this share of the supply stand together in one line."""

MOST_NAMES = 4
"""Elements named in a row."""

TELLING_SHARE = 0.02
"""Drops below this share of the supply are not worth a name in a sentence."""


def explanation(request: ExplainAsked) -> ExplanationView:
    """Why a check reads what it reads. Raises NotOnSheet, AskError."""
    case = replay(request.events).case
    circuit = case.now
    engine = request.engine or case.engine
    setup = setup_of(circuit, request.controls, request.apart, request.stand_in, engine)
    check = fitting(circuit, request.instrument, request.red, request.black, setup)
    why_not = refusal(circuit, check)
    if why_not:
        raise AskError(why_not)
    faults = tuple(sorted(fault_of(circuit, named) for named in request.faults))
    found = explained(circuit, check, faults)
    steps = _steps(circuit, check, found)
    return ExplanationView(
        row=row_of(circuit, check, faults),
        condition=say.condition(circuit, check.setup),
        lines=[*average_lines(circuit, check, faults), *_lines(circuit, check, found)],
        supply=say.volts(found.round[0].emf) if found.round else "",
        steps=steps,
        runs=_runs(steps),
        spread=[_spread(circuit, check, part) for part in found.band],
        meter=_instrument(check, found),
        warnings=_warnings(circuit, check, faults),
    )


def average_lines(circuit: Circuit, check: Check, faults: tuple[Fault, ...]) -> Iterator[str]:
    """Of what a reading is the average, where an output switches too quickly for the instrument."""
    changing = phases(circuit, check.setup)
    if len(changing) == 1 or check.instrument not in (VOLTS, CLAMP):
        return
    said = [
        (share, likeliest(expected(circuit, replace(check, setup=s), faults)))
        for share, s in changing
    ]
    told = ", ".join(
        f"{say.measured(one.mean, check.unit)} for {say.percent(share)} of the time"
        for share, one in said
        if isinstance(one, Reading)
    )
    yield f"Average of PWM: {told}. What follows is while the output is on."


def _warnings(circuit: Circuit, check: Check, faults: tuple[Fault, ...]) -> list[str]:
    if check.instrument not in (VOLTS, LAMP):
        return []
    return [trouble.sentence for trouble in troubles(operate(circuit, check.setup, faults))]


def _steps(circuit: Circuit, check: Check, found: Explanation) -> list[ExplainStep]:
    if check.instrument == OHMS:
        return _ohms_steps(circuit, found)
    emf = found.round[0].emf if found.round else 1.0
    return [
        ExplainStep(
            element=leg.element,
            name=_named(circuit, check, leg),
            kind=_kind(circuit, leg),
            amps=leg.amps,
            drop=leg.volts,
            unit="V",
            share=leg.volts / emf,
            level=found.point.volts[leg.end],
            text=say.volts(leg.volts),
            marks=[*here],
        )
        for leg, here in zip(found.round, marks(circuit, check, found), strict=True)
    ]


def _ohms_steps(circuit: Circuit, found: Explanation) -> list[ExplainStep]:
    """The part's own elements in ohms; the meter that drives the current is none of them."""
    legs = found.round[1:]
    whole = sum(leg.volts for leg in legs)
    return [
        ExplainStep(
            element=leg.element,
            name=_branch_named(circuit, leg),
            kind="part",
            amps=leg.amps,
            drop=leg.volts / leg.amps,
            unit="Ω",
            share=leg.volts / whole,
            level=found.point.volts[leg.end],
            text=say.ohms(leg.volts / leg.amps),
            marks=[],
        )
        for leg in legs
    ]


def _runs(steps: Sequence[ExplainStep]) -> list[ExplainRun]:
    """The lines of the way: small drops in a row are one, up to the next probe, body or held point."""
    rows: list[list[int]] = []
    joins = False
    for n, step in enumerate(steps):
        small = step.share < SMALL_SHARE
        if small and joins:
            rows[-1].append(n)
        else:
            rows.append([n])
        joins = small and not step.marks
    return [_run(steps, row) for row in rows]


def _run(steps: Sequence[ExplainStep], row: Sequence[int]) -> ExplainRun:
    first, mine = steps[row[0]], [steps[n] for n in row]
    whole = sum(step.drop for step in mine)
    return ExplainRun(
        name=first.name if len(row) == 1 else f"{len(row)} small drops together",
        text=say.measured(whole, first.unit),
        share=sum(step.share for step in mine),
        first=row[0],
        count=len(row),
    )


Kind = Literal["supply", "wire", "contact", "part", "instrument"]
KINDS: dict[str, Kind] = {"wire": "wire", "contact": "contact"}


def _kind(circuit: Circuit, leg: Leg) -> Kind:
    element = circuit.elements.get(leg.element)
    if element is None:
        return "instrument"
    if leg.emf > 0.0:
        return "supply"
    return KINDS.get(element.kind.name, "part")


def _named(circuit: Circuit, check: Check, leg: Leg) -> str:
    if leg.element not in circuit.elements:
        return CLIPPED.get(check.instrument, "lamp in its place")
    return (
        f"inside {say.short_named(circuit, leg.element)}"
        if leg.emf
        else _branch_named(circuit, leg)
    )


def _branch_named(circuit: Circuit, leg: Leg) -> str:
    name = say.short_named(circuit, leg.element)
    return f"{name}, {leg.branch}" if leg.branch else name


def _lines(circuit: Circuit, check: Check, found: Explanation) -> Iterator[str]:
    if found.look:
        yield "This is seen, not computed: how often the eye finds it is common practice."
    elif check.instrument == BENCH:
        yield "Out of its socket the relay tells of itself alone, and of nothing around it."
    elif between_lines(circuit, check):
        yield "The meter sends a small current through all that lies between the two lines."
    elif check.instrument == OHMS:
        yield _ohms_line(
            found, "all that hangs on the plug" if behind_plug(circuit, check) else "this part"
        )
    elif found.flows:
        yield from _flow_lines(circuit, check, found)
    else:
        yield from _still_lines(circuit, check, found)


def _ohms_line(found: Explanation, through: str) -> str:
    if not found.round:
        return "No current of the meter gets through, so it shows over range."
    return f"The meter sends a small current through {through} alone; the leads add their own."


def _flow_lines(circuit: Circuit, check: Check, found: Explanation) -> Iterator[str]:
    at = {name: n + 1 for n, row in enumerate(marks(circuit, check, found)) for name in row}
    red, black = at.get("red"), at.get("black")
    source = found.round[0]
    supply = say.short_named(circuit, source.element) if source.element != "clip" else "the battery"
    if red is None or black is None:
        through = max(leg.amps for leg in found.round)
        yield f"{say.amps(through)} flow from {supply} and back to it over earth."
    elif check.black != EARTH:
        between = found.round[min(red, black) : max(red, black)]
        yield f"Between the two places flow {say.amps(between[0].amps)}."
        yield _fall(circuit, check, between, "")
    elif red > black:
        yield "This place lies behind earth, on the way back to the supply."
        yield _fall(circuit, check, found.round[black:red], " from earth to here")
    else:
        # A unit that gives a voltage of its own starts the count anew.
        first = max(n for n, leg in enumerate(found.round[:red]) if n == 0 or leg.emf > 0.0)
        if first:
            source = found.round[first]
            supply = say.short_named(circuit, source.element)
        given = f"Of the {say.volts(source.emf)} of {supply}, "
        yield given + _fall(circuit, check, found.round[first:red], " on the way here")
        yield _fall(circuit, check, found.round[red:black], " from here to earth")


def _fall(circuit: Circuit, check: Check, legs: Sequence[Leg], where: str) -> str:
    """What falls along some legs, with the largest by name: "24.8 V fall from here to earth, 19.1 V
    of them at fan motor M1."."""
    whole = sum(leg.volts for leg in legs)
    falling = sorted(legs, key=lambda leg: -leg.volts)[:TOLD]
    told = [
        f"{say.volts(leg.volts)} of them {_at(_named(circuit, check, leg))}"
        for leg in falling
        if leg.volts > TELLING_SHARE * circuit.context.system_volts
    ]
    of_them = f", {' and '.join(told)}" if told else ""
    return f"{say.volts(whole)} fall{where}{of_them}."


def _at(name: str) -> str:
    return name if name.startswith("inside ") else f"at {name}"


def _still_lines(circuit: Circuit, check: Check, found: Explanation) -> Iterator[str]:
    yield "No current flows here."
    if "supply" in found.stops:
        yield f"No supply reaches it: {found.stops['supply'].reason}."
    if "earth" in found.stops:
        yield f"From here no current gets to earth: {found.stops['earth'].reason}."
    if found.hold is None:
        yield "It hangs on nothing: what a meter shows here is a ghost voltage."
    else:
        yield from _held(circuit, found)


def _held(circuit: Circuit, found: Explanation) -> Iterator[str]:
    hold = found.hold
    assert hold is not None
    battery = circuit.supply_element.nodes
    if hold.end in (circuit.earth, battery["-"]):
        where = "earth"
    elif hold.end == battery["+"]:
        where = "the supply"
    else:
        where = f"{say.place_named(circuit, _point_at(circuit, hold.end))}, where current flows"
    names = [say.short_named(circuit, e) for e in dict.fromkeys(hold.elements)]
    told = [
        *names[:MOST_NAMES],
        *([f"{len(names) - MOST_NAMES} more"] if names[MOST_NAMES:] else []),
    ]
    through = " and ".join([", ".join(told[:-1]), told[-1]] if told[1:] else told)
    yield f"It has the voltage of {where}{f', through {through}' if through else ''}."


def _point_at(circuit: Circuit, node: int) -> str:
    """The place at a node that a probe can reach, or the point itself."""
    known = [place.id for place in places(circuit).values() if place.node == node]
    return known[0] if known else circuit.points[node]


def _instrument(check: Check, found: Explanation) -> str:
    lamp = next((leg for leg in found.round if leg.element in ("clip", "stand-in")), None)
    if found.load is not None:
        return _meter(found.load)
    if lamp is not None and check.instrument != OHMS and found.flows and not lamp.emf:
        return f"The lamp takes {say.amps(lamp.amps)} and gets {say.volts(lamp.volts)}."
    return ""


def _meter(load: MeterLoad) -> str:
    micro = abs(load.amps) * 1e6
    takes = f"{micro:.1f} µA" if micro >= 0.05 else "next to nothing"
    text = f"The meter (10 MΩ) takes {takes} and sees {_seen(load.ohms)}."
    shown = load.amps * METER_OHMS
    if abs(shown - load.volts_without) >= 0.01:
        text += f" Without it {say.volts(load.volts_without)} would stand here."
    if load.ohms >= WEAK_OHMS and abs(load.volts_without) >= NOTICED_VOLTS:
        text += " Behind so much resistance no load would work: the voltage would break down."
    return text


def _seen(ohms: float) -> str:
    if ohms < 1.0:
        return f"{ohms * 1000:.0f} mΩ"
    return say.ohms(ohms) if ohms < 1e9 else "nothing but leakage"


def _spread(circuit: Circuit, check: Check, part: BandPart) -> SpreadPart:
    names = {"meter": "the meter itself", "supply": "the supply", "leads": "the test leads"}
    if check.unit == "A":
        names["meter"] = "the clamp itself"
    if part.element:
        name = names.get(part.element) or say.short_named(circuit, part.element)
    else:
        name = f"{part.count} other{'s' if part.count > 1 else ''}"
    width = say.measured(CENTRAL_95 * part.sigma, check.unit)
    return SpreadPart(element=part.element, name=name, share=part.share, text=f"±{width}")
