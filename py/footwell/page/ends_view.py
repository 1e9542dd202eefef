"""Both ends of a wire: where the sheet has them, what may be found there, and how a wire is put back."""

from __future__ import annotations

from collections.abc import Mapping

from footwell.checks.check import LOOK, Check
from footwell.checks.minutes import ENDS_MINUTES
from footwell.checks.safety import TEXTS, cautions, hands_off
from footwell.checks.works import differences
from footwell.circuit.circuit import AS_DRAWN, ENDS, Circuit, astray
from footwell.circuit.places import places, wires_named
from footwell.circuit.setup import set_up
from footwell.diagnosis.case import Case
from footwell.diagnosis.conclude import Next
from footwell.diagnosis.proof import Proven
from footwell.faults.miswiring import SPARE
from footwell.messages import Caution, EndPlace, EndsStep, EndView, RunView, StrangeWire
from footwell.page import words as say
from footwell.page.check_view import caution_view
from footwell.page.do_words import STOP_ENGINE
from footwell.page.wiring_words import spares_in
from footwell.parts.base import EARTH
from footwell.sheet.models import SheetConnector, SheetWire
from footwell.sheet.points import HALVES, HalfId, number, way_point, ways

HOW = (
    "Follow it by hand from each end, or tug it gently at one and feel for it at the other.",
    "See which wires share each of its ends.",
)


def ends_view(case: Case, step: Next) -> EndsStep:
    """The step that asks for a wire's ends or, where it was found to run elsewhere, to put it back."""
    drawn = case.drawn
    wire = _wire(drawn, step.wire)
    name = say.short_named(drawn, wire.id)
    back = step.purpose == "put back"
    ends = [_end(drawn, point) for point in (wire.start, wire.end)]
    stopped = [STOP_ENGINE] if case.engine == "on" else []
    run = dict(case.epochs[-1].arrangement).get((wire.id, ENDS), ())
    return EndsStep(
        wire=wire.id,
        put_back=back,
        goal=f"Put {name} back where the sheet has it" if back else f"Find both ends of {name}",
        why=_misled(case, wire, dict(run)) if back else _why(drawn, wire, step.proven),
        do=[*stopped, *(_moves(drawn, wire, dict(run)) if back else HOW)],
        ends=[] if back else ends,
        elsewhere=[] if back else runs_of(drawn),
        places=[] if back else places_of(drawn),
        minutes=ENDS_MINUTES,
        cautions=_cautions(case, wire.id, back),
    )


def runs_of(circuit: Circuit) -> list[RunView]:
    """Every end of every wire, by the wire that sits there."""
    return [
        _run(circuit, wire, point)
        for wire in circuit.sheet.wires
        for point in (wire.start, wire.end)
    ]


def places_of(circuit: Circuit) -> list[EndPlace]:
    """Where a wire may end: every terminal, every way of every plug in its order, empty ones with them, and
    the body."""
    owners = ((point, point.split(".")[0]) for point in places(circuit))
    terminals = [p for p, owner in owners if owner != EARTH and owner not in circuit.connectors]
    seats = [point for plug in circuit.sheet.connectors for point in _seats(plug)]
    every = (*terminals, *seats, EARTH)
    return [EndPlace(id=point, name=say.place_named(circuit, point)) for point in every]


def _seats(plug: SheetConnector) -> list[str]:
    """The points at which a wire may sit in a plug; on the side of a part there is none."""
    halves = HALVES[:1] if plug.part_ways else HALVES
    return [way_point(plug.id, way, half) for way in ways(plug) for half in halves]


def strange_wires(
    circuit: Circuit, half: HalfId, found: Mapping[str, str | None]
) -> list[StrangeWire]:
    """Wires in a half that the sheet does not have there, each with the ends of the sheet's wires at which
    its other end may sit: of its colour, or of any where no wire has it."""
    rows: list[StrangeWire] = []
    every = runs_of(circuit)
    for way, wires in found.items():
        here = way_point(half[0], way, half[1])
        for spare in spares_in(wires):
            colour = spare[len(SPARE) :]
            away = [r for r in every if here not in (r.point, r.far)]
            alike = [r for r in away if _wire(circuit, r.wire).colour in (colour, None)]
            seen = f"{colour} wire" if colour else "wire"
            told = f"The strange {seen} in way {number(circuit.connectors[half[0]], way)}"
            rows.append(StrangeWire(name=told, point=here, runs=alike or away))
    return rows


