"""Starter solenoid: two windings of equal turns that throw the contact from battery to starter.

Terminals are DIN 72552: 50 from the switch, 30 battery, 45 to the starter motor, 31 earth. The pull
winding lies from 50 to 45 and finds its earth through the motor; once the contact has closed, 45 is as
live as 50 and the pull winding is idle: the hold winding, 50 to 31, alone has to hold. A broken hold
winding, or a battery that gives way under the starter, lets it chatter.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Annotated

from pydantic import Field

from footwell.parts.base import Branch, Context, Felt, Kind, Mode, State, idle, rate_of
from footwell.parts.laws import Law, Open, Resistance
from footwell.reference import starters
from footwell.reference.contacts import contact

Ohms = Annotated[float, Field(gt=0, le=100)]
PULL, HOLD, CONTACT = "pull", "hold", "contact"
SHORTED_OHMS = 0.05
"""A winding burnt down to its first turns (common practice, no source)."""


@dataclass(frozen=True)
class StarterSolenoid:
    """Resistance of each winding, and what the contact may carry."""

    pull_ohms: Ohms | None = None
    hold_ohms: Ohms | None = None
    rating_amps: Annotated[float, Field(gt=0, le=3000)] | None = None


def windings(values: StarterSolenoid, context: Context) -> tuple[float, float]:
    """Ohms of the pull and the hold winding."""
    usual = starters.WINDINGS[context.system_volts]
    return values.pull_ohms or usual.pull_ohms.mean, values.hold_ohms or usual.hold_ohms.mean


def _branches(values: StarterSolenoid, state: State, context: Context) -> list[Branch]:
    pull, hold = windings(values, context)
    usual = starters.WINDINGS[context.system_volts]
    shut: Law = Resistance(starters.CONTACT_OHMS.value) if state == "pulled" else Open()
    spread = contact("relay contact").relative_sigma
    return [
        Branch(PULL, "50", "45", Resistance(pull), usual.pull_ohms.relative_sigma),
        Branch(HOLD, "50", "31", Resistance(hold), usual.hold_ohms.relative_sigma),
        Branch(CONTACT, "30", "45", shut, spread, values.rating_amps),
    ]


def _moves(values: StarterSolenoid, felt: Felt, context: Context) -> State:
    """Equal turns: the currents of both windings add up, or cancel where they run against each other."""
    pull, hold = windings(values, context)
    force = abs(sum(felt.flows[name].amps for name in (PULL, HOLD) if name in felt.flows))
    volts = context.system_volts
    if felt.state == "rest":
        needed = starters.PULL_IN_SHARE.value * volts * (1 / pull + 1 / hold)
        return "pulled" if force >= needed else "rest"
    return "rest" if force < starters.LETS_GO_SHARE.value * volts / hold else "pulled"


def _broken(
    mode: Mode,
    size: float,
    branches: list[Branch],
    values: StarterSolenoid,
    state: State,
    context: Context,
) -> list[Branch] | None:
    shut = Resistance(starters.CONTACT_OHMS.value)
    changed: dict[str, dict[str, Branch]] = {
        "stuck_closed": {b.name: replace(b, law=shut) for b in branches if b.name == CONTACT},
        "short:hold": {
            b.name: replace(b, name="shorted winding", law=Resistance(SHORTED_OHMS))
            for b in branches
            if b.name == HOLD
        },
        # The windings take their current, and nothing follows: no force is felt of a plunger that
        # cannot move.
        "sticking": {b.name: idle(b, b.law) for b in branches if b.name != CONTACT},
    }
    if mode.name not in changed:
        return None
    return [changed[mode.name].get(b.name, b) for b in branches]


def _to_and_fro(rest: Felt, pulled: Felt, context: Context) -> str:
    lets_go = starters.LETS_GO_SHARE.value * context.system_volts
    return (
        f"chatters: once it has pulled in, its hold winding gets {pulled.across(HOLD):.1f} V and "
        f"carries {pulled.amps(HOLD):.1f} A (it lets go below some {lets_go:.1f} V). Look at the hold "
        f"winding, its earth, and how far the battery falls under the starter."
    )


KIND = Kind(
    name="starter_solenoid",
    title="starter solenoid",
    values=StarterSolenoid,
    terminals=lambda _: ("50", "30", "45", "31"),
    branches=_branches,
    modes=lambda _: (
        Mode(
            "stuck_open",
            rate_of("relay_contact", "stuck_open"),
            "burnt away at its contact",
            of=CONTACT,
        ),
        Mode(
            "high_resistance:contact",
            rate_of("relay_contact", "high_resistance"),
            "burnt at its contact",
            sized=True,
            of=CONTACT,
        ),
        Mode("stuck_closed", rate_of("relay_contact", "stuck_closed"), "welded shut"),
        Mode("sticking", rate_of("solenoid", "sticking"), "stuck in its plunger"),
        Mode("open:hold", rate_of("solenoid", "open"), "open in its hold winding", of=HOLD),
        Mode("open:pull", rate_of("solenoid", "open"), "open in its pull winding", of=PULL),
        Mode("short:hold", rate_of("solenoid", "short_across"), "shorted in its hold winding"),
    ),
    broken=_broken,
    states=lambda _: ("rest", "pulled"),
    moves=_moves,
    to_and_fro=_to_and_fro,
    seen_as="click",
    shows=lambda _, felt, __: float(felt.state == "pulled"),
    assumes={
        "pull_ohms": lambda v, c: f"{windings(v, c)[0]:g} Ω",
        "hold_ohms": lambda v, c: f"{windings(v, c)[1]:g} Ω",
    },
    seldom_given=("rating_amps",),
)
