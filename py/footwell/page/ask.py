"""A check at a place, in a set-up and with an instrument that a person chose."""

from __future__ import annotations

from footwell.checks.catalogue import unplugged
from footwell.checks.check import OHMS, Check
from footwell.checks.clipped import part_of
from footwell.checks.safety import refusal
from footwell.circuit.circuit import Circuit
from footwell.diagnosis.belief import believe
from footwell.diagnosis.case import Case
from footwell.errors import FootwellError
from footwell.job.replay import replay
from footwell.job.stored import fitting, setup_of
from footwell.messages import Check as CheckView
from footwell.messages import CheckAsked
from footwell.page import words as say
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
    check = fitting(case.now, request.instrument, request.red, request.black, setup)
    if check.instrument == OHMS and part_of(case.now, check) and _still_in(case.now, check):
        out = say.joined(_ways_out(case.now, check))
        raise AskError(
            f"Ohms only with the part out of the circuit. Take {out} apart first, or measure volts."
        )
    return check


def _still_in(circuit: Circuit, check: Check) -> bool:
    """Whether the part under the leads still hangs in the circuit by every end."""
    return not set(_ways_out(circuit, check)) & set(check.setup.apart)


def _ways_out(circuit: Circuit, check: Check) -> list[str]:
    """Plugs of the part under the leads, any of which frees it; the part itself where it has none."""
    part = part_of(circuit, check)
    return [*unplugged(circuit, part)] or [part]
