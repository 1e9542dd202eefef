"""The small steps of building: what was done, in order. The sheet is always made from all of them."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from footwell.sheet.models import SheetModel, Words

Name = Annotated[str, Field(max_length=24)]
"""A name as typed; "" takes the next free one."""
Spot = Annotated[str, Field(max_length=48)]
What = Literal[
    "fuse",
    "switch",
    "relay",
    "relay coil",
    "changeover relay",
    "lamp",
    "twin-filament lamp",
    "LED lamp",
    "fan",
    "pump",
    "heater",
    "horn",
    "valve",
    "reversing switch",
    "reversing motor",
    "resistor pack",
    "resistor",
    "diode",
    "not on the drawing",
]


class Put(SheetModel):
    """The next part on the current's way. `amount` is what is known of it: a fuse's rating (A), a lamp's
    or heater's power (W), a motor's current (A), a resistance (Ω); None: assumed. `ways` counts a
    switch's outlets or a pack's steps; `turned`: the current comes in where it usually leaves."""

    do: Literal["put"] = "put"
    what: What
    id: Name = ""
    name: Annotated[Words, Field(max_length=60)] | None = None
    amount: Annotated[float, Field(gt=0, le=5000, allow_inf_nan=False)] | None = None
    code: Annotated[str, Field(max_length=12)] = ""
    """A lamp's category of UN Regulation 37, such as "P21W"."""
    ways: Annotated[int, Field(ge=1, le=8)] = 1
    turned: bool = False


class Plug(SheetModel):
    """A connector that the wire goes through. `pins` names its ways in bulk: "6", "1-4, 7" or
    "30 87 86 85"; `way` is the first one used. `together`: all wires that left the same part go through
    it side by side. `wires` puts it into wires that are there instead."""

    do: Literal["plug"] = "plug"
    id: Name = ""
    pins: Annotated[str, Field(max_length=120)] = ""
    way: Annotated[str, Field(max_length=8)] = ""
    together: bool = True
    wires: Annotated[list[Name], Field(max_length=24, default_factory=list)]


class Split(SheetModel):
    """The wire splits into so many branches."""

    do: Literal["split"] = "split"
    branches: Annotated[int, Field(ge=2, le=8)] = 2


class Earth(SheetModel):
    """The wire ends at an earth point; one of that name may be there already."""

    do: Literal["earth"] = "earth"
    id: Name = ""


class Join(SheetModel):
    """The wire ends where something is already: at a point, or at the body of the vehicle."""

    do: Literal["join"] = "join"
    to: Spot


class Go(SheetModel):
    """Go on from another point: an open end, or a place where the wire splits off."""

    do: Literal["go"] = "go"
    to: Spot


class Copy(SheetModel):
    """The branch that begins at a part, once more from here; to the same earth point or to its own."""

    do: Literal["copy"] = "copy"
    of: Name
    own_earth: bool = False


class Change(SheetModel):
    """Something known of what stands there: `field` is "id", "name", "at", "pins" of a plug, "amount"
    or "code" of a part, "colour", "mm2" or "metres" of a wire; "" forgets it again."""

    do: Literal["change"] = "change"
    element: Name
    field: Literal["id", "name", "at", "pins", "amount", "code", "colour", "mm2", "metres"]
    value: Annotated[str, Field(max_length=120)]


class Clear(SheetModel):
    """Everything anew; what was there comes back when this step is undone."""

    do: Literal["clear"] = "clear"


Step = Annotated[
    Put | Plug | Split | Earth | Join | Go | Copy | Change | Clear, Field(discriminator="do")
]

MOST_STEPS = 1500
