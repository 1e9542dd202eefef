"""How current depends on voltage in one two-ended element.

A law answers `at(volts) -> (amps, siemens)`: the current that flows from end a to end b when a is
`volts` above b, and its slope there. Linear laws also carry `siemens` and `amps_at_zero`, which the
solver uses once instead of iterating. `spice` writes the same law for a general-purpose simulator.

Every law takes any voltage, of either sign, and its current never falls where the voltage rises: on
that the iteration rests. What a law says is meant from some millivolts to 60 V, the most that the
sheets of vehicles have.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from footwell.reference.lamps import CURRENT_EXPONENT, HOT_OVER_COLD, lamp_law

LEAST_SIEMENS = 1e-9
"""Slope given to a law that is flat at its working point, so that iteration can leave it."""

THERMAL_VOLTS = 0.025865
"""Thermal voltage kT/q at 27 degC, the simulator's default temperature (CODATA k and q)."""


class Law:
    """Base of all laws; `linear` ones are solved without iterating."""

    linear = False

    @property
    def emf(self) -> float:
        """Voltage (V) of a source; 0 for what only takes current."""
        return 0.0

    def at(self, volts: float) -> tuple[float, float]:
        """Current (A) and slope (S) at a voltage (V)."""
        raise NotImplementedError

    def nudge(self, volts: float) -> float:
        """Change of current (A) when the law's size rises by its whole, to first order.

        For most laws the size is the conductance, so the nudge is the current itself; the sign is
        the same in every reading, which is all that a tolerance needs.
        """
        return self.at(volts)[0]

    def spice(self, name: str, a: str, b: str) -> str:
        """The law as one or more netlist lines between nodes a and b."""
        raise NotImplementedError


@dataclass(frozen=True, slots=True)
class Open(Law):
    """No connection: I = 0 A at any voltage.

    >>> Open().at(12.0)
    (0.0, 0.0)
    """

    linear = True
    siemens = 0.0
    amps_at_zero = 0.0

    def at(self, volts: float) -> tuple[float, float]:
        return 0.0, 0.0

    def spice(self, name: str, a: str, b: str) -> str:
        return f"* {name} open"


@dataclass(frozen=True, slots=True)
class Resistance(Law):
    """Ohm's law: I = U / R, with `ohms` above 0.

    >>> Resistance(4.0).at(12.0)
    (3.0, 0.25)
    """

    ohms: float
    linear = True
    amps_at_zero = 0.0

    @property
    def siemens(self) -> float:
        return 1.0 / self.ohms

    def at(self, volts: float) -> tuple[float, float]:
        return volts / self.ohms, 1.0 / self.ohms

    def spice(self, name: str, a: str, b: str) -> str:
        return f"R{name} {a} {b} {self.ohms:.12g}"


@dataclass(frozen=True, slots=True)
class Source(Law):
    """A voltage behind a resistance: I = (U - E) / R, with E in `volts` and R in `ohms` above 0.

    The current from a to b is negative while it gives power (Thevenin's equivalent, any textbook of
    circuits). Its size is the voltage.

    >>> battery = Source(12.5, 0.02)
    >>> [round(battery.at(volts)[0], 3) for volts in (12.5, 12.3)]
    [0.0, -10.0]
    """

    volts: float
    ohms: float
    linear = True

    @property
    def siemens(self) -> float:
        return 1.0 / self.ohms

    @property
    def emf(self) -> float:
        return self.volts

    @property
    def amps_at_zero(self) -> float:
        return -self.volts / self.ohms

    def at(self, volts: float) -> tuple[float, float]:
        return (volts - self.volts) / self.ohms, 1.0 / self.ohms

    def nudge(self, volts: float) -> float:
        return -self.volts / self.ohms

    def spice(self, name: str, a: str, b: str) -> str:
        return f"V{name} {a} {name}_emf {self.volts:.12g}\nR{name} {name}_emf {b} {self.ohms:.12g}"


