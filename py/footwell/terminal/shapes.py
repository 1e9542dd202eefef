"""What the terminal prints with --json, beside the answers that it shares with the page.

Their JSON Schemas are published in footwell/schemas.
"""

from __future__ import annotations

from footwell.job.events import Event
from footwell.messages import Check, ExpectedTable, Message, Problem, Step, Suspects


class FaultSaid(Message):
    """One fault. `part` is a part ("R1"), a wire ("W3"), a contact ("X2.3"), or a half of a connector
    wired wrongly ("X2.a"); `mode` how it fails; `where` the place in words; `size` ohms in series
    for a resistance, a plain factor for other modes that come in sizes, null for the rest."""

    part: str
    mode: str
    where: str
    size: float | None


class SuspectSaid(Message):
    """A suspect: the set of faults that are there if it is true. `share` is of all that is possible."""

    faults: list[FaultSaid]
    share: float


class Expectations(Message):
    """Expected readings of a sheet, a table for each set-up; sound if `faults` is empty."""

    sheet: str
    faults: list[FaultSaid]
    tables: list[ExpectedTable]


class JobState(Message):
    """What a job amounts to. `suspects` are single sets, likeliest first, down to a thousandth;
    `groups` are the same in words, as the page shows them; `next` is the step to take."""

    title: str
    vehicle: str
    release: str
    suspects: list[SuspectSaid]
    all_well: float
    none_of_these: float
    groups: Suspects
    next: Step
    others: list[Check]
    problems: list[str]


class WiredWrongly(Message):
    """A half of a connector ("X2.a") whose wires sit wrongly, with the slip in words."""

    half: str
    slip: str


class PracticeRun(Message):
    """A simulated job: what was true, the road step by step, and where it ended. `left` is what is
    still wrong at the end; `events` are the job's, ready for the `job` command."""

    sheet: str
    faults: list[FaultSaid]
    wiring: list[WiredWrongly]
    steps: list[str]
    readings: int
    minutes: float
    replaced: list[str]
    solved: bool
    left: list[FaultSaid]
    events: list[Event]


class Netlist(Message):
    """A circuit in SPICE's language, and what is odd about its operating point."""

    netlist: str
    warnings: list[str]


class WiresAnswer(Message):
    """A wiring list (CSV), or the sheet (JSON) with one taken over: then names of new and changed
    wires, and what to be aware of."""

    text: str
    new: list[str]
    changed: list[str]
    notices: list[str]


class Refusal(Message):
    """Printed in place of the answer where there is none; the exit code is 2."""

    error: Problem
