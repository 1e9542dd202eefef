"""The voltage along the current's path, as the page draws it: places, bands, readings, a suspect's line."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence

from footwell.checks.catalogue import working_setups
from footwell.checks.check import VOLTS, Check
from footwell.checks.outlook import activities
from footwell.checks.predict import Reading
from footwell.checks.safety import refusal
from footwell.circuit.circuit import Circuit
from footwell.circuit.places import places
from footwell.circuit.setup import SetupState, set_up
from footwell.diagnosis.belief import Weighed, by_repair
from footwell.diagnosis.case import Case, Taken
from footwell.diagnosis.complaint import load_in_question
from footwell.diagnosis.conclude import Conclusion
from footwell.drawing.path import trace_in
from footwell.job.stored import NotOnSheet, setup_of
from footwell.messages import FallAsked, FallPoint, FallView
from footwell.page import words as say
from footwell.page.concluded import concluded
from footwell.page.fall import Excess, Level, levels, readings_along, worst_excess
from footwell.parts.base import EARTH

LIKELY_FROM = 0.2
"""Share from which a suspect's line is drawn beside the band."""


def fall_view(request: FallAsked) -> FallView:
    """The places of the path from the battery's + to its -. Raises NotOnSheet."""
    replayed, conclusion = concluded(request.events)
    case = replayed.case
    circuit = case.now
    load = request.load or load_in_question(case)
    if load not in circuit.sheet.loads:
        raise NotOnSheet(f"{load[:40]} is no load of this sheet.")
    setup = _setup(case, load, request.controls)
    along = _places(circuit, load, setup)
    sound = readings_along(circuit, along, setup)
    read = _read(case, setup)
    rows = levels(circuit, along, sound, read)
    worst = worst_excess(circuit, along, sound, read)
    suspect = _likeliest(conclusion)
    line = _line(case, suspect, along, setup)
    every = [v for row in rows for v in (row.low, row.high, row.read) if v is not None]
    return FallView(
        load=say.short_named(circuit, load),
        condition=say.condition(circuit, setup),
        controls=dict(setup.controls),
        points=[
            _point(circuit, row, along, line[n].mean if line else None)
            for n, row in enumerate(rows)
        ],
        lowest=min([0.0, *every]),
        highest=float(math.ceil(max([circuit.context.system_volts, *every]))),
        verdict=_verdict(circuit, rows, worst),
        fall_from=worst.start if worst else -1,
        fall_to=worst.end if worst else -1,
        suspect=_titled(circuit, conclusion, suspect) if suspect else "",
    )


def _setup(case: Case, load: str, controls: Mapping[str, str] | None) -> SetupState:
    circuit = case.now
    if controls is not None:
        return setup_of(circuit, controls, (), {}, case.engine)
    taken = [e for e in _volts_taken(case) if e.check.setup.engine == case.engine]
    if taken:
        return taken[-1].check.setup
    return at_work(circuit, load, case.engine)


def at_work(circuit: Circuit, load: str, engine: str) -> SetupState:
    """The first of the usual set-ups in which the load does most."""
    usual = working_setups(circuit, engine)
    done = {setup: round(activities(circuit, setup, ())[load], 6) for setup in usual}
    return max(usual, key=lambda setup: done[setup], default=set_up(circuit, engine=engine))


def _volts_taken(case: Case) -> Iterator[Taken]:
    """Volts against the body with everything plugged in, in the circuit as it stands now."""
    for e in case.evidence:
        if isinstance(e, Taken) and e.value is not None and e.epoch == len(case.epochs) - 1:
            setup = e.check.setup
            if (e.check.instrument, e.check.black) == (VOLTS, EARTH) and not setup.apart:
                yield e


def _places(circuit: Circuit, load: str, setup: SetupState) -> list[str]:
    """Places within reach on the path, and the battery's negative post behind the body."""
    known = places(circuit)
    on_path = trace_in(circuit, load, dict(setup.controls)).places
    return [
        place
        for place in (*on_path, f"{circuit.supply_element.id}.-")
        if place in known
        and known[place].plugged
        and not refusal(circuit, Check(VOLTS, place, EARTH, setup))
    ]


def _read(case: Case, setup: SetupState) -> dict[str, float]:
    """The last reading of each place in a set-up, in the sitting that is now."""
    return {
        e.check.red: e.value
        for e in _volts_taken(case)
        if e.check.setup == setup and e.sitting == case.sitting and e.value is not None
    }


def _likeliest(conclusion: Conclusion) -> Weighed | None:
    """The first suspect of the likeliest set of repairs, where that is likely."""
    for repairs, share in by_repair(conclusion.belief.suspects).items():
        if repairs and share >= LIKELY_FROM:
            return next(w for w in conclusion.belief.suspects if w.left == repairs)
        if repairs:
            return None
    return None


def _line(
    case: Case, suspect: Weighed | None, along: Sequence[str], setup: SetupState
) -> list[Reading]:
    """What the places would read under a suspect."""
    if suspect is None or not case.evidence:
        return []
    slip = suspect.hypothesis.slip if suspect.left == suspect.repairs else None
    circuit = case.circuit(len(case.epochs) - 1, slip)
    return readings_along(circuit, along, setup, suspect.now)


def _titled(circuit: Circuit, conclusion: Conclusion, suspect: Weighed) -> str:
    share = by_repair(conclusion.belief.suspects)[suspect.left]
    titles = [say.fault_title(circuit, f) for f in suspect.now or suspect.faults]
    if suspect.hypothesis.slip is not None:
        titles.insert(0, f"{suspect.hypothesis.slip.half[0]} {suspect.hypothesis.slip.title}")
    return f"{say.joined_all(titles)} ({say.percent(share)})"


def _point(circuit: Circuit, row: Level, along: Sequence[str], suspect: float | None) -> FallPoint:
    low, high = say.shown_limits(row.low, row.high, "V")
    return FallPoint(
        place=row.place,
        short=_short(row.place, along),
        name=say.place_named(circuit, row.place),
        expected=row.mean,
        low=row.low,
        high=row.high,
        band=say.band(low, high, "V"),
        measured=row.read,
        measured_text="" if row.read is None else say.volts(row.read),
        outside=row.outside,
        suspect=suspect,
    )


def _short(place: str, along: Sequence[str]) -> str:
    """A place as the diagram writes it: "X4/1", "F1 2"; with its half where the path meets both."""
    owner, *rest = place.replace(".-", ".−").split(".")
    if not rest[1:]:
        return " ".join([owner, *rest])
    other = f"{owner}.{rest[0]}.{'b' if rest[1] == 'a' else 'a'}"
    return f"{owner}/{rest[0]}" + (f" {rest[1]}" if other in along else "")


def _verdict(circuit: Circuit, rows: Sequence[Level], worst: Excess | None) -> str:
    read = [row for row in rows if row.read is not None]
    if not read:
        return "Nothing measured on this path in these positions yet."
    if worst is not None:
        start, end = (_end(circuit, rows, n) for n in (worst.start, worst.end))
        return f"{say.volts(worst.volts)} too much is lost between {start} and {end}."
    odd = next((row for row in read if row.outside), None)
    if odd is not None:
        side = "above" if odd.read is not None and odd.read > odd.high else "below"
        return f"{say.place_named(circuit, odd.place)} reads {side} its band, yet no more falls than should."
    return "All that was measured lies in its band."


def _end(circuit: Circuit, rows: Sequence[Level], n: int) -> str:
    if n < 0:
        return "the supply"
    return "the body" if n == len(rows) else say.place_named(circuit, rows[n].place)
