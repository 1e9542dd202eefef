"""Everything that crosses between the page (or the terminal) and the core: requests and answers.

The page shows these as they are: sentences are made here, in the core, so that the screen and the
terminal say the same. Lengths are bounded because a request may come from a stranger's link.
"""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import BaseModel, ConfigDict, FailFast, Field

from footwell.job.events import Controls, Event, LoadSeen, ReadingTaken, Setup
from footwell.sheet.building.steps import MOST_STEPS
from footwell.sheet.building.steps import Step as BuildStep

Events = Annotated[list[Event], Field(max_length=5000), FailFast()]
"""A job's events; the first that is none ends the reading."""


class Message(BaseModel):
    model_config = ConfigDict(strict=True, frozen=True, extra="forbid")


# ---- requests -----------------------------------------------------------------------------------


class Nothing(Message):
    pass


class SheetText(Message):
    text: Annotated[str, Field(max_length=2_000_000)]


class Job(Message):
    """A whole job: its events in the order of their making. Every call is answered from these alone."""

    events: Events


class AheadAsked(Job):
    """The next piece of the work ahead of the first question, after so many pieces were `done`."""

    done: Annotated[int, Field(ge=0)] = 0


class PracticeWanted(Message):
    """A sheet to practise on. The same `seed` hides the same."""

    sheet: dict[str, Any]
    seed: Annotated[int, Field(ge=0, le=2**31)]


class PracticeAsked(Message):
    """What the person does next in a practice job: a reading, or a look into a connector's half;
    neither asks what the loads do in every position."""

    events: Events
    record: ReadingTaken | None = None
    connector: str = ""
    half: str = ""


class CheckAsked(Message):
    """A check the person chose: what to hold where. `red` empty asks for the load itself by eye."""

    events: Events
    instrument: str
    red: str
    black: str = "earth"
    controls: Controls = {}
    apart: list[str] = []
    stand_in: dict[str, str] = {}


class DiagramAsked(Message):
    """The diagram of a job with elements that stay open beside what stays open by itself."""

    events: Events
    opened: Annotated[list[str], Field(max_length=2000)] = []


class ReadingTyped(Message):
    """A reading as typed, before it is kept: `record` comes from the check."""

    events: Events
    record: ReadingTaken
    typed: Annotated[str, Field(max_length=40)]
    unit: str


class WiringAsked(Message):
    events: Events
    connector: str
    half: Literal["a", "b"]
    found: dict[str, str | None]


class OldPlugAsked(Message):
    """Colours in the ways of a half as read off a plug, in the form of `OldPlugRead`."""

    events: Events
    connector: str
    half: Literal["a", "b"]
    colours: Annotated[
        dict[str, Annotated[str, Field(max_length=120)] | None], Field(max_length=120)
    ]


class EntryTried(Message):
    """A change of the sheet that is not stored yet: its kind, and its body as text."""

    events: Events
    kind: Literal["sheet edited", "place found", "wire followed"]
    body: Annotated[str, Field(max_length=65_536)]


class FileAsked(Message):
    """The circuit of a job as a file: the sheet (JSON), its wires (CSV), or a set-up for a SPICE
    simulator, in which controls that are not named are at rest."""

    events: Events
    form: Literal["sheet", "wiring list", "netlist"]
    controls: Controls = {}


class ListText(Message):
    """A wiring list to be taken over into a job's sheet."""

    events: Events
    text: Annotated[str, Field(max_length=2_000_000)]


class OrdersAsked(Message):
    """`found` are the ways that could be seen; the others are open."""

    events: Events
    connector: str
    half: Literal["a", "b"]
    found: dict[str, str | None] = {}


class LinkText(Message):
    text: Annotated[str, Field(max_length=2_000_000)]


# ---- pieces of the answer -------------------------------------------------------------------------


class Position(Message):
    id: str
    name: str


class ControlView(Message):
    id: str
    name: str
    positions: list[Position]


class SeenState(Message):
    """What a load does in a position."""

    controls: Controls
    load: str
    state: str


class ComplaintView(Message):
    """A usual complaint as a ready answer: its words, the engine as it is then, what the loads do."""

    words: str
    engine: Literal["off", "on"]
    states: list[SeenState]


class LoadView(Message):
    """A load whose state people can see or hear, and the words to choose from (good state last)."""

    id: str
    name: str
    kind: str
    states: list[str]
    dead: str
    """Which of them it is where it does nothing."""
    dead_words: str
    """What is said of it where it does nothing in any position."""


