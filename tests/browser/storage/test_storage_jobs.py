"""Order of events and the list of jobs."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from storage_bugs import Bug
from storage_rig import Phone, append, exported_by, import_text, texts

NewPhone = Callable[..., Phone]

BY_ARRIVAL_ALONE = Bug("jobs.ts", "return inOrder(await arrived);", "return await arrived;")


def halves_come_in_reversed(phone: NewPhone, *bugs: Bug) -> None:
    heading, *lines = exported_by(phone(), "one", "two", "three").splitlines()
    tab = phone(*bugs).tab()
    import_text(tab, "\n".join([heading, *lines[1:]]))
    append(tab, "job", "own")
    import_text(tab, "\n".join([heading, lines[0]]))
    assert texts(tab, "job") == ["one", "two", "own", "three"]


def test_events_of_a_device_stand_in_the_order_of_its_counter(phone: NewPhone) -> None:
    halves_come_in_reversed(phone)


def test_an_order_by_arrival_alone_is_found_out(phone: NewPhone) -> None:
    with pytest.raises(AssertionError):
        halves_come_in_reversed(phone, BY_ARRIVAL_ALONE)


def test_a_clock_that_runs_backwards_changes_no_order(phone: NewPhone) -> None:
    tab = phone().tab("""
        let hour = 90;
        Date.prototype.toISOString = () => `2030-01-01T00:${(hour -= 1)}:00.000Z`;
    """)
    for word in ("one", "two", "three"):
        append(tab, "job", word)
    assert texts(tab, "job") == ["one", "two", "three"]


def test_jobs_are_listed_with_title_vehicle_count_and_last_time(phone: NewPhone) -> None:
    tab = phone().tab()
    opened = {"title": "Heater fan", "sheet": {"vehicle": "Minibus, 24 V"}}
    tab.evaluate("body => store.append('fan', 'job opened', body)", opened)
    append(tab, "no opening", "x")
    [last] = append(tab, "fan", "y")
    assert tab.evaluate("store.jobs()") == [
        {
            "id": "fan",
            "title": "Heater fan",
            "vehicle": "Minibus, 24 V",
            "count": 2,
            "lastAt": last["at"],
        },
        {
            "id": "no opening",
            "title": "Job without a title",
            "vehicle": "",
            "count": 1,
            "lastAt": tab.evaluate("store.events('no opening')")[0]["at"],
        },
    ]


def test_room_and_promise_of_the_browser_are_sentences(phone: NewPhone) -> None:
    tab = phone().tab()
    assert tab.evaluate("store.roomSentence()").startswith("Footwell takes ")
    assert "keep your jobs" in tab.evaluate("store.keepSentence()")
