"""Saying where in a sheet something stands: in words, by path and, where known, by line."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from footwell.sheet.errors import SheetProblem

Path = tuple[str | int, ...]
"""Keys and list positions from the whole sheet down to one value."""

_ELEMENTS: Mapping[str, tuple[str, str]] = {
    "parts": ("part", "id"),
    "connectors": ("connector", "id"),
    "wires": ("wire", "id"),
    "controls": ("control of", "part"),
}


@dataclass(frozen=True, slots=True)
class Flaw:
    """A problem by its path in the sheet, before the place is put in words."""

    path: Path
    sentence: str
    remedy: str


@dataclass(frozen=True)
class Places:
    """Puts paths of one sheet in words: `data` as it was parsed, `lines` as its text has them."""

    data: Any
    lines: Mapping[Path, int] = field(default_factory=dict)

    def problem(self, flaw: Flaw) -> SheetProblem:
        return SheetProblem(*map(short, (self.say(flaw.path), flaw.sentence, flaw.remedy)))

    def say(self, path: Path) -> str:
        """Such as 'part "R1", field ohms (parts[3].values.ohms, line 24)'."""
        words = (
            ", ".join(filter(None, (self._element(path[:2]), _field(path)))) or "the whole sheet"
        )
        spot = ", ".join(filter(None, (_spot(path), self._line(path))))
        return f"{words} ({spot})" if spot else words

    def _element(self, path: Path) -> str:
        if len(path) < 2 or path[0] not in _ELEMENTS or not isinstance(path[1], int):
            return ""
        word, key = _ELEMENTS[str(path[0])]
        name = self._at((*path, key))
        if isinstance(name, str) and name:
            return f'{word} "{short(name, 40)}"'
        return f"{word.split()[0]} no. {path[1] + 1}"

    def _at(self, path: Path) -> Any:
        found = self.data
        for step in path:
            try:
                found = found[step]
            except (KeyError, IndexError, TypeError):
                return None
        return found

    def _line(self, path: Path) -> str:
        """Line of the value, or of what encloses it where the value itself is missing."""
        known = (self.lines[path[:n]] for n in range(len(path), 0, -1) if path[:n] in self.lines)
        line = next(known, None)
        return "" if line is None else f"line {line}"


def short(text: str, most: int = 600) -> str:
    """A text cut to a length: what is quoted in it came from a stranger and may be endless."""
    return text if len(text) <= most else f"{text[: most - 1]}…"


def dotted(path: Path) -> str:
    """The path as it is written in code.

    >>> dotted(("parts", 3, "values", "ohms"))
    'parts[3].values.ohms'
    """
    return "".join(f"[{step}]" if isinstance(step, int) else f".{step}" for step in path).lstrip(
        "."
    )


def _field(path: Path) -> str:
    inside = path[2:] if path and path[0] in _ELEMENTS and len(path) > 1 else path
    named = inside[1:] if inside[:1] == ("values",) and len(inside) > 1 else inside
    return f"field {dotted(named)}" if named else ""


def _spot(path: Path) -> str:
    """The path, where the words do not already say it."""
    return dotted(path) if len(path) > 1 else ""