class Caution(Message):
    """Four parts, in the order they are read. `level` is the safety word."""

    hazard: str
    level: Literal["DANGER", "WARNING", "CAUTION", "NOTICE"]
    what: str
    avoid: str
    where: str
    otherwise: str


class Outcome(Message):
    """`when` is the reading ("In the band", "About 0 V", "Dark"); `means` at most 25 words."""

    when: str
    means: str


class OtherBand(Message):
    """Where a number lies as well if a relay or a fuse in doubt has gone the other way: `when` says
    which, `share` how likely."""

    low: float
    high: float
    share: float
    when: str


class Band(Message):
    low: float
    high: float
    unit: str
    text: str
    scale_low: float
    scale_high: float
    others: list[OtherBand]


class Check(Message):
    """One thing to do, with all the screen needs. `record` goes into the event with the reading added.

    `entry` says how the answer is given: a number on the pad in `units` (first is preselected), or a
    word from `choices`; `words` are the answers beside a number ("over range", "not steady").
    """

    id: str
    goal: str
    do: str
    condition: str
    instrument: str
    instrument_name: str
    band: Band | None
    healthy_choice: str
    entry: Literal["number", "choice"]
    units: list[str]
    words: list[str]
    choices: list[str]
    outcomes: list[Outcome]
    why: str
    minutes: float
    confirming: bool
    cautions: list[Caution]
    place_points: list[str]
    record: ReadingTaken


class RunView(Message):
    """A wire seen from one of its ends: the point, in words too, and the point at its other end."""

    wire: str
    name: str
    point: str
    place: str
    far: str


class StrangeWire(Message):
    """A wire in a way that the sheet does not have there, and the wires' ends at which its other end may
    sit."""

    name: str
    point: str
    runs: list[RunView]


class WayView(Message):
    """One way of a connector half: what should be in it and what was found. `None` is empty. `column` counts
    from the left as seen from the wires, `mating_column` as seen from the mating side."""

    way: str
    number: str
    """What people see beside it; `way` names it for good."""
    row: int
    column: int
    mating_column: int
    should: str | None
    found: str | None
    known: bool


class WireView(Message):
    id: str
    colour: str
    name: str


class WiringFinding(Message):
    """What the wiring as found amounts to."""

    same: bool
    slip: str
    differences: list[str]
    effects: list[str]
    explains_complaint: bool | None
    """None where no complaint has been told."""
    damage: list[str]
    moves: list[str]
    notes: list[str]
    """What else to mind: wires of one colour, spare wires, more than one wire in a way."""
    strange: list[StrangeWire]
    renewing: list[str]
    """What each wire carries, and the section a new one needs."""
    corrected: dict[str, str | None]


class ConnectorView(Message):
    id: str
    name: str
    half: Literal["a", "b"]
    half_name: str
    landmark: str
    doubtful: bool
    inspected: bool
    should_from: Literal["sheet", "old plug", "other half"]
    """Where the wiring as it should be is known from."""
    ways: list[WayView]
    wires: list[WireView]
    finding: WiringFinding | None


class OldPlugView(Message):
    """What reading a plug would change, in sentences; none where it has all as the sheet does."""

    notices: list[str]


class OrderRow(Message):
    """An order of a half's wires: its name, way by way, and as a wiring to be kept."""

    words: str
    ways: list[str]
    as_drawn: bool
    wiring: dict[str, str | None]


class OrdersView(Message):
    """Orders of a half's wires that fit what is known: `fit` of `total`, the first of them in `rows`,
    and the check that tells most of them apart."""

    total: int
    fit: int
    sentence: str
    rows: list[OrderRow]
    more: int
    check: Check | None
    check_words: str


class CheckStep(Message):
    kind: Literal["check"] = "check"
    check: Check


class WiringStep(Message):
    """Look at a connector: `connector` names one of the view's connectors. With `hands_off` nobody but
    qualified people may open it."""

    kind: Literal["wiring"] = "wiring"
    connector: str
    half: Literal["a", "b"]
    hands_off: bool
    goal: str
    why: str
    outcomes: list[Outcome]
    minutes: float
    cautions: list[Caution]


class EndView(Message):
    """An end of a wire: the place, and every wire that the sheet has there, in a line and one by one, each
    with the point that it comes from."""

    point: str
    name: str
    told: str
    runs: list[RunView]


class EndPlace(Message):
    """A place where a wire may end."""

    id: str
    name: str


class EndsStep(Message):
    """Find both ends of a wire or, with `put_back`, put it where the sheet has it. `elsewhere` are all ends
    of wires, one of which may be that of another wire found at these; `places` are where a wire may end,
    empty ways with them."""

    kind: Literal["ends"] = "ends"
    wire: str
    put_back: bool
    goal: str
    why: str
    do: list[str]
    ends: list[EndView]
    elsewhere: list[RunView]
    places: list[EndPlace]
    minutes: float
    cautions: list[Caution]


