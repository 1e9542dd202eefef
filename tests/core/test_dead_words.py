"""What people say of a load that does nothing: dark, cold, silent; and the word that this stands for."""

from __future__ import annotations

import pytest

from footwell.checks import sights
from footwell.circuit.circuit import AS_DRAWN
from footwell.job.replay import circuits_of
from footwell.page.job_view import loads_view
from footwell.reference.sight_words import DEAD, WORDS
from footwell.sheet.reading import read_data
from footwell.sheet.starter import Wanted, starter_sheet

SAID = [
    ("fan", "Dead in every position", "still"),
    ("lamp", "Dark in every position", "dark"),
    ("heater", "Cold in every position", "cold"),
    ("horn", "Silent in every position", "silent"),
    ("lock or window", "Does not move in any position", "still"),
    ("sensor", "No signal in any position", "signal missing"),
    ("other", "No click in any position", "no click"),
]


@pytest.mark.parametrize(("load", "said", "word"), SAID)
def test_each_kind_of_load_is_spoken_of_as_people_do(load: str, said: str, word: str) -> None:
    read = read_data(starter_sheet(Wanted(load)))  # type: ignore[arg-type]
    (view,) = loads_view(circuits_of(read)(AS_DRAWN))
    assert (view.dead_words, view.dead) == (said, word) and view.dead in view.states


def test_no_two_kinds_that_do_something_else_are_spoken_of_alike() -> None:
    assert set(DEAD) == set(WORDS)
    assert len({said for _, said in DEAD.values()}) == len(DEAD)


@pytest.mark.parametrize("seen", sorted(set(DEAD) - {"charge"}))
def test_the_word_is_the_likeliest_for_a_load_that_does_nothing_and_not_for_a_sound_one(
    seen: str,
) -> None:
    def likeliest(now: float) -> str:
        chances = sights.chances(seen, now, 1.0, sights.SLIP["me"])
        return max(chances, key=lambda word: chances[word])

    assert likeliest(0.0) == DEAD[seen][0]
    assert likeliest(1.0) != DEAD[seen][0]
