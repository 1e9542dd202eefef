"""Brushed motor that is made to run either way: window, lock, seat. The polarity says which way.

It is a motor like any other; a person sees whether it runs as it should in a position, or the other way.
"""

from __future__ import annotations

from dataclasses import replace

from footwell.parts import motor
from footwell.parts.base import Context, Felt
from footwell.parts.motor import Motor


def _shows(values: Motor, felt: Felt, context: Context) -> float:
    """Speed as a share of nominal, below nought where "-" is the positive end."""
    flow = felt.flows.get("")
    speed = motor.shown_speed(values, felt, context)
    return -speed if flow is not None and flow.volts < 0.0 else speed


KIND = replace(
    motor.KIND, name="reversing_motor", title="reversing motor", seen_as="turning", shows=_shows
)
