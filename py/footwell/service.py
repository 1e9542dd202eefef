"""The calls from the page: text in, text out. One short function a call, typed once, here."""

from __future__ import annotations

import sys
from collections.abc import Callable
from dataclasses import asdict
from typing import Any

from pydantic import BaseModel, ValidationError

from footwell import RELEASE
from footwell import messages as m
from footwell.diagnosis.ahead import prepared
from footwell.errors import FootwellError
from footwell.job import links
from footwell.job.events import EVENT_FORMAT, Event, WireListed, WiresListed
from footwell.job.replay import replay
from footwell.job.stored import wiring_of
from footwell.page import build_view, practice_view
from footwell.page.ask import chosen_check
from footwell.page.circuit_file import circuit_file
from footwell.page.diagram_view import diagram_of
from footwell.page.expected import expected_table
from footwell.page.explain import explanation
from footwell.page.fall_view import fall_view
from footwell.page.job_view import job_view
from footwell.page.orders_view import orders_view
from footwell.page.weigh import weigh as weighed
from footwell.page.wiring_view import connector_view
from footwell.sheet.list_reading import take_list
from footwell.sheet.old_plug import read_off
from footwell.sheet.reading import ReadSheet, read_again
from footwell.sheet.reading import read_data as sheet_data
from footwell.sheet.reading import read_sheet as sheet_of
from footwell.sheet.sharing import ends_of, of_one_colour
from footwell.sheet.starter import Wanted, starter_sheet


def ping(request: m.Nothing) -> m.Ready:
    """Ask whether the core is there."""
    return m.Ready(release=RELEASE, python=sys.version.split()[0])


def read_sheet(request: m.SheetText) -> m.SheetAnswer:
    """Check a sheet and say what it leaves open."""
    return _answer(sheet_of(request.text))


def _answer(read: ReadSheet) -> m.SheetAnswer:
    sheet = read.sheet
    return m.SheetAnswer(
        id=sheet.id,
        title=sheet.title,
        vehicle=sheet.vehicle,
        system_volts=sheet.system_volts,
        summary=sheet.summary,
        parts=len(sheet.parts),
        assumed=read.assumed,
        notices=[*read.odd, *of_one_colour(sheet, ends_of(sheet))],
        sheet=sheet.model_dump(mode="json", exclude_unset=True),
    )


def starter(request: m.StarterWanted) -> m.SheetAnswer:
    """A sheet to begin with where there is no diagram."""
    wanted = Wanted(request.load, request.volts, request.positions, request.relay)
    return _answer(sheet_data(starter_sheet(wanted)))


def file_make(request: m.FileAsked) -> m.FileMade:
    """The circuit of a job as it stands, as a file."""
    return circuit_file(request)


def list_read(request: m.ListText) -> m.ListRead:
    """What a wiring list would make of a job's sheet."""
    taken = take_list(request.text, replay(request.events).read.sheet)
    body = WiresListed(wires=[WireListed(**asdict(wire)) for wire in taken.wires])
    return m.ListRead(
        entry=m.NewEntry(kind="wires listed", body=body.model_dump(exclude_none=True)),
        wires=len(taken.wires),
        fresh=list(taken.new),
        changed=list(taken.changed),
        notices=list(taken.notices),
    )


def build(request: m.Building) -> m.BuildView:
    """What stands of a sheet that is being built."""
    return build_view.view(request)


def look(request: m.Job) -> m.JobView:
    """Everything the page shows of a job."""
    return job_view(request.events)


def diagram(request: m.DiagramAsked) -> m.Diagram:
    """The diagram of a job, with what was opened of its folds."""
    return diagram_of(request)


def fall(request: m.FallAsked) -> m.FallView:
    """The voltage along the current's path, and where too much falls."""
    return fall_view(request)


def prepare(request: m.AheadAsked) -> m.Prepared:
    """Work out a piece of what single faults do, while the person still tells the story. Whoever goes on
    sooner waits for no more than that piece."""
    left = prepared(replay(request.events).case, request.done)
    return m.Prepared(done=request.done + 1, left=left)


def check_at(request: m.CheckAsked) -> m.Check:
    """A check at a place, in a set-up and with an instrument of the person's choice."""
    return chosen_check(request)


def weigh(request: m.ReadingTyped) -> m.Weighed:
    """Judge a reading as typed, before it is kept."""
    return weighed(replay(request.events).case, request.record, request.typed, request.unit)


def wiring(request: m.WiringAsked) -> m.ConnectorView:
    """What a connector's wiring as found amounts to."""
    replayed = replay(request.events)
    half = (request.connector, request.half)
    wiring_of(replayed.case.now, half, request.found)
    return connector_view(
        replayed.case,
        half,
        request.found,
        half in replayed.case.doubtful,
        replayed.old_plugs.get(half),
    )


def old_plug(request: m.OldPlugAsked) -> m.OldPlugView:
    """What it would change to read a half's wiring as it should be off a plug."""
    half = (request.connector, request.half)
    taken = read_off(replay(request.events).read.sheet, half, request.colours)
    read_again(taken.sheet)
    return m.OldPlugView(notices=list(taken.notices))


def entry_try(request: m.EntryTried) -> m.Nothing:
    """Whether a change of the sheet can be made: refused with the sentence that says why not."""
    before = len(replay(request.events).problems)
    tried = Event(
        device="trying",
        n=1,
        job="trying",
        kind=request.kind,
        format=EVENT_FORMAT,
        body=request.body,
    )
    problems = replay([*request.events, tried]).problems
    if len(problems) > before:
        raise FootwellError("bad_change", problems[-1])
    return m.Nothing()


