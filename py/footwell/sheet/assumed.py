"""What a sheet leaves open, and what is taken instead: one sentence for each element."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator, Mapping
from typing import Any

from footwell.parts import KINDS, wire
from footwell.parts.base import Context
from footwell.reference import conductors, contacts
from footwell.sheet.fields import amount, words
from footwell.sheet.models import Sheet, SheetConnector, SheetPart, SheetWire

UNJUDGED = ""
"""Nothing is taken instead: what depends on the value is not judged."""


def assumed(sheet: Sheet, values: Mapping[str, Any]) -> list[str]:
    """A sentence for each element with a value left open, in the order of the sheet."""
    context = Context(sheet.system_volts, sheet.working_amps)
    rows = [
        *((part.id, _of_part(part, values[part.id], context)) for part in sheet.parts),
        *((connector.id, _of_connector(connector)) for connector in sheet.connectors),
        *((each.id, _of_wire(each, context)) for each in sheet.wires),
    ]
    told = ((name, "; ".join(open_values)) for name, open_values in rows)
    return [f"{name}: {words}." for name, words in told if words]


def _of_part(part: SheetPart, values: Any, context: Context) -> Iterator[str]:
    for field in dataclasses.fields(KINDS[part.kind].values):
        kind = KINDS[part.kind]
        value = getattr(values, field.name)
        if field.name in part.assumed:
            yield _marked(field.name, part.kind, value)
        elif value is None and field.name not in kind.seldom_given:
            default = kind.assumes.get(field.name)
            yield _not_known(
                field.name, part.kind, default(values, context) if default else UNJUDGED
            )
        elif field.name not in part.values and _is_number(value):
            yield _not_known(
                field.name, part.kind, amount(value, words(field.name, part.kind).unit)
            )


def _of_connector(connector: SheetConnector) -> Iterator[str]:
    sound = contacts.terminal(connector.terminal_mm)
    if connector.terminal_mm is None:
        yield _not_known("terminal_mm", "", f"{sound.milliohms:g} mΩ a contact")
    if connector.rating_amps is None:
        yield _not_known(
            "rating_amps", "", amount(sound.guide_amps, "A") if sound.guide_amps else UNJUDGED
        )


def _of_wire(each: SheetWire, context: Context) -> Iterator[str]:
    if each.colour is None:
        yield "colour not known"
    if each.mm2 is None:
        yield _not_known("mm2", "", amount(wire.cross_section(wire.Wire(), context), "mm²"))
    elif "mm2" in each.assumed:
        yield _marked("mm2", "", each.mm2)
    if each.metres is None:
        yield _not_known("metres", "", amount(conductors.DEFAULT_LENGTH_METRES.value, "m"))


def _not_known(field: str, kind: str, instead: str) -> str:
    what = words(field, kind).what
    return f"{what} not known, {instead} assumed" if instead else f"{what} not known, so not judged"


def _marked(field: str, kind: str, value: Any) -> str:
    said = words(field, kind)
    shown = amount(value, said.unit) if _is_number(value) else str(value)
    return f"{said.what} {shown} is assumed"


def _is_number(value: Any) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool)
