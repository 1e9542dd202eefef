"""Saying where in a sheet something stands: in words and, where known, by line."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from footwell.sheet.errors import SheetProblem
from footwell.sheet.models import ID

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
    """A problem by its path in the sheet, before the place is put in words. `point` is what it is about
    where that is no whole element."""

    path: Path
    sentence: str
    remedy: str
    point: str = ""


@dataclass(frozen=True)
class Places:
    """Puts paths of one sheet in words: `data` as it was parsed, `lines` as its text has them."""

    data: Any
    lines: Mapping[Path, int] = field(default_factory=dict)

    def problem(self, flaw: Flaw) -> SheetProblem:
        about = flaw.point or self._id(flaw.path[:2])
        return SheetProblem(*map(short, (self.say(flaw.path), flaw.sentence, flaw.remedy, about)))

    def say(self, path: Path) -> str:
        """Such as 'part R1, field ohms (line 24)'."""
        words = (
            ", ".join(filter(None, (self._element(path[:2]), _field(path)))) or "the whole sheet"
        )
        line = self._line(path)
        return f"{words} ({line})" if line else words

    def _element(self, path: Path) -> str:
        if not _is_element(path):
            return ""
        word, name = _ELEMENTS[str(path[0])][0], self._id(path)
        if not name:
            return counted(path)
        return f"{word} {name}" if re.fullmatch(ID, name) else f'{word} "{short(name, 40)}"'

    def _id(self, path: Path) -> str:
        """What an element is called; "" where it has no name or the path is that of none."""
        name = self._at((*path, _ELEMENTS[str(path[0])][1])) if _is_element(path) else None
        return name if isinstance(name, str) else ""

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


def counted(path: Path) -> str:
    """An element by its place in its list.

    >>> counted(("connectors", 1))
    'connector no. 2'
    """
    return f"{_ELEMENTS[str(path[0])][0].split()[0]} no. {int(path[1]) + 1}"


def _is_element(path: Path) -> bool:
    return len(path) == 2 and path[0] in _ELEMENTS and isinstance(path[1], int)


def _steps(path: Path) -> str:
    """
    >>> _steps(("positions", 2, "id"))
    'positions › no. 3 › id'
    """
    return " › ".join(f"no. {step + 1}" if isinstance(step, int) else step for step in path)


def _field(path: Path) -> str:
    inside = path[2:] if path and path[0] in _ELEMENTS and len(path) > 1 else path
    named = inside[1:] if inside[:1] == ("values",) and len(inside) > 1 else inside
    return f"field {_steps(named)}" if named else ""
