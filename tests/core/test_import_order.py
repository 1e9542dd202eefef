"""Imports run downwards, one way, and the core needs nothing but pydantic."""

from __future__ import annotations

import ast
import sys
from collections.abc import Iterable, Iterator
from graphlib import TopologicalSorter
from pathlib import Path

import pytest

FOOTWELL = Path(__file__).parents[2] / "py" / "footwell"
MODULES = sorted(FOOTWELL.rglob("*.py"))

ORDER = (
    ("__main__",),
    ("cli",),
    ("terminal",),
    ("service",),
    ("page",),
    ("messages", "practice"),
    ("handover",),
    ("job",),
    ("diagnosis",),
    ("checks",),
    ("faults", "drawing"),
    ("electrics",),
    ("circuit",),
    ("sheet",),
    ("parts",),
    ("reference",),
    ("errors", "names", "pulse", ""),
)
"""Packages and modules from the top down; those of one row do not know each other. "" is the
package itself with its release."""

RANK = {name: number for number, row in enumerate(ORDER) for name in row}

DRAWING_KNOWS = {"circuit", "sheet", "parts", "reference", "errors", ""}
LIBRARIES = {"pydantic", "pydantic_core"}


def imported(text: str, package: str = "") -> Iterator[str]:
    """Every module that a text imports, wherever in it; `package` is where its relative imports begin."""
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level <= 1, "imports from above the own package hide where they lead"
            source = f"{package}.{node.module or ''}".strip(".") if node.level else str(node.module)
            whole = source in ("footwell", package)
            yield from (f"{source}.{a.name}" if whole else source for a in node.names)


def imports_of(file: Path) -> set[str]:
    package = ".".join(file.relative_to(FOOTWELL.parent).parts[:-1])
    return set(imported(file.read_text("utf-8"), package))


def layer(module: str) -> str:
    """The package or module of footwell, or "" for footwell itself and for names in it."""
    name = module.split(".")[1] if "." in module else ""
    return name if name in RANK or (FOOTWELL / name).is_dir() else ""


def named(file: Path) -> str:
    parts = file.relative_to(FOOTWELL.parent).with_suffix("").parts
    return ".".join(part for part in parts if part != "__init__")


def upward(module: str, imports: Iterable[str]) -> list[str]:
    """Imports of a module that do not run downwards."""
    mine = layer(module)
    inside = [name for name in imports if name.split(".")[0] == "footwell"]
    return [n for n in inside if layer(n) != mine and RANK[layer(n)] <= RANK[mine]]


def foreign(imports: Iterable[str]) -> set[str]:
    """Packages beside Python's own, pydantic's and footwell's."""
    packages = {name.split(".")[0] for name in imports}
    return packages - sys.stdlib_module_names - LIBRARIES - {"footwell"}


@pytest.mark.parametrize("file", MODULES, ids=named)
def test_imports_run_downwards(file: Path) -> None:
    assert upward(named(file), imports_of(file)) == []


@pytest.mark.parametrize("file", MODULES, ids=named)
def test_the_core_needs_nothing_but_pydantic(file: Path) -> None:
    assert foreign(imports_of(file)) == set()


@pytest.mark.parametrize("file", sorted(FOOTWELL.glob("drawing/*.py")), ids=named)
def test_drawing_knows_only_the_circuit(file: Path) -> None:
    known = {layer(name) for name in imports_of(file) if name.startswith("footwell")}
    assert known <= DRAWING_KNOWS | {"drawing"}


def test_no_two_modules_import_each_other() -> None:
    names = {named(file) for file in MODULES} - {"footwell"}
    graph = {named(file): imports_of(file) & names for file in MODULES}
    assert len(tuple(TopologicalSorter(graph).static_order())) == len(MODULES)


def test_every_package_has_its_place_in_the_order() -> None:
    found = {layer(named(file)) or named(file) for file in MODULES}
    assert found - {"footwell"} <= set(RANK)


PLANTED = {
    "upwards": ("footwell.parts.lamp", "from footwell.sheet.models import Sheet"),
    "sideways": ("footwell.drawing.plan", "from footwell.faults.suspects import Repair"),
    "inside a function": ("footwell.job.links", "def f():\n    import footwell.page.words"),
    "by the package's name": ("footwell.checks.check", "from footwell import messages as m"),
}


@pytest.mark.parametrize(("module", "text"), PLANTED.values(), ids=PLANTED)
def test_a_planted_import_upwards_is_found(module: str, text: str) -> None:
    assert len(upward(module, imported(text))) == 1


def test_a_planted_library_is_found() -> None:
    assert foreign(imported("import numpy.linalg, json\nfrom pydantic import Field")) == {"numpy"}
