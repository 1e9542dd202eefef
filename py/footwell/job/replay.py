"""From a job's events to its case: what is known, in the order in which it came to be known.

Events that were withdrawn are passed over, and so are kinds this release does not know; both stay in
the job. Facts found on the vehicle (sheet edits, wiring as found) were true from the beginning; wiring
moves and repairs begin a new epoch.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import partial
from typing import Literal

from pydantic import ValidationError

from footwell.checks.check import NEEDS, VOLTS, Check
from footwell.checks.hands import Tools
from footwell.checks.predict import seen_as
from footwell.checks.safety import hands_off
from footwell.checks.works import works_alike
from footwell.circuit.circuit import (
    AS_DRAWN,
    ENDS,
    Arrangement,
    Circuit,
    HalfId,
    arranged,
    as_on_sheet,
    astray,
    build,
)
from footwell.circuit.setup import set_up
from footwell.diagnosis.case import Case, Epoch, Sighting, Taken
from footwell.errors import FootwellError
from footwell.faults.miswiring import SPARE, Wiring, as_drawn
from footwell.faults.suspects import Circumstances
from footwell.job.events import (
    BODIES,
    Body,
    CheckSkipped,
    ConnectorPhotographed,
    Event,
    EventWithdrawn,
    JobOpened,
    OldPlugRead,
    PlaceFound,
    PositionsTried,
    PracticeBegun,
    ReadingTaken,
    RepairDone,
    SheetChange,
    SheetEdited,
    SittingBegun,
    StoryTold,
    ToolsStated,
    WireFollowed,
    WirePutBack,
    WiresListed,
    WiringCorrected,
    WiringFound,
)
from footwell.job.runs import followed, misplaced, runs_at, told_of_runs, without_runs_in
from footwell.job.shut import out_of_reach, passed_over
from footwell.job.stored import (
    NotOnSheet,
    check_of,
    on_sheet,
    setup_of,
    wire_on_sheet,
    wiring_of,
)
from footwell.names import composed
from footwell.reference.sight_words import WORDS
from footwell.sheet.editing import apply_change
from footwell.sheet.finding import with_place
from footwell.sheet.following import with_run
from footwell.sheet.models import Sheet
from footwell.sheet.old_plug import read_off
from footwell.sheet.reading import ReadSheet, read_again, read_data
from footwell.sheet.wiring_list import ListedWire, same_ends, with_wires
from footwell.sheet.writing import write_sheet

EventId = tuple[str, int]


class JobError(FootwellError):
    """A job that cannot be replayed: it has no opening event, or its sheet cannot be read."""

    def __init__(self, sentence: str, details: list[str] | None = None) -> None:
        super().__init__("job", sentence, details or [])


@dataclass(frozen=True)
class Told:
    """An event that counts, with its body read."""

    event: Event
    body: Body


@dataclass(frozen=True)
class OldPlug:
    """What a half's wiring as it should be was read off, and wires in it that the sheet does not have."""

    read_off: Literal["old plug", "other half"]
    unlisted: Wiring


@dataclass(frozen=True)
class Replayed:
    """A job replayed: the case, the sheet as it is known now, and what could not be used."""

    case: Case
    title: str
    read: ReadSheet
    told: tuple[Told, ...]
    withdrawn: frozenset[EventId]
    story: StoryTold | None
    tools_known: bool
    problems: tuple[str, ...]
    wired: Mapping[HalfId, Wiring]
    """How the wires sit now in each half that somebody looked into."""
    old_plugs: Mapping[HalfId, OldPlug]
    """Halves whose wiring as it should be was read off a plug."""

    @property
    def practice(self) -> bool:
        """Whether there is no vehicle: the readings are computed."""
        return any(isinstance(entry.body, PracticeBegun) for entry in self.told)


_CIRCUITS: dict[tuple[str, Arrangement], Circuit] = {}
MOST_CIRCUITS = 40
"""Circuits kept with their outlooks, the one used last at the end."""


def circuits_of(read: ReadSheet) -> Callable[[Arrangement], Circuit]:
    """Builder that keeps each circuit of a sheet with everything computed of it."""
    name = write_sheet(read.sheet)

    def circuit_for(arrangement: Arrangement) -> Circuit:
        key = (name, arrangement)
        found = _CIRCUITS.pop(key, None)
        if found is None:
            while len(_CIRCUITS) >= MOST_CIRCUITS:
                del _CIRCUITS[_least_needed(name)]
            found = build(read.sheet, read.values, arrangement)
        _CIRCUITS[key] = found
        return found

    return circuit_for