def run_told(circuit: Circuit, wire: str, start: str, end: str) -> str:
    """A wire's run: "BK (W3) from terminal 1 of earth stud E1 to …"."""
    name = say.short_named(circuit, wire)
    return f"{name} runs from {say.place_named(circuit, start)} to {say.place_named(circuit, end)}"


def _end(circuit: Circuit, point: str) -> EndView:
    here = [w for w in circuit.sheet.wires if point in (w.start, w.end)]
    runs = [_run(circuit, w, w.end if w.start == point else w.start) for w in here]
    names = say.joined_all([run.name for run in runs])
    place = say.place_named(circuit, point)
    return EndView(point=point, name=place, told=f"{say.capital(place)}: {names}", runs=runs)


def _run(circuit: Circuit, wire: SheetWire, point: str) -> RunView:
    """A wire seen from one of its ends."""
    far = wire.end if point == wire.start else wire.start
    colour = wires_named(circuit, wire.id)
    name = colour if wire.id in colour else f"{colour} ({wire.id})"
    return RunView(
        wire=wire.id, name=name, point=point, place=say.place_named(circuit, point), far=far
    )


def _wire(circuit: Circuit, wire: str) -> SheetWire:
    return next(w for w in circuit.sheet.wires if w.id == wire)


def _why(drawn: Circuit, wire: SheetWire, one: Proven | None) -> str:
    if one is None:
        return "No fault on this sheet fits, and a reading at its end is odd. See where it really runs."
    fault = drawn.elements[wire.id].modes[one.fault.mode].title
    proof = (
        f"Nothing proves yet that it is {fault}"
        if one.by is None
        else f"By the readings it is {fault}. A wire that ends elsewhere reads the same"
    )
    return (
        f"{proof}. Before it is renewed: does it end where the sheet has it, and do the same wires share"
        " its ends?"
    )


def _moves(drawn: Circuit, wire: SheetWire, run: Mapping[str, str]) -> list[str]:
    found, right = (run["start"], run["end"]), (wire.start, wire.end)
    gone, bare = [p for p in found if p not in right], [p for p in right if p not in found]
    forbidden = _forbidden(drawn, wire, [*gone, *bare])
    if forbidden:
        return [forbidden, *(f"It belongs on {say.place_named(drawn, place)}." for place in bare)]
    return [
        f"Take it off {say.place_named(drawn, old)} and join it to {say.place_named(drawn, new)}."
        for old, new in zip(gone, bare, strict=True)
    ]


def _forbidden(drawn: Circuit, wire: SheetWire, points: list[str]) -> str:
    """Why nobody but qualified people may move a wire; "" where anybody may."""
    held = dict.fromkeys([wire.id, *(point.split(".")[0] for point in points)])
    return next(filter(None, (hands_off(drawn, owner) for owner in held)), "")


def _misled(case: Case, wire: SheetWire, run: Mapping[str, str]) -> str:
    """What goes wrong with the wire as it was found, all else sound."""
    drawn = case.drawn
    told = run_told(drawn, wire.id, run["start"], run["end"])
    alone = case.circuit_for(astray(AS_DRAWN, wire.id, run["start"], run["end"]))
    return f"{say.capital(told)}. {_wrong(drawn, alone)}"


def _wrong(drawn: Circuit, found: Circuit) -> str:
    """The first thing that a circuit does and the drawn one does not."""
    first = next(differences(drawn, found), None)
    if first is None:
        return "So it does not do what the sheet says."
    name = say.short_named(drawn, first.element)
    if not first.does:
        return f"So {name} blows without any fault."
    where = say.controls_words(drawn, first.setup)
    return f"So, with {where}: {name} {first.does}; by the sheet {first.should}."


def _cautions(case: Case, wire: str, back: bool) -> list[Caution]:
    texts = cautions(case.now, Check(LOOK, wire, "", set_up(case.now)))
    battery = [TEXTS["battery"]] if back and all(c.hazard != "battery" for c in texts) else []
    return [caution_view(c) for c in (*battery, *texts)]
