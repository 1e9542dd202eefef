"""Sources whose current bends: one that is regulated and limited, one that is being charged."""

from __future__ import annotations

from dataclasses import dataclass

from footwell.parts.laws import Law

FLAT_SIEMENS = 1e-3
"""Slope of a source at its current limit, so that its voltage has an answer."""


@dataclass(frozen=True, slots=True)
class Regulated(Law):
    """Holds `volts` behind `ohms` up to `limit_amps`; never takes current back but for a leak.

    Its size is the voltage.
    """

    volts: float
    ohms: float
    limit_amps: float
    leak_siemens: float = 1e-5

    @property
    def emf(self) -> float:
        return self.volts

    def at(self, volts: float) -> tuple[float, float]:
        short = self.volts - volts
        most = self.ohms * self.limit_amps
        if short <= 0.0:
            return -short * self.leak_siemens, self.leak_siemens
        if short <= most:
            return -short / self.ohms, 1.0 / self.ohms
        return -self.limit_amps - FLAT_SIEMENS * (short - most), FLAT_SIEMENS

    def nudge(self, volts: float) -> float:
        return -self.volts * self.at(volts)[1]

    def spice(self, name: str, a: str, b: str) -> str:
        short, most = f"V({name}_emf,{a})", self.ohms * self.limit_amps
        limited = f"{self.limit_amps:.12g}+{FLAT_SIEMENS:.12g}*({short}-{most:.12g})"
        gives = f"({short}<={most:.12g}) ? {short}/{self.ohms:.12g} : {limited}"
        return (
            f"V{name} {name}_emf {b} {self.volts:.12g}\n"
            f"B{name} {name}_emf {a} I=({short}<=0) ? {short}*{self.leak_siemens:.12g} : ({gives})"
        )


@dataclass(frozen=True, slots=True)
class Charging(Law):
    """A battery beside a source that charges it: it gives through `ohms`, and takes through
    `taken_ohms`. Its size is the voltage."""

    volts: float
    ohms: float
    taken_ohms: float

    @property
    def emf(self) -> float:
        return self.volts

    def at(self, volts: float) -> tuple[float, float]:
        ohms = self.ohms if volts < self.volts else self.taken_ohms
        return (volts - self.volts) / ohms, 1.0 / ohms

    def nudge(self, volts: float) -> float:
        return -self.volts * self.at(volts)[1]

    def spice(self, name: str, a: str, b: str) -> str:
        over = f"V({a},{name}_emf)"
        return (
            f"V{name} {name}_emf {b} {self.volts:.12g}\n"
            f"B{name} {a} {name}_emf "
            f"I=({over}<0) ? {over}/{self.ohms:.12g} : {over}/{self.taken_ohms:.12g}"
        )
