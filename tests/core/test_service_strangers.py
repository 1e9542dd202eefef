"""Whatever text a call is given, the answer is data: a result of the call's shape, or a sentence."""

from __future__ import annotations

import copy
import json
from collections.abc import Iterator
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from footwell import service
from footwell.messages import Problem
from footwell.service import CALLS, call

from .job_rig import MIRRORED, Data, Job, compact

FEW = settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])

Path = tuple[str | int, ...]
SMALL_JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=6),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=6), inner),
    max_leaves=6,
)
KNOWN_IDS = (
    "X2",
    "X4",
    "S1",
    "M1",
    "F1",
    "R1",
    "W3",
    "X2.2.a",
    "X4.1.b",
    "R1.link",
    "earth",
    "G1.+",
)
KNOWN_WORDS = ("volts", "clamp", "ohms", "look", "listen", "watch", "direct feed", "lamp for fuse")
VALUE = SMALL_JSON | st.sampled_from(KNOWN_IDS) | st.sampled_from(KNOWN_WORDS)
"""Anything, and what is at home elsewhere in the same job."""


def is_answered(name: str, text: str) -> None:
    answer = json.loads(call(name, text))
    if set(answer) == {"ok"}:
        CALLS[name][1].model_validate_json(json.dumps(answer["ok"]))
        return
    assert set(answer) == {"error"}
    problem = Problem.model_validate(answer["error"])
    assert problem.sentence.endswith(".")
    assert problem.code != "mistake", problem


NAMES = st.sampled_from(sorted(CALLS))


@FEW
@given(NAMES, st.text())
def test_any_text(name: str, text: str) -> None:
    is_answered(name, text)


@FEW
@given(NAMES, SMALL_JSON)
def test_any_json(name: str, data: object) -> None:
    is_answered(name, json.dumps(data))


HOSTILE = (
    "",
    "[" * 100_000,
    '{"events":' * 5_000,
    '{"events":[NaN]}',
    '{"events":[1e999]}',
    '{"text":' + "9" * 5_000 + "}",
    '{"text":"' + "[" * 40_000 + '"}',
    '{"text":"\\ud800"}',
    '{"text":"\ud800"}',
    '{"text":"' + "x" * 3_000_000 + '"}',
    '\ufeff{"text":"x"}',
    '{"text":"\\u0000"}',
)


@pytest.mark.parametrize("name", sorted(CALLS))
@pytest.mark.parametrize("text", HOSTILE, ids=lambda text: repr(text[:12]))
def test_hostile_text(name: str, text: str) -> None:
    is_answered(name, text)


def whole_job() -> list[Data]:
    """One event of every kind, with bodies as data."""
    job = Job().dead().tools("meter", "clamp").volts("X4.1.a", 0.4, "3")
    job.add("sitting begun", engine="off", supply_volts=25.1)
    seen = [{"where": "X2", "what": "green"}]
    job.add("story told", words="no", renewed=["S1"], rewired=["X2"], seen=seen)
    colours = {"1": "RD/BK", "2": "GN/BK", "3": "GN/WH", "6": "OG"}
    job.add("old plug read", connector="X2", half="a", read_off="old plug", colours=colours)
    job.add("wiring found", connector="X2", half="a", found=MIRRORED)
    job.add("wiring corrected", connector="X2", half="a", now={"2": "W2"})
    job.add("wire followed", wire="W9", start="X3.3.a", end="E1.1").add("wire put back", wire="W9")
    job.add("positions tried", seen_by="me", engine="on", states=[])
    lamp = {"controls": {"S1": "3"}, "apart": ["X4"], "stand_in": {"X4": "21 W"}}
    job.add("reading taken", instrument="substitute lamp", red="X4", setup=lamp, choice="dark")
    job.add("check skipped", check="volts X4.1.a earth S1=1", reason="cannot reach")
    job.add("sheet edited", changes=[{"element": "W3", "field": "colour", "value": "RD"}])
    job.add("sheet edited", changes=[{"element": "X2.2", "field": "number", "value": "B"}])
    job.add("place found", inside="W5", what="branch to a lamp", at="dash")
    photo = {"sha256": "0" * 64, "width": 9, "height": 9, "bytes": 9}
    job.add("connector photographed", connector="X2", half="a", shows="half", **photo)
    job.add("repair done", element="R1", mode="open", what="renewed")
    job.add("practice begun", faults=[{"element": "R1", "mode": "open", "size": 0.0}], wired=[])
    job.add("caution passed", hazard="battery").add("note made", text="?").withdraw(5)
    return [event | {"body": json.loads(event["body"])} for event in job.events]


