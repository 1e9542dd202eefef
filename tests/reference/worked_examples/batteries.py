"""Batteries with inner resistance, healthy and tired."""

from .shape import (
    LESSONS_1,
    OPENSTAX,
    Element,
    Example,
    amps,
    battery,
    resistor,
    source,
    volts,
    watts,
)

EXAMPLES: tuple[Example, ...] = (
    Example(
        "battery with a light load",
        f"{OPENSTAX}, Electromotive Force: Terminal Voltage",
        battery(12, 0.1, 10),
        (amps("E", 1.188, 4), volts("load", 11.9, 3)),
    ),
    Example(
        "battery with a heavy load",
        f"{OPENSTAX}, Electromotive Force: Terminal Voltage",
        battery(12, 0.1, 0.5),
        (amps("E", 20.0, 3), volts("load", 10.0, 3), watts("load", 200, 3)),
    ),
    Example(
        "aged battery with a heavy load",
        f"{OPENSTAX}, Electromotive Force: Terminal Voltage",
        battery(12, 0.5, 0.5),
        (amps("E", 12.0, 3), volts("load", 6.00, 3), watts("load", 72.0, 3)),
    ),
    Example(
        "battery with inner resistance",
        f"{LESSONS_1} ch. 11 Battery construction",
        battery(10, 0.2, 1),
        (amps("E", 8.333, 4), volts("load", 8.333, 4)),
    ),
    Example(
        "battery shorted",
        f"{LESSONS_1} ch. 11 Battery construction",
        (*battery(10, 0.2, 1), source("short", "1", "0", 0.0)),
        (amps("E", 50, 2),),
    ),
    *(
        Example(
            f"{state} battery under load",
            f"{LESSONS_1} ch. 11 Battery ratings",
            battery(rest, inner, 100),
            (volts("load", printed, digits),),
        )
        for state, rest, inner, printed, digits in (
            ("good", 13.2, 0.1, 13.187, 5),
            ("slightly discharged", 13.0, 5.0, 12.381, 5),
            ("moderately discharged", 11.5, 20.0, 9.583, 4),
            ("dead", 7.5, 50.0, 5.0, 1),
        )
    ),
    Example(
        "battery being charged",
        f"{OPENSTAX}, Electromotive Force: Terminal Voltage, problems",
        (
            source("E", "e", "0", 12.0),
            resistor("r", "1", "e", 0.375),
            Element("I", "current", "1", "0", (8.0,)),
        ),
        (volts("1,0", 15.0, 3),),
    ),
)
