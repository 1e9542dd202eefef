"""Latching relay: a pulse sets it, another resets it, and without current it stays as it is.

Terminals are DIN 72552: 30 feed, 87 make, 87a break; 86a starts the winding that sets, 86b the one that
resets, 85 ends both. With one coil, 86 to 85, a pulse the other way round resets. Nothing outside shows
in which of its two states it is, so a sheet may name it as a control to say how it was found.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Annotated, Literal

from pydantic import Field

from footwell.parts.base import Branch, Context, Felt, Kind, Mode, State, Tipping, above, rate_of
from footwell.parts.laws import Law, Open, Resistance
from footwell.parts.relay import pulls_at
from footwell.reference import relays
from footwell.reference.contacts import contact

RESET, SET = "reset", "set"


@dataclass(frozen=True)
class LatchingRelay:
    """`coil_ohms` of each coil."""

    coil_ohms: Annotated[float, Field(gt=0, le=10000)] | None = None
    coils: Literal[1, 2] = 2
    changeover: bool = False
    rating_amps: Annotated[float, Field(gt=0, le=500)] | None = 30.0


def coil_ohms(values: LatchingRelay, context: Context) -> float:
    return values.coil_ohms or relays.LATCHING_COIL_OHMS[context.system_volts].mean


def _terminals(values: LatchingRelay) -> tuple[str, ...]:
    contacts = ("30", "87", "87a") if values.changeover else ("30", "87")
    return (*contacts, *(("86a", "86b", "85") if values.coils == 2 else ("86", "85")))


def _contacts(made: bool) -> tuple[Law, Law]:
    """Laws of the make and the break contact."""
    shut = Resistance(contact("relay contact").ohms)
    return (shut, Open()) if made else (Open(), shut)


def _branches(values: LatchingRelay, state: State, context: Context) -> list[Branch]:
    coil = Resistance(coil_ohms(values, context))
    windings = [(SET, "86a"), (RESET, "86b")] if values.coils == 2 else [("coil", "86")]
    rows = [Branch(name, start, "85", coil, 0.08) for name, start in windings]
    made, broken = _contacts(state == SET)
    spread = contact("relay contact").relative_sigma
    rows.append(Branch("contact", "30", "87", made, spread, values.rating_amps))
    if values.changeover:
        rows.append(Branch("rest", "30", "87a", broken, spread, values.rating_amps))
    return rows


def _tips(values: LatchingRelay, state: State, context: Context) -> tuple[Tipping, ...]:
    if values.coils == 1:
        return ()
    to = RESET if state == SET else SET
    limit = above(relays.pull_in_volts(context.system_volts))
    return (Tipping(to, to, "V", limit, "pull-in", f"has {to}", f"has not {to}"),)


def _moves(values: LatchingRelay, felt: Felt, context: Context) -> State:
    """With both coils fed, or none, it stays."""
    if values.coils == 2:
        pull = felt.across(SET) >= pulls_at(context), felt.across(RESET) >= pulls_at(context)
    else:
        flow = felt.flows.get("coil")
        volts = flow.volts if flow else 0.0
        pull = volts >= pulls_at(context), -volts >= pulls_at(context)
    return {(True, False): SET, (False, True): RESET}.get(pull, felt.state)


def _modes(values: LatchingRelay) -> tuple[Mode, ...]:
    coils = [SET, RESET] if values.coils == 2 else ["coil"]
    titles = {SET: "open in the coil that sets it", RESET: "open in the coil that resets it"}
    rows = [
        Mode(
            f"open:{name}",
            rate_of("relay_coil", "open"),
            titles.get(name, "open in the coil"),
            of=name,
        )
        for name in coils
    ]
    return (
        *rows,
        Mode("stuck_open", rate_of("relay_contact", "stuck_open"), "stuck as reset", of="contact"),
        Mode(
            "high_resistance:contact",
            rate_of("relay_contact", "high_resistance"),
            "burnt at its contact",
            sized=True,
            of="contact",
        ),
        Mode("stuck_closed", rate_of("relay_contact", "stuck_closed"), "welded shut", of="contact"),
    )


def _broken(
    mode: Mode,
    size: float,
    branches: list[Branch],
    values: LatchingRelay,
    state: State,
    context: Context,
) -> list[Branch] | None:
    if mode.name not in ("stuck_open", "stuck_closed"):
        return None
    made, broken = _contacts(mode.name == "stuck_closed")
    changed = {"contact": made, "rest": broken}
    return [replace(b, law=changed.get(b.name, b.law)) for b in branches]


KIND = Kind(
    name="latching_relay",
    title="latching relay",
    values=LatchingRelay,
    terminals=_terminals,
    branches=_branches,
    modes=_modes,
    broken=_broken,
    states=lambda _: (RESET, SET),
    positions=lambda _: (RESET, SET),
    moves=_moves,
    remembers=True,
    tips=_tips,
    seen_as="click",
    shows=lambda _, felt, __: float(felt.state == SET),
    pulls_out=True,
    assumes={"coil_ohms": lambda v, c: f"{coil_ohms(v, c):g} Ω"},
)