@dataclass(frozen=True, slots=True)
class Filament(Law):
    """Filament lamp whose resistance rises with voltage (law and source: reference.lamps).

    I = G0 * U / (1 + (U / U0)^2)^k, with G0 in `cold_siemens`, U0 in `knee_volts` and k = `exponent`.
    Far below U0 it is the cold resistance; far above, I grows with U^(1 - 2k).

    >>> lamp = Filament.rated(13.5, 55.0)
    >>> [round(lamp.at(volts)[0], 2) for volts in (0.1, 6.75, 13.5)]
    [0.26, 2.78, 4.07]
    """

    cold_siemens: float
    knee_volts: float
    exponent: float
    """Conductance is cold_siemens / (1 + (V/knee)^2)^exponent."""

    @classmethod
    def rated(
        cls, volts: float, watts: float, hot_over_cold: float = HOT_OVER_COLD.value
    ) -> Filament:
        law = lamp_law(volts, watts, hot_over_cold)
        return cls(law.cold_siemens, law.knee_volts, (1.0 - CURRENT_EXPONENT.value) / 2.0)

    def at(self, volts: float) -> tuple[float, float]:
        bend = 1.0 + (volts / self.knee_volts) ** 2
        siemens = self.cold_siemens * bend**-self.exponent
        slope = siemens * (1.0 - 2.0 * self.exponent * (bend - 1.0) / bend)
        return siemens * volts, max(slope, LEAST_SIEMENS)

    def spice(self, name: str, a: str, b: str) -> str:
        v = f"V({a},{b})"
        return (
            f"B{name} {a} {b} I={self.cold_siemens:.12g}*{v}"
            f"/pow(1+({v}/{self.knee_volts:.12g})*({v}/{self.knee_volts:.12g}),{self.exponent:.12g})"
        )


def levelling(volts: float, amps: float, cold_over_warm: float) -> Filament:
    """Law of what warms until its current hardly rises: `amps` at `volts`, and cold so many times the
    conductance. The filament's law with an exponent of one half.

    >>> law = levelling(11.0, 10.0, 2.0)
    >>> [round(law.at(volts)[0], 1) for volts in (0.1, 5.5, 11.0, 14.0)]
    [0.2, 7.6, 10.0, 10.5]
    """
    return Filament(cold_over_warm * amps / volts, volts / math.sqrt(cold_over_warm**2 - 1.0), 0.5)


@dataclass(frozen=True, slots=True)
class Armature(Law):
    """Brushed permanent-magnet motor that drives a fan, at its steady speed.

    Torque is proportional to current; the fan asks for torque with the square of speed, bearings
    and brushes for a constant `friction_amps`. With w = speed / nominal speed:
    U = R*i + E*w and i = friction + load_amps*w^2 (steady-state equations of the d.c. machine with
    a square-law load, any textbook of electric drives). Below U = R*friction it stands still and is
    its armature resistance alone. R in `ohms`, E in `emf_volts`: what the motor gives back at its
    nominal speed.

    >>> fan = Armature(ohms=0.5, emf_volts=9.0, load_amps=8.0, friction_amps=0.5)
    >>> [round(fan.at(volts)[0], 2) for volts in (0.2, 6.0, 13.25)]
    [0.4, 2.66, 8.5]
    >>> round(fan.speed(13.25), 3)
    1.0
    """

    ohms: float
    emf_volts: float
    load_amps: float
    friction_amps: float

    @property
    def starts_at(self) -> float:
        return self.ohms * self.friction_amps

    def speed(self, volts: float) -> float:
        """Speed as a share of the nominal speed, without sign."""
        left = abs(volts) - self.starts_at
        if left <= 0.0:
            return 0.0
        drag = self.ohms * self.load_amps
        if drag == 0.0:
            return left / self.emf_volts
        return 2.0 * left / (self.emf_volts + math.sqrt(self.emf_volts**2 + 4.0 * drag * left))

    def at(self, volts: float) -> tuple[float, float]:
        if abs(volts) <= self.starts_at:
            return volts / self.ohms, 1.0 / self.ohms
        w = self.speed(volts)
        amps = self.friction_amps + self.load_amps * w * w
        slope = 2.0 * self.load_amps * w / (self.emf_volts + 2.0 * self.ohms * self.load_amps * w)
        return math.copysign(amps, volts), max(slope, LEAST_SIEMENS)

    def spice(self, name: str, a: str, b: str) -> str:
        v, drag = f"V({a},{b})", self.ohms * self.load_amps
        left = f"(abs({v})-{self.starts_at:.12g})"
        w = (
            f"(2*{left}/({self.emf_volts:.12g}+sqrt({self.emf_volts**2:.12g}"
            f"+{4 * drag:.12g}*max(0,{left}))))"
        )
        running = f"sgn({v})*({self.friction_amps:.12g}+{self.load_amps:.12g}*{w}*{w})"
        return f"B{name} {a} {b} I=({left}<=0) ? {v}/{self.ohms:.12g} : {running}"