class PositionsStep(Message):
    """Try every position and say what each load does."""

    kind: Literal["positions"] = "positions"
    goal: str
    why: str
    cautions: list[Caution]
    ask: list[Controls]
    loads: list[str]
    engine: Literal["off", "on"] | None
    """Where the engine is started or stopped for this look alone."""


class RepairStep(Message):
    """The cause is proven: mend it, then say so. `element` and `mode` go into the repair event; `unseen` says
    what nothing is known of until then, empty where there is no such part."""

    kind: Literal["repair"] = "repair"
    element: str
    mode: str
    title: str
    do: list[str]
    why: str
    unseen: str
    cautions: list[Caution]


class FinishedStep(Message):
    """Nothing is left to check: mended and proven (`solved`), or stuck with the reason."""

    kind: Literal["finished"] = "finished"
    solved: bool
    title: str
    lines: list[str]


Step = Annotated[
    CheckStep | WiringStep | EndsStep | PositionsStep | RepairStep | FinishedStep,
    Field(discriminator="kind"),
]


class Suspect(Message):
    """A set of one or more faults. `element`, `mode` and `where` name the first; `also` the others."""

    element: str
    mode: str
    where: str
    size: str
    also: list[str]
    title: str
    share: float
    words: str
    note: str


class SuspectGroup(Message):
    """Suspects that the readings so far cannot tell apart, and the check that would."""

    suspects: list[Suspect]
    share: float
    words: str
    apart_by: str


class Cleared(Message):
    title: str
    by: str


class Suspects(Message):
    """Four groups, never one ranked list; shares are of all that is possible, none is 0 or 1."""

    proven: list[Suspect]
    groups: list[SuspectGroup]
    cleared: list[Cleared]
    mended: list[str]
    none_of_these: float
    warning: str
    left_words: str


class PathPoint(Message):
    """A point of the current's path from supply to earth: state of what we know there."""

    place: str
    name: str
    state: Literal["open", "measured", "now", "clear"]
    suspect_after: bool


class ReadingView(Message):
    """One line of the job's history, with the reading as shown then."""

    device: str
    n: int
    at: str
    kind: str
    title: str
    value: str
    expected: str
    verdict: str
    withdrawn: bool
    can_withdraw: bool


class Label(Message):
    """Lines of text in the diagram, set from (x, y) to the right; y is the middle of the block."""

    lines: list[str]
    x: float
    y: float


class Glyph(Message):
    """One sign between two ends, in grid units; kinds are those of the drawing."""

    kind: str
    x1: float
    y1: float
    x2: float
    y2: float
    branch: str
    label: Label | None


class Symbol(Message):
    """A part or contact in the diagram: middle and size of its box, in grid units. One that stands for a
    group of branches has the elements inside it in `folded`."""

    element: str
    kind: str
    name: str
    label: Label
    x: float
    y: float
    width: float
    height: float
    glyphs: list[Glyph]
    suspect: float
    cleared: bool
    folded: list[str] = []


class Line(Message):
    """A wire in the diagram: a polyline in grid units."""

    element: str
    label: Label
    points: list[tuple[float, float]]
    suspect: float


class PlaceView(Message):
    """Where a probe can go; not `drawn` where it lies in what is folded."""

    id: str
    name: str
    x: float
    y: float
    measured: str
    minutes: float
    drawn: bool = True


class Diagram(Message):
    """The current-path diagram; `dots` are joints where more than two stretches meet."""

    width: float
    height: float
    symbols: list[Symbol]
    lines: list[Line]
    dots: list[tuple[float, float]]
    places: list[PlaceView]


class FallAsked(Message):
    """The voltage along the path through a load in a set-up; where nothing is said, the load complained
    of, and the positions of the last such reading or those that close the path."""

    events: Events
    load: str = ""
    controls: Controls | None = None


class FallPoint(Message):
    """A place of the path: what a sound circuit reads there (V, with its 95 %), what was read, and what
    the likeliest suspect would make of it. `outside` tells that the reading lies outside the band."""

    place: str
    short: str
    name: str
    expected: float
    low: float
    high: float
    band: str
    measured: float | None
    measured_text: str
    outside: bool
    suspect: float | None