def _least_needed(sheet: str) -> tuple[str, Arrangement]:
    """Hundreds of orders of a plug's wires pass through: other sheets go first, then what is not as drawn, of
    these the one used longest ago. A sheet that was corrected on the way is another one."""
    others = (key for key in _CIRCUITS if key[0] != sheet)
    return next(others, next((key for key in _CIRCUITS if key[1]), next(iter(_CIRCUITS))))


def withdrawn_of(events: Sequence[Event]) -> frozenset[EventId]:
    """Events that no longer count. A withdrawal may itself have been withdrawn."""
    gone: set[EventId] = set()
    for event in reversed(events):
        if event.kind == "event withdrawn" and (event.device, event.n) not in gone:
            body = _body(event)
            if isinstance(body, EventWithdrawn):
                gone.add((body.device, body.n))
    return frozenset(gone)


def _body(event: Event) -> Body | None:
    kind = BODIES.get(event.kind)
    if kind is None:
        return None
    try:
        return kind.model_validate_json(event.body)
    except ValidationError:
        return None


def told_of(events: Sequence[Event], gone: frozenset[EventId]) -> tuple[list[Told], list[str]]:
    """Events that count, with their bodies, and a sentence for each that cannot be read."""
    told: list[Told] = []
    problems: list[str] = []
    seen: set[EventId] = set()
    for event in events:
        name = (event.device, event.n)
        if name in gone:
            continue
        if name in seen:
            problems.append(f"Entry {event.n} is there twice. It counts once.")
            continue
        seen.add(name)
        body = _body(event)
        if body is not None:
            told.append(Told(event, body))
        elif event.kind in BODIES:
            problems.append(
                f"Entry {event.n} ({event.kind}) cannot be read. It is kept, but not used."
            )
        else:
            problems.append(
                f"Entry {event.n} is from a newer Footwell. It is kept, but not used here."
            )
    return told, problems


def replay(events: Sequence[Event]) -> Replayed:
    """Replay a job. Raises JobError without an opening event or with a sheet that cannot be read."""
    gone = withdrawn_of(events)
    told, problems = told_of(events, gone)
    opened = next((t.body for t in told if isinstance(t.body, JobOpened)), None)
    if opened is None:
        raise JobError(
            "This job has no opening entry, so there is no circuit to work on. Open a new job."
        )
    bodies = tuple(entry.body for entry in told)
    shut = passed_over(bodies)
    read, strays = _sheet(opened, bodies, shut, problems)
    old_plugs = _old_plugs(read.sheet, told)
    state = _State(circuits_of(read), problems, old_plugs, bodies, strays, shut)
    for number, entry in enumerate(told):
        state.take(number, entry)
    return Replayed(
        state.case(),
        opened.title,
        read,
        tuple(told),
        gone,
        state.story,
        state.tools_known,
        tuple(problems),
        state.wired,
        old_plugs,
    )


def _sheet(
    opened: JobOpened, bodies: Sequence[Body], shut: Collection[HalfId], problems: list[str]
) -> tuple[ReadSheet, frozenset[int]]:
    """The sheet after all entries, and the numbers of those that found a wire where it did not have it then
    and does not have it for them."""
    read = read_data(opened.sheet)
    sheet: Sheet = read.sheet
    strays: set[int] = set()
    looked = {*shut}
    for number, body in enumerate(bodies):
        if isinstance(body, (WiringFound, WiringCorrected)):
            looked.add((body.connector, body.half))
        for change in () if _leads_to_plugs(sheet, body, looked) else _changes(body):
            try:
                sheet = change(sheet)
            except FootwellError as error:
                problems.append(error.sentence)
        if isinstance(body, WireFollowed) and not _runs_so(sheet, body):
            strays.add(number)
    return read if sheet is read.sheet else read_again(sheet), frozenset(strays)


def _leads_to_plugs(sheet: Sheet, body: Body, looked: Collection[HalfId]) -> bool:
    """Whether a body tells of a wire in another way of a plug, which is looked into before the sheet is held
    to be wrong."""
    if not isinstance(body, WireFollowed) or not misplaced(sheet, body):
        return False
    return bool(_unseen(circuits_of(read_again(sheet))(AS_DRAWN), body, looked))


def _unseen(circuit: Circuit, body: WireFollowed, looked: Collection[HalfId]) -> frozenset[HalfId]:
    """The halves in which a wire sits in another way, where nobody has looked into them and all may be
    opened; `looked` are those that need no look any more."""
    halves = misplaced(circuit.sheet, body)
    if not halves:
        return halves
    may = {half for half in halves_to_open(circuit) if half not in looked}
    return halves if halves <= may else frozenset()