EVENTS = whole_job()
LAMP: Data = {"controls": {"S1": "1"}, "apart": ["X4"], "stand_in": {"X4": "21 W"}}
RECORD = {"instrument": "volts", "red": "X4.1.a", "black": "X4.2.a", "setup": LAMP}
REQUESTS: dict[str, Data] = {
    "look": {},
    "diagram": {"opened": ["X2", "W3"]},
    "fall": {"load": "M1", "controls": {"S1": "2"}},
    "prepare": {},
    "check_at": {"instrument": "volts", "red": "X4.1.a", "black": "X4.2.a"} | LAMP,
    "weigh": {"record": RECORD, "typed": "12,3", "unit": "V"},
    "wiring": {"connector": "X2", "half": "a", "found": MIRRORED},
    "old_plug": {"connector": "X2", "half": "a", "colours": {"1": "RD/BK", "2": None}},
    "entry_try": {"kind": "place found", "body": '{"inside":"W3","what":"plug"}'},
    "orders": {"connector": "X2", "half": "a", "found": {"3": "W5"}},
    "expected": LAMP,
    "explain": {"instrument": "volts", "red": "X4.1.a", "black": "X4.2.a"} | LAMP,
    "link_make": {},
    "practice_answer": {"record": RECORD},
    "practice_end": {},
}


def test_every_call_that_takes_a_job_is_spoilt_below() -> None:
    assert set(REQUESTS) == set(CALLS) - {
        "ping",
        "read_sheet",
        "starter",
        "link_open",
        "practice_begin",
        "file_make",
        "list_read",
        "build",
    }


def spots(data: Any, path: Path = ()) -> Iterator[Path]:
    keys = range(len(data)) if isinstance(data, list) else data if isinstance(data, dict) else ()
    for key in keys:
        yield (*path, key)
        if key != "sheet":
            yield from spots(data[key], (*path, key))


@st.composite
def spoilt(draw: st.DrawFn) -> tuple[str, str]:
    """A call with a real request in which one or two values are replaced, bodies included."""
    name = draw(st.sampled_from(sorted(REQUESTS)))
    chosen = draw(st.sets(st.integers(1, len(EVENTS) - 1), max_size=5))
    data = copy.deepcopy({"events": [EVENTS[n] for n in (0, *sorted(chosen))]} | REQUESTS[name])
    for path in draw(st.lists(st.sampled_from(list(spots(data))), min_size=1, max_size=2)):
        _put(data, path, draw(VALUE))
    return name, compact(_with_texts(data))


def _put(data: Any, path: Path, value: object) -> None:
    """Nothing where an earlier replacement took the place away."""
    *way, last = path
    try:
        for step in way:
            data = data[step]
        data[last] = value
    except (KeyError, IndexError, TypeError):
        return


def _with_texts(data: Data) -> Data:
    events = data.get("events")
    for event in events if isinstance(events, list) else []:
        if isinstance(event, dict) and not isinstance(event.get("body"), str):
            event["body"] = compact(event.get("body"))
    return data


@FEW
@given(spoilt())
def test_a_real_request_with_a_value_replaced(request_: tuple[str, str]) -> None:
    is_answered(*request_)


def test_an_unknown_call_is_told() -> None:
    answer = json.loads(call("fly", "{}"))
    assert answer["error"]["sentence"] == "There is no call named fly."


def test_a_mistake_of_our_own_is_data_too(monkeypatch: pytest.MonkeyPatch) -> None:
    def broken(_: object) -> Any:
        raise ZeroDivisionError("secret of the job")

    asks, answers, _ = CALLS["ping"]
    monkeypatch.setitem(service.CALLS, "ping", (asks, answers, broken))
    answer = json.loads(call("ping", "{}"))["error"]
    assert answer["code"] == "mistake"
    assert answer["details"][0].startswith("ZeroDivisionError in broken, line ")
    assert "secret" not in str(answer)


def test_a_bad_request_is_told_by_place_and_without_its_contents() -> None:
    answer = json.loads(call("look", '{"events":[{"device":"","n":"secret"}]}'))["error"]
    assert answer["code"] == "bad request"
    assert any(line.startswith("events.0.n: ") for line in answer["details"])
    assert "secret" not in str(answer)
