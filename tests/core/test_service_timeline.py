"""Every reading is judged in the circuit as it stood when it was taken, and none is thrown away.

All readings are those of a sound or a broken minibus fan by the sheet's own figures; what follows
from them is common practice, no source.
"""

from __future__ import annotations

from .job_rig import MIRRORED, Data, Job, suspects

AS_DRAWN = {"1": "W2", "2": "W3", "3": "W4", "4": "W5", "5": None, "6": None}


def dead() -> Job:
    return Job().tools("meter").dead()


def put_right(job: Job) -> Job:
    """The switch plug is found in mirror image and put right."""
    job.add("wiring found", connector="X2", half="a", found=MIRRORED)
    return job.add("wiring corrected", connector="X2", half="a", now=AS_DRAWN)


BLOWN = "Fuse F1 blown"


def test_a_good_feed_while_the_fan_is_dead_clears_the_fuse_of_being_blown() -> None:
    assert BLOWN in suspects(dead().look())
    assert BLOWN not in suspects(dead().volts("X4.1.a", 24.3, "3", complaint="present").look())


def test_the_same_reading_while_the_fan_runs_clears_nothing() -> None:
    view = dead().volts("X4.1.a", 24.3, "3", complaint="absent").look()
    assert view["suspects"] == dead().look()["suspects"]
    assert view["history"][-1]["verdict"] == "taken while it worked; clears nothing"


def test_no_voltage_before_the_wiring_was_put_right_accuses_nothing() -> None:
    view = put_right(dead().volts("X4.1.a", 0.0, "3")).look()
    assert suspects(view) == {}


def test_no_voltage_after_the_wiring_was_put_right_accuses_the_feed() -> None:
    view = put_right(dead()).volts("X4.1.a", 0.0, "3").look()
    assert "Fuse F1 blown" in suspects(view)
    assert len(suspects(view)) > 5


def still_dead(job: Job) -> Data:
    return job.positions("me", p1="still", p2="still", p3="still").look()


def test_a_good_feed_after_the_wiring_was_put_right_clears_the_fuse() -> None:
    assert BLOWN not in suspects(still_dead(put_right(dead()).volts("X4.1.a", 24.3, "3")))


def test_a_voltage_that_the_wrong_wiring_could_not_give_clears_nothing() -> None:
    """Through the mirrored plug the motor gets nothing at 3: whoever read 24 V there slipped."""
    assert BLOWN in suspects(still_dead(put_right(dead().volts("X4.1.a", 24.3, "3"))))


def mended(state: str) -> Data:
    """The fuse is blown, is renewed, and then the fan does so at every position."""
    job = dead().volts("F1.1", 25.0, "3").volts("F1.2", 0.0, "3")
    job.add("repair done", element="F1", mode="open", what="renewed")
    return job.positions("me", p1=state, p2=state, p3=state).look()


def test_a_reading_from_before_the_repair_does_not_accuse_the_new_part() -> None:
    view = mended("runs")
    assert suspects(view) == {}
    assert "fuse F1" in view["suspects"]["mended"]


def test_a_fan_that_stays_dead_after_the_repair_keeps_its_suspects() -> None:
    view = mended("still")
    assert len(suspects(view)) > 5
    assert BLOWN not in suspects(view)


def test_what_was_shown_with_a_reading_is_never_worked_out_again() -> None:
    shown = {"low": 1.25, "high": 2.5, "unit": "V", "verdict": "odd", "release": "0.0.1"}
    (row,) = Job().volts("X4.1.a", 24.3, "3", shown=shown).look()["history"]
    assert (row["expected"], row["verdict"]) == ("1.2–2.5 V", "odd")


def test_a_skipped_place_is_not_asked_for_again_and_an_undo_asks_again() -> None:
    asked = dead().look()["step"]["check"]
    skipped = dead().add("check skipped", check=asked["id"], reason="cannot reach")
    view = skipped.look()
    again = [view["step"].get("check"), *view["others"]]
    assert asked["id"] not in [check["id"] for check in again if check]
    assert skipped.withdraw(4).look()["step"]["check"]["id"] == asked["id"]
