"""Print one JSON Schema of everything that crosses between page and core, for the page's types."""

import json
from typing import Any

from pydantic import BaseModel
from pydantic.json_schema import models_json_schema

from footwell import messages
from footwell.job import events
from footwell.service import CALLS

REF = "#/$defs/"
Schema = dict[str, Any]


def models_of(module: object) -> list[type[BaseModel]]:
    """Return the models that a module defines, in its order."""
    name = getattr(module, "__name__", "")
    return [
        thing
        for thing in vars(module).values()
        if isinstance(thing, type) and issubclass(thing, BaseModel) and thing.__module__ == name
    ]


def references(schema: object) -> set[str]:
    """Return the names of the definitions that a schema refers to directly."""
    if isinstance(schema, list):
        return set().union(*map(references, schema))
    if not isinstance(schema, dict):
        return set()
    own = {schema["$ref"].removeprefix(REF)} if isinstance(schema.get("$ref"), str) else set()
    return own.union(*map(references, schema.values()))


def reachable(names: set[str], definitions: Schema) -> set[str]:
    """Return the names and all that they lead to."""
    seen: set[str] = set()
    while names:
        seen |= names
        names = set().union(*(references(definitions[name]) for name in names)) - seen
    return seen


def without_titles(schema: Any) -> Any:
    """Drop the titles that pydantic makes up for fields; each would become a type of its own."""
    if isinstance(schema, list):
        return [without_titles(item) for item in schema]
    if not isinstance(schema, dict):
        return schema
    kept = {k: v for k, v in schema.items() if not (k == "title" and isinstance(v, str))}
    return {key: without_titles(value) for key, value in kept.items()}


def demand_all_fields(definition: Schema) -> None:
    """Mark every field as present, also those that have a default."""
    if "properties" in definition:
        definition["required"] = list(definition["properties"])


def always_whole(definitions: Schema) -> set[str]:
    """Return what only the core writes; what the page writes may leave out a default."""
    answers = reachable({CALLS[name][1].__name__ for name in CALLS}, definitions)
    return answers - {model.__name__ for model in models_of(events)}


def entry(request: type[BaseModel], response: type[BaseModel]) -> Schema:
    """Return the schema of one call."""
    pair = {
        "request": {"$ref": REF + request.__name__},
        "response": {"$ref": REF + response.__name__},
    }
    return {"type": "object", "properties": pair, "required": list(pair)}


def whole() -> Schema:
    """Return the schema of the table of calls, with every model among its definitions."""
    called = [model for name in CALLS for model in CALLS[name][:2]]
    models = dict.fromkeys([*models_of(messages), *models_of(events), *called])
    _, schema = models_json_schema([(model, "serialization") for model in models])
    definitions = without_titles(schema["$defs"])
    for name in sorted(always_whole(definitions)):
        demand_all_fields(definitions[name])
    calls = {name: entry(*CALLS[name][:2]) for name in sorted(CALLS)}
    return {
        "title": "Calls",
        "description": "What each call of the core asks and answers.",
        "type": "object",
        "properties": calls,
        "required": list(calls),
        "$defs": definitions,
    }


if __name__ == "__main__":
    print(json.dumps(whole(), indent=1, ensure_ascii=False))