def _runs_so(sheet: Sheet, body: WireFollowed) -> bool:
    found = ListedWire(body.wire, body.start, body.end)
    return any(wire.id == body.wire and same_ends(wire, found) for wire in sheet.wires)


def _changes(body: Body) -> list[Callable[[Sheet], Sheet]]:
    """What a body does to the sheet, in steps of which each is done whole or not at all."""
    if isinstance(body, SheetEdited):
        return [partial(_edited, change) for change in body.changes]
    if isinstance(body, PlaceFound):
        found = (body.inside, body.what, body.at, body.plug, body.to)
        return [lambda sheet: _whole(with_place(sheet, *found))]
    if isinstance(body, WiresListed):
        wires = [ListedWire(**each.model_dump()) for each in body.wires]
        return [lambda sheet: _whole(with_wires(sheet, wires))]
    if isinstance(body, WireFollowed):
        return [partial(_followed, body)]
    if isinstance(body, OldPlugRead):
        half = (body.connector, body.half)
        return [lambda sheet: _whole(read_off(sheet, half, body.colours).sheet)]
    return []


def _old_plugs(sheet: Sheet, told: list[Told]) -> dict[HalfId, OldPlug]:
    """The last reading of each half. The sheet follows it, so that only what it has no wire for is new."""
    found: dict[HalfId, OldPlug] = {}
    for body in (entry.body for entry in told):
        if isinstance(body, OldPlugRead):
            half = (body.connector, body.half)
            try:
                unlisted = read_off(sheet, half, body.colours).unlisted
            except FootwellError:
                continue  # Said already, where the sheet was to follow it.
            spares: Wiring = {
                way: "+".join(f"{SPARE}{code}" for code in codes.split("+"))
                for way, codes in unlisted.items()
            }
            found[half] = OldPlug(body.read_off, spares)
    return found


def _edited(change: SheetChange, sheet: Sheet) -> Sheet:
    return apply_change(sheet, change.element, change.field, change.value)


def _followed(body: WireFollowed, sheet: Sheet) -> Sheet:
    """The sheet with a wire where it was found, if all works so and that is a sheet: then the sheet was
    wrong. Else the wire is, and the sheet stays."""
    circuit_for = circuits_of(read_again(sheet))
    drawn, run = circuit_for(AS_DRAWN), (body.wire, body.start, body.end)
    try:
        wire_on_sheet(drawn, *run)
        if _runs_so(sheet, body) or not works_alike(drawn, circuit_for(astray(AS_DRAWN, *run))):
            return sheet
        return _whole(with_run(sheet, *run))
    except FootwellError:
        return sheet  # what is not on the sheet is said where the entry is taken


def _whole(sheet: Sheet) -> Sheet:
    return read_again(sheet).sheet


