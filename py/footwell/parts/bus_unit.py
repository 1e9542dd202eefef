"""Control unit on a high-speed bus, at rest: it holds both lines at 2.5 V, softly, while it has supply.

What a meter averages while units talk, a little more on "H" and a little less on "L", is left out: the
circuit is the bus at rest. A current too small for a meter stands for the messages of the unit that
talks; what it makes of the resistance between the lines tells each unit how well it hears.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from footwell.parts import bus_termination
from footwell.parts.base import Branch, Context, Felt, Kind, Mode, State, rate_of
from footwell.parts.laws import Law, Open, Resistance, Source
from footwell.reference import sensors

AWAKE, DEAD = "awake", "without supply"
RENEW = "renew the unit"
MESSAGE_VOLTS = 1.0
"""Behind so much resistance that its current hardly changes with what lies between the lines."""
LINES = ("H", "L")


@dataclass(frozen=True)
class BusUnit:
    """`terminated` units at the two ends of the bus hold its 120 Ω; the messages of the one that `talks`
    are what all others hear."""

    terminated: bool = False
    talks: bool = False


def _branches(values: BusUnit, state: State, context: Context) -> list[Branch]:
    own = Resistance(context.system_volts / sensors.UNIT_OWN_AMPS.value)
    end = Resistance(sensors.BUS_TERMINATION_OHMS.value) if values.terminated else Open()
    volts, ohms = sensors.BUS_RECESSIVE_VOLTS.value, sensors.BUS_INPUT_OHMS.value
    held: Law = Source(volts, ohms) if state == AWAKE else Resistance(ohms)
    amps = sensors.BUS_MESSAGE_AMPS.value
    message = Source(MESSAGE_VOLTS, MESSAGE_VOLTS / amps) if state == AWAKE else Open()
    return [
        *([Branch("message", "H", "L", message)] if values.talks else []),
        Branch("own", "+", "-", own, 0.5),
        Branch("termination", "H", "L", end, bus_termination.SPREAD),
        *(Branch(f"bias {line}", line, "-", held, 0.05) for line in LINES),
    ]


def _modes(values: BusUnit) -> tuple[Mode, ...]:
    dead, stuck = (rate_of("module_output", m) for m in ("stuck_open", "stuck_closed"))
    ends = [Mode("open:termination", dead / 2, "without its termination", RENEW, of="termination")]
    return (
        *(ends if values.terminated else ()),
        Mode("across", stuck / 3, "shorted between both lines", RENEW),
        *(
            Mode(f"earthed:{line}", stuck / 3, f"shorted to earth on line {line}", RENEW)
            for line in LINES
        ),
    )


def _broken(
    mode: Mode, size: float, branches: list[Branch], values: BusUnit, state: State, context: Context
) -> list[Branch] | None:
    shorted = {"across": "termination", "earthed:H": "bias H", "earthed:L": "bias L"}.get(mode.name)
    if shorted is None:
        return None
    return [replace(b, law=Resistance(0.1)) if b.name == shorted else b for b in branches]


def _heard(values: BusUnit, felt: Felt, context: Context) -> float:
    """1 where all messages are understood, 0.5 where some are, 0 where none is."""
    if felt.state == DEAD:
        return 0.0
    high, low = (felt.volts[line] - felt.volts["-"] for line in LINES)
    least, most = sensors.BUS_COMMON_VOLTS
    if not least <= (high + low) / 2.0 <= most:
        return 0.0
    both = sensors.BUS_TERMINATION_OHMS.value / 2.0
    share = (high - low) / (sensors.BUS_MESSAGE_AMPS.value * both)
    if sensors.BUS_HEARD[0] <= share <= sensors.BUS_HEARD[1]:
        return 1.0
    return 0.5 if sensors.BUS_HEARD_AT_ALL[0] <= share <= sensors.BUS_HEARD_AT_ALL[1] else 0.0


def _moves(values: BusUnit, felt: Felt, context: Context) -> State:
    own = felt.volts["+"] - felt.volts["-"]
    return AWAKE if own >= sensors.UNIT_WAKES_VOLTS.value else DEAD


KIND = Kind(
    name="bus_unit",
    title="control unit on a bus",
    values=BusUnit,
    terminals=lambda _: ("H", "L", "+", "-"),
    branches=_branches,
    modes=_modes,
    broken=_broken,
    states=lambda _: (DEAD, AWAKE),
    moves=_moves,
    oddities={DEAD: "has no supply"},
    seen_as="messages",
    shows=_heard,
    measured_alone=False,
    measured_between=LINES,
    takes=("+",),
    line="data line",
)
