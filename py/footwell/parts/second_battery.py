"""Second battery: it feeds a circuit of its own, and is charged through a relay or a diode from the first.

The first battery is the supply that the vehicle's voltages are counted by; this one is a part behind it,
which takes current while more than its own voltage lies on it and gives current below that.
"""

from __future__ import annotations

from dataclasses import replace

from footwell.parts import battery
from footwell.parts.base import Branch, Context, State
from footwell.parts.battery import CHARGING, Battery


def _branches(values: Battery, state: State, context: Context) -> list[Branch]:
    return battery.KIND.branches(values, CHARGING, context)


KIND = replace(
    battery.KIND,
    name="second_battery",
    title="second battery",
    branches=_branches,
    states=lambda _: ("",),
    follows_engine=False,
    beside="",
    assumes={
        "volts": lambda v, c: f"{battery.rest_volts(v, c):g} V at rest",
    },
)
