"""Loads and controls: what the customer notices and what a person sets."""

from __future__ import annotations

from collections.abc import Iterator

from footwell.parts import KINDS
from footwell.sheet.draft import Draft
from footwell.sheet.models import SheetControl, SheetPart
from footwell.sheet.places import Flaw, Path


def _is_set(part: SheetPart) -> bool:
    """Whether something outside the circuit sets the part's state; else it follows from the circuit."""
    return part.kind in KINDS and KINDS[part.kind].positions is not None


def _settable() -> str:
    """The kinds of part that are set, as people list them."""
    names = [name for name, kind in KINDS.items() if kind.positions is not None]
    return " or ".join([", ".join(names[:-1]), names[-1]])


def loads_are_parts(draft: Draft) -> Iterator[Flaw]:
    """Each load is a part that people can see, hear or feel at work."""
    for place, name in enumerate(draft.loads):
        path: Path = ("loads", place)
        part = draft.part(name)
        if draft.lacks(name):
            yield Flaw(path, f'The load "{name}" is no part of this sheet.', _add(name))
        elif part is not None and part.kind in KINDS and not KINDS[part.kind].seen_as:
            yield Flaw(
                path,
                f"{name} is a {KINDS[part.kind].title}: nobody sees or hears it work.",
                "Name the lamp, motor or heater that the customer notices.",
            )
        if name in draft.loads[:place]:
            yield Flaw(path, f"The load {name} is named twice.", "Name it once.")


def controls_fit_parts(draft: Draft) -> Iterator[Flaw]:
    """Each control sets one part, in positions that the part knows."""
    seen: set[str] = set()
    for path, control in draft.controls:
        part = draft.part(control.part)
        if draft.lacks(control.part):
            yield Flaw((*path, "part"), f'There is no part "{control.part}".', _add(control.part))
        elif part is not None and part.kind in KINDS and not _is_set(part):
            yield Flaw(
                (*path, "part"),
                f"{part.id} is a {KINDS[part.kind].title}, which nobody sets by hand.",
                f"Name a part of kind {_settable()}.",
            )
        elif part is not None:
            yield from _positions(draft, path, control, part)
        if control.part in seen:
            yield Flaw(
                (*path, "part"), f"{control.part} has a second control.", "Keep one of them."
            )
        seen.add(control.part)


def everything_set_by_hand_has_a_control(draft: Draft) -> Iterator[Flaw]:
    """A switch that no control moves would have no position."""
    controlled = {control.part for _, control in draft.controls}
    for path, part in draft.parts:
        if draft.whole and _is_set(part) and part.id not in controlled:
            yield Flaw(
                path,
                f"No control sets {part.id}, so it has no position.",
                f'Add a control with "part": "{part.id}" and its positions.',
            )


def _positions(draft: Draft, path: Path, control: SheetControl, part: SheetPart) -> Iterator[Flaw]:
    named = [position.id for position in control.positions]
    if not named:
        yield Flaw(
            (*path, "positions"),
            f"The control of {part.id} has no positions.",
            'List them as { "id": "0", "name": "off" }, in the order of the switch.',
        )
    elif control.off not in named:
        yield Flaw(
            (*path, "off"),
            f'The position of rest, "{control.off}", is none of the positions.',
            f"Choose one of {', '.join(named)}.",
        )
    for place, position in enumerate(control.running):
        if position not in named:
            yield Flaw(
                (*path, "running", place),
                f'The engine is said to run at "{position}", which is none of the positions.',
                f"Choose of {', '.join(named)}, or leave it out.",
            )
    positions = KINDS[part.kind].positions if part.kind in KINDS else None
    if part.id in draft.values and positions is not None:
        yield from _known(path, named, part, positions(draft.values[part.id]))


def _known(
    path: Path, named: list[str], part: SheetPart, states: tuple[str, ...]
) -> Iterator[Flaw]:
    for place, position in enumerate(named):
        at = (*path, "positions", place, "id")
        if position not in states:
            yield Flaw(
                at,
                f'{part.id} knows no position "{position}".',
                f"Its positions are {', '.join(states)}; add it there or correct the name.",
            )
        if position in named[:place]:
            yield Flaw(at, f'Position "{position}" is named twice.', "Name it once.")


def _add(name: str) -> str:
    return f'Add a part with "id": "{name}", or correct the name.'