def orders(request: m.OrdersAsked) -> m.OrdersView:
    """Which orders of a connector's wires fit what is known, where the numbers cannot be seen."""
    case = replay(request.events).case
    half = (request.connector, request.half)
    wiring_of(case.now, half, request.found)
    return orders_view(case, half, request.found)


def expected(request: m.ExpectedAsked) -> m.ExpectedTable:
    """What every place ought to read in a set-up, or would read under faults."""
    return expected_table(request)


def explain(request: m.ExplainAsked) -> m.Explanation:
    """Why a place would read what it reads: the current's way, its drops, and the band's parts."""
    return explanation(request)


def practice_begin(request: m.PracticeWanted) -> m.PracticeBegan:
    """A job to practise on: something is hidden in it."""
    return practice_view.begin(request)


def practice_answer(request: m.PracticeAsked) -> m.PracticeAnswer:
    """What the vehicle of a practice job answers."""
    return practice_view.answer(request)


def practice_end(request: m.Job) -> m.PracticeEnd:
    """What was hidden in a practice job, and a shorter road."""
    return practice_view.end(request.events)


def link_make(request: m.Job) -> m.LinkMade:
    """A job as the text of a link."""
    text = links.make(request.events)
    too_long = not 0 < len(text) <= links.COMFORTABLE
    return m.LinkMade(text=text, length=len(text), too_long=too_long)


def link_open(request: m.LinkText) -> m.LinkOpened:
    """The job inside a link, to be shown before it is taken over."""
    events, more_inside = links.opened(request.text)
    replayed = replay(events)
    return m.LinkOpened(
        title=replayed.title,
        vehicle=replayed.read.sheet.vehicle,
        readings=sum(1 for t in replayed.told if t.event.kind == "reading taken"),
        events=events,
        more_inside=more_inside,
    )


CALLS: dict[str, tuple[type[BaseModel], type[BaseModel], Callable[[Any], BaseModel]]] = {
    "ping": (m.Nothing, m.Ready, ping),
    "read_sheet": (m.SheetText, m.SheetAnswer, read_sheet),
    "starter": (m.StarterWanted, m.SheetAnswer, starter),
    "file_make": (m.FileAsked, m.FileMade, file_make),
    "list_read": (m.ListText, m.ListRead, list_read),
    "build": (m.Building, m.BuildView, build),
    "look": (m.Job, m.JobView, look),
    "diagram": (m.DiagramAsked, m.Diagram, diagram),
    "fall": (m.FallAsked, m.FallView, fall),
    "prepare": (m.AheadAsked, m.Prepared, prepare),
    "check_at": (m.CheckAsked, m.Check, check_at),
    "weigh": (m.ReadingTyped, m.Weighed, weigh),
    "wiring": (m.WiringAsked, m.ConnectorView, wiring),
    "old_plug": (m.OldPlugAsked, m.OldPlugView, old_plug),
    "entry_try": (m.EntryTried, m.Nothing, entry_try),
    "orders": (m.OrdersAsked, m.OrdersView, orders),
    "expected": (m.ExpectedAsked, m.ExpectedTable, expected),
    "explain": (m.ExplainAsked, m.Explanation, explain),
    "practice_begin": (m.PracticeWanted, m.PracticeBegan, practice_begin),
    "practice_answer": (m.PracticeAsked, m.PracticeAnswer, practice_answer),
    "practice_end": (m.Job, m.PracticeEnd, practice_end),
    "link_make": (m.Job, m.LinkMade, link_make),
    "link_open": (m.LinkText, m.LinkOpened, link_open),
}


def call(name: str, text: str) -> str:
    """Answer one call as JSON: `{"ok": …}` or `{"error": …}`. Never raises for anything in the text."""
    if name not in CALLS:
        return _error("unknown call", f"There is no call named {name[:40]}.")
    asks, _, function = CALLS[name]
    try:
        return f'{{"ok":{function(_read(asks, text)).model_dump_json()}}}'
    except FootwellError as problem:
        return _error(problem.code, problem.sentence, list(problem.details))
    except Exception as error:
        # A defect of ours ends this answer, not the interpreter that the other calls wait for.
        return f'{{"error":{mistake(error).model_dump_json()}}}'


def _read(model: type[BaseModel], text: str) -> BaseModel:
    try:
        return model.model_validate_json(text)
    except ValidationError as problem:
        raise FootwellError("bad request", "This could not be read.", _places(problem)) from None


def mistake(error: Exception) -> m.Problem:
    """A defect of ours as data: its kind and place, without anything that was entered."""
    trace = error.__traceback__
    while trace is not None and trace.tb_next is not None:
        trace = trace.tb_next
    line = f"{trace.tb_frame.f_code.co_name}, line {trace.tb_lineno}" if trace else ""
    return m.Problem(
        code="mistake",
        sentence="Footwell made a mistake here and has no answer. What was entered is kept; undo the"
        " last entry to go on, and report the mistake.",
        details=[f"{type(error).__name__} in {line}"],
    )


def _places(problem: ValidationError) -> list[str]:
    """Where a request is wrong, one line each, without its contents."""
    return [
        f"{'.'.join(str(x) for x in e['loc'])}: {e['msg']}"
        for e in problem.errors(include_input=False)
    ][:20]


def _error(code: str, sentence: str, details: list[str] | None = None) -> str:
    problem = m.Problem(code=code, sentence=sentence, details=details or [])
    return f'{{"error":{problem.model_dump_json()}}}'
