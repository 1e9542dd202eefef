"""What happened in a job, as it is stored: append-only events, each with a body of its own kind.

An event is named by (device, n). Bodies are kept as the text they arrived in; the models here read
them. A kind or a field that a later release added is kept and passed on untouched.
"""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import BaseModel, ConfigDict, Field

from footwell.names import Told
from footwell.sheet.finding import Found

EVENT_FORMAT = 1

Text = Annotated[Told, Field(max_length=2000)]
Name = Annotated[Told, Field(min_length=1, max_length=80)]
CheckId = Annotated[Told, Field(max_length=1000)]
"""Names every control with its position, so that it is as long as a sheet has controls."""

Number = Annotated[float, Field(allow_inf_nan=False, ge=-1e12, le=1e12)]
Controls = Annotated[dict[Name, Name], Field(max_length=20)]


class Event(BaseModel):
    """One thing that happened. `body` is JSON text in the shape of the event's kind."""

    model_config = ConfigDict(strict=True, frozen=True, extra="ignore")
    device: Annotated[str, Field(min_length=1, max_length=64)]
    n: Annotated[int, Field(ge=1, le=10**9)]
    job: Annotated[str, Field(min_length=1, max_length=64)]
    kind: Annotated[str, Field(min_length=1, max_length=40)]
    format: Annotated[int, Field(ge=1, le=10**6)]
    at: Annotated[str, Field(max_length=40)] = ""
    body: Annotated[str, Field(max_length=65536)]


class Body(BaseModel):
    """Common ground of all bodies: strict values, later fields tolerated."""

    model_config = ConfigDict(strict=True, frozen=True, extra="ignore")


class JobOpened(Body):
    """A job begins with the whole sheet it works on."""

    title: Annotated[Told, Field(min_length=1, max_length=120)]
    sheet: dict[str, Any]


class SheetChange(Body):
    """One value found on the vehicle: which element of the sheet, which field, the new value."""

    element: Name
    field: Name
    value: Annotated[Told, Field(max_length=200)] | Number | bool | None


class SheetEdited(Body):
    changes: Annotated[list[SheetChange], Field(max_length=200)]


class PlaceFound(Body):
    """Something found on the vehicle in a wire, an unknown stretch or a splice of the sheet, and where."""

    inside: Name
    what: Found
    at: Annotated[Told, Field(max_length=120)] = ""
    plug: Annotated[Told, Field(max_length=24)] = ""
    """The plug that a wire goes through, for "way of a plug"."""
    to: Annotated[Told, Field(max_length=80)] = ""
    """Where a branch ends: of one to a load its earth, which else is a point of its own; of a plain one
    the place itself, which else is open."""


class WireListed(Body):
    """A wire as a wiring list has it: its points, and what the list says of it (mm², m)."""

    id: Name
    start: Name
    end: Name
    colour: Annotated[Told, Field(max_length=24)] | None = None
    mm2: Number | None = None
    metres: Number | None = None


class WiresListed(Body):
    """A wiring list taken over: its wires are changed or added, all others stay."""

    wires: Annotated[list[WireListed], Field(max_length=300)]


class Sight(Body):
    """Something seen or smelled at a part, a connector or a wire."""

    where: Name
    what: Literal["burnt", "green", "chafed", "wet", "loose", "melted", "smell"]


class StoryTold(Body):
    """The customer's story. Lists name parts, connectors or wires of the sheet by id."""

    words: Text = ""
    dead_now: Literal["yes", "no", "comes and goes", "unknown"] = "unknown"
    renewed: Annotated[list[Name], Field(max_length=50)] = []
    rewired: Annotated[list[Name], Field(max_length=50)] = []
    seen: Annotated[list[Sight], Field(max_length=50)] = []


class ToolsStated(Body):
    """What is at hand. Own eyes and ears are always there."""

    instruments: list[Literal["meter", "test lamp", "substitute lamp", "clamp", "fused jumper"]]
    helper: bool = False


class LoadSeen(Body):
    """What one load did in one position of every control."""

    controls: Controls
    load: Name
    state: Name


class PositionsTried(Body):
    """What works in which position, as told by the customer or as seen on the vehicle; the engine where it
    was started or stopped for this look alone."""

    seen_by: Literal["customer", "me"] = "me"
    engine: Annotated[Literal["off", "on"] | None, Field(exclude_if=lambda v: v is None)] = None
    states: Annotated[list[LoadSeen], Field(max_length=200)]


class Setup(Body):
    """Position of every control, connectors unplugged, what stands in for a load; the engine where it was
    started for this reading alone, else it is as the sitting has it."""

    controls: Controls = {}
    apart: Annotated[list[Name], Field(max_length=20)] = []
    stand_in: Annotated[dict[Name, Name], Field(max_length=5)] = {}
    engine: Annotated[Literal["on"] | None, Field(exclude_if=lambda v: v is None)] = None


class Shown(Body):
    """What the screen showed with a check when it was done; never recomputed."""

    goal: Text = ""
    do: Text = ""
    low: Number | None = None
    high: Number | None = None
    unit: Annotated[Told, Field(max_length=4)] = ""
    outcomes: Annotated[list[tuple[Text, Text]], Field(max_length=12)] = []
    verdict: Text = ""
    release: Annotated[Told, Field(max_length=40)] = ""


