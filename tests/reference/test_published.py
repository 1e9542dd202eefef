"""Enough published values go through the solver and the laws, in every topic of the trade."""

from __future__ import annotations

from .published import counts


def test_every_topic_has_published_checks_and_there_are_sixty_at_least() -> None:
    found = counts()
    print(found)
    assert all(found.values()), found
    assert sum(found.values()) >= 60
