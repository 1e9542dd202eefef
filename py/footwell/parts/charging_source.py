"""Charging source: an alternator with its regulator, holding up the supply while the engine runs.

Terminals are DIN 72552: B+ and B- to the battery, D+ to the charge lamp where there is one. It holds
its voltage up to its current limit. At rest only its rectifier leaks; D+ then lies on the field winding
and lights the charge lamp, and charging it is as high as B+, so that the lamp goes out.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Annotated

from pydantic import Field

from footwell.parts.base import Branch, Context, Kind, Mode, State, rate_of
from footwell.parts.laws import Law, Open, Resistance
from footwell.parts.sources import Regulated
from footwell.reference import charging, supplies

RUNNING = "on"
EXCITER_OHMS = 0.05
"""The small diodes that feed D+ (common practice, no source)."""


@dataclass(frozen=True)
class ChargingSource:
    """Current limit, regulated voltage, and whether a charge lamp hangs on its D+."""

    limit_amps: Annotated[float, Field(gt=0, le=1000)] | None = None
    volts: Annotated[float, Field(gt=0, le=60)] | None = None
    d_plus: bool = False


def law_of(values: ChargingSource, context: Context) -> Regulated:
    """What it does while the engine runs.

    >>> law_of(ChargingSource(), Context(12, 5.0)).at(13.0)[0]
    -90.0007
    """
    usual = supplies.supply(context.system_volts)
    volts = values.volts or usual.engine_running.mean
    limit = values.limit_amps or charging.LIMIT_AMPS[context.system_volts].value
    return Regulated(volts, usual.running_ohms.mean, limit)


def _resting(context: Context) -> Resistance:
    return Resistance(context.system_volts / charging.REST_LEAK_AMPS.value)


def _branches(values: ChargingSource, state: State, context: Context) -> list[Branch]:
    running = state == RUNNING
    voltage = supplies.supply(context.system_volts).engine_running
    law: Law = law_of(values, context) if running else _resting(context)
    rows = [Branch("", "B+", "B-", law, voltage.relative_sigma if running else 0.0)]
    if values.d_plus:
        field = Resistance(charging.FIELD_OHMS[context.system_volts].value)
        exciter: Law = Resistance(EXCITER_OHMS) if running else Open()
        rows += [
            Branch("field", "D+", "B-", field, 0.2),
            Branch("exciter", "B+", "D+", exciter, 0.3),
        ]
    return rows


def _broken(
    mode: Mode,
    size: float,
    branches: list[Branch],
    values: ChargingSource,
    state: State,
    context: Context,
) -> list[Branch] | None:
    at_rest = _branches(values, "off", context)
    if mode.name == "dead":
        return at_rest
    if mode.name == "open:field":
        return [replace(b, law=Open()) if b.name == "field" else b for b in at_rest]
    sound = branches[0].law
    if mode.name == "short_diode":
        return _drained(branches, size * context.system_volts / 12.0)
    if not isinstance(sound, Regulated):
        return branches
    changed = {
        "low": replace(sound, limit_amps=sound.limit_amps * size),
        "over_voltage": replace(sound, volts=sound.volts * charging.OVER_SHARE.value),
    }
    return [replace(branches[0], law=changed[mode.name]), *branches[1:]]


def _drained(branches: list[Branch], ohms: float) -> list[Branch]:
    """A shorted diode: it drains the battery at rest, and costs output while running."""
    law = branches[0].law
    if isinstance(law, Regulated):
        limit = law.limit_amps * charging.SHORTED_DIODE_SHARE.value
        return [replace(branches[0], law=replace(law, limit_amps=limit)), *branches[1:]]
    return [replace(branches[0], law=Resistance(ohms)), *branches[1:]]


def _modes(values: ChargingSource) -> tuple[Mode, ...]:
    no_output = rate_of("generator", "open")
    lows = tuple(share.value for share in charging.LOW_SHARES)
    drains = tuple(drain.value for drain in charging.DRAIN_OHMS)
    rows = [
        Mode("dead", no_output * (0.5 if values.d_plus else 1.0), "not charging"),
        Mode("low", rate_of("generator", "weak"), "giving too little", factors=lows),
        Mode("over_voltage", rate_of("generator", "over_voltage"), "charging too high"),
        Mode(
            "short_diode",
            rate_of("generator", "short_diode"),
            "draining through a shorted diode",
            factors=drains,
        ),
    ]
    if values.d_plus:
        rows.append(Mode("open:field", no_output * 0.5, "open in its field, brushes or winding"))
    return tuple(rows)


KIND = Kind(
    name="charging_source",
    title="charging source",
    values=ChargingSource,
    terminals=lambda v: ("B+", "B-", "D+") if v.d_plus else ("B+", "B-"),
    branches=_branches,
    modes=_modes,
    broken=_broken,
    states=lambda _: ("off", RUNNING),
    follows_engine=True,
    charges=True,
    measured_alone=False,
    assumes={
        "limit_amps": lambda v, c: f"{law_of(v, c).limit_amps:g} A",
        "volts": lambda v, c: f"{law_of(v, c).volts:g} V",
    },
)
