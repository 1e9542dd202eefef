"""A number as it was typed, and what may have been meant by it."""

from __future__ import annotations

import re
from dataclasses import dataclass

FACTORS = {"V": 1.0, "mV": 1e-3, "A": 1.0, "mA": 1e-3, "Ω": 1.0, "kΩ": 1e3, "MΩ": 1e6, "mΩ": 1e-3}
SMALLER = {"V": "mV", "A": "mA", "Ω": "mΩ", "kΩ": "Ω", "MΩ": "kΩ"}
LARGER = {"mV": "V", "mA": "A", "mΩ": "Ω", "Ω": "kΩ", "kΩ": "MΩ"}

MOST_TYPED = 16
"""Characters of the longest number that is looked at; a meter shows six digits."""

_NUMBER = re.compile(r"[+-]?(\d+([.,]\d*)?|[.,]\d+)")
_MINUS = str.maketrans("−–", "--")
"""Keyboards and pasted text write minus in several ways."""


@dataclass(frozen=True)
class Typed:
    """A number as typed, in the base unit, and what it was typed as."""

    value: float
    text: str
    unit: str

    def __str__(self) -> str:
        return f"{self.text} {self.unit}"


def number(text: str) -> float | None:
    """A typed number with comma or point as the decimal mark; None where it is not one.

    >>> number("12,3"), number("-.5"), number("1e9"), number("")
    (12.3, -0.5, None, None)
    """
    clean = text.replace(" ", "").translate(_MINUS)
    if len(clean) > MOST_TYPED or not _NUMBER.fullmatch(clean):
        return None
    return float(clean.replace(",", "."))


def slips(reading: Typed) -> list[Typed]:
    """What may have been meant: the other prefix, the other sign, a decimal mark one place off."""
    found: list[Typed] = []
    bare = number(reading.text) or 0.0
    for other in (SMALLER.get(reading.unit), LARGER.get(reading.unit)):
        if other:
            found.append(Typed(bare * FACTORS[other], reading.text, other))
    found.append(Typed(-reading.value, _plain(-bare), reading.unit))
    for factor in (0.1, 10.0):
        found.append(Typed(reading.value * factor, _plain(bare * factor), reading.unit))
    return found


def _plain(value: float) -> str:
    return f"{value:.6f}".rstrip("0").rstrip(".")