@dataclass
class _State:
    """What is known so far while the events are run through."""

    circuit_for: Callable[[Arrangement], Circuit]
    problems: list[str]
    old_plugs: Mapping[HalfId, OldPlug] = field(default_factory=dict)
    bodies: Sequence[Body] = ()
    """What all entries say, before and after the one that is taken."""
    strays: Collection[int] = ()
    """Numbers of the entries that found a wire where the sheet does not have it."""
    shut: Collection[HalfId] = ()
    """Halves that cannot be looked into, as somebody has said."""
    epochs: list[Epoch] = field(default_factory=lambda: [Epoch()])
    evidence: list[Sighting | Taken] = field(default_factory=list)
    story: StoryTold | None = None
    tools: Tools = field(default_factory=Tools)
    tools_known: bool = False
    lost_tools: set[str] = field(default_factory=set)
    sitting: int = 0
    engine: str = "off"
    last_check: Check | None = None
    skipped: set[str] = field(default_factory=set)
    unreachable: set[str] = field(default_factory=set)
    inspected: dict[HalfId, int] = field(default_factory=dict)
    wired: dict[HalfId, Wiring] = field(default_factory=dict)
    misplaced: dict[str, WireFollowed] = field(default_factory=dict)
    """How wires run that were found in another way of a half that nobody had looked into."""
    positions_due: bool = False

    @property
    def circuit(self) -> Circuit:
        return self.circuit_for(self.epochs[-1].arrangement)

    def take(self, number: int, entry: Told) -> None:
        try:
            self._take(number, entry.body)
        except NotOnSheet as error:
            event = entry.event
            self.problems.append(
                f"Entry {event.n} ({event.kind}) is kept, but not used. {error.sentence}"
            )

    def _take(self, number: int, body: Body) -> None:
        if isinstance(body, StoryTold):
            self.story = body
        elif isinstance(body, ToolsStated):
            self.tools, self.tools_known = Tools(tuple(sorted(body.instruments)), body.helper), True
            self.lost_tools.clear()
        elif isinstance(body, SittingBegun):
            self._sitting(number, body)
        elif isinstance(body, PositionsTried):
            self._positions(body)
        elif isinstance(body, ReadingTaken):
            self._reading(number, body)
        elif isinstance(body, CheckSkipped):
            self._skipped(body)
        elif isinstance(body, RepairDone):
            self._repaired(body)
        else:
            self._at_wires(number, body)

    def _at_wires(self, number: int, body: Body) -> None:
        if isinstance(body, WiringFound):
            self._found(number, body)
        elif isinstance(body, WiringCorrected):
            self._corrected(number, body)
        elif isinstance(body, WireFollowed):
            self._followed(number, body)
        elif isinstance(body, WirePutBack):
            self._put_back(body)
        elif isinstance(body, ConnectorPhotographed):
            on_sheet(self.circuit, body.connector)

    def _sitting(self, number: int, body: SittingBegun) -> None:
        self.sitting += 1
        self.engine = body.engine
        self.last_check = None
        if body.supply_volts is not None:
            battery = self.circuit.supply_element.id
            check = Check(
                VOLTS, f"{battery}.+", f"{battery}.-", set_up(self.circuit, engine=self.engine)
            )
            self._add(Taken(self._now, self.sitting, check, body.supply_volts, "", number))

    @property
    def _now(self) -> int:
        return len(self.epochs) - 1

    def _add(self, item: Sighting | Taken) -> None:
        self.evidence.append(item)

    def _positions(self, body: PositionsTried) -> None:
        self.positions_due = False
        for seen in body.states:
            if seen.state not in words_of(self.circuit, seen.load):
                self.problems.append(
                    f"What {seen.load} did ({seen.state}) is not known to this sheet."
                )
                continue
            setup = setup_of(self.circuit, seen.controls, (), {}, body.engine or self.engine)
            self._add(Sighting(self._now, self.sitting, setup, seen.load, seen.state, body.seen_by))

    def _reading(self, number: int, body: ReadingTaken) -> None:
        check = check_of(self.circuit, body, self.engine)
        self.last_check = check
        if body.complaint == "absent" or body.choice == "not steady":
            return
        value, word = body.value, body.choice
        if word == "over range":
            value, word = float("inf"), ""
        self._add(Taken(self._now, self.sitting, check, value, word, number))

    def _skipped(self, body: CheckSkipped) -> None:
        self.skipped.add(composed(body.check))
        if body.reason == "cannot reach":
            self.unreachable |= out_of_reach(body)
        elif body.reason == "no instrument":
            known = (needs[0] for name, needs in NEEDS.items() if body.check.startswith(name))
            self.lost_tools.update(next(known, ()))
        elif body.reason == "alone":
            self.tools = replace(self.tools, helper=False)

    def _wiring(self, number: int, half: HalfId, seen: Mapping[str, str | None]) -> Wiring:
        """A half as an entry tells of it, with what wires that were followed explain."""
        runs = runs_at(self.circuit, self.bodies, half, number)
        seated = told_of_runs(self.circuit, half, seen, runs)
        self.wired[half] = wiring_of(self.circuit, half, seated)
        return self.wired[half]

    def _found(self, number: int, body: WiringFound) -> None:
        half = (body.connector, body.half)
        wired = self._wiring(number, half, body.found)
        first = self.inspected.get(half, 0)
        for n in range(first, len(self.epochs)):
            self.epochs[n] = replace(
                self.epochs[n], arrangement=self._set(self.epochs[n], half, wired)
            )
        self.inspected.setdefault(half, len(self.epochs) - 1)

    def _corrected(self, number: int, body: WiringCorrected) -> None:
        half = (body.connector, body.half)
        wired = self._wiring(number, half, body.now)
        last = self.epochs[-1]
        arrangement = self._set(last, half, wired)
        self.epochs.append(replace(last, renewed=frozenset(), arrangement=arrangement))
        self.inspected[half] = len(self.epochs) - 1
        self.positions_due = True

    def _followed(self, number: int, body: WireFollowed) -> None:
        """A wire whose run is not the sheet's, though that has been put right as far as all works so, has run
        so since it was last put back; what was said of it before was a mistake. Where it sits in another way
        of its plug, that is to be looked into."""
        wire_on_sheet(self.circuit, body.wire, body.start, body.end)
        stray = number in self.strays and not _runs_so(self.circuit.sheet, body)
        self.misplaced.pop(body.wire, None)
        unseen = _unseen(self.circuit, body, {*self.inspected, *self.shut})
        if stray and unseen:
            self.misplaced[body.wire] = body
        self._runs(body, stray and not unseen)

    def _runs(self, body: WireFollowed, stray: bool) -> None:
        """Since it was last put back a wire has run as it was found, or as on the sheet."""
        for n in range(self.inspected.get((body.wire, ENDS), 0), len(self.epochs)):
            run = as_on_sheet(self.epochs[n].arrangement, (body.wire, ENDS))
            run = astray(run, body.wire, body.start, body.end) if stray else run
            self.epochs[n] = replace(self.epochs[n], arrangement=run)

    def _put_back(self, body: WirePutBack) -> None:
        wire_on_sheet(self.circuit, body.wire)
        told = self.misplaced.pop(body.wire, None)
        if told is not None and self._unseen_of(told):
            self._runs(told, stray=True)  # until now
        last, run = self.epochs[-1], (body.wire, ENDS)
        kept = as_on_sheet(last.arrangement, run)
        self.epochs.append(replace(last, renewed=frozenset(), arrangement=kept))
        self.inspected[run] = len(self.epochs) - 1
        self.positions_due = True

    def _set(self, epoch: Epoch, half: HalfId, wired: Wiring) -> Arrangement:
        """The epoch's arrangement with a half as found, which counts for more than that a wire was found in
        another way of it. A wire that is on no sheet and belongs there leads nowhere that matters."""
        old = self.old_plugs.get(half)
        known = {
            way: None if old and wires and old.unlisted.get(way) == wires else wires
            for way, wires in wired.items()
        }
        kept = without_runs_in(self.circuit.sheet, epoch.arrangement, half)
        if known == as_drawn(self.circuit, half):
            return as_on_sheet(kept, half)
        return arranged(kept, half, known)

    def _repaired(self, body: RepairDone) -> None:
        if body.element not in self.circuit.elements:
            raise NotOnSheet(f"{body.element[:40]} is not on this sheet.")
        last = self.epochs[-1]
        one = frozenset({body.element})
        self.epochs.append(replace(last, mended=last.mended | one, renewed=one))
        self.positions_due = True

    def case(self) -> Case:
        story = self.story or StoryTold()
        circumstances = Circumstances(
            tuple(story.renewed), tuple(story.rewired), tuple((s.where, s.what) for s in story.seen)
        )
        names = tuple(n for n in self.tools.names if n not in self.lost_tools)
        halves = halves_to_open(self.circuit)
        doubtful = [h for h in halves if lately_wired(self.circuit, circumstances, h)]
        return Case(
            self.circuit_for,
            tuple(self.epochs),
            tuple(self.evidence),
            circumstances,
            tuple(h for h in doubtful if h not in self.inspected),
            tuple(h for h in halves if h not in self.inspected and h not in doubtful),
            Tools(names, self.tools.helper),
            self.engine,
            self.sitting,
            self.last_check,
            frozenset(self.skipped),
            self.positions_due,
            frozenset(self.unreachable),
            frozenset(told.wire for _, told in followed(self.circuit, self.bodies)),
            tuple(
                dict.fromkeys(h for told in self.misplaced.values() for h in self._unseen_of(told))
            ),
        )

    def _unseen_of(self, told: WireFollowed) -> list[HalfId]:
        """Halves in which a wire was found in another way, and which nobody has looked into since."""
        return sorted(misplaced(self.circuit.sheet, told) - self.inspected.keys())


def halves_to_open(circuit: Circuit) -> list[HalfId]:
    """Halves whose wires may be looked at: not those of a restraint system or of high voltage."""
    return [
        (connector.id, "a")
        for connector in circuit.sheet.connectors
        if not hands_off(circuit, connector.id)
    ]


def lately_wired(circuit: Circuit, story: Circumstances, half: HalfId) -> bool:
    """Whether somebody wired a half lately: its connector is named, or a part that it plugs into."""
    connector = circuit.connectors[half[0]]
    return bool({connector.id, *connector.parts} & set(story.rewired))


def words_of(circuit: Circuit, load: str) -> tuple[str, ...]:
    """Words for what a load does, or a part that can be heard; none for anything else."""
    known = load in circuit.sheet.loads or (
        load in circuit.elements and circuit.elements[load].kind.seen_as == "click"
    )
    return WORDS.get(seen_as(circuit, load), ()) if known else ()
