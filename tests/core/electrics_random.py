"""Random circuits for properties: any parts between any nets, some of them islands."""

from __future__ import annotations

from typing import Any

from hypothesis import settings
from hypothesis import strategies as st

from footwell.parts.battery import Battery
from footwell.parts.diode import Diode
from footwell.parts.lamp import Lamp
from footwell.parts.motor import Motor
from footwell.parts.output import Output
from footwell.parts.resistor import Resistor

from .electrics_rig import EARTH, Part

CALMLY = settings(deadline=None)
"""Nothing is said about how long an example takes."""

LINEAR = ("battery", "resistor")
BENT = ("lamp", "motor", "diode", "output")
POLES, ENDS = ("+", "-"), ("1", "2")
TERMINALS = {"resistor": ENDS, "lamp": ENDS, "output": ("supply", "out")}


def tenth_powers(low: float, high: float) -> st.SearchStrategy[float]:
    return st.floats(low, high).map(lambda power: float(10.0**power))


def values_of(kind: str) -> st.SearchStrategy[Any]:
    strategies: dict[str, st.SearchStrategy[Any]] = {
        "battery": st.builds(Battery, st.sampled_from([1.5, 12.5, 25.0]), tenth_powers(-3, 0)),
        "resistor": st.builds(Resistor, tenth_powers(-3, 7)),
        "lamp": st.builds(Lamp, tenth_powers(0, 2), st.sampled_from([13.5, 28.0])),
        "motor": st.builds(Motor, tenth_powers(-0.5, 2), st.just(12.0)),
        "diode": st.just(Diode()),
        "output": st.builds(Output, tenth_powers(-0.5, 1.5), tenth_powers(-2, -0.5)),
    }
    return strategies[kind]


@st.composite
def networks(draw: st.DrawFn, kinds: tuple[str, ...] = LINEAR + BENT) -> list[Part]:
    """A battery and up to eleven other parts between up to seven nets, the body one of them."""
    nets = [EARTH, *(f"n{n}" for n in range(draw(st.integers(1, 6))))]
    chosen = ["battery", *draw(st.lists(st.sampled_from(kinds), min_size=1, max_size=11))]
    return [_part(draw, n, kind, nets) for n, kind in enumerate(chosen)]


def _part(draw: st.DrawFn, n: int, kind: str, nets: list[str]) -> Part:
    a = draw(st.sampled_from(nets))
    b = draw(st.sampled_from([net for net in nets if net != a]))
    first, second = TERMINALS.get(kind, POLES)
    return Part(f"P{n}", kind, draw(values_of(kind)), {first: a, second: b})


def outputs_on(parts: list[Part]) -> dict[str, list[str]]:
    """Controls that switch every output on."""
    return {p.id: ["on"] for p in parts if p.kind == "output"}
