"""Writes py/footwell/job/link_words.py: the words that both ends of a link know beforehand.

`.venv/bin/python -m tests.core.link_words_maker` writes it anew from the sample circuits. Words belong
to their format for good: once a release has made links, a change here needs a new format.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from footwell.circuit.circuit import Circuit, build
from footwell.circuit.places import places
from footwell.job import link_words
from footwell.job.events import BODIES, CheckSkipped, Event, ReadingTaken, Setup, Shown
from footwell.page.check_view import INSTRUMENT_NAMES
from footwell.page.words import short_named
from footwell.reference.sight_words import WORDS as SIGHTS
from footwell.sheet.reading import read_sheet

FOLDER = Path(__file__).parents[2] / "fixtures" / "circuits"
FILE = Path(link_words.__file__)

PHRASES = (
    '{"check":"","reason":"cannot reach","asked":"',
    '{"changes":[{"element":"","field":"colour","value":"RD"}]}',
    '{"element":"","mode":"high_resistance","what":"mended","note":""}',
    '{"element":"","mode":"open:thermal fuse","what":"renewed","note":""}',
    '{"words":"","dead_now":"comes and goes","renewed":[',
    '{"words":"","dead_now":"yes","renewed":[],"rewired":["X2"],"seen":[{"where":"","what":"green"}]}',
    '{"connector":"X2","half":"a","found":{"1":"W2","2":null,"3":null,"4":null},"loose":[]}',
    '{"connector":"X2","half":"a","now":{"1":"W2","2":"W3","3":"W4","4":"W5","5":null,"6":null}}',
    '{"engine":"off"}',
    '{"engine":"on","supply_volts":12.',
    '{"instruments":["meter","test lamp","substitute lamp","clamp","fused jumper"],"helper":false}',
    '{"hazard":"moving fan"}',
    '{"hazard":"hot part"}',
    '{"hazard":"battery"}',
    '{"hazard":"fused lead"}',
    '{"seen_by":"customer","states":[{"controls":{"S1":"1"},"load":"M1","state":"still"}',
    '{"seen_by":"me","states":[{"controls":{"S1":"1"},"load":"M1","state":"runs"},{"controls":{"',
    "Can the feed and the earth carry a lamp?",
    "Does the feed hold under a lamp in place of the load?",
    "Unplug . Put a 21 W lamp across its two ways. Switch on and look at the lamp.",
    "Feed it from the battery through a lead with a fuse of at most 15 A, its other side to"
    " battery −. Mind the polarity.",
    "Pull  out and look at its wire.",
    " on both halves, pull gently on each wire.",
    "Is  sound to the eye?",
    "Is  sound by itself?",
    "What current flows in ",
    "Put the clamp around  alone, arrow along the current.",
    "Switch off, unplug  and pull out ",
    " Meter on Ω between  and . Then lead and knob back to V.",
    "What stands at ",
    "Clip the test lamp to clean metal of the body. Touch ",
    "What is lost across ",
    "Red lead on terminal ",
    "burnt, green or loose",
    "clean and tight",
    "over range",
    "not steady",
    "Over range",
    "All well here.",
    "Fits nothing suspected so far; measure again.",
    "above the band",
    "in the band",
    "not as expected",
    '"as expected"',
    '["Higher","Points to ',
    '["Lower","Points to ',
    '["In the band","Points to ',
    ". Clears 1",
    ". Clears 2",
    " or 1 more.",
    " or 2 more. Clears ",
    " or 3 more.",
)
"""What the page writes into events beside the sheet's own words, the commonest last."""


def words() -> str:
    """All words, what is used once and early first: it may leave the window before the end."""
    circuits = [_circuit(file) for file in sorted(FOLDER.glob("*.json"))]
    opened = [_opened(file) for file in sorted(FOLDER.glob("*.json"))]
    names = dict.fromkeys(name for circuit in circuits for name in _names(circuit))
    pieces = [*opened, *_sights(), *names, *_escaped(PHRASES), *_kinds(), *_readings()]
    return "".join(pieces)


