"""The sign of each kind of part: the diagram shows it, and the page knows it."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from footwell.circuit.circuit import build
from footwell.drawing.layout import lay_out
from footwell.drawing.picture import Glyph

from .drawing_sheets import MANY_ENDED, TWO_ENDED, Network, SheetMaker, values_of

SIGNS = Path(__file__).parents[2] / "web" / "src" / "features" / "circuit" / "signs.ts"
LINES = {"line", "box", "name", "dot", "link", "earth"}
"""Glyphs that are no signs."""


def glyphs(network: Network, kind: str) -> list[Glyph]:
    sheet = SheetMaker().sheet(network, splices=False)
    drawn = next(s for s in lay_out(build(sheet, values_of(sheet))).symbols if s.kind == kind)
    return list(drawn.glyphs)


def known_to_the_page() -> set[str]:
    table = re.search(r"const SIGNS.*?^};", SIGNS.read_text("utf-8"), re.DOTALL | re.MULTILINE)
    assert table
    return {name.strip('"') for name in re.findall(r'^  ("[^"]+"|\w+): \{', table[0], re.MULTILINE)}


@pytest.mark.parametrize("kind", TWO_ENDED)
def test_every_kind_of_two_terminals_has_a_sign_that_the_page_knows(kind: str) -> None:
    signs = {g.kind for g in glyphs(("part", kind), kind)} - LINES
    assert signs and signs <= known_to_the_page()


def test_a_sign_that_the_page_does_not_know_would_be_found() -> None:
    assert "wobbler" not in known_to_the_page() and "lamp" in known_to_the_page()


@pytest.mark.parametrize("kind", MANY_ENDED)
def test_every_kind_of_more_terminals_shows_known_signs_or_a_box(kind: str) -> None:
    shown = {g.kind for g in glyphs(("many", kind), kind)}
    assert shown - LINES <= known_to_the_page()
    assert shown - LINES or "box" in shown


@pytest.mark.parametrize(
    ("kind", "sign", "count"),
    [("twin_lamp", "lamp", 2), ("latching_relay", "make", 1)],
)
def test_kinds_of_several_branches_show_a_sign_for_each(kind: str, sign: str, count: int) -> None:
    found = [g.kind for g in glyphs(("many", kind), kind)]
    assert found.count(sign) == count
