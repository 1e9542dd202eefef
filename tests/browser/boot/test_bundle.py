"""The bundle holds all that the core needs, though much of the library is left out."""

from __future__ import annotations

import fnmatch
import json
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

# Every import that any module of the bundle holds, at its head or inside a function, as compiled.
NAMED_AND_NOT_THERE = """
import dis, importlib.util, json, marshal, sys, zipfile
def named(code, package):
    last = []
    for step in dis.get_instructions(code):
        if step.opname == "IMPORT_NAME":
            dots = "." * last[-2]
            yield importlib.util.resolve_name(dots + step.argval, package) if dots else step.argval
        elif step.opname in ("LOAD_CONST", "LOAD_SMALL_INT"):
            last.append(step.argval)
    for inner in code.co_consts:
        if hasattr(inner, "co_consts"):
            yield from named(inner, package)
def is_there(name):
    try:
        return name in sys.modules or importlib.util.find_spec(name) is not None
    except ModuleNotFoundError:
        return False
archive = zipfile.ZipFile(next(path for path in sys.path if path.endswith(".zip")))
missing = set()
for path in archive.namelist():
    if path.endswith(".pyc"):
        package = path.rpartition("/")[0].replace("/", ".")
        names = named(marshal.loads(archive.read(path)[16:]), package)
        missing |= {name for name in names if not is_there(name)}
json.dumps(sorted(missing))
"""
OTHER_SYSTEMS = {
    *("_aix_support", "_hashlib", "_ios_support", "_osx_support", "_uuid", "_winapi", "_wmi"),
    *("asyncio.windows_events", "encodings._win_cp_codecs", "grp", "java.lang", "msvcrt", "nt"),
    *("plistlib", "pwd", "vms_lib", "winreg"),
}
FROM_A_TERMINAL = {
    "argparse",
    "ctypes",
    "difflib",
    "doctest",
    "getopt",
    "py_compile",
    "tracemalloc",
}
"""For a module that is run by itself, for hints to who types a program, for tracing."""

SECOND_CHOICES = {"_pydatetime", "_pydecimal", "zoneinfo._zoneinfo"}
"""Where the compiled one beside it is missing, which it is not."""

CANNOT_COME_UP = {
    *("_interpreters", "concurrent.futures.interpreter", "concurrent.futures.process"),  # processes
    *("email.message", "email.parser"),  # descriptions of packages, which the bundle has none of
    *(
        "email_validator",
        "pydantic.color",
        "pydantic.v1",
        "_typeshed",
    ),  # kinds the core does not use
    *("rich.console", "rich.pretty", "tarfile", "urllib.request"),  # debugging, archives, addresses
}


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


def test_all_that_any_module_ever_imports_is_there_but_what_cannot_be_reached(
    run: Callable[[str], object],
) -> None:
    known = OTHER_SYSTEMS | FROM_A_TERMINAL | SECOND_CHOICES | CANNOT_COME_UP
    run(IMPORT_ALL)
    assert set(json.loads(str(run(NAMED_AND_NOT_THERE)))) == known


def test_the_core_comes_compiled(run: Callable[[str], object]) -> None:
    origin = run("import footwell.service as it; it.__spec__.cached or it.__file__")
    assert str(origin).endswith("footwell/service.pyc")
