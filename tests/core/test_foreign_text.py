"""What others wrote goes through one kind of reader: pydantic in the core, the store's own in the page."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
CORE = sorted((ROOT / "py" / "footwell").rglob("*.py"))
PAGE = sorted(
    file for file in (ROOT / "web" / "src").rglob("*.ts*") if "generated" not in file.parts
)

UNBOUNDED = {("json", "loads"), ("json", "load"), ("pickle", "loads"), ("ast", "literal_eval")}
"""The plain parser recurses as deep as the text says, and ends the browser's interpreter."""

BUILT_INS = {"eval", "exec", "compile"}
MAKES_MARKUP = re.compile(
    r"innerHTML|outerHTML|insertAdjacentHTML|dangerouslySetInnerHTML|document\.write|srcdoc"
    r"|DOMParser|createContextualFragment|\beval\(|new Function\("
)
READS_JSON = {
    "web/src/storage/foreign.ts": "looks at what others wrote piece by piece",
    "web/src/worker/python.ts": "the core's own answers",
    "web/src/app/facts.ts": "bodies of stored events, for words on the screen",
    "web/src/app/keep.ts": "what this page itself has kept",
}


def unbounded_in(text: str) -> Iterator[str]:
    for node in ast.walk(ast.parse(text)):
        if not isinstance(node, ast.Call):
            continue
        called = node.func
        if isinstance(called, ast.Attribute) and isinstance(called.value, ast.Name):
            if (called.value.id, called.attr) in UNBOUNDED:
                yield f"{called.value.id}.{called.attr}"
        elif isinstance(called, ast.Name) and called.id in BUILT_INS:
            yield called.id


def test_the_core_reads_no_text_by_a_parser_without_bounds() -> None:
    assert len(CORE) > 100
    found = {str(file): [*unbounded_in(file.read_text("utf-8"))] for file in CORE}
    assert {file: calls for file, calls in found.items() if calls} == {}


@pytest.mark.parametrize("careless", ["import json\njson.loads(x)", "eval(x)"])
def test_a_careless_reader_is_found_out(careless: str) -> None:
    assert [*unbounded_in(careless)]


def test_the_page_makes_no_markup_and_no_code_from_text() -> None:
    assert len(PAGE) > 100
    assert [str(file) for file in PAGE if MAKES_MARKUP.search(file.read_text("utf-8"))] == []
    assert MAKES_MARKUP.search("element.innerHTML = text")


def test_the_page_reads_json_in_few_known_places() -> None:
    found = {
        file.relative_to(ROOT).as_posix()
        for file in PAGE
        if "JSON.parse(" in file.read_text("utf-8")
    }
    assert found == set(READS_JSON)
