"""A circuit sheet as it is written: JSON with a format number.

A sheet names parts, connectors, wires and controls. A wire joins two points: a part's terminal
("F1.2"), one half of a connector's way ("X2.3.a"), the vehicle's body ("earth"). Half a of a
connector is the harness, half b the part or the other harness.
"""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import AfterValidator, BaseModel, ConfigDict, Field

from footwell.names import Composed
from footwell.reference.colours import parse_wire_colour
from footwell.reference.conductors import LARGEST_MM2, SMALLEST_MM2
from footwell.reference.contacts import TERMINAL_SIZES_MM

SHEET_FORMAT = 1


def _colour_code(text: str) -> str:
    return str(parse_wire_colour(text))


def _listed_width(mm: float) -> float:
    if mm in TERMINAL_SIZES_MM:
        return mm
    listed = ", ".join(f"{size:g}" for size in TERMINAL_SIZES_MM)
    raise ValueError(f"No terminal class is {mm:g} mm wide; the table lists {listed} mm.")


ID = r"^[A-Za-z][A-Za-z0-9_-]{0,23}$"
Id = Annotated[str, Field(pattern=ID)]
WAY_NAME = r"^[A-Za-z0-9+-]{1,8}$"
WayName = Annotated[str, Field(pattern=WAY_NAME)]
TerminalName = WayName
Row = Annotated[list[WayName], Field(max_length=24)]
Point = Annotated[str, Field(pattern=r"^[A-Za-z0-9_+.-]{1,48}$")]
# No control characters, and none that turn the direction of writing: they can make a name read as
# another one.
_ONE_LINE = r"^[^\x00-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069]*$"
Words = Annotated[str, Field(min_length=1, max_length=120, pattern=_ONE_LINE)]
Whereabouts = Annotated[str, Field(max_length=120, pattern=_ONE_LINE)]
Colour = Annotated[str, Field(max_length=24), AfterValidator(_colour_code)]
"""Code of IEC 60757, base first; English names are turned into codes."""
Minutes = Annotated[float, Field(ge=0, le=240, allow_inf_nan=False)]

Hazard = Literal[
    "restraint system",
    "high voltage",
    "fuel vapour",
    "moving fan",
    "moving belt",
    "hot part",
    "battery",
    "data line",
    "sensor line",
    "module input",
    "moving lock",
]
Hazards = Annotated[list[Hazard], Field(max_length=12)]


Spot = Annotated[list[Annotated[int, Field(ge=0, le=23)]], Field(min_length=2, max_length=2)]


class SheetModel(BaseModel):
    model_config = ConfigDict(strict=True, extra="forbid", frozen=True)


class SheetPart(SheetModel):
    """A part: `values` in the form of its kind; `at` is where it sits; `minutes` to lay a probe on
    it (None: it cannot be reached with a probe)."""

    id: Id
    kind: Annotated[str, Field(min_length=1, max_length=40)]
    name: Words
    values: dict[str, Any] = {}
    at: Whereabouts = ""
    minutes: Minutes | None = None
    probe: Annotated[list[TerminalName], Field(max_length=24)] = []
    """Terminals that are bare and can be touched."""
    spare: Annotated[list[TerminalName], Field(max_length=24)] = []
    """Terminals that lead nowhere on purpose."""
    hazards: Hazards = []
    assumed: Annotated[list[Words], Field(max_length=24)] = []
    """Fields of `values` that are written but were not seen on the vehicle."""


PositionId = Annotated[Composed, Field(min_length=1, max_length=24)]


class ControlPosition(SheetModel):
    id: PositionId
    name: Words


class SheetControl(SheetModel):
    """What a person sets: one part whose state follows the position, with the words for each."""

    part: Id
    name: Words
    positions: Annotated[list[ControlPosition], Field(max_length=12)]
    off: PositionId
    """The position of rest."""
    running: Annotated[list[PositionId], Field(max_length=12)] = []
    """Positions in which the engine can run, such as the ignition's; none named: in all."""


