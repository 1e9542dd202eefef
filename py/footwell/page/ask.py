"""A check at a place, in a set-up and with an instrument that a person chose."""

from __future__ import annotations

from footwell.checks.check import OHMS, Check
from footwell.checks.safety import refusal
from footwell.diagnosis.belief import believe
from footwell.diagnosis.case import Case
from footwell.errors import FootwellError
from footwell.job.replay import replay
from footwell.job.stored import fitting, setup_of
from footwell.messages import Check as CheckView
from footwell.messages import CheckAsked
from footwell.page.check_view import check_view


class AskError(FootwellError):
    """A check that must not be done, or not in this set-up."""

    def __init__(self, sentence: str) -> None:
        super().__init__("check", sentence)


def chosen_check(request: CheckAsked) -> CheckView:
    """The check a person chose, with its band and meaning. Raises AskError, NotOnSheet."""
    case = replay(request.events).case
    check = _check(case, request)
    why_not = refusal(case.now, check)
    if why_not:
        raise AskError(why_not)
    return check_view(case, believe(case), check, "asked")


def _check(case: Case, request: CheckAsked) -> Check:
    setup = setup_of(case.now, request.controls, request.apart, request.stand_in, case.engine)
    if request.instrument == OHMS and not setup.apart:
        raise AskError(
            "Ohms only with the part out of the circuit. Unplug it first, or measure volts."
        )
    return fitting(case.now, request.instrument, request.red, request.black, setup)
