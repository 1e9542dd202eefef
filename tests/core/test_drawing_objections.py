"""The objections to a picture see what they are there for."""

from __future__ import annotations

from dataclasses import replace

from footwell.drawing.layout import lay_out
from footwell.drawing.picture import Layout

from . import drawing_objections as wrong
from .sample_circuits import MINIBUS, sample

SOUND = lay_out(sample(MINIBUS))


def with_symbol_at(element: str, x: float, y: float) -> Layout:
    symbols = [replace(s, x=x, y=y) if s.element == element else s for s in SOUND.symbols]
    return replace(SOUND, symbols=tuple(symbols))


def at(element: str) -> tuple[float, float]:
    return next((s.x, s.y) for s in SOUND.symbols if s.element == element)


def test_a_symbol_pushed_onto_another_is_seen() -> None:
    assert wrong.overlapping_symbols(with_symbol_at("M1", *at("F1"))) == [("F1", "M1")]


def test_a_symbol_pushed_onto_a_wire_is_seen() -> None:
    middle_of_w0 = at("G1")[0], SOUND.height / 2
    assert ("W0", "M1") in wrong.crossed_symbols(with_symbol_at("M1", *middle_of_w0))


def test_a_symbol_outside_the_picture_is_seen() -> None:
    assert wrong.outside(with_symbol_at("M1", -1.0, 3.0)) == ["M1"]


def test_words_on_words_and_words_on_wires_are_seen() -> None:
    (one, other) = SOUND.lines[2:4]
    moved = replace(other, label=one.label)
    lines = tuple(moved if line is other else line for line in SOUND.lines)
    assert wrong.overlapping_words(replace(SOUND, lines=lines))
    x, y = one.points[0]
    struck = replace(one, label=replace(one.label, x=x - 0.2, y=y + 0.3))
    lines = tuple(struck if line is one else line for line in SOUND.lines)
    assert (one.element, one.element) in wrong.struck_words(replace(SOUND, lines=lines))


def test_a_wire_beside_its_pin_a_slanting_one_and_one_on_another_are_seen() -> None:
    one, other = SOUND.lines[0], SOUND.lines[2]
    off = replace(one, points=(one.points[0], (one.points[1][0] + 1, one.points[1][1])))
    beside = replace(SOUND, lines=(off, *SOUND.lines[1:]))
    assert wrong.wires_off_their_pins(sample(MINIBUS), beside)
    assert wrong.slanting(beside) == [one.element]
    on_it = replace(
        SOUND, lines=(*SOUND.lines[:2], replace(other, points=one.points), *SOUND.lines[3:])
    )
    assert wrong.run_together(sample(MINIBUS), on_it) == [(one.element, other.element)]


def test_places_too_near_for_a_thumb_are_seen() -> None:
    first, second = SOUND.places[:2]
    near = replace(second, x=first.x, y=first.y + 1.0)
    assert wrong.crowded_places(replace(SOUND, places=(first, near)), 1.1) == [
        (first.id, second.id)
    ]
