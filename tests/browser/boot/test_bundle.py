"""The bundle holds all that the core needs, though much of the library is left out."""

from __future__ import annotations

import fnmatch
from collections.abc import Callable

import pytest
from chromium import phone
from playwright.sync_api import Browser
from site_server import ROOT, Site

IMPORT_ALL = """
import importlib, pkgutil, footwell
names = [module.name for module in pkgutil.walk_packages(footwell.__path__, 'footwell.')]
for name in names:
    importlib.import_module(name)
' '.join(names)
"""

# What pydantic imports only when it is asked for it.
LATE_IMPORTS = {
    "a schema": "str(create_model('M', a=(int, 1)).model_json_schema())",
    "a made model": "create_model('M', at=(datetime.datetime, ...))(at='2024-02-29T12:00').at.year",
    "a pattern": "TypeAdapter(Annotated[str, Field(pattern='^[0-9]+$')]).validate_python('42')",
    "an address": "str(TypeAdapter(AnyUrl).validate_python('https://example.org/a'))",
    "a decimal": "str(TypeAdapter(decimal.Decimal).validate_json('0.1'))",
    "a duration": "TypeAdapter(datetime.timedelta).validate_python('PT1H').total_seconds()",
    "an unknown zone": "str(datetime.datetime.now(datetime.UTC).tzinfo)",
    "an error as JSON": "refused('[')",
}
PRELUDE = """
import datetime, decimal
from typing import Annotated
from pydantic import AnyUrl, BaseModel, Field, TypeAdapter, ValidationError, create_model
def refused(text):
    try: TypeAdapter(int).validate_json(text)
    except ValidationError as error: return error.json()
"""


@pytest.fixture(scope="module")
def run(chromium: Browser, harness_site: Site) -> Callable[[str], object]:
    """Runs Python text in the browser's Python."""
    page = phone(chromium).new_page()
    page.goto(f"{harness_site.address}harness/bench.html")
    return lambda text: page.evaluate("(text) => bench.ask({ ask: 'run', text })", text)


def left_out() -> list[str]:
    lines = (ROOT / "web" / "build" / "python" / "left_out.txt").read_text().splitlines()
    return [line for line in lines if line.startswith("footwell/")]


def core_modules() -> set[str]:
    """Return the core's modules, without those for the terminal, which the browser does not get."""
    core = ROOT / "py" / "footwell"
    paths = [path.relative_to(core.parent).as_posix() for path in core.rglob("*.py")]
    kept = [path for path in paths if not any(fnmatch.fnmatchcase(path, r) for r in left_out())]
    names = {path.removesuffix(".py").replace("/", ".").removesuffix(".__init__") for path in kept}
    return names - {"footwell"}


def test_every_module_of_the_core_is_there_and_imports(run: Callable[[str], object]) -> None:
    assert set(str(run(IMPORT_ALL)).split()) == core_modules()


@pytest.mark.parametrize("what", sorted(LATE_IMPORTS))
def test_what_pydantic_imports_late_is_there(run: Callable[[str], object], what: str) -> None:
    assert run(f"{PRELUDE}\n{LATE_IMPORTS[what]}")


def test_the_core_comes_compiled(run: Callable[[str], object]) -> None:
    origin = run("import footwell.service as it; it.__spec__.cached or it.__file__")
    assert str(origin).endswith("footwell/service.pyc")
