"""Parts, wires and connectors share one list of names."""

from __future__ import annotations

from collections.abc import Iterator

from footwell.parts.base import EARTH, SUPPLY
from footwell.sheet.draft import Draft
from footwell.sheet.places import Flaw, Path, counted

_RESERVED = {EARTH: "the vehicle's body", SUPPLY: "the battery's positive post"}


def told_apart(draft: Draft) -> Iterator[Flaw]:
    """No name is given twice, and none is a word that means something else."""
    first: dict[str, Path] = {}
    for path, name in draft.names:
        if name in _RESERVED:
            yield Flaw(
                (*path, "id"), f'The name "{name}" means {_RESERVED[name]}.', "Choose another name."
            )
        elif name in first:
            yield Flaw(
                (*path, "id"),
                f'The name "{name}" is used twice, first by {counted(first[name])}.',
                "Rename one of them: parts, wires and connectors share one list of names.",
            )
        first.setdefault(name, path)
