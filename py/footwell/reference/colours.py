"""Wire colour codes of IEC 60757, and reading a wire's base and stripe."""

from collections.abc import Mapping
from dataclasses import dataclass

from .sources import Source

COLOURS_SOURCE = Source(
    "IEC 60757, as a cable assembler prints it (GD and SR from memory)", "seen", "high"
)
# The standard joins two codes in the order of its own table, so it does not tell base from stripe.
BASE_STRIPE_SOURCE = Source("base colour first, stripe second", "common practice", "high")
GERMAN_SOURCE = Source(
    "German colour abbreviations, as a cable assembler prints them", "seen", "high"
)

# In the order of table 1 of the standard.
COLOURS: Mapping[str, str] = {
    "BK": "black",
    "BN": "brown",
    "RD": "red",
    "OG": "orange",
    "YE": "yellow",
    "GN": "green",
    "BU": "blue",
    "VT": "violet",
    "GY": "grey",
    "WH": "white",
    "PK": "pink",
    "GD": "gold",
    "TQ": "turquoise",
    "SR": "silver",
}

CODES: Mapping[str, str] = {name: code for code, name in COLOURS.items()}

# Codes of other lists, kept apart because some mean another colour elsewhere: BL, GR, BR.
GERMAN_CODES: Mapping[str, str] = {
    "SW": "BK",
    "BR": "BN",
    "RT": "RD",
    "OR": "OG",
    "GE": "YE",
    "GN": "GN",
    "BL": "BU",
    "VI": "VT",
    "GR": "GY",
    "WS": "WH",
    "RS": "PK",
    "TK": "TQ",
}

# Colours that age into one another: no reading should rest on them alone (common practice, no
# source).
EASILY_CONFUSED: tuple[frozenset[str], ...] = (
    frozenset({"RD", "PK", "OG"}),
    frozenset({"VT", "BN", "GY"}),
)

# Orange jackets mark voltage class B (UN R100, ISO 6469-3; memory, high): stop, not a 12 or 24 V
# circuit.
HIGH_VOLTAGE_JACKET = "OG"


@dataclass(frozen=True)
class WireColour:
    """Base colour and, if there is one, stripe, as codes of IEC 60757."""

    base: str
    stripe: str | None = None

    def __str__(self) -> str:
        """The code as it is written on a diagram, base first."""
        return self.base if self.stripe is None else f"{self.base}/{self.stripe}"

    @property
    def words(self) -> str:
        """The colour in English words.

        >>> WireColour("BK", "WH").words
        'black with white stripe'
        """
        base = COLOURS[self.base]
        return base if self.stripe is None else f"{base} with {COLOURS[self.stripe]} stripe"


def parse_wire_colour(text: str) -> WireColour:
    """Read "RD" or "RD/BK": base, then stripe, as codes of IEC 60757 or English names.

    A slash or a hyphen parts them. ValueError says which part is not a colour and what to write.
    Base before stripe is trade practice; the standard's own joined form (RDBU) is refused, for it
    does not tell the base.

    >>> parse_wire_colour("rd/bk")
    WireColour(base='RD', stripe='BK')
    >>> parse_wire_colour("RD/RD")
    Traceback (most recent call last):
    ...
    ValueError: Wire colour 'RD/RD' has the same base and stripe; write RD alone.
    """
    parts = [part.strip() for part in text.replace("-", "/").split("/")]
    if len(parts) > 2:
        raise ValueError(
            f"Wire colour {text!r} has {len(parts)} colours; write base/stripe, for example RD/BK."
        )
    base = _code(parts[0], "base", text)
    if len(parts) == 1:
        return WireColour(base)
    stripe = _code(parts[1], "stripe", text)
    if stripe == base:
        raise ValueError(f"Wire colour {text!r} has the same base and stripe; write {base} alone.")
    return WireColour(base, stripe)


def can_be_confused(one: str, other: str) -> bool:
    """Whether two colours are easily taken for each other on aged insulation or in a photograph.

    >>> can_be_confused("VT", "BN"), can_be_confused("BK", "WH")
    (True, False)
    """
    return one != other and any({one, other} <= group for group in EASILY_CONFUSED)


def _code(part: str, place: str, text: str) -> str:
    code = CODES.get(part.lower(), part.upper())
    if code in COLOURS:
        return code
    raise ValueError(f"In wire colour {text!r} {_why_not(code, place, part)}")


def _why_not(code: str, place: str, part: str) -> str:
    if not code:
        return f"the {place} is missing; write base/stripe, for example RD/BK."
    if len(code) == 4 and code[:2] in COLOURS and code[2:] in COLOURS:
        base, stripe = code[:2], code[2:]
        return f"base and stripe are joined; write {base}/{stripe} if {COLOURS[base]} is the base."
    listed = ", ".join(COLOURS)
    german = GERMAN_CODES.get(code)
    if german is not None:
        return f"the {place} {part!r} is a German code; {COLOURS[german]} is {german} in IEC 60757."
    return f"the {place} {part!r} is no code of IEC 60757; write one of {listed}."
