"""Relay with a make contact, with or without a changeover contact, and a diode or a resistor across the coil.

Terminals are DIN 72552: 30 feed, 87 make, 87a break, 86 coil plus, 85 coil minus. The suppression
diode, where fitted, has its cathode on 86: with 85 and 86 exchanged it conducts.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Annotated

from pydantic import Field

from footwell.parts.base import (
    Branch,
    Context,
    Felt,
    Kind,
    Mode,
    Objection,
    State,
    Tipping,
    above,
    below,
    rate_of,
)
from footwell.parts.diode import SILICON
from footwell.parts.laws import Law, Open, Resistance
from footwell.reference import relays
from footwell.reference.contacts import contact


@dataclass(frozen=True)
class Relay:
    coil_ohms: Annotated[float, Field(gt=0, le=10000)] | None = None
    changeover: bool = False
    diode: bool = False
    rating_amps: Annotated[float, Field(gt=0, le=500)] | None = 30.0
    resistor: bool = False
    """A suppression resistor lies across the coil."""


DIODE_RATING_AMPS = 1.0


def pulls_at(context: Context) -> float:
    """Coil voltage (V) that pulls the armature in."""
    return relays.pull_in_volts(context.system_volts).mean


def drops_at(context: Context) -> float:
    """Coil voltage (V) below which the armature falls back."""
    return relays.drop_out_volts(context.system_volts).mean


def _branches(values: Relay, state: State, context: Context) -> list[Branch]:
    sound = contact("relay contact")
    made, broken = (
        (Resistance(sound.ohms), Open()) if state == "pulled" else (Open(), Resistance(sound.ohms))
    )
    coil = Resistance(values.coil_ohms or relays.COIL_OHMS[context.system_volts].mean)
    rows = [
        Branch("coil", "86", "85", coil, 0.08),
        Branch("contact", "30", "87", made, sound.relative_sigma, values.rating_amps),
    ]
    if values.changeover:
        rows.append(Branch("rest", "30", "87a", broken, sound.relative_sigma, values.rating_amps))
    if values.diode:
        rows.append(Branch("diode", "85", "86", SILICON, 0.0, DIODE_RATING_AMPS))
    if values.resistor:
        across = relays.SUPPRESSION_RESISTOR_OHMS[context.system_volts]
        rows.append(Branch("resistor", "86", "85", Resistance(across.mean), across.relative_sigma))
    return rows


def _modes(values: Relay) -> tuple[Mode, ...]:
    rows = [
        Mode("open:coil", rate_of("relay_coil", "open"), "open in the coil", of="coil"),
        Mode(
            "stuck_open",
            rate_of("relay_contact", "stuck_open"),
            "not closing its contact",
            of="contact",
        ),
        Mode(
            "high_resistance:contact",
            rate_of("relay_contact", "high_resistance"),
            "burnt at its contact",
            sized=True,
            of="contact",
        ),
        Mode("stuck_closed", rate_of("relay_contact", "stuck_closed"), "welded shut", of="contact"),
    ]
    if values.diode:
        rows.append(
            Mode("open:diode", rate_of("diode", "open"), "open in its coil diode", of="diode")
        )
        rows.append(
            Mode(
                "short:diode",
                rate_of("diode", "short_across"),
                "shorted in its coil diode",
                of="diode",
            )
        )
    return tuple(rows)


def _broken(
    mode: Mode, size: float, branches: list[Branch], values: Relay, state: State, context: Context
) -> list[Branch] | None:
    shut = Resistance(contact("relay contact").ohms)
    laws: dict[str, dict[str, Law]] = {
        "stuck_open": {"contact": Open(), "rest": shut},
        "stuck_closed": {"contact": shut, "rest": Open()},
        "short:diode": {"diode": Resistance(0.05)},
    }
    if mode.name not in laws:
        return None
    changed = laws[mode.name]
    return [replace(b, law=changed.get(b.name, b.law)) for b in branches]


def _tips(values: Relay, state: State, context: Context) -> tuple[Tipping, ...]:
    """Pulls in from one voltage on, and holds down to a lower one."""
    if state == "rest":
        limit = above(relays.pull_in_volts(context.system_volts))
        words = ("pull-in", "has pulled in", "has not pulled in")
        return (Tipping("pulled", "coil", "V", limit, *words),)
    limit = below(relays.drop_out_volts(context.system_volts))
    return (Tipping("rest", "coil", "V", limit, "drop-out", "has dropped out", "holds"),)


def _moves(values: Relay, felt: Felt, context: Context) -> State:
    """An open coil pulls nothing."""
    (tipping,) = _tips(values, felt.state, context)
    return tipping.to if tipping.reached(felt) >= 0.0 else felt.state


def chatter(coil: str, rest: Felt, pulled: Felt, context: Context) -> str:
    """A relay's chatter in words, from the voltages at its coil in both states."""
    return (
        f"chatters: at rest its coil gets {rest.across(coil):.1f} V and pulls in (from "
        f"{pulls_at(context):.1f} V), pulled in it gets {pulled.across(coil):.1f} V and drops out "
        f"(below {drops_at(context):.1f} V). Look at what feeds its coil."
    )


def _objections(values: Relay, context: Context) -> Iterator[Objection]:
    if values.diode and values.resistor:
        yield (
            "resistor",
            "A coil has a diode or a resistor across it, never both.",
            "Look at the print on the relay, and write the one that it shows.",
        )


KIND = Kind(
    name="relay",
    title="relay",
    values=Relay,
    terminals=lambda v: (
        ("30", "87", "87a", "86", "85") if v.changeover else ("30", "87", "86", "85")
    ),
    branches=_branches,
    modes=_modes,
    broken=_broken,
    states=lambda _: ("rest", "pulled"),
    moves=_moves,
    tips=_tips,
    to_and_fro=lambda *felt: chatter("coil", *felt),
    seen_as="click",
    shows=lambda _, felt, __: float(felt.state == "pulled"),
    pulls_out=True,
    objections=_objections,
    assumes={"coil_ohms": lambda _, c: f"{relays.COIL_OHMS[c.system_volts].mean:g} Ω"},
)
