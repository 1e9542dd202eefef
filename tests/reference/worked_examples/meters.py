"""What a meter does to the circuit it measures."""

from .shape import (
    LESSONS_1,
    OPENSTAX,
    Element,
    Example,
    amps,
    battery,
    resistor,
    series,
    source,
    volts,
)

EXAMPLES: tuple[Example, ...] = (
    Example(
        "voltmeter on a weak divider",
        f"{LESSONS_1} ch. 8 Voltmeter impact on measured circuit",
        (*series(24, 250e6, 250e6), resistor("meter", "2", "0", 10e6)),
        (volts("meter", 0.8889, 4), volts("R1", 23.1111, 6)),
    ),
    Example(
        "voltmeter on a cell",
        f"{OPENSTAX}, DC Voltmeters and Ammeters, problems",
        battery(1.585, 0.1, 1e3),
        (amps("load", 1.58e-3, 3), volts("load", 1.5848, 5)),
    ),
    Example(
        "ammeter in the 3 ohm branch",
        f"{LESSONS_1} ch. 8 Ammeter impact on measured circuit",
        (
            source("E", "1", "0", 2.0),
            resistor("R1", "1", "2", 3.0),
            resistor("meter", "2", "0", 0.5),
            resistor("R2", "1", "0", 1.5),
        ),
        (amps("meter", 571.43e-3, 5), amps("R2", 1.333, 4)),
    ),
    Example(
        "ammeter in the 1.5 ohm branch",
        f"{LESSONS_1} ch. 8 Ammeter impact on measured circuit",
        (
            source("E", "1", "0", 2.0),
            resistor("R1", "1", "0", 3.0),
            resistor("R2", "1", "2", 1.5),
            resistor("meter", "2", "0", 0.5),
        ),
        (amps("R1", 666.7e-3, 4), amps("meter", 1, 1)),
    ),
    Example(
        "movement as a voltmeter of 10 V",
        f"{LESSONS_1} ch. 8 Voltmeter design",
        series(10, 9.5e3, 500),
        (amps("R2", 1e-3, 1),),
    ),
    Example(
        "movement as an ammeter of 5 A",
        f"{LESSONS_1} ch. 8 Ammeter design",
        (
            Element("I", "current", "1", "0", (5.0,)),
            resistor("shunt", "1", "0", 100.02e-3),
            resistor("movement", "1", "0", 500.0),
        ),
        (amps("movement", 1e-3, 4),),
    ),
    *(
        Example(
            f"ohmmeter at {share:g} of its scale",
            f"{LESSONS_1} ch. 8 Ohmmeter design",
            series(9, 8.5e3, 500, ohms),
            (amps("R2", share * 1e-3, 2),),
        )
        for share, ohms in ((0.5, 9e3), (0.25, 27e3), (0.75, 3e3))
    ),
)
