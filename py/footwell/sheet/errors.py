"""What can be wrong with a sheet.

FootwellError
└── SheetError    a sheet cannot be used; carries all its problems, up to `MOST_PROBLEMS`
└── ListError     a wiring list cannot be taken over; the sheet stays as it was
└── ChangeError   one value found on the vehicle cannot be put into the sheet
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from footwell.errors import FootwellError

MOST_PROBLEMS = 20


@dataclass(frozen=True, slots=True)
class SheetProblem:
    """One thing wrong: where in the sheet, what it is, and what to do about it. `about` names the element
    or the point in question, where there is one."""

    place: str
    sentence: str
    remedy: str
    about: str = ""

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
            return f"The sheet cannot be used: {first}"
        listed = "" if self.found <= MOST_PROBLEMS else f", the first {MOST_PROBLEMS} are listed"
        return f"The sheet cannot be used: {self.found} problems{listed}. First, {first}"


class ListError(FootwellError):
    """A wiring list that cannot be taken over; the sheet stays as it was, with no wire of it."""

    def __init__(self, problems: Sequence[SheetProblem]) -> None:
        first, told = str(problems[0]), [str(each) for each in problems[:MOST_PROBLEMS]]
        listed = "" if len(problems) <= MOST_PROBLEMS else f", the first {MOST_PROBLEMS} are listed"
        many = "" if len(problems) == 1 else f": {len(problems)} problems{listed}"
        joint = ":" if not many else ". First:"
        super().__init__(
            "bad_list", f"Nothing of the wiring list was taken over{many}{joint} {first}", told
        )


class ChangeError(FootwellError):
    """A change to a sheet that cannot be made; the sheet stays as it was."""

    def __init__(self, element: str, field: str, sentence: str) -> None:
        super().__init__("bad_change", sentence)
        self.element = element
        self.field = field
