"""A resistance in series with any law: a lamp behind a bad joint, an LED behind its resistor."""

from __future__ import annotations

from dataclasses import dataclass

from footwell.parts.laws import Armature, Law, Open, Resistance, Source

TRIES = 200
"""More halvings than a floating-point number has digits to lose; Newton's method takes a few."""
ROUNDING = 1e-15
"""A step that is smaller than this share of the voltage is rounding."""


@dataclass(frozen=True, slots=True)
class InSeries(Law):
    """A law that bends behind `ohms`: with u over the law, U = u + ohms * i(u).

    The point between the two is found inside. The size, whose tolerance counts, is that of the
    resistance.

    >>> from footwell.parts.laws import Resistance
    >>> amps, siemens = InSeries(Resistance(10.0), 2.0).at(12.0)
    >>> round(amps, 9), round(siemens, 9)
    (1.0, 0.083333333)
    """

    law: Law
    ohms: float

    def inside(self, volts: float) -> float:
        """Voltage (V) over the law alone when the whole has `volts`.

        u + ohms * i(u) rises at least as fast as u, so the root lies no further from `volts` than
        the sum is off there, and halving between the two ends always gets there.
        """
        amps, slope = self.law.at(volts)
        off = self.ohms * amps
        low, high = (volts - off, volts) if off > 0.0 else (volts, volts - off)
        u = volts
        for _ in range(TRIES):
            step = off / (1.0 + self.ohms * slope)
            if abs(step) <= ROUNDING * abs(u):
                break
            u = u - step if low < u - step < high else 0.5 * (low + high)
            if u in (low, high):
                break
            amps, slope = self.law.at(u)
            off = u + self.ohms * amps - volts
            if off > 0.0:
                high = u
            elif off < 0.0:
                low = u
            else:
                break
        return u

    def at(self, volts: float) -> tuple[float, float]:
        amps, slope = self.law.at(self.inside(volts))
        return amps, slope / (1.0 + self.ohms * slope)

    def nudge(self, volts: float) -> float:
        amps, siemens = self.at(volts)
        return amps * self.ohms * siemens

    def spice(self, name: str, a: str, b: str) -> str:
        inner = f"{name}_in"
        return f"R{name}_s {a} {inner} {self.ohms:.12g}\n{self.law.spice(name, inner, b)}"


def inner_volts(law: Law, volts: float) -> float:
    """Voltage (V) over what a law stands for, without the resistance put in series with it."""
    return law.inside(volts) if isinstance(law, InSeries) else volts


def inner_law(law: Law) -> Law:
    """The law without the resistance put in series with it."""
    return law.law if isinstance(law, InSeries) else law


def add_ohms(law: Law, ohms: float) -> Law:
    """The law with a resistance in series; straight laws and motors stay what they are."""
    match law:
        case Open():
            return law
        case Resistance():
            return Resistance(law.ohms + ohms)
        case Source():
            return Source(law.volts, law.ohms + ohms)
        case Armature():
            return Armature(law.ohms + ohms, law.emf_volts, law.load_amps, law.friction_amps)
        case InSeries():
            return InSeries(law.law, law.ohms + ohms)
    return InSeries(law, ohms)