def _circuit(file: Path) -> Circuit:
    read = read_sheet(file.read_text("utf-8"))
    return build(read.sheet, read.values)


def _opened(file: Path) -> str:
    """The first event of a job on a sample circuit, as the page writes it."""
    sheet = json.loads(file.read_text("utf-8"))
    return _event("job opened", {"title": sheet["title"], "sheet": sheet})


def _names(circuit: Circuit) -> Iterator[str]:
    yield from (place.name for place in places(circuit).values())
    yield from (short_named(circuit, element) for element in circuit.elements)


def _sights() -> Iterator[str]:
    for said in SIGHTS.values():
        yield from (word.capitalize() for word in said)
        yield from said
    yield from INSTRUMENT_NAMES


def _kinds() -> Iterator[str]:
    return (f'","kind":"{kind}","format":1,"at":"2026-' for kind in BODIES)


def _readings() -> Iterator[str]:
    """Readings last, and the commonest of them at the very end: the nearest words cost least."""
    yield _event("check skipped", CheckSkipped(check="volts ", reason="alone"))
    yield _event("reading taken", _reading("clamp", "W", Setup(controls={"S1": "3"}), "A"))
    lamp = Setup(controls={"A1": "on", "S2": "off"}, apart=["X4"], stand_in={"X4": "21 W"})
    yield _event("reading taken", _reading("substitute lamp", "X", lamp, ""))
    yield _event("reading taken", _reading("test lamp", "X6.1.a", Setup(), ""))
    yield _event("reading taken", _reading("ohms", "X", Setup(apart=["X3"]), "Ω"))
    yield _event("reading taken", _reading("volts", "X", Setup(controls={"S1": "1"}), "V"))


def _reading(instrument: str, red: str, setup: Setup, unit: str) -> ReadingTaken:
    number = bool(unit)
    shown = Shown(
        goal="Does the feed reach way ",
        do="Back-probe way , wire side. Black lead on clean metal of the body.",
        low=0.0 if number else None,
        high=2.0 if number else None,
        unit=unit,
        outcomes=[
            ("About 0 V" if number else "Dark", "Points to . Clears 1."),
            ("Near supply voltage" if number else "Bright", "Points to . Clears 3."),
        ],
        verdict="below the band" if number else "as expected",
        release="0.1.0",
    )
    return ReadingTaken(
        check=f"{instrument} {red}",
        instrument=instrument,
        red=red,
        black="earth" if instrument in ("volts", "test lamp") else "",
        setup=setup,
        value=0.0 if number else None,
        choice="" if number else "bright",
        typed=f"0 {unit}" if number else "",
        shown=shown,
    )


def _event(kind: str, body: Any) -> str:
    """An event as a link holds it, without the names of phone and job."""
    text = body.model_dump_json() if isinstance(body, ReadingTaken | CheckSkipped) else _json(body)
    event = Event(device="d", n=1, job="j", kind=kind, format=1, at="2026-", body=text)
    return event.model_dump_json().replace('"device":"d"', '"device":"').replace('"job":"j",', "")


def _escaped(texts: tuple[str, ...]) -> Iterator[str]:
    return (_json(text)[1:-1] for text in texts)


def _json(data: Any) -> str:
    return json.dumps(data, ensure_ascii=False, separators=(",", ":"))


HEAD = '''"""The words that both ends of a link know beforehand: part of the format of links.

Written by tests/core/link_words_maker.py. Never edited once a release has made links with it: without
these very words a link cannot be unpacked.
"""

WORDS = r"""
'''
TAIL = '''""".replace("\\n", "")
'''


def module() -> str:
    """The module's text. Lines end where no space is, so that no editor can trim them."""
    lines, rest = [], words()
    while rest:
        cut = min(96, len(rest))
        while cut < len(rest) and " " in rest[cut - 1 : cut + 1]:
            cut -= 1
        lines.append(rest[:cut])
        rest = rest[cut:]
    return HEAD + "\n".join(lines) + TAIL


if __name__ == "__main__":
    FILE.write_text(module(), encoding="utf-8")
    print(f"{len(words().encode()):,} bytes of words")
