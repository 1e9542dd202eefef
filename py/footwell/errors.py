"""The root of every error that Footwell explains to people."""

from __future__ import annotations

from collections.abc import Sequence


class FootwellError(Exception):
    """Something a person has to know. `code` is for programs, `sentence` for people, `details` for
    the report: more sentences, most important first."""

    def __init__(self, code: str, sentence: str, details: Sequence[str] = ()) -> None:
        super().__init__(sentence)
        self.code = code
        self.sentence = sentence
        self.details = tuple(details)