class ReadingTaken(Body):
    """One reading: instrument, the two places it was held to, the set-up, and what it said.

    `value` is in the base unit of the instrument (V, A, ohm); `choice` is used where the answer is a
    word ("bright", "over range", "turns slowly"). Places are ids such as "X3.2.a", never nets.
    """

    check: CheckId = ""
    instrument: Name
    red: Annotated[Told, Field(max_length=80)] = ""
    black: Annotated[Told, Field(max_length=80)] = ""
    setup: Setup = Setup()
    value: Number | None = None
    choice: Annotated[Told, Field(max_length=40)] = ""
    typed: Annotated[Told, Field(max_length=40)] = ""
    complaint: Literal["present", "absent", "unknown"] = "present"
    shown: Shown | None = None


class CheckSkipped(Body):
    check: CheckId
    reason: Literal["cannot reach", "no instrument", "alone", "other"]
    asked: Text = ""


class OldPlugRead(Body):
    """As it should be: the colours in the ways of a half, read off the old plug or off the half that it
    meets. Colours of one way are joined by "+"; "" is a wire whose colour cannot be told, None an empty
    way."""

    connector: Name
    half: Literal["a", "b"]
    read_off: Literal["old plug", "other half"] = "old plug"
    colours: Annotated[
        dict[Name, Annotated[Told, Field(max_length=120)] | None], Field(max_length=120)
    ]


class WiringFound(Body):
    """Which wire was found in which way of one half of a connector; None is an empty way.
    `loose` lists wires of the half that hang free."""

    connector: Name
    half: Literal["a", "b"]
    found: Annotated[dict[Name, Name | None], Field(max_length=120)]
    loose: Annotated[list[Name], Field(max_length=120)] = []


class WiringCorrected(Body):
    """The half's wires after the move, in the same form as they were found."""

    connector: Name
    half: Literal["a", "b"]
    now: Annotated[dict[Name, Name | None], Field(max_length=120)]


class WireFollowed(Body):
    """Where the ends of a wire of the sheet were found on the vehicle."""

    wire: Name
    start: Annotated[Told, Field(min_length=1, max_length=80)]
    end: Annotated[Told, Field(min_length=1, max_length=80)]


class WirePutBack(Body):
    """A wire that ran elsewhere is where the sheet has it now."""

    wire: Name


Sha256 = Annotated[str, Field(pattern=r"^[0-9a-f]{64}$")]
Pixels = Annotated[int, Field(ge=1, le=1600)]


class ConnectorPhotographed(Body):
    """A photo of one half of a connector, or of the old plug that was in its place. The picture itself is
    kept beside the events, under the SHA-256 of its bytes."""

    connector: Name
    half: Literal["a", "b"]
    shows: Literal["half", "old plug"] = "half"
    sha256: Sha256
    width: Pixels
    height: Pixels
    bytes: Annotated[int, Field(ge=1, le=200_000)]


class RepairDone(Body):
    """A part, wire, contact or earth point was renewed, mended or cleaned."""

    element: Name
    mode: Annotated[Told, Field(max_length=40)] = ""
    what: Literal["renewed", "mended", "cleaned"]
    note: Text = ""


class EventWithdrawn(Body):
    """Undo, and undo of an undo: names the event that no longer counts."""

    device: Annotated[str, Field(min_length=1, max_length=64)]
    n: Annotated[int, Field(ge=1, le=10**9)]


class CautionPassed(Body):
    hazard: Name


class SittingBegun(Body):
    """A new time at the vehicle: state of the engine, and the supply if it was measured (V)."""

    engine: Literal["off", "on"] = "off"
    supply_volts: Annotated[float, Field(allow_inf_nan=False, ge=0, le=60)] | None = None


class NoteMade(Body):
    text: Text


class HiddenFault(Body):
    element: Name
    mode: Annotated[Told, Field(max_length=40)]
    size: Annotated[float, Field(allow_inf_nan=False, ge=0, le=1e9)] = 0.0


class PracticeBegun(Body):
    """There is no vehicle: the readings are computed, with these faults and this wiring hidden."""

    faults: Annotated[list[HiddenFault], Field(max_length=5)] = []
    wired: Annotated[list[WiringCorrected], Field(max_length=2)] = []


BODIES: dict[str, type[Body]] = {
    "job opened": JobOpened,
    "sheet edited": SheetEdited,
    "place found": PlaceFound,
    "wires listed": WiresListed,
    "story told": StoryTold,
    "tools stated": ToolsStated,
    "positions tried": PositionsTried,
    "reading taken": ReadingTaken,
    "check skipped": CheckSkipped,
    "old plug read": OldPlugRead,
    "wiring found": WiringFound,
    "wiring corrected": WiringCorrected,
    "wire followed": WireFollowed,
    "wire put back": WirePutBack,
    "connector photographed": ConnectorPhotographed,
    "repair done": RepairDone,
    "event withdrawn": EventWithdrawn,
    "caution passed": CautionPassed,
    "sitting begun": SittingBegun,
    "note made": NoteMade,
    "practice begun": PracticeBegun,
}
