"""A hostile link is refused by a sentence."""

from __future__ import annotations

import json

import pytest
from hostile_links import LARGE_BYTES, corpus, cost_of, mutations, packed

from footwell.job import links


def test_the_corpus_has_two_hundred_cases() -> None:
    assert len(corpus()) == 200


def test_of_the_corpus_every_link_opens_or_is_refused_by_a_sentence_and_in_little_room() -> None:
    """Its time is a figure of `npm run torture`."""
    cost = cost_of(corpus(), weigh_memory=True)
    assert cost.faults == []
    assert cost.largest_bytes < LARGE_BYTES


def test_mutated_links_open_or_are_refused() -> None:
    cost = cost_of(mutations(500, seed=1), weigh_memory=False)
    assert cost.faults == []
    assert 0 < cost.opened < cost.tried, "some changes are harmless, most are not"


def test_a_decoder_without_its_limit_is_found_out(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(links, "LONGEST_CONTENT", 10**9)
    cost = cost_of([packed(b" " * 30_000_000)], weigh_memory=True)
    assert cost.largest_bytes > LARGE_BYTES


def test_a_decoder_by_the_plain_parser_is_found_out(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(links, "_linked", lambda text: links.Linked(json.loads(text), False))
    assert cost_of([packed(b"[" * 3_000)], weigh_memory=False).faults
