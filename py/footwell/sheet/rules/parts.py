"""What a part says of itself, and what all parts together must be."""

from __future__ import annotations

from collections.abc import Iterator

from footwell.sheet.draft import Draft
from footwell.sheet.places import Flaw


def terminals_exist(draft: Draft) -> Iterator[Flaw]:
    """Bare and spare terminals are terminals of the part."""
    for path, part in draft.parts:
        known = draft.points.terminals.get(part.id)
        for field, named in (("probe", part.probe), ("spare", part.spare)):
            for terminal in named:
                if known is not None and terminal not in known:
                    yield Flaw(
                        (*path, field),
                        f"{part.id} has no terminal {terminal}.",
                        f"Its terminals are {', '.join(known)}.",
                    )


def assumed_are_written(draft: Draft) -> Iterator[Flaw]:
    """Only a value that is written can be marked as assumed."""
    for path, part in draft.parts:
        for field in part.assumed:
            if field not in part.values:
                yield Flaw(
                    (*path, "assumed"),
                    f'"{field}" is marked as assumed but is not among the values of {part.id}.',
                    "Write the assumed value there, or remove the mark.",
                )


def packs_are_cooled_by_motors(draft: Draft) -> Iterator[Flaw]:
    """The motor whose air cools a resistor pack is on the sheet."""
    for path, part in draft.parts:
        name = getattr(draft.values.get(part.id), "cooled_by", "")
        motor = draft.part(name)
        if name and (draft.lacks(name) or (motor is not None and motor.kind != "motor")):
            yield Flaw(
                (*path, "values", "cooled_by"),
                f'{part.id} is cooled by "{name}", which is no motor on this sheet.',
                "Name the motor of the fan, or leave the field out.",
            )


def one_battery(draft: Draft) -> Iterator[Flaw]:
    """There is one source of supply, so that "short to supply" has one meaning."""
    batteries = [(path, part) for path, part in draft.parts if part.kind == "battery"]
    if not batteries and draft.points.certain and not _may_be_battery(draft):
        yield Flaw(
            ("parts",),
            "There is no battery, so nothing can be fed.",
            'Add a part of kind "battery" and join its + to the feed and its - to earth.',
        )
    for path, part in batteries[1:]:
        yield Flaw(
            path,
            f"{part.id} is a second battery.",
            "Write all batteries of the circuit as one of the system's voltage.",
        )


def _may_be_battery(draft: Draft) -> bool:
    read = {part.id for _, part in draft.parts}
    return any(path[0] == "parts" and name not in read for path, name in draft.names)
