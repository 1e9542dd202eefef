"""A circuit sheet as it is written: JSON with a format number.

A sheet names parts, connectors, wires and controls. Two ends joined by a wire are "points": a part's
terminal ("F1.2"), one half of a connector's way ("X2.3.a"), the vehicle's body ("earth"). Half a of a
connector is the harness, half b the part or the other harness.
"""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import BaseModel, ConfigDict, Field

SHEET_FORMAT = 1

Id = Annotated[str, Field(pattern=r"^[A-Za-z][A-Za-z0-9_-]{0,23}$")]
WayName = Annotated[str, Field(pattern=r"^[A-Za-z0-9+-]{1,8}$")]
Point = Annotated[str, Field(pattern=r"^[A-Za-z0-9_+.-]{1,48}$")]
Words = Annotated[str, Field(min_length=1, max_length=120)]
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


class SheetModel(BaseModel):
    model_config = ConfigDict(strict=True, extra="forbid", frozen=True)


class SheetPart(SheetModel):
    """A part: `values` in the form of its kind; `at` is where it sits; `minutes` to lay a probe on it
    (None: it cannot be reached with a probe); `control` makes it a control the person moves."""

    id: Id
    kind: str
    name: Words
    values: dict[str, Any] = {}
    at: Annotated[str, Field(max_length=120)] = ""
    minutes: Minutes | None = None
    probe: list[str] = []
    """Terminals that are bare and can be touched."""
    hazards: list[Hazard] = []
    assumed: list[str] = []


class ControlPosition(SheetModel):
    id: Annotated[str, Field(min_length=1, max_length=24)]
    name: Words


class SheetControl(SheetModel):
    """What a person sets: one part whose state follows the position, with the words for each."""

    part: Id
    name: Words
    positions: Annotated[list[ControlPosition], Field(max_length=12)]
    off: str
    """The position of rest."""


class SheetConnector(SheetModel):
    """A connector: its two halves, the ways by rows, and what half b of each way belongs to.

    `part_ways` joins a way's half b straight to a part's terminal (a plug on the part itself).
    """

    id: Id
    name: Words
    half_a: Words
    half_b: Words
    rows: Annotated[list[list[WayName]], Field(max_length=6)]
    landmark: Words = "locking tab at the top"
    part_ways: dict[WayName, Point] = {}
    terminal_mm: Annotated[float, Field(gt=0, le=20)] | None = None
    rating_amps: Annotated[float, Field(gt=0, le=500)] | None = None
    at: Annotated[str, Field(max_length=120)] = ""
    minutes: Minutes = 2.0
    unplug_minutes: Minutes = 0.5
    unplugs: bool = True
    hazards: list[Hazard] = []


class SheetWire(SheetModel):
    """A wire from point to point. Colour after IEC 60757, base first ("RD/BK"); None is not known."""

    id: Id
    start: Point
    end: Point
    colour: Annotated[str, Field(max_length=12)] | None = None
    mm2: Annotated[float, Field(gt=0, le=120)] | None = None
    metres: Annotated[float, Field(gt=0, le=60)] | None = None
    at: Annotated[str, Field(max_length=120)] = ""
    moves: bool = False
    """Bends in use, as in a hinge."""


class Sheet(SheetModel):
    format: Literal[1]
    id: Annotated[str, Field(pattern=r"^[a-z0-9][a-z0-9-]{0,63}$")]
    title: Words
    vehicle: Words
    system_volts: Literal[12, 24]
    summary: Annotated[str, Field(min_length=1, max_length=300)]
    working_amps: Annotated[float, Field(gt=0, le=500)]
    """Usual current of the circuit at work, for defaults."""
    loads: Annotated[list[Id], Field(max_length=12)]
    """The parts the customer notices, first the one the circuit is there for."""
    controls: Annotated[list[SheetControl], Field(max_length=8)]
    parts: Annotated[list[SheetPart], Field(max_length=120)]
    connectors: Annotated[list[SheetConnector], Field(max_length=60)] = []
    wires: Annotated[list[SheetWire], Field(max_length=300)] = []
