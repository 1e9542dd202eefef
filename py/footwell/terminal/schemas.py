"""The published JSON Schemas of what the terminal prints with --json.

`python -m footwell.terminal.schemas` writes them to footwell/schemas, one for each command, one for
the explanations of `expect --explain`, and one for refusals.
"""

from __future__ import annotations

from pathlib import Path

from pydantic_core import to_json

from footwell.messages import Explanation, Message, SheetAnswer
from footwell.terminal.shapes import (
    Expectations,
    JobState,
    Netlist,
    PracticeRun,
    Refusal,
    WiresAnswer,
)

FOLDER = Path(__file__).parents[1] / "schemas"

PUBLISHED: dict[str, type[Message]] = {
    "sheet": SheetAnswer,
    "expect": Expectations,
    "explain": Explanation,
    "job": JobState,
    "practice": PracticeRun,
    "netlist": Netlist,
    "wires": WiresAnswer,
    "refusal": Refusal,
}


def file_of(name: str) -> Path:
    return FOLDER / f"{name}.schema.json"


def schema_text(name: str) -> str:
    """The schema of one answer as JSON text (draft 2020-12)."""
    head = {"$schema": "https://json-schema.org/draft/2020-12/schema"}
    schema = PUBLISHED[name].model_json_schema(mode="serialization")
    return to_json(head | schema, indent=2).decode() + "\n"


if __name__ == "__main__":
    FOLDER.mkdir(exist_ok=True)
    for each in PUBLISHED:
        file_of(each).write_text(schema_text(each), encoding="utf-8")