@dataclass(frozen=True, slots=True)
class Junction(Law):
    """Diode, conducting from a to b: Shockley's law with a series resistance left out.

    I = Is * (exp(U / (n * VT)) - 1), with Is in `saturation_amps`, n = `emission` and VT the thermal
    voltage (W. Shockley, Bell System Technical Journal 28, 1949).

    >>> diode = Junction(1e-8, 1.7)
    >>> [round(diode.at(volts)[0], 2) + 0.0 for volts in (-12.0, 0.5, 0.81)]
    [0.0, 0.0, 1.0]

    Above `top_volts` the curve goes on as a straight line (the bulk resistance takes over), so that
    no trial voltage overflows.
    """

    saturation_amps: float
    emission: float
    top_volts: float = 0.95

    def at(self, volts: float) -> tuple[float, float]:
        vt = self.emission * THERMAL_VOLTS
        if volts <= self.top_volts:
            grown = math.exp(max(volts, -40.0) / vt)
            return self.saturation_amps * (grown - 1.0), max(
                self.saturation_amps * grown / vt, 1e-15
            )
        slope = self.saturation_amps * math.exp(self.top_volts / vt) / vt
        at_top = self.saturation_amps * (math.exp(self.top_volts / vt) - 1.0)
        return at_top + slope * (volts - self.top_volts), slope

    def spice(self, name: str, a: str, b: str) -> str:
        v, vt, s = f"V({a},{b})", self.emission * THERMAL_VOLTS, self.saturation_amps
        slope = s * math.exp(self.top_volts / vt) / vt
        at_top = s * (math.exp(self.top_volts / vt) - 1.0)
        curve = f"{s:.12g}*(exp(max({v},-40)/{vt:.12g})-1)"
        straight = f"{at_top:.12g}+{slope:.12g}*({v}-{self.top_volts:.12g})"
        return f"B{name} {a} {b} I=({v}<={self.top_volts:.12g}) ? {curve} : {straight}"


@dataclass(frozen=True, slots=True)
class LimitedOutput(Law):
    """Electronic output that feeds from a to b: on-resistance up to its current limit.

    I = U / R up to `limit_amps`, and beyond it hardly more: a slope of `flat_siemens`, so that the
    iteration finds its way back (common practice, no source).

    >>> output = LimitedOutput(ohms=0.1, limit_amps=6.0)
    >>> [round(output.at(volts)[0], 2) for volts in (0.3, 0.6, 12.0)]
    [3.0, 6.0, 6.0]
    """

    ohms: float
    limit_amps: float
    flat_siemens: float = 1e-4

    def at(self, volts: float) -> tuple[float, float]:
        knee = self.ohms * self.limit_amps
        if abs(volts) <= knee:
            return volts / self.ohms, 1.0 / self.ohms
        beyond = self.limit_amps + self.flat_siemens * (abs(volts) - knee)
        return math.copysign(beyond, volts), self.flat_siemens

    def spice(self, name: str, a: str, b: str) -> str:
        v, knee = f"V({a},{b})", self.ohms * self.limit_amps
        over = f"sgn({v})*({self.limit_amps:.12g}+{self.flat_siemens:.12g}*(abs({v})-{knee:.12g}))"
        return f"B{name} {a} {b} I=(abs({v})<={knee:.12g}) ? {v}/{self.ohms:.12g} : {over}"
