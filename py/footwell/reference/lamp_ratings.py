"""Filament lamps of UN Regulation 37: ratings, and the most they may take at the test voltage."""

from collections.abc import Mapping
from dataclasses import dataclass

from .lamps import HOT_OVER_COLD, HOT_OVER_COLD_HALOGEN
from .sources import Confidence, Figure, Source

_TYPICAL = Source(
    "UN R37 states a maximum; the typical lamp is taken 5 % below it", "assumption", "medium"
)

POWER_RELATIVE_SIGMA = Figure(0.04, "of the power", _TYPICAL)


@dataclass(frozen=True)
class Lamp:
    """One filament of a lamp category: rating, and the most it may take at the test voltage."""

    category: str
    filament: str
    rated_volts: float
    rated_watts: float
    test_volts: float
    max_watts_at_test: float
    lumens_at_test: float
    source: Source

    @property
    def is_halogen(self) -> bool:
        """Halogen lamps run hotter and so have the larger ratio of hot to cold resistance."""
        return self.category.startswith("H")

    @property
    def hot_over_cold(self) -> float:
        """Resistance hot over resistance at 20 degC."""
        return (HOT_OVER_COLD_HALOGEN if self.is_halogen else HOT_OVER_COLD).value

    @property
    def typical_watts_at_test(self) -> float:
        """Power of the usual lamp at the test voltage, in watts.

        Give it with `test_volts` to `lamp_law`: some categories, H7 among them, would exceed their
        own maximum if scaled up from the rated watts.

        >>> round(lamp("H7", 12).typical_watts_at_test, 1)
        55.1
        """
        return 0.95 * self.max_watts_at_test


def _r37(confidence: Confidence) -> Source:
    return Source("UN Regulation 37, category sheet", "memory", confidence)


_R37_HIGH, _R37_MEDIUM = _r37("high"), _r37("medium")
_R37_SEEN = Source(
    "UN Regulation 37, proposal ECE/TRANS/WP.29/GRE/2012/34, sheet PY21/5W", "seen", "high"
)
_BY_TRUST = {"h": _R37_HIGH, "m": _R37_MEDIUM, "s": _R37_SEEN}

