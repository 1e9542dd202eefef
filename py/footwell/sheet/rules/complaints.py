"""Usual complaints speak of what people notice."""

from __future__ import annotations

from collections.abc import Iterator

from footwell.parts import KINDS
from footwell.reference.sight_words import WORDS
from footwell.sheet.draft import Draft
from footwell.sheet.models import SheetSeen
from footwell.sheet.places import Flaw, Path


def complaints_fit(draft: Draft) -> Iterator[Flaw]:
    """Each complaint speaks of parts that people notice, in positions that they have, in words for them."""
    if not draft.whole:
        return
    for path, complaint in draft.complaints:
        for place, seen in enumerate(complaint.states):
            at = (*path, "states", place)
            yield from _positions(draft, at, seen)
            yield from _words(draft, at, seen)


def _positions(draft: Draft, path: Path, seen: SheetSeen) -> Iterator[Flaw]:
    for part, position in seen.controls.items():
        known = _known(draft, part)
        if position not in known:
            yield Flaw(
                (*path, "controls", part),
                f'No control sets {part} to "{position}".',
                f"Name one of its positions, {', '.join(known)}; or leave the control out."
                if known
                else "Leave it out, or name a part that a control sets.",
            )


def _known(draft: Draft, name: str) -> tuple[str, ...]:
    """What a part can be set to, whether or not its control offers all of it."""
    part = draft.part(name)
    positions = KINDS[part.kind].positions if part else None
    return positions(draft.values[name]) if positions else ()


def _words(draft: Draft, path: Path, seen: SheetSeen) -> Iterator[Flaw]:
    part = draft.part(seen.load)
    words = WORDS.get(KINDS[part.kind].seen_as, ()) if part else ()
    if part is None or not words:
        yield Flaw(
            (*path, "load"),
            f"{seen.load} is no part that people see or hear at work.",
            f"Name one of the loads, {', '.join(draft.loads)}.",
        )
    elif seen.state not in words:
        yield Flaw(
            (*path, "state"),
            f'Nobody says "{seen.state}" of a {KINDS[part.kind].title}.',
            f"Say one of: {', '.join(words)}.",
        )
