"""The practice command: a vehicle with a known fault answers every check that Footwell proposes."""

from __future__ import annotations

import random
from argparse import Namespace

from footwell.checks.check import EVERY_TOOL
from footwell.circuit.circuit import AS_DRAWN, Circuit
from footwell.faults.miswiring import Slip, slip_named
from footwell.job.replay import circuits_of
from footwell.page.expected import fault_of
from footwell.practice.electrician import Run, begin, work
from footwell.practice.vehicle import Vehicle
from footwell.sheet.reading import read_sheet
from footwell.terminal import texts
from footwell.terminal.files import TerminalError, text_of
from footwell.terminal.options import arrangement_of, fault, half_named, said, slip_of
from footwell.terminal.shapes import PracticeRun, WiredWrongly


def practice(asked: Namespace) -> tuple[PracticeRun, str]:
    """Simulate a fault and do the job from the customer's words to its end."""
    read = read_sheet(text_of(asked.file))
    circuit_for = circuits_of(read)
    drawn = circuit_for(AS_DRAWN)
    faults = tuple(sorted(fault_of(drawn, fault(text)) for text in asked.fault))
    slips = [slip_of(drawn, text) for text in asked.wiring]
    chance = None if asked.seed is None else random.Random(asked.seed)
    vehicle = Vehicle(circuit_for, faults, arrangement_of(slips), chance)
    run = begin(read.sheet, vehicle, tools_of(asked.tools), **_story(drawn, asked, slips))
    at_last = work(run, vehicle)
    answer = _answer(read.sheet.id, drawn, vehicle, at_last, run)
    return answer, texts.practice(answer)


def tools_of(text: str) -> tuple[str, ...]:
    """Tools at hand, with commas between. Raises TerminalError."""
    tools = [tool.strip() for tool in text.split(",") if tool.strip()]
    unknown = [tool for tool in tools if tool not in EVERY_TOOL]
    if unknown:
        raise TerminalError(f"There is no tool {unknown[0]!r}. Tools are: {', '.join(EVERY_TOOL)}.")
    return tuple(tools)


def _story(circuit: Circuit, asked: Namespace, slips: list[Slip]) -> dict[str, list[str]]:
    """What the customer says of earlier work: a plug that is wired wrongly was wired by somebody."""
    for name in asked.renewed:
        if name not in circuit.elements and name not in circuit.connectors:
            raise TerminalError(f"{name} is not on this sheet, so it cannot have been renewed.")
    wired = list(dict.fromkeys(slip.half[0] for slip in slips))
    return {"renewed": list(asked.renewed), "rewired": wired} if asked.renewed or wired else {}


def _answer(sheet: str, drawn: Circuit, before: Vehicle, at_last: Vehicle, run: Run) -> PracticeRun:
    return PracticeRun(
        sheet=sheet,
        faults=said(drawn, before.faults),
        wiring=[
            WiredWrongly(half=half_named(half), slip=slip_named(drawn, half, dict(ways)))
            for half, ways in before.arrangement
        ],
        steps=run.steps,
        readings=run.readings,
        minutes=round(run.minutes, 1),
        replaced=run.replaced,
        solved=run.solved,
        left=said(drawn, at_last.standing),
        events=run.events,
    )
