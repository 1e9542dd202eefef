"""A link that was cut, changed, made by a newer release or by a stranger: refused with its reason."""

from __future__ import annotations

import json
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from footwell.job import links
from footwell.job.events import Event
from footwell.job.link_words import WORDS

from .job_rig import answered, compact
from .links_rig import holding, packed
from .test_service_timeline import dead

LINK = links.make(dead().volts("X4.1.a", 0.0, "3").stored())
HEAD = LINK.rindex(".") + 1
CUT = "This link is cut off"
CHANGED = "This link was changed on its way."


def refused(text: str) -> str:
    """The sentence with which a link is refused."""
    answer = answered("link_open", {"text": text})
    assert answer["error"]["code"] == "link", answer
    return str(answer["error"]["sentence"])


def test_the_whole_link_opens() -> None:
    """Guards all that follows: the same link, neither cut nor changed."""
    assert len(links.decode(LINK)) == 4
    assert "ok" in answered("link_open", {"text": LINK})


def test_a_link_cut_in_half_says_that_it_is_cut_and_how_much_arrived() -> None:
    half = LINK[: len(LINK) // 2]
    arrived, whole = len(half) - HEAD, len(LINK) - HEAD
    assert f"{arrived} of its {whole} characters arrived" in refused(half)


@pytest.mark.parametrize("kept", [0, 1, 2, 5, 20, *range(HEAD, len(LINK), 7), len(LINK) - 1])
def test_a_link_cut_anywhere_says_that_it_is_cut(kept: int) -> None:
    assert refused(LINK[:kept]).startswith(CUT)


@settings(max_examples=60, deadline=None)
@given(st.integers(0, len(LINK) - 1), st.sampled_from("Aa0_-.Z9z~é "))
def test_any_changed_character_is_noticed(position: int, character: str) -> None:
    changed = LINK[:position] + character + LINK[position + 1 :]
    if changed.strip() != LINK:
        assert refused(changed)


def test_the_last_character_counts_though_its_last_bits_hold_nothing() -> None:
    """Base64 leaves bits unused at the end (RFC 4648, section 3.5): they must not be free to change."""
    for character in "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdef0123456789-_":
        if character != LINK[-1]:
            assert refused(LINK[:-1] + character).startswith(CHANGED)


@pytest.mark.parametrize("position", range(HEAD, len(LINK), 11))
def test_a_changed_body_is_not_taken_for_a_cut_one(position: int) -> None:
    other = "A" if LINK[position] != "A" else "B"
    assert refused(LINK[:position] + other + LINK[position + 1 :]).startswith(CHANGED)


def test_text_added_at_the_end_is_noticed() -> None:
    assert refused(LINK + "A").startswith(CHANGED)


@pytest.mark.parametrize("form", ["F2", "F12", "F9999"])
def test_a_link_of_a_newer_format_says_what_to_do(form: str) -> None:
    assert "newer Footwell. Update Footwell" in refused(re.sub("^F1", form, LINK))


@pytest.mark.parametrize(
    "text", ["", "hello", "F0.1.a.b", "G1.1.a.b", "F1", "F².1.a.b", "f1.2.a.b"]
)
def test_what_is_no_link_says_so(text: str) -> None:
    assert "is not a Footwell link" in refused(text)


@pytest.mark.parametrize("body", ["!!!!", "é", "a b", "====", "A=AA", "\u0000"])
def test_what_is_not_base64_is_told(body: str) -> None:
    assert refused(f"F1.{len(body)}.{'0' * 12}.{body}").startswith(CHANGED)


def test_a_link_packed_with_other_words_is_not_misread() -> None:
    content = compact({"events": dead().events}).encode()
    assert refused(packed(content, words=WORDS[::-1])).startswith(CHANGED)


def test_a_long_link_that_would_unfold_to_a_hundred_megabytes_is_not_unfolded() -> None:
    """130,000 characters; deflate packs at most about 1,030 to 1 (zlib's own technical notes)."""
    bomb = packed(b" " * 100_000_000)
    assert len(bomb) > 2 * links.LONGEST_TEXT * 0.98
    assert "longer than any Footwell link" in refused(bomb)


def of_length(length: int) -> str:
    """A link of so many characters with a job in it, whose text is not packed but stored as it is."""
    size = 0
    for _ in range(6):
        job = dead().add("note made", text="x" * size)
        link = packed(compact({"events": job.events}).encode(), level=0)
        size -= (len(link) - length) * 3 // 4
    assert len(link) == length
    return link


def test_a_link_of_the_greatest_length_is_opened() -> None:
    assert len(links.decode(of_length(links.LONGEST_TEXT))) == 4


def test_a_link_of_one_character_more_is_refused() -> None:
    assert "longer than any Footwell link" in refused(of_length(links.LONGEST_TEXT + 1))


@pytest.mark.parametrize(("more", "said"), [(0, "does not hold"), (1, "unfolds to more")])
def test_content_of_the_greatest_size_is_looked_at(more: int, said: str) -> None:
    assert said in refused(packed(b" " * (links.LONGEST_CONTENT + more)))


def test_a_short_link_that_unfolds_far_is_stopped_on_the_way() -> None:
    bomb = packed(b" " * 30_000_000)
    assert len(bomb) < links.LONGEST_TEXT
    assert "unfolds to more than a job can hold" in refused(bomb)


def test_content_up_to_the_limit_is_read() -> None:
    """The twin of the two above: large, and a job."""
    events = dead().add("note made", text="x" * 60_000).events
    assert len(links.decode(holding(*events))) == 4


DEEP = {
    "outside": packed(b"[" * 3_000),
    "among the events": holding([[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]),
    "in a body": holding(dead().add_text("note made", "[" * 33).events[-1]),
}


@pytest.mark.parametrize("text", DEEP.values(), ids=DEEP)
def test_deep_nesting_is_refused_before_it_is_parsed(text: str) -> None:
    assert "nested deeper than any job" in refused(text)


def test_nesting_up_to_the_limit_is_read() -> None:
    """The twin of the above."""
    body = "[" * links.DEEPEST + "]" * links.DEEPEST
    assert links.decode(holding(*dead().add_text("photo taken", body).events))[-1].body == body


def walked_depth(value: object) -> int:
    """The greatest depth of lists and objects in each other, by looking into the value itself."""
    if not isinstance(value, dict | list):
        return 0
    inside = value.values() if isinstance(value, dict) else value
    return 1 + max(map(walked_depth, inside), default=0)


MARKS = st.text('[]{}"\\\né:,', max_size=6)


@given(
    st.recursive(
        MARKS,
        lambda inner: st.lists(inner, max_size=3) | st.dictionaries(MARKS, inner, max_size=3),
        max_leaves=8,
    )
)
@settings(max_examples=150, deadline=None)
def test_marks_in_strings_are_no_nesting(value: object) -> None:
    """Up to the limit around a value whose strings are full of brackets, quotes and escapes; and one more."""
    text = json.dumps(value, ensure_ascii=False)
    around = links.DEEPEST - walked_depth(value)
    links._refuse_depth("[" * around + text + "]" * around)
    with pytest.raises(links.LinkError):
        links._refuse_depth("[" * (around + 1) + text + "]" * (around + 1))


NO_JOB = {
    "no JSON": packed(b"{"),
    "half a character": packed(b'{"events":[]}\xff'),
    "another shape": packed(b'{"bread":1}'),
    "a number for a text": holding(dead().events[0] | {"body": 7}),
    "NaN": packed(b'{"events":[{"n":NaN}]}'),
}


@pytest.mark.parametrize("text", NO_JOB.values(), ids=NO_JOB)
def test_content_that_is_no_job_is_told(text: str) -> None:
    assert refused(text).startswith("This link does not hold a Footwell job.")


TOLD = {
    LINK[
        :-1
    ]: f"This link is cut off: {len(LINK) - HEAD - 1} of its {len(LINK) - HEAD} characters arrived."
    " Ask for it again, or for the job as a file.",
    LINK[: HEAD - 20]: "This link is cut off or is not a Footwell link. Ask for it again.",
    f"{LINK}A": "This link was changed on its way. Ask for it again, or for the job as a file.",
    f"F2{LINK[2:]}": "This link comes from a newer Footwell. Update Footwell, then open it again.",
    "F1." + "1" * links.LONGEST_TEXT: "This link is longer than any Footwell link."
    " Ask for the job as a file.",
    packed(b" " * 2_000_000): "This link unfolds to more than a job can hold. It was not opened.",
    DEEP["outside"]: "This link is nested deeper than any job. It was not opened.",
    DEEP["in a body"]: "This link is nested deeper than any job. It was not opened.",
    NO_JOB["no JSON"]: "This link does not hold a Footwell job. Ask for it again.",
}


@pytest.mark.parametrize(("text", "sentence"), TOLD.items(), ids=map(str, range(len(TOLD))))
def test_a_refusal_says_what_is_wrong_and_what_to_do_whole(text: str, sentence: str) -> None:
    assert refused(text) == sentence


def test_a_job_without_a_beginning_is_told_by_what_it_lacks() -> None:
    text = links.make([Event.model_validate(dead().events[1])])
    answer = answered("link_open", {"text": text})
    assert "has no opening entry" in answer["error"]["sentence"]


def more_inside(text: str) -> bool:
    return bool(answered("link_open", {"text": text})["ok"]["more_inside"])


@pytest.mark.parametrize("value", [None, 1.50, "x", [{"deep": [[]]}]], ids=repr)
def test_what_a_newer_link_says_beside_its_entries_is_told_as_left_out(value: object) -> None:
    first, *rest = dead().events
    assert more_inside(holding(first, *rest[:-1], rest[-1] | {"photo": value}))
    assert more_inside(holding(first, *rest, signed=value))


def test_a_link_with_nothing_unknown_beside_its_entries_leaves_nothing_out() -> None:
    """The twin: kinds, formats and fields inside the bodies are carried as they came."""
    body = '{"later" : [1.50,{"deep":null}],  "text":"caf\\u00e9" }'
    events = dead().add_text("photo taken", body).events
    events[-1]["format"] = 7
    text = holding(*events)
    assert not more_inside(text)
    opened = answered("link_open", {"text": text})["ok"]["events"][-1]
    assert (opened["kind"], opened["format"], opened["body"]) == ("photo taken", 7, body)
    assert links.decode(links.make(links.decode(text)))[-1].body == body
