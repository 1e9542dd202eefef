"""What a worked example is made of.

An element lies between two nodes; node "0" is the common point. Kinds and their values:

resistor  (ohms,)
source    (volts,)          ideal; the first node is positive
current   (amps,)           ideal; flows out of the first node into the circuit
lamp      (watts, volts)    filament lamp at its rating
motor     (ohms, volts)     armature and its back-EMF, first node positive
diode     (volts,)          silicon diode with this forward drop, anode first
zener     (volts,)          Zener diode with this voltage, cathode first

An answer asks for the "volts" of a node against another (or across an element), the "amps" through
an element from its first node to its second, the "watts" of an element, or the "ohms" that a source
sees. Of a source, "amps" and "watts" are those it delivers. `digits` is the number of significant
digits in print.
"""

from typing import NamedTuple

LESSONS_1 = "Lessons In Electric Circuits vol. I"
LESSONS_3 = "Lessons In Electric Circuits vol. III"
OPENSTAX = "OpenStax College Physics"
FAA = "FAA AC 43.13-1B"


class Element(NamedTuple):
    """One part of a circuit."""

    name: str
    kind: str
    a: str
    b: str
    values: tuple[float, ...]


class Answer(NamedTuple):
    """One printed answer: quantity of an element, or of a node pair written "a,b"."""

    quantity: str
    of: str
    printed: float
    digits: int
    is_misprint: bool = False


class Example(NamedTuple):
    """A circuit and what its source prints about it."""

    name: str
    source: str
    elements: tuple[Element, ...]
    answers: tuple[Answer, ...]


def resistor(name: str, a: str, b: str, ohms: float) -> Element:
    """A resistor in ohms."""
    return Element(name, "resistor", a, b, (ohms,))


def source(name: str, a: str, b: str, volts: float) -> Element:
    """An ideal voltage source in volts, positive at a."""
    return Element(name, "source", a, b, (volts,))


def series(volts: float, *ohms: float) -> tuple[Element, ...]:
    """Source E from 1 to 0 and resistors R1, R2 ... from 1 down to 0."""
    ends = [str(n + 1) for n in range(len(ohms))] + ["0"]
    rows = [resistor(f"R{n + 1}", ends[n], ends[n + 1], value) for n, value in enumerate(ohms)]
    return (source("E", "1", "0", volts), *rows)


def parallel(volts: float, *ohms: float) -> tuple[Element, ...]:
    """Source E from 1 to 0 and resistors R1, R2 ... beside it."""
    rows = [resistor(f"R{n + 1}", "1", "0", value) for n, value in enumerate(ohms)]
    return (source("E", "1", "0", volts), *rows)


def bridge(volts: float, *ohms: float) -> tuple[Element, ...]:
    """Source E from 1 to 0; R1 1-2, R2 1-3, R3 2-3, R4 2-0, R5 3-0."""
    ends = (("1", "2"), ("1", "3"), ("2", "3"), ("2", "0"), ("3", "0"))
    rows = [resistor(f"R{n + 1}", *ends[n], value) for n, value in enumerate(ohms)]
    return (source("E", "1", "0", volts), *rows)


def battery(rest_volts: float, inner: float, load: float) -> tuple[Element, ...]:
    """Source E behind the inner resistance r, and the load from 1 to 0."""
    return (
        source("E", "e", "0", rest_volts),
        resistor("r", "e", "1", inner),
        resistor("load", "1", "0", load),
    )


def volts(of: str, printed: float, digits: int) -> Answer:
    """A printed voltage in volts."""
    return Answer("volts", of, printed, digits)


def amps(of: str, printed: float, digits: int) -> Answer:
    """A printed current in amps."""
    return Answer("amps", of, printed, digits)


def watts(of: str, printed: float, digits: int) -> Answer:
    """A printed power in watts."""
    return Answer("watts", of, printed, digits)


def total_ohms(printed: float, digits: int) -> Answer:
    """A printed resistance in ohms seen by source E."""
    return Answer("ohms", "E", printed, digits)


def wire_drop(milliohms_per_foot: float, feet: float) -> tuple[Element, ...]:
    """20 A sent through a length of wire W from 1 to 0."""
    return (
        Element("I", "current", "1", "0", (20.0,)),
        resistor("W", "1", "0", milliohms_per_foot * feet / 1000),
    )


def half_a_unit(answer: Answer) -> float:
    """Half a unit of the last printed digit: how far a right answer may differ from print.

    A printed nought stands for anything below a millionth.
    """
    if answer.printed == 0:
        return 1e-6
    exponent = int(f"{abs(answer.printed):e}".split("e")[1]) - (answer.digits - 1)
    return 0.5 * 10.0**exponent
