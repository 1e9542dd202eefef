"""Events that cannot be used are kept and told; the others count, in any order of their fields."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from .job_rig import VAN, Data, Job, compact, suspects


def told() -> Job:
    """A job with a complaint and a reading: the fan is dead, and no voltage reaches its plug."""
    return Job().tools("meter", "clamp").dead().volts("X4.1.a", 0.0, "3")


def beliefs(job: Job) -> Data:
    """What a job amounts to, without its history."""
    view = job.look()
    return {key: view[key] for key in ("step", "others", "suspects", "path", "connectors")}


BAD = {
    "body is no JSON": ("reading taken", "{"),
    "body of another shape": ("reading taken", '{"instrument":7}'),
    "NaN for a value": ("reading taken", '{"instrument":"volts","red":"X4.1.a","value":NaN}'),
    "infinite value": ("reading taken", '{"instrument":"volts","red":"X4.1.a","value":1e999}'),
    "deep brackets": ("story told", "[" * 60_000),
    "deep sheet of a change": ("sheet edited", '{"changes":' + "[" * 150 + "]" * 150 + "}"),
}


@pytest.mark.parametrize(("kind", "body"), BAD.values(), ids=BAD)
def test_an_event_that_cannot_be_read_is_told_and_changes_nothing(kind: str, body: str) -> None:
    spoilt = told().add_text(kind, body)
    assert spoilt.look()["problems"] == [
        f"Entry 5 ({kind}) cannot be read. It is kept, but not used."
    ]
    assert beliefs(spoilt) == beliefs(told())


def reading(**changed: Any) -> Data:
    plain = {"instrument": "volts", "red": "X4.1.a", "black": "earth", "value": 24.0}
    return plain | {"setup": {"controls": {"S1": "3"}}} | changed


MISFITS: dict[str, tuple[str, Data, str]] = {
    "place": ("reading taken", reading(red="X9.1.a"), "X9.1.a is not a place on this sheet."),
    "part for a place": ("reading taken", reading(red="M1"), "M1 is not a place on this sheet."),
    "instrument": ("reading taken", reading(instrument="nose"), "The instrument nose is not known"),
    "clamp on a fuse": ("reading taken", reading(instrument="clamp", red="F1"), "F1 is not a wire"),
    "look at a motor": ("reading taken", reading(instrument="look", red="M1"), "not a fuse, a"),
    "ohms of no part": ("reading taken", reading(instrument="ohms", red="X2.6.a"), "no part"),
    "position": (
        "reading taken",
        reading(setup={"controls": {"S1": "9"}}),
        "S1 has no position 9 on this sheet.",
    ),
    "control": (
        "positions tried",
        {"states": [{"controls": {"S9": "1"}, "load": "M1", "state": "runs"}]},
        "S9 has no position 1 on this sheet.",
    ),
    "taken apart": ("reading taken", reading(setup={"apart": ["X9"]}), "X9 is not on this sheet"),
    "lamp's plug": ("reading taken", reading(setup={"stand_in": {"X2": "21 W"}}), "no lamp fits"),
    "lamp's watts": (
        "reading taken",
        reading(setup={"stand_in": {"X4": "-5 W"}}),
        "needs its watts",
    ),
    "connector": ("wiring found", {"connector": "X9", "half": "a", "found": {}}, "not a connector"),
    "way": ("wiring found", {"connector": "X2", "half": "a", "found": {"9": "W2"}}, "no way 9"),
    "wire of elsewhere": (
        "wiring found",
        {"connector": "X2", "half": "a", "found": {"1": "W9"}},
        "Wire W9 cannot sit there",
    ),
    "one wire twice": (
        "wiring corrected",
        {"connector": "X2", "half": "a", "now": {"1": "W2", "2": "W2"}},
        "Wire W2 cannot sit there",
    ),
    "repaired part": ("repair done", {"element": "R9", "what": "renewed"}, "R9 is not on this"),
}


@pytest.mark.parametrize(("kind", "body", "sentence"), MISFITS.values(), ids=MISFITS)
def test_an_event_about_what_the_sheet_does_not_have(kind: str, body: Data, sentence: str) -> None:
    spoilt = told().add(kind, **body)
    (problem,) = spoilt.look()["problems"]
    assert problem.startswith(f"Entry 5 ({kind}) is kept, but not used. ")
    assert sentence in problem
    assert beliefs(spoilt) == beliefs(told())


def test_a_word_that_no_load_can_earn_is_told_and_the_other_words_count() -> None:
    good = {"controls": {"S1": "3"}, "load": "M1", "state": "runs"}
    bad = {"controls": {"S1": "1"}, "load": "M1", "state": "sings"}
    both = told().add("positions tried", states=[bad, good])
    assert both.look()["problems"] == ["What M1 did (sings) is not known to this sheet."]
    assert beliefs(both) == beliefs(told().add("positions tried", states=[good]))


def test_kinds_of_a_newer_release_are_kept_and_told() -> None:
    newer = told().add("sound recorded", seconds=3, notes=[1, {"a": None}])
    view = newer.look()
    assert view["problems"] == ["Entry 5 is from a newer Footwell. It is kept, but not used here."]
    assert view["history"][-1]["kind"] == "sound recorded"
    assert beliefs(newer) == beliefs(told())


def test_fields_of_a_newer_release_do_not_hide_what_is_known() -> None:
    job = Job().tools("meter", "clamp").dead().volts("X4.1.a", 0.0, "3", humidity=0.4)
    assert job.look()["problems"] == []
    assert beliefs(job) == beliefs(told())


def test_a_job_without_its_opening_entry_says_so() -> None:
    job = told()
    del job.events[0]
    assert job.refused("look").startswith("This job has no opening entry")


def test_a_job_whose_sheet_is_spoilt_says_what_is_wrong_with_it() -> None:
    job = Job()
    job.events[0]["body"] = job.events[0]["body"].replace('"kind":"fuse"', '"kind":"toaster"')
    assert "toaster" in job.refused("look")


def test_an_entry_that_comes_twice_counts_once() -> None:
    doubled = told()
    doubled.events.append(doubled.events[3])
    assert doubled.look()["problems"] == ["Entry 4 is there twice. It counts once."]
    assert beliefs(doubled) == beliefs(told())


def test_a_withdrawn_reading_does_not_count_and_stays_in_the_history() -> None:
    undone = told().withdraw(4)
    assert beliefs(undone) == beliefs(Job().tools("meter", "clamp").dead())
    (line,) = [row for row in undone.look()["history"] if row["n"] == 4]
    assert line["withdrawn"]


def test_a_withdrawn_withdrawal_brings_the_reading_back() -> None:
    assert beliefs(told().withdraw(4).withdraw(5)) == beliefs(told())


def test_undo_three_times_is_undone() -> None:
    thrice = told().withdraw(4).withdraw(5).withdraw(6)
    assert beliefs(thrice) == beliefs(told().withdraw(4))


@pytest.mark.parametrize("n", [99, 5], ids=["of nothing", "of itself"])
def test_a_withdrawal_of_nothing_changes_nothing(n: int) -> None:
    assert beliefs(told().withdraw(n)) == beliefs(told())


def rich() -> Job:
    """A job in which every mapping and every list of names has several entries."""
    job = Job(VAN).tools("meter", "test lamp", "substitute lamp")
    view = job.look()
    states = [
        {"controls": controls, "load": "H1", "state": "cold"}
        for controls in view["asked_positions"]
    ]
    story = {"renewed": ["K1", "H1"], "rewired": [c["id"] for c in view["connectors"][:3]]}
    return job.add("positions tried", states=states).add("story told", **story)


def reordered(data: Any, turn: st.DataObject) -> Any:
    if isinstance(data, dict):
        keys = turn.draw(st.permutations(sorted(data)))
        return {key: reordered(data[key], turn) for key in keys}
    return [reordered(each, turn) for each in data] if isinstance(data, list) else data


@settings(max_examples=6, deadline=None)
@given(st.data())
def test_the_order_of_fields_changes_nothing(turn: st.DataObject) -> None:
    plain, turned = rich(), rich()
    for event in turned.events[1:]:
        event["body"] = compact(reordered(json.loads(event["body"]), turn))
    assert beliefs(turned) == beliefs(plain)


LOOK = """
import json, sys
from footwell.service import call
first, job = json.load(sys.stdin)
call("look", json.dumps({"events": first}))
print(call("look", json.dumps({"events": job})))
"""


def looked_at_by_another(first: Job, job: Job, seed: int) -> str:
    """The answer of another process, with another order of its sets and other work done before."""
    done = subprocess.run(
        [sys.executable, "-c", LOOK],
        input=compact([first.events, job.events]),
        env=os.environ | {"PYTHONHASHSEED": str(seed)},
        capture_output=True,
        text=True,
        check=True,
    )
    return done.stdout.strip()


def test_the_same_job_gives_the_same_answer_in_every_process() -> None:
    job = told()
    here = compact(job.answer("look"))
    fresh = looked_at_by_another(Job(VAN), job, 1)
    later = looked_at_by_another(Job().dead().volts("X3.1.a", 25.0, "1"), job, 2)
    assert compact(json.loads(fresh)) == here
    assert compact(json.loads(later)) == here


def test_the_view_tells_its_suspects() -> None:
    """Guards the comparisons above against a view that is empty."""
    assert len(suspects(told().look())) > 2
