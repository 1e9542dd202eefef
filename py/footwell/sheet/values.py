"""The values of one part: from the sheet's plain data to the dataclass of the part's kind."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Iterator, Mapping
from functools import cache
from typing import Any

from pydantic import TypeAdapter, ValidationError
from pydantic_core import to_json

from footwell.parts import KINDS
from footwell.parts.base import Context
from footwell.parts.switch import Switch, contact_pairs
from footwell.sheet.models import WAY_NAME, SheetPart
from footwell.sheet.places import Flaw, Path
from footwell.sheet.shape import flaws_of

PART_KINDS = tuple(name for name in KINDS if name not in ("wire", "contact"))
"""Kinds a sheet's parts may have; wires and contacts come from its wires and connectors."""


def values_of(part: SheetPart, context: Context, path: Path = ()) -> tuple[Any, list[Flaw]]:
    """The part's values in the dataclass of its kind, or None and what is wrong with them.

    `path` leads to the part in its sheet. `context` is needed because a value left open takes a
    default of the circuit, which together with the others must be possible too.
    """
    if part.kind not in PART_KINDS:
        return None, [_unknown_kind(part.kind, (*path, "kind"))]
    path = (*path, "values")
    flaws = list(not_numbers(part.values, path))
    if flaws:
        return None, flaws
    try:
        values = _adapter(part.kind).validate_json(
            to_json(part.values), strict=True, extra="forbid"
        )
    except ValidationError as error:
        return None, flaws_of(error, path, part.kind)
    flaws = [*_RULES.get(part.kind, _no_rule)(values, context, path)]
    flaws = flaws or _objections(part.kind, values, context, path)
    flaws = flaws or _trial(part.kind, values, context, path)
    return (None, flaws) if flaws else (values, [])


def not_numbers(data: Any, path: Path = ()) -> Iterator[Flaw]:
    """Every number in plain data that is none, such as NaN or 1e999."""
    if isinstance(data, float) and not math.isfinite(data):
        yield Flaw(path, *_not_a_number(data))
    elif isinstance(data, dict):
        for key, value in data.items():
            yield from not_numbers(value, (*path, key))
    elif isinstance(data, list):
        for place, value in enumerate(data):
            yield from not_numbers(value, (*path, place))


def _not_a_number(value: float) -> tuple[str, str]:
    said = "NaN (not a number)" if math.isnan(value) else "infinite or too large for a number"
    return f"The value is {said}.", "Write the number as measured, or null where it is not known."


@cache
def _adapter(kind: str) -> TypeAdapter[Any]:
    return TypeAdapter(KINDS[kind].values)


def _unknown_kind(kind: str, path: Path) -> Flaw:
    if kind in KINDS:
        home = {"wire": "wires", "contact": "connectors"}[kind]
        return Flaw(path, f"A {kind} is no part of its own.", f"Write it under {home}.")
    remedy = f"Choose the nearest of: {', '.join(PART_KINDS)}."
    return Flaw(path, f'There is no kind of part called "{kind}".', remedy)


def _objections(kind: str, values: Any, context: Context, path: Path) -> list[Flaw]:
    found = KINDS[kind].objections(values, context)
    return [Flaw((*path, name), what, remedy) for name, what, remedy in found]


def _trial(kind: str, values: Any, context: Context, path: Path) -> list[Flaw]:
    """Builds the part once in every state: what the tables of the trade refuse shows here."""
    try:
        for state in KINDS[kind].states(values):
            KINDS[kind].branches(values, state, context)
        KINDS[kind].modes(values)
    except (ValueError, ArithmeticError) as error:
        return [Flaw(path, f"These values cannot be used: {error}", "Compare them with the part.")]
    return []


def _no_rule(values: Any, context: Context, path: Path) -> Iterator[Flaw]:
    return iter(())


def _switch_rule(values: Switch, context: Context, path: Path) -> Iterator[Flaw]:
    pairs = contact_pairs(values)
    closes = (*path, "closes")
    if not values.closes:
        yield Flaw(closes, "The switch has no positions.", _POSITIONS)
    elif not pairs:
        yield Flaw(closes, "The switch joins no terminals in any position.", _POSITIONS)
    yield from _switch_terminals(values, (*path, "terminals"))
    for a, b in pairs:
        yield from _switch_pair(a, b, values, closes)


_POSITIONS = 'Name each position and the pairs it joins, for example "off": [], "1": [["B", "1"]].'


def _switch_terminals(values: Switch, path: Path) -> Iterator[Flaw]:
    for terminal in dict.fromkeys(values.terminals):
        if values.terminals.count(terminal) > 1:
            yield Flaw(path, f"Terminal {terminal} is named twice.", "Name each terminal once.")
        if not re.fullmatch(WAY_NAME, terminal):
            yield Flaw(
                path,
                f'"{terminal}" cannot be the name of a terminal.',
                "Use 1 to 8 letters, digits, + or -.",
            )


def _switch_pair(a: str, b: str, values: Switch, path: Path) -> Iterator[Flaw]:
    listed = ", ".join(values.terminals)
    for terminal in dict.fromkeys((a, b)):
        if terminal not in values.terminals:
            yield Flaw(
                path,
                f"A position joins terminal {terminal}, which the switch does not have.",
                f"Use its terminals, {listed}, or add this one to them.",
            )
    if a == b:
        yield Flaw(path, f"A position joins terminal {a} to itself.", "Name two terminals.")
    elif (b, a) in contact_pairs(values) and a < b:
        yield Flaw(
            path,
            f"The pair {a} and {b} is written in both orders, which would be two contacts.",
            "Write it in the same order in every position.",
        )


_RULES: Mapping[str, Callable[[Any, Context, Path], Iterator[Flaw]]] = {"switch": _switch_rule}
