"""Voltage drop of wires, with the two misprints of one table."""

from .shape import (
    FAA,
    LESSONS_1,
    Answer,
    Example,
    amps,
    series,
    volts,
    wire_drop,
)

EXAMPLES: tuple[Example, ...] = (
    Example(
        "two long wires",
        f"{LESSONS_1} ch. 12 Temperature coefficient of resistance",
        series(14, 15, 250, 15),
        (amps("E", 50e-3, 2), volts("R2", 12.5, 3), volts("R1", 0.75, 2)),
    ),
    Example(
        "two long wires, warm",
        f"{LESSONS_1} ch. 12 Temperature coefficient of resistance",
        series(14, 15.909, 250, 15.909),
        (amps("E", 49.677e-3, 5), volts("R2", 12.42, 4), volts("R1", 0.79, 2)),
    ),
    *(
        Example(
            f"wire drop, no. {gauge}, {feet:g} ft",
            f"{FAA} tables 11-7 and 11-8",
            wire_drop(milliohms, feet),
            (Answer("volts", "W", printed, digits, is_misprint),),
        )
        for gauge, milliohms, feet, printed, digits, is_misprint in (
            (6, 0.44, 107, 0.942, 3, False),
            (4, 0.28, 90, 0.504, 3, False),
            (14, 3.06, 100, 6.12, 3, False),
            (10, 1.26, 39, 0.98, 2, False),
            (10, 1.26, 156, 3.93, 3, False),
            (10, 1.26, 273, 6.88, 3, False),
            # Print is loosely rounded: 3.555 V.
            (12, 2.02, 88, 3.60, 3, True),
            # Print is plainly wrong: 0.491 V.
            (10, 1.26, 19.5, 0.366, 3, True),
        )
    ),
)
