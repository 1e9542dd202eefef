"""Where a figure comes from, and how far it may be trusted."""

from dataclasses import dataclass
from typing import Literal

Standing = Literal["seen", "memory", "derived", "common practice", "assumption"]
"""How a figure reached this package.

seen: read in the named publication, or in a copy or extract of it;
memory: recalled, not checked against the document;
derived: worked out here from other figures, as the title says;
common practice: a fact of the trade that has no source;
assumption: a guess that waits for workshop counts.
"""

Confidence = Literal["high", "medium", "low"]
"""low means the order of magnitude only: never a limit that decides a verdict."""


@dataclass(frozen=True)
class Source:
    """One origin of figures, kept beside each row that rests on it."""

    title: str
    standing: Standing
    confidence: Confidence


@dataclass(frozen=True)
class Figure:
    """A single published number with its unit."""

    value: float
    unit: str
    source: Source


@dataclass(frozen=True)
class Spread:
    """A quantity that differs from vehicle to vehicle: mean and standard deviation in `unit`."""

    mean: float
    sigma: float
    unit: str
    source: Source

    @property
    def relative_sigma(self) -> float:
        """Standard deviation as a share of the mean.

        >>> Spread(10.0, 0.5, "ohm", Source("example", "assumption", "low")).relative_sigma
        0.05
        """
        return self.sigma / self.mean
