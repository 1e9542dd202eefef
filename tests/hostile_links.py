"""Hostile links, and what opening one costs."""

from __future__ import annotations

import base64
import random
import time
import tracemalloc
import zlib
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

from footwell.job import links
from footwell.job.link_words import WORDS

SAMPLE = Path(__file__).parents[1] / "fixtures" / "links" / "F1.txt"
ALPHABET = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_.F# é\u202e\u0000"
SLOW_S, LARGE_BYTES = 1.0, 32_000_000


@dataclass
class Cost:
    """What some links did to the decoder."""

    tried: int = 0
    opened: int = 0
    slowest_s: float = 0.0
    largest_bytes: int = 0
    faults: list[str] = field(default_factory=list)

    def add(self, other: Cost) -> None:
        self.tried, self.opened = self.tried + other.tried, self.opened + other.opened
        self.slowest_s = max(self.slowest_s, other.slowest_s)
        self.largest_bytes = max(self.largest_bytes, other.largest_bytes)
        self.faults += other.faults


def packed(content: bytes) -> str:
    """A link of any content whose length and checksum are right."""
    packer = zlib.compressobj(9, zlib.DEFLATED, -15, zdict=WORDS.encode())
    body = base64.urlsafe_b64encode(packer.compress(content) + packer.flush()).decode().rstrip("=")
    return f"F1.{len(body)}.{links._checksum(body, content)}.{body}"


def corpus() -> list[str]:
    """200 cases: bombs, depth, numbers, shapes, cuts and broken characters."""
    whole = SAMPLE.read_text("utf-8").strip()
    bombs = [packed(letter * 10**size) for letter in (b" ", b"[", b"0", b'"') for size in (5, 6, 7)]
    deep = [packed(b'{"events":' + one * n) for one in (b"[", b'{"a":') for n in (31, 33, 3_000)]
    event = '{"events":[{"device":"a","n":%s,"job":"j","kind":"k","format":1,"at":"","body":"{}"}]}'
    values = ("NaN", "Infinity", "1e999", "true", '"1"', "null", "-1", "1" * 5_000, "[]", "{}")
    numbers = [packed((event % value).encode()) for value in values]
    shapes = [packed(text) for text in (b"", b"null", b"[]", b"{", b"\xff\xfe", b'{"events":{}}')]
    shapes += [packed(b'{"events":[' + b"{}," * 100_000 + b"{}]}"), "F1." * 20_000, "." * 60_000]
    later = [packed(b'{"events":[],"later":[' + b * 140_000 + b"0]}") for b in (b"[],", b'{"":0},')]
    shapes += later
    cases = [*bombs, *deep, *numbers, *shapes]
    step = len(whole) / (200 - len(cases))
    return cases + [whole[: int(i * step)] for i in range(200 - len(cases))]


def mutations(count: int, seed: int) -> Iterator[str]:
    """The sample link and the corpus with characters changed, taken out, doubled or moved; half of
    them changed before they are packed, so that the checksum is right."""
    chance = random.Random(seed)
    whole = SAMPLE.read_text("utf-8").strip()
    content = links._unpacked(whole.rpartition(".")[2])
    for i in range(count):
        if i % 2:
            yield packed(changed(content.decode(), chance).encode())
        else:
            yield changed(whole, chance)


def changed(text: str, chance: random.Random) -> str:
    for _ in range(chance.randint(1, 4)):
        at, length = chance.randrange(len(text)), chance.randint(1, 12)
        piece = text[at : at + length]
        other = "".join(chance.choices(ALPHABET + '{}[],:"', k=length))
        text = text[:at] + chance.choice([other, "", piece * 3]) + text[at + length :]
    return text


def cost_of(cases: Iterator[str] | list[str], weigh_memory: bool) -> Cost:
    """Open each: only a job or a LinkError may come of it. Seconds are of the processor: a decoder waits
    for nothing, and what else the machine does is not its cost."""
    cost = Cost()
    for text in cases:
        cost.tried += 1
        if weigh_memory:
            tracemalloc.start()
        begun = time.process_time()
        try:
            links.decode(text)
            cost.opened += 1
        except links.LinkError:
            pass
        except Exception as fault:
            cost.faults.append(f"{type(fault).__name__} for {text[:60]!r}")
        taken = time.process_time() - begun
        if weigh_memory:
            cost.largest_bytes = max(cost.largest_bytes, tracemalloc.get_traced_memory()[1])
            tracemalloc.stop()
        cost.slowest_s = max(cost.slowest_s, taken)
    return cost
