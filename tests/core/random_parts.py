"""How to draw the values of each kind of part: one entry a kind, and it joins every random test."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from random import Random
from typing import Any

from footwell.parts import KINDS
from footwell.parts.base import Context, Kind
from footwell.reference.contacts import TERMINAL_SIZES_MM

Fields = dict[str, Any]


def decades(chance: Random, low: float, high: float) -> float:
    """A number from 10**low to 10**high, each decade as likely as the next, in three digits."""
    return float(f"{10.0 ** chance.uniform(low, high):.3g}")


def either(chance: Random, value: Any) -> Any:
    """The value, or None as often: left open on the sheet."""
    return value if chance.random() < 0.5 else None


def coin(chance: Random) -> bool:
    return chance.random() < 0.5


def switch(chance: Random) -> Fields:
    """Two to five terminals and two to four positions, each of which closes any pairs."""
    terminals = tuple(str(n + 1) for n in range(chance.randint(2, 5)))
    positions = [str(n) for n in range(chance.randint(2, 4))]
    pairs = [(a, b) for n, a in enumerate(terminals) for b in terminals[n + 1 :]]
    closes = {
        p: tuple(chance.sample(pairs, min(len(pairs), chance.randint(0, 2)))) for p in positions
    }
    if not any(closes.values()):
        closes[positions[-1]] = (pairs[0],)
    return {"terminals": terminals, "closes": closes, "rating_amps": either(chance, 16.0)}


def output(chance: Random) -> Fields:
    return {
        "limit_amps": decades(chance, -0.5, 1.5),
        "ohms": decades(chance, -2, -0.3),
        "shuts_down": coin(chance),
        "detects_open_load": coin(chance),
    }


def high_side_output(chance: Random) -> Fields:
    return output(chance) | {"duties": chance.choice(((), (), (20.0, 70.0)))}


DRAWS: dict[str, Callable[[Random], Fields]] = {
    "battery": lambda c: {
        "volts": either(c, round(c.uniform(9.0, 13.0), 2)),
        "ohms": either(c, decades(c, -2.5, -0.5)),
    },
    "second_battery": lambda c: {
        "volts": either(c, round(c.uniform(9.0, 13.0), 2)),
        "ohms": either(c, decades(c, -2.5, -0.5)),
    },
    "charging_source": lambda c: {"limit_amps": either(c, decades(c, 1, 2.3)), "d_plus": coin(c)},
    "fuse": lambda c: {"amps": either(c, c.choice((3.0, 5.0, 10.0, 20.0, 30.0))), "type": "C"},
    "earth_point": lambda c: {"ohms": either(c, decades(c, -4, 0))},
    "splice": lambda c: {"wires": c.randint(2, 6)},
    "switch": switch,
    "relay": lambda c: {
        "coil_ohms": either(c, decades(c, 1.5, 2.7)),
        "changeover": coin(c),
        "diode": coin(c),
        "rating_amps": either(c, 30.0),
    },
    "latching_relay": lambda c: {
        "coil_ohms": either(c, decades(c, 1.5, 2.7)),
        "coils": c.choice((1, 2)),
        "changeover": coin(c),
    },
    "starter_solenoid": lambda c: {
        "pull_ohms": either(c, decades(c, -1, 0)),
        "hold_ohms": either(c, decades(c, -0.3, 0.7)),
    },
    "resistor": lambda c: {"ohms": decades(c, -3, 7)},
    "fusible_link": lambda c: {"mm2": either(c, c.choice((0.35, 0.5, 1.0, 2.5)))},
    "breaker": lambda c: {
        "amps": either(c, c.choice((10.0, 20.0, 30.0))),
        "type": c.choice(("I", "II", "III")),
    },
    "horn": lambda c: {"amps": either(c, decades(c, 0, 1))},
    "solenoid": lambda c: {"ohms": either(c, decades(c, 0.3, 2))},
    "ptc_heater": lambda c: {"watts": decades(c, 1.5, 3)},
    "glow_plug": lambda c: {"amps": either(c, decades(c, 0.5, 1.3))},
    "zener": lambda c: {"volts": either(c, round(c.uniform(5.0, 40.0), 1)), "both_ways": coin(c)},
    "standing_load": lambda c: {
        "asleep_amps": either(c, 0.05),
        "awake_amps": either(c, decades(c, -1, 1)),
    },
    "resistor_pack": lambda c: {
        "steps_ohms": tuple(decades(c, -1, 1) for _ in range(c.randint(1, 4))),
        "rating_amps": either(c, 20.0),
    },
    "diode": lambda c: {},
    "unknown_stretch": lambda c: {"share": c.choice((1.0, 0.5, 0.25))},
    "lamp": lambda c: {"watts": decades(c, 0, 2), "volts": c.choice((None, 12.0, 13.5, 28.0))},
    "led_lamp": lambda c: {
        "watts": decades(c, -1, 1.5),
        "colour": c.choice(("white", "red", "amber")),
    },
    "twin_lamp": lambda c: {"code": c.choice(("P21/5W", "PY21/5W", "P21/4W", "W21/5W", "H4"))},
    "motor": lambda c: {"amps": decades(c, -0.5, 2), "volts": c.choice((None, 12.0, 24.0))},
    "two_speed_motor": lambda c: {"low_amps": 3.0, "high_amps": round(c.uniform(3.5, 6.0), 1)},
    "reversing_motor": lambda c: {"amps": decades(c, -0.5, 1)},
    "heater": lambda c: {"watts": decades(c, 0.5, 3), "volts": c.choice((None, 13.5, 27.0))},
    "output": high_side_output,
    "low_side_output": output,
    "ntc": lambda c: {"celsius": (20.0, 80.0), "ohms_25": either(c, decades(c, 2, 5))},
    "potentiometer": lambda c: {"travels": (0.0, 60.0), "ohms": either(c, decades(c, 2, 4))},
    "double_potentiometer": lambda c: {
        "travels": (0.0, 60.0),
        "ohms": either(c, decades(c, 2, 4)),
    },
    "hall_switch": lambda c: {"on_when": c.choice(("near", "away"))},
    "reed_switch": lambda c: {"closed_when": c.choice(("near", "away"))},
    "regulator": lambda c: {"volts": c.choice((3.3, 5.0, 8.0)), "limit_amps": either(c, 0.5)},
    "module_input": lambda c: {
        "ohms": either(c, decades(c, 2.5, 4.5)),
        "pulls_to": c.choice(("5 V", "supply")),
    },
    "rheostat": lambda c: {"ohms_at": {"off": None, "dim": decades(c, 0, 2), "bright": 0.2}},
    "bus_unit": lambda c: {"terminated": coin(c), "talks": coin(c)},
    "bus_termination": lambda c: {},
    "wire": lambda c: {
        "mm2": c.choice((None, 0.35, 0.75, 1.5, 2.5, 6.0, 25.0)),
        "metres": either(c, decades(c, -1.3, 1)),
    },
    "contact": lambda c: {
        "terminal_mm": c.choice((None, *TERMINAL_SIZES_MM)),
        "rating_amps": either(c, 15.0),
    },
}
"""Kind to the fields of its values."""


def drawn(kind: str, chance: Random, context: Context) -> Any:
    """Values of a part that a sheet could have. Raises KeyError for a kind without an entry."""
    while True:
        values = KINDS[kind].values(**DRAWS[kind](chance))
        if _can_be(KINDS[kind], values, context):
            return values


def _can_be(kind: Kind, values: Any, context: Context) -> bool:
    try:
        for state in kind.states(values):
            kind.branches(values, state, context)
    except (ValueError, ArithmeticError):
        return False
    return not any(kind.objections(values, context))


def weighted(chance: Random, rows: Sequence[tuple[float, Any]]) -> Any:
    """One of the rows' second members, with the odds of the first."""
    return chance.choices([value for _, value in rows], [odds for odds, _ in rows])[0]
