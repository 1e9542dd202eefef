"""The next step in the page's form."""

from __future__ import annotations

from footwell.checks.catalogue import working_setups
from footwell.checks.check import FEED, Check
from footwell.checks.safety import TEXTS, cautions
from footwell.circuit.circuit import AS_DRAWN
from footwell.circuit.setup import set_up
from footwell.diagnosis.belief import Belief
from footwell.diagnosis.case import Case
from footwell.diagnosis.complaint import to_look_at_again
from footwell.diagnosis.conclude import Conclusion
from footwell.diagnosis.hypotheses import suspected_slips
from footwell.diagnosis.proof import Proven
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
from footwell.page.finished_view import finished_view


def step_view(case: Case, conclusion: Conclusion, causes: list[CauseView]) -> Step:
    """The next step with all that its screen needs."""
    step = conclusion.step
    if step.kind == "check" and step.choice is not None and step.choice.check is not None:
        return CheckStep(check=check_view(case, conclusion.belief, step.choice.check, step.purpose))
    if step.kind == "wiring" and step.half is not None:
        return _wiring(case, conclusion, step.half, step.purpose)
    if step.kind == "repair" and step.proven is not None:
        return _repair(case, conclusion.belief, step.proven, step.purpose)
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
    likeliest = next(
        (w.hypothesis.slip for w in conclusion.belief.suspects if w.hypothesis.slip), None
    )
    put_right = purpose == "put right"
    goal = (
        f"Put the wires of {connector.name} right"
        if put_right
        else f"Is {connector.name} wired as it should be?"
    )
    why = (
        "Nothing measured at a wrongly wired plug means what it should."
        if put_right
        else "It was wired by hand. A slip there explains the complaint: "
        f"{say.likelihood(share)}, {say.percent(share)}."
    )
    outcomes = [
        Outcome(
            when="As it should be",
            means=f"Clears {len(suspected_slips(case))} wiring slips; measuring goes on.",
        ),
        Outcome(
            when="Not as it should be",
            means=f"Most likely {likeliest.title}."
            if likeliest
            else "Footwell says what it does and how to put it right.",
        ),
    ]
    return WiringStep(
        connector=half[0],
        half=half[1],  # type: ignore[arg-type]
        goal=goal,
        why=why,
        outcomes=[] if put_right else outcomes,
        minutes=connector.minutes + 1.5,
        cautions=[caution_view(TEXTS[h]) for h in connector.hazards if h in TEXTS],
    )


def _positions(case: Case, purpose: str) -> PositionsStep:
    again = any(e.epoch < len(case.epochs) - 1 for e in case.evidence)
    setups, loads = list(working_setups(case.now)), list(case.now.sheet.loads)
    if purpose == "look again":
        odd = to_look_at_again(case)
        setups = list(dict.fromkeys(e.setup for e in odd))
        loads = list(dict.fromkeys(e.load for e in odd))
    moving = {h for p in case.now.sheet.parts if p.id in loads for h in p.hazards} & TEXTS.keys()
    return PositionsStep(
        goal=_goal_positions(again, purpose),
        why=_why_positions(again, purpose),
        cautions=[caution_view(TEXTS[h]) for h in sorted(moving)],
        ask=[dict(s.controls) for s in setups],
        loads=loads,
    )


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


