"""What can be wrong with a sheet.

FootwellError
└── SheetError    a sheet cannot be used; carries all its problems, up to `MOST_PROBLEMS`
└── ChangeError   one value found on the vehicle cannot be put into the sheet
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from footwell.errors import FootwellError

MOST_PROBLEMS = 20


@dataclass(frozen=True, slots=True)
class SheetProblem:
    """One thing wrong: where in the sheet, what it is, and what to do about it."""

    place: str
    sentence: str
    remedy: str

    def __str__(self) -> str:
        return f"{self.place}: {self.sentence} {self.remedy}"


class SheetError(FootwellError):
    """A sheet that cannot be used. `problems` are at most `MOST_PROBLEMS`; `found` counts all."""

    def __init__(self, problems: Sequence[SheetProblem], found: int | None = None) -> None:
        self.problems = list(problems[:MOST_PROBLEMS])
        self.found = len(problems) if found is None else found
        super().__init__("bad_sheet", self._summary(), [str(each) for each in self.problems])

    def _summary(self) -> str:
        first = str(self.problems[0])
        if self.found == 1:
            return f"The sheet cannot be used. {first}"
        listed = "" if self.found <= MOST_PROBLEMS else f", the first {MOST_PROBLEMS} are listed"
        return f"The sheet cannot be used: {self.found} problems{listed}. First, {first}"


class ChangeError(FootwellError):
    """A change to a sheet that cannot be made; the sheet stays as it was."""

    def __init__(self, element: str, field: str, sentence: str) -> None:
        super().__init__("bad_change", sentence)
        self.element = element
        self.field = field
