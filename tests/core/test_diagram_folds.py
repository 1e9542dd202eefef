"""The diagram of a job on a large circuit: folded by what was told and measured, opened by what is asked."""

from __future__ import annotations

from functools import cache

import pytest

from tests.bench.branching import Shape, sheet_of

from .job_rig import Data, Job

FORTY = Shape(8, fuses=2, doubled=4)


def told(dead: str, silent: str = "") -> Job:
    """A job in which each branch was tried alone: one load stays cold, of one nothing was said."""
    job = Job()
    job.events = []
    job.add("job opened", title="forty parts", sheet=sheet_of(FORTY, 1)).tools("meter")
    branches = range(1, FORTY.branches + 1)
    rows = [
        {
            "controls": {f"S{m}": "on" if m == n else "off" for m in branches},
            "load": f"L{n}",
            "state": "cold" if f"L{n}" == dead else "warm",
        }
        for n in branches
        if f"L{n}" != silent
    ]
    return job.add("positions tried", seen_by="me", states=rows)


@cache
def seen(dead: str, silent: str = "") -> Data:
    return told(dead, silent).look()["diagram"]


def folds(diagram: Data) -> dict[str, str]:
    """The name of the fold that an element lies in."""
    return {e: s["name"] for s in diagram["symbols"] for e in s["folded"]}


@pytest.mark.parametrize(("dead", "sound"), [("L3", "L5"), ("L5", "L3")])
def test_the_dead_branch_is_open_and_the_working_ones_are_fine(dead: str, sound: str) -> None:
    diagram = seen(dead)
    assert dead in {s["element"] for s in diagram["symbols"]}
    assert dead not in folds(diagram)
    assert folds(diagram)[sound].endswith("fine")


def test_what_nobody_has_tried_is_not_called_fine() -> None:
    inside = folds(seen("L3", silent="L5"))
    assert "L5" not in inside or inside["L5"].endswith("no suspect")
    assert inside["L2"].endswith("fine")


def test_every_suspect_is_in_the_open() -> None:
    job = told("L3")
    suspected = {
        s["element"]
        for g in job.look()["suspects"]["groups"]
        for s in g["suspects"]
        if s["share"] > 0.01
    }
    assert suspected
    assert not suspected & set(folds(job.look()["diagram"]))


def test_a_fold_that_was_opened_lies_open_and_the_others_stay() -> None:
    job = told("L3")
    opened = job.ask("diagram", opened=["L5"])
    assert "L5" in {s["element"] for s in opened["symbols"]}
    assert "L2" in folds(opened)
    assert job.ask("diagram") == job.look()["diagram"], "and folded again when nothing is opened"


def test_all_places_are_listed_and_those_in_a_fold_are_not_drawn() -> None:
    job = told("L3")
    every = [s["element"] for s in job.look()["diagram"]["symbols"]]
    whole = job.ask("diagram", opened=[e for e in folds(seen("L3")) if e not in every])
    assert all(place["drawn"] for place in whole["places"])
    names = [place["id"] for place in whole["places"]]
    assert [place["id"] for place in seen("L3")["places"]] == names
    hidden = {place["id"] for place in seen("L3")["places"] if not place["drawn"]}
    assert "S5.1" in hidden and "S3.1" not in hidden


def test_the_path_is_that_of_the_load_complained_of() -> None:
    assert "S5.1" in [point["place"] for point in told("L5").look()["path"]]
    assert "S3.1" in [point["place"] for point in told("L3").look()["path"]]


def test_what_is_no_element_opens_nothing() -> None:
    job = told("L3")
    assert job.ask("diagram", opened=["nothing", ""]) == job.look()["diagram"]
