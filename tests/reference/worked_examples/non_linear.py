"""Lamps, motors, diodes and Zener diodes."""

from .shape import (
    LESSONS_3,
    OPENSTAX,
    Element,
    Example,
    amps,
    parallel,
    resistor,
    source,
    total_ohms,
    volts,
    watts,
)

EXAMPLES: tuple[Example, ...] = (
    Example(
        "headlamp, hot",
        f"{OPENSTAX}, Ohm's Law; Electric Power and Energy",
        (
            source("E", "1", "0", 12.0),
            Element("lamp", "lamp", "1", "0", (30.0, 12.0)),
        ),
        (amps("lamp", 2.50, 3), watts("lamp", 30.0, 3), total_ohms(4.80, 3)),
    ),
    Example(
        "headlamp, cold: its first instant",
        f"{OPENSTAX}, Electric Power and Energy",
        parallel(12, 0.350),
        (amps("R1", 34.3, 3), watts("R1", 411, 3)),
    ),
    Example(
        "motor at rest",
        f"{OPENSTAX}, Back Emf",
        (source("E", "1", "0", 48.0), Element("M", "motor", "1", "0", (0.4, 0.0))),
        (amps("M", 120, 3), watts("M", 5.76e3, 3)),
    ),
    Example(
        "motor running",
        f"{OPENSTAX}, Back Emf",
        (source("E", "1", "0", 48.0), Element("M", "motor", "1", "0", (0.4, 40.0))),
        (amps("M", 20, 2),),
    ),
    Example(
        "second motor running",
        f"{OPENSTAX}, Back Emf, problems",
        (source("E", "1", "0", 120.0), Element("M", "motor", "1", "0", (12.0, 100.0))),
        (amps("M", 1.67, 3),),
    ),
    Example(
        "third motor running",
        f"{OPENSTAX}, Back Emf, problems",
        (source("E", "1", "0", 120.0), Element("M", "motor", "1", "0", (6.0, 72.0))),
        (amps("M", 8.00, 3),),
    ),
    Example(
        "motor on a weak battery",
        f"{OPENSTAX}, Back Emf, integrated concepts",
        (
            source("E", "e", "0", 6.0),
            resistor("r", "e", "1", 0.4),
            Element("M", "motor", "1", "0", (0.1, 4.50)),
        ),
        (amps("M", 3.00, 3),),
    ),
    Example(
        "motor with a starting resistor",
        "a general physics textbook; the armature is inferred from the printed answers",
        (
            source("E", "e", "0", 120.0),
            resistor("Rs", "e", "1", 7.28),
            Element("M", "motor", "1", "0", (0.72, 0.0)),
        ),
        (amps("M", 15.0, 3),),
    ),
    # The book does not rate the lamp of these two; 1.2 W is ours and does not change the answers.
    Example(
        "diode and lamp, forward",
        f"{LESSONS_3} ch. 3 Introduction to diodes",
        (
            source("E", "1", "0", 6.0),
            Element("D", "diode", "1", "2", (0.7,)),
            Element("lamp", "lamp", "2", "0", (1.2, 6.0)),
        ),
        (volts("lamp", 5.3, 2),),
    ),
    Example(
        "diode and lamp, reversed",
        f"{LESSONS_3} ch. 3 Introduction to diodes",
        (
            source("E", "1", "0", 6.0),
            Element("D", "diode", "2", "1", (0.7,)),
            Element("lamp", "lamp", "2", "0", (1.2, 6.0)),
        ),
        (volts("1,2", 6.0, 2),),
    ),
    Example(
        "zener behind a dropping resistor",
        f"{LESSONS_3} ch. 3 Zener diodes",
        (
            source("E", "1", "0", 45.0),
            resistor("R", "1", "2", 1e3),
            Element("Z", "zener", "2", "0", (12.6,)),
        ),
        (
            volts("R", 32.4, 3),
            amps("R", 32.4e-3, 3),
            watts("R", 1.0498, 5),
            watts("Z", 408.24e-3, 5),
        ),
    ),
    Example(
        "zener with a load",
        f"{LESSONS_3} ch. 3 Zener diodes",
        (
            source("E", "1", "0", 45.0),
            resistor("R", "1", "2", 1e3),
            Element("Z", "zener", "2", "0", (12.6,)),
            resistor("load", "2", "0", 500.0),
        ),
        (amps("load", 25.2e-3, 3), amps("Z", 7.2e-3, 2)),
    ),
    Example(
        "zener starved by too large a resistor",
        f"{LESSONS_3} ch. 3 Zener diodes",
        (
            source("E", "1", "0", 45.0),
            resistor("R", "1", "2", 100e3),
            Element("Z", "zener", "2", "0", (12.6,)),
            resistor("load", "2", "0", 500.0),
        ),
        (amps("R", 447.76e-6, 5), volts("load", 224e-3, 3), volts("R", 44.776, 5)),
    ),
)