class FallView(Message):
    """The places from the supply to earth. `verdict` says in words where too much falls; `fall_from` and
    `fall_to` are the ends of that stretch among the points, -1 and the number of points standing for the
    supply and the body; both are -1 where all is in order."""

    load: str
    condition: str
    controls: Controls
    points: list[FallPoint]
    lowest: float
    highest: float
    verdict: str
    fall_from: int
    fall_to: int
    suspect: str


class StoryItem(Message):
    """Something the story may name as renewed, re-wired or seen: a part, wire or connector."""

    id: str
    name: str
    kind: Literal["part", "connector", "wire"]


class CauseView(Message):
    """Why it failed: stress against rating, in sentences; empty until something is proven."""

    title: str
    proof: list[str]
    reasons: list[str]
    open_questions: list[str]


class ReportSection(Message):
    title: str
    lines: list[str]


class JobView(Message):
    """All that the page shows of a job, computed from its events."""

    title: str
    vehicle: str
    system_volts: int
    sheet_id: str
    release: str
    complaint: str
    controls: list[ControlView]
    loads: list[LoadView]
    asked_positions: list[Controls]
    complaints: list[ComplaintView]
    items: list[StoryItem]
    instruments: list[str]
    helper: bool
    tools_known: bool
    story_known: bool
    connectors: list[ConnectorView]
    step: Step
    others: list[Check]
    along: list[Check]
    suspects: Suspects
    path: list[PathPoint]
    history: list[ReadingView]
    diagram: Diagram
    causes: list[CauseView]
    report: list[ReportSection]
    assumed: list[str]
    odd: list[str]
    """What of the sheet may be so but is seldom meant: rings, and ways with more than one wire."""
    sheet: dict[str, Any]
    """The sheet as it stands, with everything found on the vehicle."""
    problems: list[str]
    practice: bool


class NewEntry(Message):
    """An event to be stored: its kind and its body."""

    kind: str
    body: dict[str, Any]


class PracticeBegan(Message):
    """The events a practice job begins with, in order."""

    entries: list[NewEntry]


class PracticeAnswer(Message):
    """What the vehicle that is not there answers: a number as typed in a unit, a word, what every load
    does, or the wires found by way. The others are empty."""

    typed: str = ""
    unit: str = ""
    choice: str = ""
    states: list[LoadSeen] = []
    found: dict[str, str | None] = {}


class Road(Message):
    """A way through a job: its lines, how many checks it took, and the minutes at a real vehicle."""

    lines: list[str]
    checks: int
    minutes: int


class PracticeEnd(Message):
    """What was hidden, what of it is still there, the person's own road and Footwell's."""

    hidden: list[str]
    left: list[str]
    own: Road
    footwells: Road


class Weighed(Message):
    """What a typed reading amounts to before it is kept.

    `refuse` says why it cannot be a reading at all; `ask` doubts it once and offers `offer` instead.
    With both, it is asked first, and refused where the person insists.
    """

    refuse: str
    ask: str
    offer: str
    offer_typed: str
    offer_unit: str
    text: str
    verdict: str
    mark: float
    record: ReadingTaken | None


class LinkMade(Message):
    """The text is empty where the job is too large for a link that anybody could open."""

    text: str
    length: int
    too_long: bool


class LinkOpened(Message):
    """The events inside a link: a new job, shown before it is taken over."""

    title: str
    vehicle: str
    readings: int
    events: list[Event]
    more_inside: bool
    """A newer release wrote something beside the entries that would be left out."""


class StarterWanted(Message):
    """The answers that make a sheet where there is no diagram; `positions` counts off too."""

    load: Literal[
        "fan", "lamp", "pump", "heater", "lock or window", "horn", "starter", "sensor", "other"
    ]
    volts: Literal[12, 24]
    positions: Annotated[int, Field(ge=2, le=8)]
    relay: bool


class FileMade(Message):
    """A file's text, and what is odd about what it describes."""

    text: str
    warnings: list[str] = []


class ListRead(Message):
    """A wiring list held against the sheet, to be shown before it is taken over by `entry`: names of
    new and changed wires, and what to be aware of."""

    entry: NewEntry
    wires: int
    fresh: list[str]
    changed: list[str]
    notices: list[str]


class Building(Message):
    """A sheet being built from a wiring diagram: all steps so far, in order."""

    volts: Literal[12, 24]
    title: Annotated[str, Field(max_length=80)] = ""
    steps: Annotated[list[BuildStep], Field(max_length=MOST_STEPS), FailFast()]


class BuildPoint(Message):
    """A place from which the circuit can go on, or where a wire can end. `open`: it leads nowhere yet."""

    point: str
    name: str
    open: bool