ADVICE = {
    "wire": [
        "Mend with wire of the same cross-section or larger, crimped and sealed.",
        "Find and remove what damaged it.",
    ],
    "contact": [
        "Renew both terminals of the pair and cut the wire back to bright copper.",
        "Use a terminal of the right rating.",
    ],
    "fuse": [
        "Look for what overloaded it first, where that is not known yet.",
        "Fit a fuse of the same rating and type, never a larger one.",
    ],
    "fusible_link": [
        "Look for the short behind it first.",
        "Fit a link of the same cross-section and length, never plain wire.",
    ],
    "breaker": [
        "Look for what overloaded it first, where that is not known yet.",
        "Fit a breaker of the same rating and type.",
    ],
    "resistor_pack": [
        "Renew the pack. The thermal fuse is not to be bridged.",
        "Check that air passes the pack.",
    ],
    "motor": ["Renew the motor. Check that the fan turns freely and nothing blocks the air."],
    "two_speed_motor": ["Renew the motor. Check that its linkage moves freely."],
    "reversing_motor": ["Renew the motor. Check that what it moves runs freely in its guides."],
    "earth_point": ["Clean to bright metal, refit with sound hardware, tighten and protect."],
    "latching_relay": ["Renew the relay with one of the same print, coils and rating."],
    "starter_solenoid": [
        "Renew the solenoid, battery apart. Clean and tighten 30 and 45.",
        "Test the battery under load: a weak one burns the contact.",
    ],
    "relay": ["Renew the relay with one of the same print and rating."],
    "switch": ["Renew the switch."],
    "lamp": ["Renew the lamp by one of the same code."],
    "twin_lamp": ["Renew the lamp by one of the same code, the right way round in its holder."],
    "led_lamp": ["Renew the lamp by one of the same code; most light one way round only."],
    "zener": ["Renew it by one of the same voltage and power, the right way round."],
    "standing_load": [
        "Pull fuses one by one and watch the current, without waking anything.",
        "Give modules time to fall asleep: 20 to 60 minutes.",
    ],
    "horn": ["Renew the horn, or clean and set its contact where it can be set."],
    "solenoid": ["Renew the valve or magnet. Check that what it moves is free."],
    "ptc_heater": ["Renew the heater. Check that air passes it."],
    "glow_plug": [
        "Renew the plug, and test the others of the set.",
        "Tighten to the maker's torque.",
    ],
    "heater": ["Renew or mend the element."],
    "splice": ["Make the splice anew: crimp, seal, support."],
    "charging_source": [
        "Renew it with one of the same output and regulator, battery apart.",
        "Check its belt, its B+ cable and its earth first.",
    ],
    "battery": ["Charge and test the battery before anything else is judged."],
    "second_battery": ["Charge and test it by itself, apart from the first."],
    "ntc": ["Renew the sensor by one of the same type; compare its ohms with the table first."],
    "potentiometer": ["Renew the sensor. Let the unit learn its ends where the maker asks for it."],
    "double_potentiometer": [
        "Renew the sensor. Let the unit learn its ends where the maker asks for it."
    ],
    "hall_switch": ["Renew the switch. Check its distance to the magnet and the magnet itself."],
    "reed_switch": ["Renew the switch; one that welded had too large a load on it."],
    "regulator": ["Unplug the sensors on its line one at a time before the unit is condemned."],
    "rheostat": ["Renew the control. Dust and heat come from its own losses: keep it aired."],
    "bus_termination": [
        "Fit one of the same resistance; 60 Ω between the lines with the supply off."
    ],
    "bus_unit": ["Unplug one unit at a time with the supply off before any is condemned."],
    "module_input": ["Renew the unit, only after line and sensor have been proven sound."],
    "low_side_output": ["Find out why the unit keeps the output off before it is condemned."],
    "output": ["Find out why the unit keeps the output off before it is condemned."],
}


def _why_repair(one: Proven, purpose: str) -> str:
    if one.by is not None:
        return "It is proven by a reading at its own place."
    if purpose == "try":
        return (
            f"No check at hand tells the rest apart. This is {say.likelihood(one.share)},"
            f" {say.percent(one.share)}, and costs least to try. Then try every position again."
        )
    return "Nothing can be measured at its own place, and everything else is ruled out."


def _unseen(case: Case, belief: Belief, one: Proven) -> str:
    """What the fault hides, in a sentence."""
    suspect = next((w for w in belief.suspects if one.repair in w.left), None)
    hidden = unseen(case, suspect) if suspect else ()
    if not hidden:
        return ""
    parts = [e for e in hidden if e in case.now.sheet.loads]
    names = say.joined([say.short_named(case.now, e) for e in parts or hidden])
    return (
        f"Not judged yet: nothing so far could show a fault of {names}. "
        "Try every position again after this."
    )


def _repair(case: Case, belief: Belief, one: Proven, purpose: str) -> RepairStep:
    element = case.now.elements[one.fault.element]
    near = Check(FEED, one.fault.element, "", set_up(case.circuit_for(AS_DRAWN)))
    texts = [c for c in cautions(case.now, near) if c.hazard != "fused lead"]
    battery = [] if any(c.hazard == "battery" for c in texts) else [TEXTS["battery"]]
    found: list[Caution] = [caution_view(c) for c in (*battery, *texts)]
    return RepairStep(
        element=one.fault.element,
        mode=one.fault.mode,
        title=f"{say.fault_title(case.now, one.fault)[:1].upper()}{say.fault_title(case.now, one.fault)[1:]}",
        do=ADVICE.get(element.kind.name, ["Renew the part."]),
        why=_why_repair(one, purpose),
        unseen=_unseen(case, belief, one),
        cautions=found,
    )
