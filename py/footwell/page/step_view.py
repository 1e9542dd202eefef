"""The next step in the page's form."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from footwell.checks.catalogue import working_setups
from footwell.checks.check import FEED, Check
from footwell.checks.safety import TEXTS, cautions, hands_off
from footwell.circuit.circuit import HalfId
from footwell.circuit.setup import set_up
from footwell.diagnosis.case import Case, Taken
from footwell.diagnosis.complaint import engine_for, to_look_at_again
from footwell.diagnosis.conclude import Conclusion
from footwell.diagnosis.hypotheses import slips_of
from footwell.diagnosis.proof import Proven, was_seen
from footwell.diagnosis.unseen import unseen
from footwell.messages import (
    CauseView,
    Caution,
    CheckStep,
    Outcome,
    PositionsStep,
    RepairStep,
    Step,
    WiringStep,
)
from footwell.page import words as say
from footwell.page.check_view import caution_view, check_view
from footwell.page.do_words import STOP_ENGINE
from footwell.page.ends_view import ends_view
from footwell.page.finished_view import finished_view
from footwell.page.repair_words import advice
from footwell.page.suspect_view import repair_told


def hidden_now(case: Case, conclusion: Conclusion) -> tuple[str, ...]:
    """What the fault hides that is to be mended next; nothing where no repair is due."""
    one = conclusion.step.proven if conclusion.step.kind == "repair" else None
    suspect = next((w for w in conclusion.belief.suspects if one and one.repair in w.left), None)
    return unseen(case, suspect) if suspect else ()


def step_view(
    case: Case, conclusion: Conclusion, causes: list[CauseView], hidden: tuple[str, ...]
) -> Step:
    """The next step with all that its screen needs; `hidden` is what nothing could show a fault of yet."""
    step = conclusion.step
    if step.kind == "check" and step.choice is not None and step.choice.check is not None:
        return CheckStep(check=check_view(case, conclusion.belief, step.choice.check, step.purpose))
    if step.kind == "wiring" and step.half is not None:
        return _wiring(case, conclusion, step.half, step.purpose)
    if step.kind == "ends":
        return ends_view(case, step)
    if step.kind == "repair" and step.proven is not None:
        return _repair(case, conclusion, step.proven, hidden)
    if step.kind == "positions":
        return _positions(case, step.purpose)
    return finished_view(case, conclusion, causes)


def _wiring(case: Case, conclusion: Conclusion, half: tuple[str, str], purpose: str) -> WiringStep:
    connector = case.now.connectors[half[0]]
    share = sum(
        w.share
        for w in conclusion.belief.suspects
        if w.hypothesis.slip and w.hypothesis.slip.half == half
    )
    held = (w.hypothesis.slip for w in conclusion.belief.suspects)
    likeliest = next((slip for slip in held if slip and slip.half == half), None)
    put_right = purpose == "put right"
    forbidden = hands_off(case.drawn, half[0]) if put_right else ""
    goal = _goal_of_wiring(connector.name, put_right, bool(forbidden))
    why = forbidden or WHY_WIRING.get(purpose) or _why_wiring(case, half, share)
    outcomes = [
        Outcome(
            when="As it should be",
            means=f"Clears {len(slips_of(case, half))} wiring slips; measuring goes on.",
        ),
        Outcome(
            when="Not as it should be",
            means=f"Most likely {likeliest.title}."
            if likeliest
            else "Footwell says what it does and how to put it right.",
        ),
    ]
    if case.engine == "on":
        why = f"{STOP_ENGINE} {why}"
    return WiringStep(
        connector=half[0],
        half=half[1],  # type: ignore[arg-type]
        goal=goal,
        why=why,
        hands_off=bool(forbidden),
        outcomes=[] if put_right else outcomes,
        minutes=connector.minutes + 1.5,
        cautions=_before_wires(connector.hazards, put_right and not forbidden),
    )


def _goal_of_wiring(plug: str, put_right: bool, forbidden: bool) -> str:
    if forbidden:
        return f"Have the wires of {plug} put right"
    return f"Put the wires of {plug} right" if put_right else f"Is {plug} wired as it should be?"


WHY_WIRING = {
    "put right": "Nothing measured at a wrongly wired plug means what it should.",
    "misplaced": "One of its wires was found in another way than on the sheet. See where each wire sits.",
    "several": "It was wired by hand, and no one fault explains everything that was found.",
    "before a repair": "It was wired by hand. See where each wire sits before anything is renewed.",
    "before its contact": "One of its contacts is to be made anew. See first where each wire sits.",
    "before a trial": "Nothing proves what is left. See where each wire sits before anything is renewed on"
    " trial.",
    "at last": "No fault on this sheet fits. See where each wire sits before the sheet is doubted.",
}
"""Why a plug is looked into, by the purpose of the step; else the odds of a slip there say it."""


def _why_wiring(case: Case, half: HalfId, share: float) -> str:
    by_hand = half in case.doubtful
    who = (
        "It was wired by hand."
        if by_hand
        else "Nobody spoke of it, but no fault explains all by itself."
    )
    odds = f"{say.likelihood(share)}, {say.percent(share)}"
    return f"{who} That a slip there explains the complaint is {odds}."


def _before_wires(hazards: Sequence[str], put_right: bool) -> list[Caution]:
    """Cautions before a plug is opened; nobody moves its terminals while they are live."""
    moved = ["battery"] if put_right and "battery" not in hazards else []
    return [caution_view(TEXTS[h]) for h in (*moved, *hazards) if h in TEXTS]


RUNNING = " Try them with the engine running."
OTHERWISE = {"on": " Start the engine for it.", "off": " Stop the engine for it."}


def _positions(case: Case, purpose: str) -> PositionsStep:
    again = any(e.epoch < len(case.epochs) - 1 for e in case.evidence)
    setups, loads = list(working_setups(case.now, case.engine)), list(case.now.sheet.loads)
    engine: Literal["off", "on"] | None = None
    if purpose == "look again":
        odd = to_look_at_again(case)
        setups = list(dict.fromkeys(e.setup for e in odd))
        loads = list(dict.fromkeys(e.load for e in odd))
        engine = engine_for(case, odd)
    moving = {
        h for p in case.now.sheet.parts for h in p.hazards if p.id in loads or h == "moving belt"
    } & TEXTS.keys()
    return PositionsStep(
        goal=_goal_positions(again, purpose),
        why=_why_positions(again, purpose) + _with_engine(case, engine),
        cautions=[caution_view(TEXTS[h]) for h in sorted(moving)],
        ask=[dict(s.controls) for s in setups],
        loads=loads,
        engine=engine,
    )


def _with_engine(case: Case, engine: str | None) -> str:
    if engine:
        return OTHERWISE[engine]
    return RUNNING if case.engine == "on" else ""


def _goal_positions(again: bool, purpose: str) -> str:
    if purpose == "look again":
        return "Look at this once more"
    return "Try every position again" if again else "What works in each position?"


def _why_positions(again: bool, purpose: str) -> str:
    if purpose == "look again":
        return "All readings say that it is mended, but one answer does not fit. Look once more."
    if again:
        return "Something was changed. What works now shows what is left."
    return "What still works clears everything it shares with the rest."


def _why_repair(case: Case, one: Proven, purpose: str) -> str:
    if purpose == "try":
        then = (
            "Then try every position again."
            if "meter" in case.tools.names
            else "Better get a meter, and say so under Tools."
        )
        return (
            f"No check at hand tells the rest apart. This is {say.likelihood(one.share)},"
            f" {say.percent(one.share)}, and costs least to try. {then}"
        )
    if one.by is not None:
        how = "what was seen" if was_seen(case, one) else "a reading"
        return f"It is proven by {how} at its own place."
    if not any(isinstance(e, Taken) for e in case.evidence):
        return (
            "Only what was seen points to it, and nothing else fits. Measure there once before a part is"
            " bought."
        )
    return "No reading at its own place proves it, but everything else is ruled out."


def _unseen(case: Case, hidden: tuple[str, ...]) -> str:
    """What the fault hides, in a sentence."""
    if not hidden:
        return ""
    parts = [e for e in hidden if e in case.now.sheet.loads]
    names = say.joined([say.short_named(case.now, e) for e in parts or hidden], 2)
    return (
        f"Not judged yet: nothing so far could show a fault of {names}. "
        "Try every position again after this."
    )


def _repair(case: Case, conclusion: Conclusion, one: Proven, hidden: tuple[str, ...]) -> RepairStep:
    belief, purpose = conclusion.belief, conclusion.step.purpose
    element = case.now.elements[one.fault.element]
    near = Check(FEED, one.fault.element, "", set_up(case.drawn))
    texts = [c for c in cautions(case.now, near) if c.hazard != "fused lead"]
    battery = [] if any(c.hazard == "battery" for c in texts) else [TEXTS["battery"]]
    found: list[Caution] = [caution_view(c) for c in (*battery, *texts)]
    stopped = [STOP_ENGINE] if case.engine == "on" else []
    return RepairStep(
        element=one.fault.element,
        mode=one.fault.mode,
        title=repair_told(case.now, belief, one.repair),
        do=[*stopped, *advice(element.kind.name, one.fault.mode, purpose == "try")],
        why=_why_repair(case, one, purpose),
        unseen=_unseen(case, hidden),
        cautions=found,
    )
