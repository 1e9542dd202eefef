"""What every kind of part tells about itself: terminals, branches, fault modes, ratings.

A kind is one file in this folder. It holds a frozen dataclass of the values a sheet may give (None
where the vehicle has not been asked yet) and an object of `Kind` that turns values into branches.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from footwell.parts.laws import Law
from footwell.reference import failures

EARTH = "earth"
"""The vehicle's body: the point all voltages are counted from."""

SUPPLY = "supply"
"""The battery's positive post, where a short to supply leads."""


@dataclass(frozen=True, slots=True)
class Branch:
    """One element between two terminals of a part, or from a terminal to EARTH or SUPPLY.

    `spread` is the relative standard deviation of the law's size. `rating_amps` is what it may
    carry; None where it has no rating of its own.
    """

    name: str
    a: str
    b: str
    law: Law
    spread: float = 0.0
    rating_amps: float | None = None


@dataclass(frozen=True, slots=True)
class Mode:
    """One way to fail, with its relative rate (reference.failures; 1 is one mated contact).

    `title` completes "<part> is ..."; modes of a part with the same `repair` are mended by the same
    act. `sized` faults are a resistance of unknown size; `factors` are the sizes of the others.
    """

    name: str
    rate: float
    title: str
    repair: str = "renew"
    sized: bool = False
    factors: tuple[float, ...] = ()
    of: str = ""
    """Branch that the generic modes open and high_resistance act on; "" for all of them."""


@dataclass(frozen=True, slots=True)
class Context:
    """What a part's values are read in: the vehicle's nominal voltage and the circuit's own default."""

    system_volts: int
    default_amps: float


def rate_of(kind: failures.Kind, mode: failures.Mode) -> float:
    """Relative rate of one mode of one part of a kind."""
    return failures.relative_rate(kind) * failures.mode_shares(kind)[mode]


State = str
"""A switch's position, a relay's "rest" or "pulled", a fuse's "whole" or "blown"; "" elsewhere."""


@dataclass(frozen=True)
class Kind:
    """A kind of part. `branches(values, state, context)` is the healthy part; `broken` changes it.

    `broken(mode, size, branches, values, state, context)` returns the branches under a fault, or None
    to let the generic modes act. `seen_as` is "motor", "lamp", "heat", "click" or "" and says what a
    person can notice. `watches` names two terminals and the voltage law of a coil.
    """

    name: str
    title: str
    values: type[Any]
    terminals: Callable[[Any], tuple[str, ...]]
    branches: Callable[[Any, State, Context], list[Branch]]
    modes: Callable[[Any], tuple[Mode, ...]]
    broken: Callable[[Mode, float, list[Branch], Any, State, Context], list[Branch] | None] = (
        lambda *_: None
    )
    states: Callable[[Any], tuple[State, ...]] = lambda _: ("",)
    seen_as: str = ""
    pulls_out: bool = False
    notices: tuple[str, ...] = field(default=())