# Category, filament, rated V, rated W, test V, most W at test V, lumens at test V, trust.
_ROWS = (
    ("W3W", "", 12, 3, 13.5, 3.85, 22, "m"),
    ("W3W", "", 24, 3, 28, 4.6, 22, "m"),
    ("W5W", "", 12, 5, 13.5, 5.5, 50, "h"),
    ("W5W", "", 24, 5, 28, 7, 50, "m"),
    ("WY5W", "", 12, 5, 13.5, 5.5, 30, "m"),
    ("WY5W", "", 24, 5, 28, 7, 30, "m"),
    ("C5W", "", 12, 5, 13.5, 5.5, 45, "h"),
    ("C5W", "", 24, 5, 28, 7, 45, "m"),
    ("R5W", "", 12, 5, 13.5, 5.5, 50, "h"),
    ("R5W", "", 24, 5, 28, 7, 50, "m"),
    ("R10W", "", 12, 10, 13.5, 11, 125, "h"),
    ("R10W", "", 24, 10, 28, 14, 125, "m"),
    ("T4W", "", 12, 4, 13.5, 4.4, 35, "m"),
    ("T4W", "", 24, 4, 28, 5.5, 35, "m"),
    ("P21W", "", 12, 21, 13.5, 26.5, 460, "h"),
    ("P21W", "", 24, 21, 28, 29.7, 460, "m"),
    ("PY21W", "", 12, 21, 13.5, 26.5, 280, "h"),
    ("PY21W", "", 24, 21, 28, 29.7, 280, "m"),
    ("P21/5W", "major", 12, 21, 13.5, 26.5, 440, "h"),
    ("P21/5W", "minor", 12, 5, 13.5, 6.6, 35, "h"),
    ("P21/5W", "major", 24, 21, 28, 29.7, 440, "m"),
    ("P21/5W", "minor", 24, 5, 28, 10, 40, "m"),
    ("P21/4W", "major", 12, 21, 13.5, 26.5, 440, "m"),
    ("P21/4W", "minor", 12, 4, 13.5, 5.5, 15, "m"),
    ("P21/4W", "major", 24, 21, 28, 29.7, 440, "m"),
    ("P21/4W", "minor", 24, 4, 28, 8.8, 20, "m"),
    ("PY21/5W", "major", 12, 21, 13.5, 26.5, 270, "s"),
    ("PY21/5W", "minor", 12, 5, 13.5, 6.6, 21, "s"),
    ("W16W", "", 12, 16, 13.5, 21.35, 310, "m"),
    ("W21W", "", 12, 21, 13.5, 26.5, 460, "h"),
    ("W21/5W", "major", 12, 21, 13.5, 26.5, 440, "h"),
    ("W21/5W", "minor", 12, 5, 13.5, 6.6, 35, "h"),
    ("P27W", "", 12, 27, 13.5, 32.1, 475, "m"),
    ("H21W", "", 12, 21, 13.5, 26.95, 600, "m"),
    ("H21W", "", 24, 21, 28, 29.4, 600, "m"),
    ("H6W", "", 12, 6, 13.5, 7.35, 125, "m"),
    ("H1", "", 12, 55, 13.2, 68, 1550, "h"),
    ("H1", "", 24, 70, 28, 84, 1900, "h"),
    ("H3", "", 12, 55, 13.2, 68, 1450, "h"),
    ("H3", "", 24, 70, 28, 84, 1750, "h"),
    ("H4", "main", 12, 60, 13.2, 75, 1650, "h"),
    ("H4", "dip", 12, 55, 13.2, 68, 1000, "h"),
    ("H4", "main", 24, 75, 28, 85, 1900, "h"),
    ("H4", "dip", 24, 70, 28, 80, 1200, "h"),
    ("H7", "", 12, 55, 13.2, 58, 1500, "h"),
    ("H7", "", 24, 70, 28, 75, 1750, "h"),
    ("H8", "", 12, 35, 13.2, 43, 800, "m"),
    ("H9", "", 12, 65, 13.2, 73, 2100, "m"),
    ("H11", "", 12, 55, 13.2, 62, 1350, "h"),
    ("H11", "", 24, 70, 28, 80, 1600, "m"),
    ("HB3", "", 12, 60, 13.2, 73, 1860, "h"),
    ("HB4", "", 12, 51, 13.2, 62, 1095, "h"),
)

LAMPS: Mapping[tuple[str, float, str], Lamp] = {
    (category, volts, filament): Lamp(
        category, filament, volts, watts, test, most, flux, _BY_TRUST[trust]
    )
    for category, filament, volts, watts, test, most, flux, trust in _ROWS
}


def lamp(category: str, rated_volts: float, filament: str = "") -> Lamp:
    """The row of a lamp; filament is major, minor, main or dip where a lamp has two.

    >>> lamp("P21/5W", 12, "minor").rated_watts
    5
    >>> lamp("W16W", 24)
    Traceback (most recent call last):
    ...
    ValueError: No W16W lamp for 24 V in the table; it lists W16W 12 V.
    """
    row = LAMPS.get((category, rated_volts, filament))
    if row is None:
        asked = f"{category} {filament}".strip()
        raise ValueError(
            f"No {asked} lamp for {rated_volts:g} V in the table; it lists {_listed(category)}."
        )
    return row


def _listed(category: str) -> str:
    same = [row for row in LAMPS.values() if row.category == category]
    if not same:
        return ", ".join(dict.fromkeys(row.category for row in LAMPS.values()))
    return ", ".join(
        f"{r.category} {r.filament} {r.rated_volts:g} V".replace("  ", " ") for r in same
    )
