"""How many published values go through the solver or a law, by topic: `python tests/reference/published.py`.

Each topic names the tests that hold it; the source stands beside each check there.
"""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path
from typing import NamedTuple

ROOT = Path(__file__).parents[2]
EXAMPLES = "tests/core/test_electrics_worked_examples.py"
COLLECT = ("-m", "pytest", "-c", "py/pyproject.toml", "--rootdir", ".", "-q", "--collect-only")


class Topic(NamedTuple):
    """A topic, the file of its tests, and words of which one is in their names; none for all."""

    name: str
    file: str
    words: tuple[str, ...] = ()


TOPICS = (
    Topic("series, parallel and their faults", EXAMPLES, ("series", "parallel", "divider")),
    Topic("bridge", EXAMPLES, ("bridge:",)),
    Topic("two-source circuits", EXAMPLES, ("two sources",)),
    Topic("battery's internal resistance", EXAMPLES, ("battery", "matched load")),
    Topic("meter loading", EXAMPLES, ("voltmeter", "ammeter", "ohmmeter")),
    Topic("wire drop", EXAMPLES, ("wire drop", "long wires", "in the feed")),
    Topic("lamps", EXAMPLES, ("headlamp", "lamp,")),
    Topic("motor's back-EMF", EXAMPLES, ("motor running", "motor on a weak")),
    Topic("starting current", EXAMPLES, ("motor at rest", "starting resistor")),
    Topic("dropping resistor and Zener", EXAMPLES, ("zener",)),
    Topic("motor's law", "tests/core/test_electrics_motors.py", ("textbook",)),
    Topic(
        "conductors",
        "tests/reference/test_conductors.py",
        ("iso_6722", "textbook", "free_air_list", "printed_diameters"),
    ),
    Topic("fuse times", "tests/reference/test_fuses.py", ("times_of_iso_8820", "printed")),
    Topic("lamp law", "tests/reference/test_lamps.py", ("handbook", "textbook", "tungsten")),
    Topic("thermistor", "tests/core/test_parts_ntc_and_input.py", ("published", "4_098")),
    Topic("60 Ω bus", "tests/core/test_parts_bus_and_rheostat.py", ("ohms_between",)),
    Topic("fusible link", "tests/core/test_parts_protection.py", ("preece", "onderdonk")),
)


def counts() -> dict[str, int]:
    """Checks of each topic, as pytest collects them."""
    files = list(dict.fromkeys(topic.file for topic in TOPICS))
    done = subprocess.run(
        [sys.executable, *COLLECT, *files], cwd=ROOT, capture_output=True, text=True, check=True
    )
    names = [line for line in done.stdout.splitlines() if "::" in line]
    return {topic.name: sum(_belongs(topic, name) for name in names) for topic in TOPICS}


def _belongs(topic: Topic, name: str) -> bool:
    file, _, test = name.partition("::")
    return file == topic.file and (not topic.words or any(word in test for word in topic.words))


if __name__ == "__main__":
    found = counts()
    for topic, count in found.items():
        print(f"{count:4} {topic}")
    print(f"{sum(found.values()):4} published values through the solver or a law")
