"""Set-ups that change faster than a meter or an eye follows (PWM), and the mean that is seen of them.

A meter on volts or a clamp shows the average of its readings in each phase. A filament and a heater
follow the mean power, a motor the mean voltage, an LED the mean of its light (common practice, no
source). What the coil of a motor or a relay carries on by itself between two pulses is left out.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from footwell.circuit.circuit import Circuit, Element
from footwell.circuit.setup import SetupState
from footwell.parts.base import Felt, Flow

Phase = tuple[float, SetupState]
"""Share of the time, and the set-up in it."""


def phases(circuit: Circuit, setup: SetupState) -> tuple[Phase, ...]:
    """The set-ups between which one changes, the longest first; the set-up alone where it is steady."""
    key = ("phases", setup)
    if key not in circuit.cache:
        circuit.cache[key] = _phases(circuit, setup)
    return circuit.cache[key]  # type: ignore[no-any-return]


def _phases(circuit: Circuit, setup: SetupState) -> tuple[Phase, ...]:
    found: list[Phase] = [(1.0, setup)]
    for part, position in setup.controls:
        element = circuit.elements[part]
        if element.kind.phases is not None:
            split = element.kind.phases(element.values, position)
            found = [
                (share * of, _set(each, part, state))
                for share, each in found
                for of, state in split
            ]
    return tuple(sorted(found, key=lambda phase: -phase[0]))


def _set(setup: SetupState, part: str, state: str) -> SetupState:
    controls = tuple((p, state if p == part else now) for p, now in setup.controls)
    return setup._replace(controls=controls)


def effective_volts(rows: Sequence[tuple[float, float]]) -> float:
    """The steady voltage (V) that heats as much as some voltages, each with its share of the time.

    >>> round(effective_volts([(0.25, 12.0), (0.75, 0.0)]), 3)
    6.0
    """
    return math.sqrt(sum(share * volts * volts for share, volts in rows))


def seen_of(element: Element, rows: Sequence[tuple[float, Felt]], circuit: Circuit) -> float:
    """What an element shows to a person while it feels each of these for its share of the time."""
    kind = element.kind
    if kind.shows is None:
        return 0.0
    if kind.follows == "moments":
        shown = ((share, kind.shows(element.values, felt, circuit.context)) for share, felt in rows)
        return sum(share * now for share, now in shown)
    return kind.shows(element.values, _blended(kind.follows == "power", rows), circuit.context)


def _blended(by_power: bool, rows: Sequence[tuple[float, Felt]]) -> Felt:
    """One steady state that stands for all: mean voltages, or those of the mean power."""
    first = rows[0][1]
    flows = {name: flow for _, felt in reversed(rows) for name, flow in felt.flows.items()}
    return Felt(
        first.state,
        {t: sum(share * felt.volts[t] for share, felt in rows) for t in first.volts},
        {name: Flow(flow.branch, _volts(name, by_power, rows)) for name, flow in flows.items()},
    )


def _volts(name: str, by_power: bool, rows: Sequence[tuple[float, Felt]]) -> float:
    every = [(share, _across(felt.flows, name)) for share, felt in rows]
    mean = sum(share * volts for share, volts in every)
    return math.copysign(effective_volts(every), mean) if by_power else mean


def _across(flows: Mapping[str, Flow], name: str) -> float:
    return flows[name].volts if name in flows else 0.0
