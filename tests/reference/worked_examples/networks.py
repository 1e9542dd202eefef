"""Circuits that need more than series and parallel: bridges and two sources."""

from .shape import (
    LESSONS_1,
    OPENSTAX,
    Example,
    amps,
    bridge,
    resistor,
    source,
    volts,
    watts,
)

TWO_SOURCES = (
    source("B1", "b1", "0", 28.0),
    resistor("R1", "b1", "1", 4.0),
    resistor("R2", "1", "0", 2.0),
    resistor("R3", "1", "b2", 1.0),
    source("B2", "b2", "0", 7.0),
)

EXAMPLES: tuple[Example, ...] = (
    Example(
        "two sources, one charges the other",
        f"{LESSONS_1} ch. 10 Branch current method",
        TWO_SOURCES,
        (
            amps("R1", 5, 1),
            amps("R2", 4, 1),
            amps("R3", 1, 1),
            volts("R1", 20, 2),
            volts("R2", 8, 1),
            volts("R3", 1, 1),
        ),
    ),
    Example(
        "two sources, load taken off",
        f"{LESSONS_1} ch. 10 Thevenin's theorem",
        tuple(element for element in TWO_SOURCES if element.name != "R2"),
        (volts("1,0", 11.2, 3),),
    ),
    Example(
        "two sources, load shorted",
        f"{LESSONS_1} ch. 10 Norton's theorem",
        (*TWO_SOURCES, source("short", "1", "0", 0.0)),
        (amps("short", -14, 2),),
    ),
    Example(
        "largest power at the matched load",
        f"{LESSONS_1} ch. 10 Maximum power transfer",
        tuple(
            resistor("R2", "1", "0", 0.8) if element.name == "R2" else element
            for element in TWO_SOURCES
        ),
        (watts("R2", 39.2, 3),),
    ),
    Example(
        "unbalanced bridge",
        f"{LESSONS_1} ch. 10 Mesh current method",
        bridge(24, 150, 50, 100, 300, 250),
        (
            volts("R1", 6.345, 4),
            volts("R2", 4.690, 4),
            volts("3,2", 1.655, 4),
            volts("R4", 17.66, 4),
            volts("R5", 19.31, 4),
            amps("E", 136.092e-3, 6),
            amps("R2", 93.793e-3, 5),
            amps("R5", 77.241e-3, 5),
            amps("R1", 42.299e-3, 5),
            amps("R4", 58.851e-3, 5),
            amps("R3", -16.552e-3, 5),
        ),
    ),
    Example(
        "second unbalanced bridge",
        f"{LESSONS_1} ch. 10 Delta-Y conversion",
        bridge(10, 12, 18, 6, 18, 12),
        (
            volts("R1", 4.706, 4),
            volts("R2", 5.294, 4),
            volts("R3", 0.5882, 4),
            volts("R4", 5.294, 4),
            volts("R5", 4.706, 4),
        ),
    ),
    Example(
        "two sources, node voltages",
        f"{LESSONS_1} ch. 10 Node voltage method",
        (
            source("E1", "a", "0", 10.0),
            resistor("R1", "a", "1", 2.0),
            resistor("R2", "1", "0", 4.0),
            resistor("R3", "1", "2", 2.5),
            resistor("R4", "2", "0", 5.0),
            source("E2", "b", "0", -4.0),
            resistor("R5", "b", "2", 1.0),
        ),
        (volts("1,0", 3.8095, 5), volts("2,0", -1.5476, 5)),
    ),
    Example(
        "two sources with inner resistance",
        f"{OPENSTAX}, Kirchhoff's Rules",
        (
            source("E1", "0", "a", 18.0),
            resistor("R2", "1", "a", 3.0),
            resistor("R1", "0", "1", 6.0),
            source("E2", "0", "b", 45.0),
            resistor("R3", "1", "b", 2.0),
        ),
        (amps("R1", 4.75, 3), amps("R2", -3.50, 3), amps("R3", 8.25, 3)),
    ),
    Example(
        "balanced bridge",
        f"{OPENSTAX}, Null Measurements, problems",
        bridge(10, 1000, 2500, 1e6, 625, 1562.5),
        (amps("R3", 0, 1),),
    ),
)
