"""Circuits of textbooks and handbooks with their printed answers, as data for any solver.

`shape` says what elements and answers mean.
"""

from . import batteries, loads, meters, networks, non_linear, wires
from .shape import Answer, Element, Example, half_a_unit

LINEAR: tuple[Example, ...] = (
    *loads.EXAMPLES,
    *networks.EXAMPLES,
    *batteries.EXAMPLES,
    *meters.EXAMPLES,
    *wires.EXAMPLES,
)
NON_LINEAR: tuple[Example, ...] = non_linear.EXAMPLES
EXAMPLES: tuple[Example, ...] = LINEAR + NON_LINEAR

__all__ = ["EXAMPLES", "LINEAR", "NON_LINEAR", "Answer", "Element", "Example", "half_a_unit"]
