"""Where wires end."""

from __future__ import annotations

from collections.abc import Iterator

from footwell.sheet.draft import Draft
from footwell.sheet.places import Flaw
from footwell.sheet.points import joined


def ends_exist(draft: Draft) -> Iterator[Flaw]:
    """Both ends of a wire are points of the sheet, and not the same one."""
    same = joined(connector for _, connector in draft.connectors)
    for path, wire in draft.wires:
        for field, point in (("start", wire.start), ("end", wire.end)):
            fault = draft.points.fault(point)
            if fault is not None:
                yield Flaw((*path, field), *fault)
        if same.get(wire.start, wire.start) == same.get(wire.end, wire.end):
            yield Flaw(
                path,
                f"Both ends of {wire.id} are at the same point, {draft.points.told(wire.start)}.",
                "Correct one end, or remove the wire.",
            )
