"""Contact: the mated pair of terminals in one way of a connector, with its two crimps."""

from __future__ import annotations

from dataclasses import dataclass

from footwell.parts.base import Branch, Context, Kind, Mode, State, rate_of
from footwell.parts.laws import Resistance
from footwell.reference import contacts


@dataclass(frozen=True)
class Contact:
    """`terminal_mm` is the width class of the blade or pin (2.8, 6.3, …); None where unknown."""

    terminal_mm: float | None = None
    rating_amps: float | None = None


def _branches(values: Contact, state: State, context: Context) -> list[Branch]:
    sound = contacts.terminal(values.terminal_mm)
    rating = values.rating_amps or sound.guide_amps
    return [Branch("", "1", "2", Resistance(sound.ohms), sound.relative_sigma, rating)]


KIND = Kind(
    name="contact",
    title="contact",
    values=Contact,
    terminals=lambda _: ("1", "2"),
    branches=_branches,
    modes=lambda _: (
        Mode("open", rate_of("contact", "open"), "not making contact", "renew both terminals"),
        Mode(
            "high_resistance",
            rate_of("contact", "high_resistance"),
            "burnt or corroded",
            "renew both terminals",
            sized=True,
        ),
    ),
    metal=True,
)
