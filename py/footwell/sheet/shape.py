"""From what pydantic refuses to sentences for people: what stands in the field, and what should."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from typing import Any

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails, to_json

from footwell.parts import KINDS
from footwell.sheet.fields import words
from footwell.sheet.models import (
    ControlPosition,
    Sheet,
    SheetConnector,
    SheetControl,
    SheetPart,
    SheetWire,
)
from footwell.sheet.places import Flaw, Path, short

_MODELS: Mapping[str, type[BaseModel]] = {
    "parts": SheetPart,
    "connectors": SheetConnector,
    "wires": SheetWire,
    "controls": SheetControl,
}

_WRITE = "Write the number{in_unit}{or_null}."
_PLAIN = "Write the number without quotation marks, with a decimal point{in_unit}{or_null}."
_SENTENCES: Mapping[str, tuple[str, str]] = {
    "missing": ("The field {field} is missing.", "Add {field}{in_unit}{or_null}."),
    "extra_forbidden": (
        "There is no field {field} here.",
        "Correct its name or remove it; there are {known}.",
    ),
    "greater_than": ("The {what} is {shown}; it must be above {gt:g}.", _WRITE),
    "greater_than_equal": ("The {what} is {shown}; it must be at least {ge:g}.", _WRITE),
    "less_than": ("The {what} is {shown}; it must be below {lt:g}.", _WRITE),
    "less_than_equal": ("The {what} is {shown}; it can be at most {le:g}.", _WRITE),
    "float_type": ("The {what} must be a number, not {shown}.", _PLAIN),
    "int_type": ("The {what} must be a whole number, not {shown}.", _PLAIN),
    "string_type": ("{field} must be a text, not {shown}.", "Write it in double quotes{or_null}."),
    "bool_type": (
        "{field} must be true or false, not {shown}.",
        "Write true or false without quotation marks.",
    ),
    "list_type": ("{field} must be a list, not {shown}.", "Write it in square brackets."),
    "dict_type": ("{field} must be an object, not {shown}.", "Write it in curly brackets."),
    "model_type": (
        "{shown} stands where an object with fields must stand.",
        "Write it in curly brackets.",
    ),
    "literal_error": ("{field} is {shown}; it must be {expected}.", "Choose one of them."),
    "string_too_short": ("{field} is empty.", "Write a few words."),
    "string_too_long": ("{field} is longer than {max_length} characters.", "Shorten it."),
    "too_short": (
        "{field} needs at least {min_length}, and has {actual_length}.",
        "Add what is missing.",
    ),
    "too_long": ("{field} has more than {max_length}.", "Keep at most {max_length}."),
    "value_error": ("{error}", "Write one of the list{or_null}."),
}
_SAME_AS: Mapping[str, str] = {
    "unexpected_keyword_argument": "extra_forbidden",
    "dataclass_type": "model_type",
    "model_attributes_type": "model_type",
    "tuple_type": "list_type",
}
_PATTERNS: Mapping[str, tuple[str, str]] = {
    "id": (
        "The name {shown} cannot be used.",
        "Begin with a letter and use at most 24 letters, digits, _ or -.",
    ),
    "title": ("{field} holds a line break or a hidden character.", "Write it anew on one line."),
    "start": (
        "{shown} is not a point.",
        'Write a part\'s terminal ("F1.2"), one half of a way ("X2.3.a") or "earth".',
    ),
    "rows": (
        "{shown} cannot be the name of a way or terminal.",
        "Use 1 to 8 letters, digits, + or -.",
    ),
}
_PATTERN_LIKE: Mapping[str, str] = {
    "loads": "id",
    "part": "id",
    "end": "start",
    "part_ways": "start",
    "[key]": "rows",
    "spare": "rows",
    "probe": "rows",
}


def flaws_of(error: ValidationError, prefix: Path = (), kind: str = "") -> list[Flaw]:
    """One flaw for each thing refused. `prefix` leads to what was read, `kind` is the part's."""
    return [_flaw(each, prefix, kind) for each in error.errors(include_url=False)]


def _flaw(error: ErrorDetails, prefix: Path, kind: str) -> Flaw:
    path = (*prefix, *error["loc"])
    sentence, remedy = _templates(error, path)
    facts = _facts(error, path, kind)
    return Flaw(
        tuple(step for step in path if step != "[key]"),
        sentence.format(**facts),
        remedy.format(**facts),
    )


def _templates(error: ErrorDetails, path: Path) -> tuple[str, str]:
    name = _SAME_AS.get(error["type"], error["type"])
    if name == "missing" and isinstance(path[-1], int):
        return "A pair in {field} has one terminal.", 'Write two, for example ["B", "1"].'
    if name == "string_pattern_mismatch":
        field = "[key]" if path[-1] == "[key]" else _named(path)
        if field == "id" and len(path) == 1:
            return "The sheet's name {shown} cannot be used.", "Use small letters, digits and -."
        return _PATTERNS[_PATTERN_LIKE.get(field, field if field in _PATTERNS else "title")]
    if name == "too_long" and len(path) == 1 and path[0] in _MODELS:
        return (
            "This sheet has {actual_length} {field}, and at most {max_length} fit.",
            "Leave out what the fault cannot be in, or make two sheets of it.",
        )
    return _SENTENCES.get(name, ("{field}: {message}.", "Correct {field}{or_null}."))


def _facts(error: ErrorDetails, path: Path, kind: str) -> dict[str, Any]:
    field = _named(path)
    said = words(field, kind)
    return {
        **error.get("ctx", {}),
        "field": short(field, 40),
        "shown": _shown(error["input"]),
        "message": error["msg"],
        "what": short(said.what, 40),
        "in_unit": f", in {said.unit}" if said.unit else "",
        "or_null": ", or null where it is not known" if _may_be_open(path, kind) else "",
        "known": ", ".join(_fields(_owner(path, kind))),
    }


def _named(path: Path) -> str:
    """The innermost field that has a name of its own; keys of a dict and positions have none."""
    names = [step for step in path if isinstance(step, str) and step != "[key]"]
    return next(
        (name for name in ("part_ways", "closes") if name in names), names[-1] if names else ""
    )


def _shown(value: Any) -> str:
    text = to_json(value, inf_nan_mode="constants", fallback=lambda _: None).decode(
        errors="replace"
    )
    return short(text, 40)


def _owner(path: Path, kind: str) -> type[Any]:
    if path[:1] and path[0] in _MODELS and len(path) > 2:
        if path[2] == "values" and kind in KINDS:
            return KINDS[kind].values
        return (
            ControlPosition if path[2] == "positions" and len(path) > 3 else _MODELS[str(path[0])]
        )
    return Sheet


def _fields(owner: type[Any]) -> list[str]:
    if issubclass(owner, BaseModel):
        return list(owner.model_fields)
    return [field.name for field in dataclasses.fields(owner)]


def _may_be_open(path: Path, kind: str) -> bool:
    """Whether null may stand in the field: whether nothing is its default."""
    owner, name = _owner(path, kind), _named(path)
    if issubclass(owner, BaseModel):
        field = owner.model_fields.get(name)
        return field is not None and field.default is None
    return any(field.name == name and field.default is None for field in dataclasses.fields(owner))
