"""Text from elsewhere never turns the direction of what is told behind it, and is kept as it came."""

from __future__ import annotations

import pytest

from footwell.job import links

from .job_rig import MINIBUS, Job, asked, compact, sheet

TURNING = [chr(n) for n in (*range(0x202A, 0x202F), *range(0x2066, 0x206A))]
HEBREW = "מאוורר"


def job(text: str) -> Job:
    """A job with this text wherever a person or a stranger may have written one."""
    made = Job(MINIBUS)
    made.events.clear()
    made.add("job opened", title=f"Fan {text}42", sheet=sheet(MINIBUS)).dead()
    made.add("story told", words=f"dead {text}12 V")
    made.add("note made", text=f"note {text}x")
    made.add("check skipped", check="x", reason="other", asked=f"asked {text}x")
    made.add(f"later {text}kind", text=text)
    made.volts("F1.2", 24.0, "1", typed=f"24{text}")
    return made.volts(f"F9{text}.2", 24.0, "1")


def shown(made: Job) -> str:
    view, link = made.look(), made.ask("link_make")["text"]
    return compact([view, asked("link_open", {"text": link})["title"]])


@pytest.mark.parametrize("sign", TURNING, ids=lambda sign: f"{ord(sign):x}")
def test_no_sign_that_turns_is_told_and_all_are_kept(sign: str) -> None:
    made = job(sign)
    assert sign not in shown(made)
    assert links.decode(links.make(made.stored())) == made.stored()


def test_an_undo_finds_its_entry_however_its_device_is_written() -> None:
    made = Job(MINIBUS).dead().volts("F1.2", 24.0, "1")
    for event in made.events:
        event["device"] = "phone \u202e42"
    last = made.events[-1]
    body = compact({"device": last["device"], "n": last["n"]})
    made.events.append({**last, "n": last["n"] + 1, "kind": "event withdrawn", "body": body})
    assert made.look()["history"][-1]["withdrawn"]


def test_words_written_from_the_right_are_told_as_they_are() -> None:
    assert HEBREW in shown(job(HEBREW))
