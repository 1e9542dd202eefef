"""From a terminal: a job in any form gives the belief and the next check that the page shows."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from footwell.job import links
from footwell.messages import CheckStep
from footwell.terminal.shapes import JobState

from .job_rig import MINIBUS, MIRRORED, Data, Job, compact
from .job_road import road_of
from .stored_samples_maker import exported
from .terminal_rig import answer, printed, refused, typed_in


def told() -> Job:
    return Job().tools("meter").dead().volts("X4.1.a", 24.3, "3")


def written(folder: Path, text: str) -> str:
    file = folder / "job.json"
    file.write_text(text, encoding="utf-8")
    return str(file)


def state_of(job: Job, folder: Path) -> JobState:
    return answer(JobState, "job", written(folder, compact(job.events)))


def test_the_next_step_and_the_suspects_are_those_of_the_page(tmp_path: Path) -> None:
    view, state = told().look(), state_of(told(), tmp_path)
    shown = state.model_dump(mode="json")
    assert (shown["next"], shown["others"]) == (view["step"], view["others"])
    assert shown["groups"] == view["suspects"]


def test_a_suspect_is_a_set_of_part_mode_where_and_size(tmp_path: Path) -> None:
    state = state_of(told(), tmp_path)
    assert state.suspects == sorted(state.suspects, key=lambda s: -s.share)
    earth = next(s for s in state.suspects if [f.part for f in s.faults] == ["E1"])
    assert earth.model_dump()["faults"] == [
        {"part": "E1", "mode": "open", "where": "earth point E1", "size": None}
    ]
    pairs = [s for s in state.suspects if len(s.faults) == 2]
    assert all(len({f.part for f in s.faults}) == 2 for s in pairs)


def test_sizes_of_a_poor_joint_are_ohms(tmp_path: Path) -> None:
    slow = Job().tools("meter").positions(p1="slow", p2="slow", p3="slow")
    sized = [s.faults[0] for s in state_of(slow, tmp_path).suspects if s.faults[0].size]
    assert {f.mode.split(":")[0] for f in sized} >= {"high_resistance"}
    assert all(f.size and f.size > 0.0 for f in sized)


def test_a_plug_that_may_be_wired_wrongly_is_a_suspect_of_its_own(tmp_path: Path) -> None:
    job = Job().tools("meter").dead().add("story told", renewed=["S1"], rewired=["X2"])
    first = state_of(job, tmp_path).suspects[0].faults[0]
    assert (first.part, first.mode, first.size) == ("X2.a", "mirrored", None)


def test_shares_leave_room_for_all_well_and_for_none_of_these(tmp_path: Path) -> None:
    state = state_of(told(), tmp_path)
    total = state.all_well + state.none_of_these + sum(s.share for s in state.suspects)
    assert 0.95 < total <= 1.0 + 1e-9


def test_nothing_is_suspected_before_anything_is_told(tmp_path: Path) -> None:
    assert state_of(Job(), tmp_path).suspects == []


def test_the_text_tells_the_next_check_with_its_band(tmp_path: Path) -> None:
    file = written(tmp_path, compact(told().events))
    step = answer(JobState, "job", file).next
    assert isinstance(step, CheckStep)
    text = printed("job", file)
    assert f"Next: {step.check.goal}" in text
    assert step.check.do in text
    assert all(o.means in text for o in step.check.outcomes)


@pytest.mark.parametrize("steps", range(1, 17, 3))
def test_every_step_of_a_whole_job_has_its_text(steps: int, tmp_path: Path) -> None:
    text = printed("job", written(tmp_path, compact(road_of(MINIBUS).events[:steps])))
    assert "\nNext: " in text


def forms(job: Job) -> dict[str, str]:
    return {
        "a list": compact(job.events),
        "an object": json.dumps({"events": job.events}, indent=2),
        "among other things": compact({"steps": [], "events": job.events, "solved": True}),
        "the page's export": exported(job),
        "a link": links.make(job.stored()),
        "a page's address": f"https://example.org/footwell/#{links.make(job.stored())}",
        "with a byte order mark": "\ufeff" + compact(job.events),
    }


@pytest.mark.parametrize("form", forms(told()))
def test_a_job_comes_in_every_form_in_which_it_leaves_the_page(form: str, tmp_path: Path) -> None:
    text = forms(told())[form]
    assert answer(JobState, "job", written(tmp_path, text)) == state_of(told(), tmp_path)


def test_a_job_comes_through_the_input(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    whole = state_of(told(), tmp_path)
    typed_in(monkeypatch, compact(told().events).encode())
    assert answer(JobState, "job", "-") == whole


def test_a_link_needs_no_file(tmp_path: Path) -> None:
    assert answer(JobState, "job", links.make(told().stored())) == state_of(told(), tmp_path)


def test_an_adopted_event_is_withdrawn_by_the_name_it_had_first(tmp_path: Path) -> None:
    job = told().withdraw(4)
    rows = [json.loads(line) for line in exported(job).splitlines()]
    for n, row in enumerate(rows[1:], 20):
        row |= {"origin": {"device": row["device"], "n": row["n"]}, "device": "other", "n": n}
    text = "".join(f"{compact(row)}\n" for row in rows)
    assert answer(JobState, "job", written(tmp_path, text)) == state_of(job, tmp_path)


def second() -> Job:
    other = Job().add("wiring found", connector="X2", half="a", found=MIRRORED)
    for event in other.events:
        event |= {"job": "b" * 32}
    return other


def test_of_several_jobs_one_is_chosen(tmp_path: Path) -> None:
    file = written(tmp_path, exported(told(), second()))
    assert "holds 2 jobs. Choose one with --job." in refused("job", file)
    assert answer(JobState, "job", file, "--job", "b" * 32).next.kind == "positions"
    assert "no events of that job" in refused("job", file, "--job", "c")


def without_sheet() -> Data:
    return told().events[1]


UNUSABLE = {
    "no events": ("{}", "These are not the events of a job."),
    "no JSON": ("[{", "These are not the events of a job."),
    "nothing": ("", "These are not the events of a job."),
    "an empty list": ("[]", "There are no events of that job in this file."),
    "deep brackets": ("[" * 100_000, "These are not the events of a job."),
    "no opening entry": (compact([without_sheet()]), "This job has no opening entry"),
    "too many": (compact([without_sheet()] * 5001), "This could not be read."),
    "a cut export": (exported(told(), count=9), "of 9 entries it holds 4"),
    "a damaged export": (exported(told()) + '{"device":1}\n', "This file is damaged."),
    "a newer export": (exported(told()).replace('"format":1', '"format":2', 1), "newer Footwell"),
    "a cut link": (links.make(told().stored())[:200], "This link is cut off"),
}


@pytest.mark.parametrize(("text", "sentence"), UNUSABLE.values(), ids=UNUSABLE)
def test_what_is_no_job_is_one_sentence(text: str, sentence: str, tmp_path: Path) -> None:
    assert sentence in refused("job", written(tmp_path, text))


def test_a_file_that_is_not_text_is_told(tmp_path: Path) -> None:
    file = tmp_path / "job.json"
    file.write_bytes(b"\xff\xfe\x00")
    assert "is not text in UTF-8" in refused("job", str(file))