class BuildEnd(Message):
    """An open end in the drawing, in its grid units; `now` is the one in hand."""

    point: str
    x: float
    y: float
    now: bool


class BuildProblem(Message):
    """What is missing or doubtful, at its place; `stops` keeps the sheet from being used."""

    element: str
    sentence: str
    stops: bool


class BuildWire(Message):
    id: str
    name: str
    colour: str


class BuildBranch(Message):
    id: str
    name: str


class BuildView(Message):
    """What stands. `refused` says why the last step could not be, and is empty where it was done; `sheet`
    is null as long as something stops."""

    at: BuildPoint
    together: int
    refused: str
    points: list[BuildPoint]
    inlets: list[BuildPoint]
    wires: list[BuildWire]
    plugs: list[BuildBranch]
    branches: list[BuildBranch]
    problems: list[BuildProblem]
    diagram: Diagram
    ends: list[BuildEnd]
    title: str
    sheet: dict[str, Any] | None


class SheetAnswer(Message):
    """A sheet that was read: its title, what it leaves open, and what to be aware of."""

    id: str
    title: str
    vehicle: str
    system_volts: int
    summary: str
    parts: int
    assumed: list[str]
    notices: list[str]
    sheet: dict[str, Any]


class ExpectedRow(Message):
    """One reading: `place` against `black`, or one element. A number has a value and the band that
    holds 95 % of such readings, in `unit`; a word or "over range" stands in `text` alone. Where a relay
    or a fuse is in doubt these are the likeliest, and `others` the rest."""

    place: str
    black: str
    name: str
    value: float | None
    low: float | None
    high: float | None
    unit: str
    text: str
    others: list[OtherBand]


class ExpectedTable(Message):
    setup: Setup
    title: str
    instrument: str
    rows: list[ExpectedRow]
    seen: list[str]
    warnings: list[str]


class FaultNamed(Message):
    """A fault by the name of its part, wire or contact. `size` is ohms in series for a resistance,
    a plain factor for other modes that come in sizes, null for the rest."""

    element: str
    mode: str
    size: float | None = None


class ExpectedAsked(Message):
    """What every place would read in a set-up: in the circuit as it stands, or under faults. `engine`
    is the job's where it is not given."""

    events: Events
    controls: Controls = {}
    apart: list[str] = []
    stand_in: dict[str, str] = {}
    instrument: str = "volts"
    engine: Literal["off", "on"] | None = None
    faults: Annotated[list[FaultNamed], Field(max_length=10)] = []


class ExplainAsked(Message):
    """Why a place would read what it reads, in a set-up and under faults; none for a sound circuit."""

    events: Events
    instrument: str = "volts"
    red: str
    black: str = "earth"
    controls: Controls = {}
    apart: list[str] = []
    stand_in: dict[str, str] = {}
    engine: Literal["off", "on"] | None = None
    faults: Annotated[list[FaultNamed], Field(max_length=10)] = []


class ExplainStep(Message):
    """An element that the current passes. `drop` is what falls along it (V, or Ω for an ohmmeter) and
    `share` its share of the supply; `level` the voltage (V) against the body behind it; `marks` what
    lies there: a probe, the body, or the point that holds the voltage asked for."""

    element: str
    name: str
    kind: Literal["supply", "wire", "contact", "part", "instrument"]
    amps: float
    drop: float
    unit: str
    share: float
    level: float
    text: str
    marks: list[Literal["red", "black", "held", "body"]]


class ExplainRun(Message):
    """One line of the way: `count` steps from number `first` on. Small drops in a row are one line."""

    name: str
    text: str
    share: float
    first: int
    count: int


class SpreadPart(Message):
    """A cause of the band's width: `share` of the variance (all sum to 1), and what it alone would
    make the band ("±0.6 V"). `element` is "meter", "supply", "leads", an element, or "" for the rest."""

    element: str
    name: str
    share: float
    text: str


class Explanation(Message):
    """Why a value is expected: in words, as the current's way from supply to earth, and by what makes
    the band as wide as it is. `steps` is empty where no current flows."""

    row: ExpectedRow
    condition: str
    lines: list[str]
    supply: str
    steps: list[ExplainStep]
    runs: list[ExplainRun]
    spread: list[SpreadPart]
    meter: str
    warnings: list[str]


class Ready(Message):
    """Answer to the first call: the release of the core and its Python."""

    release: str
    python: str


class Prepared(Message):
    """How many pieces of the work ahead of the first question are `done`, and how many are `left`."""

    done: int
    left: int


class Problem(Message):
    """An error as data: a code, a sentence for people, details for the report."""

    code: str
    sentence: str
    details: list[str]