class SheetConnector(SheetModel):
    """A connector: its two halves, the ways by rows, and what half b of each way belongs to.

    `rows` is half a seen from the side where its wires go in, the landmark as told.
    `part_ways` joins a way's half b straight to a part's terminal (a plug on the part itself).
    """

    id: Id
    name: Words
    half_a: Words
    half_b: Words
    rows: Annotated[list[Row], Field(max_length=6)]
    landmark: Words = "locking tab at the top"
    spots: Annotated[dict[WayName, Spot], Field(max_length=120)] = {}
    """Where the face is no plain rows: column and row of every way, seen as `rows` are."""
    numbers: Annotated[dict[WayName, WayName], Field(max_length=120)] = {}
    """What is moulded beside a way on the vehicle, where it is not the way's own name. That one stays, so
    that what was measured at a way stays there."""
    part_ways: Annotated[dict[WayName, Point], Field(max_length=120)] = {}
    spare: Annotated[list[WayName], Field(max_length=120)] = []
    """Ways with a terminal in one half only, on purpose; empty ways need not be named."""
    terminal_mm: Annotated[float, AfterValidator(_listed_width)] | None = None
    rating_amps: Annotated[float, Field(gt=0, le=500)] | None = None
    at: Whereabouts = ""
    minutes: Minutes = 2.0
    unplug_minutes: Minutes = 0.5
    unplugs: bool = True
    hazards: Hazards = []

    @property
    def parts(self) -> frozenset[str]:
        """Parts that half b belongs to."""
        return frozenset(point.split(".")[0] for point in self.part_ways.values())


class SheetWire(SheetModel):
    """A wire from point to point. Colour after IEC 60757, base first ("RD/BK"); None: not known."""

    id: Id
    start: Point
    end: Point
    colour: Colour | None = None
    mm2: Annotated[float, Field(ge=SMALLEST_MM2, le=LARGEST_MM2)] | None = None
    metres: Annotated[float, Field(gt=0, le=60)] | None = None
    celsius: Annotated[float, Field(ge=-60, le=250)] | None = None
    """Temperature of its conductor; None: about 20 degC."""
    at: Whereabouts = ""
    moves: bool = False
    """Bends in use, as in a hinge."""
    assumed: Annotated[list[Literal["mm2"]], Field(max_length=1)] = []
    """Fields that are written but were not seen on the vehicle."""

    @property
    def owners(self) -> frozenset[str]:
        """Connectors and parts that it ends at."""
        return frozenset(point.split(".")[0] for point in (self.start, self.end))


class SheetSeen(SheetModel):
    """What a load does in a position. Controls that are not named may stand anywhere."""

    controls: Annotated[dict[Id, PositionId], Field(max_length=8)]
    load: Id
    state: Annotated[str, Field(min_length=1, max_length=40)]


class SheetComplaint(SheetModel):
    """A usual complaint in short words, and what it says of the loads; `engine` as it is then."""

    words: Annotated[str, Field(min_length=1, max_length=60, pattern=_ONE_LINE)]
    engine: Literal["off", "on"] = "off"
    states: Annotated[list[SheetSeen], Field(min_length=1, max_length=60)]


class Sheet(SheetModel):
    format: Literal[1]
    id: Annotated[str, Field(pattern=r"^[a-z0-9][a-z0-9-]{0,63}$")]
    title: Words
    vehicle: Words
    system_volts: Literal[12, 24]
    summary: Annotated[str, Field(min_length=1, max_length=300, pattern=_ONE_LINE)]
    working_amps: Annotated[float, Field(gt=0, le=300)]
    """Usual current of the circuit at work, for defaults; the table of wires ends just above."""
    loads: Annotated[list[Id], Field(min_length=1, max_length=12)]
    """The parts the customer notices, first the one the circuit is there for."""
    controls: Annotated[list[SheetControl], Field(max_length=8)]
    parts: Annotated[list[SheetPart], Field(max_length=120)]
    connectors: Annotated[list[SheetConnector], Field(max_length=60)] = []
    wires: Annotated[list[SheetWire], Field(max_length=300)] = []
    complaints: Annotated[list[SheetComplaint], Field(max_length=8)] = []
    """What customers usually say of this circuit, as ready answers."""
