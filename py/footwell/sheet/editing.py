"""Putting what is found on the vehicle into a sheet, one value at a time.

Only values can change here, never what is joined to what: readings belong to points, and a point
must mean the same for the whole of a job. So a way ("X2.3") gets another number and keeps its name.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from pydantic import ValidationError

from footwell.parts import KINDS
from footwell.parts.base import Context
from footwell.sheet.errors import ChangeError
from footwell.sheet.models import Sheet, SheetConnector, SheetPart, SheetWire
from footwell.sheet.places import Flaw, Path, short
from footwell.sheet.shape import flaws_of
from footwell.sheet.values import not_numbers, values_of
from footwell.sheet.way_editing import WAY_FIELDS, with_ways_changed

Value = str | float | bool | None
Element = SheetPart | SheetConnector | SheetWire

PART_FIELDS = ("name", "at", "minutes")
"""Beside these, a part's own values can be changed by their names."""

FIELDS: Mapping[type[Element], tuple[str, ...]] = {
    SheetPart: PART_FIELDS,
    SheetConnector: (
        *("name", "half_a", "half_b", "landmark", "at"),
        *("terminal_mm", "rating_amps", "minutes", "unplug_minutes", "unplugs"),
    ),
    SheetWire: ("colour", "mm2", "metres", "celsius", "at", "moves"),
}


def apply_change(sheet: Sheet, element: str, field: str, value: Value) -> Sheet:
    """The sheet with one value of a part, connector or wire replaced; None is "not known".

    Colours may be English names; they are kept as codes of IEC 60757. A value that is written no
    longer counts as assumed. Raises ChangeError with a sentence where the element or the field does
    not exist or the value cannot be; the sheet given stays as it is.
    """
    if field in WAY_FIELDS:
        return with_ways_changed(sheet, element, field, value)
    for key in ("parts", "connectors", "wires"):
        elements = getattr(sheet, key)
        for place, each in enumerate(elements):
            if each.id == element:
                changed = _Change(sheet, (key, place), each, field, value).made()
                return sheet.model_copy(
                    update={key: [*elements[:place], changed, *elements[place + 1 :]]}
                )
    sentence = f'There is no part, connector or wire "{short(element, 40)}" on this sheet.'
    raise ChangeError(element, field, sentence)


class _Change:
    """One value of one element to be replaced."""

    def __init__(
        self, sheet: Sheet, path: Path, element: Element, field: str, value: Value
    ) -> None:
        self._context = Context(sheet.system_volts, sheet.working_amps)
        self._path, self._element = path, element
        self._field, self._value = field, value

    def made(self) -> Element:
        self._stop_at(list(not_numbers(self._value)))
        element = self._element
        if isinstance(element, SheetPart) and self._field not in PART_FIELDS:
            return self._with_value(element)
        if self._field not in FIELDS[type(element)]:
            raise self._no_field(FIELDS[type(element)])
        return self._with_field(element)

    def _with_field(self, element: Element) -> Element:
        written = element.model_dump(exclude_unset=True)
        if isinstance(element, SheetWire) and self._field in element.assumed:
            written["assumed"] = [name for name in element.assumed if name != self._field]
        try:
            return type(element).model_validate({**written, self._field: self._value})
        except ValidationError as error:
            raise self._because(flaws_of(error, self._path)) from None

    def _with_value(self, part: SheetPart) -> SheetPart:
        before, _ = values_of(part, self._context)
        known = [name for name, value in vars(before).items() if _stands_alone(name, value)]
        if self._field not in known:
            raise self._no_field([*PART_FIELDS, *known])
        changed = part.model_copy(
            update={
                "values": {**part.values, self._field: self._value},
                "assumed": [name for name in part.assumed if name != self._field],
            }
        )
        after, flaws = values_of(changed, self._context, self._path)
        self._stop_at(flaws)
        terminals = KINDS[part.kind].terminals
        if terminals(after) != terminals(before):
            raise self._moves_terminals()
        return changed

    def _stop_at(self, flaws: list[Flaw]) -> None:
        if flaws:
            raise self._because(flaws)

    def _because(self, flaws: list[Flaw]) -> ChangeError:
        return self._refused(short(f"{flaws[0].sentence} {flaws[0].remedy}"))

    def _no_field(self, allowed: Sequence[str]) -> ChangeError:
        field, listed = short(self._field, 40), ", ".join(allowed)
        return self._refused(f'No value "{field}" can be changed; there are {listed}.')

    def _moves_terminals(self) -> ChangeError:
        return self._refused(
            f"{self._field} decides which terminals there are, and wires end at them. "
            "Change it in the sheet's file, together with the wires."
        )

    def _refused(self, sentence: str) -> ChangeError:
        return ChangeError(self._element.id, self._field, f"{self._element.id}: {sentence}")


def _stands_alone(name: str, value: Any) -> bool:
    """Lists say how the part is joined, and `cooled_by` names another part."""
    return name != "cooled_by" and (value is None or isinstance(value, str | float | int))
