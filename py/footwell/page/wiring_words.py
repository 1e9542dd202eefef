"""The wires of one half of a connector in sentences: what differs, the slip behind it, each move."""

from __future__ import annotations

from collections.abc import Mapping

from footwell.checks.safety import hands_off
from footwell.circuit.circuit import Circuit, HalfId
from footwell.circuit.places import wires_named
from footwell.faults.miswiring import SPARE, as_drawn, nearest_slip
from footwell.faults.moves import moves
from footwell.faults.orders import order_words
from footwell.page import words as say
from footwell.sheet.points import number

Held = Mapping[str, str | None]
"""Way to its wires, joined by "+"; None is an empty way."""


def spares_in(wires: str | None) -> list[str]:
    """The wires in a way that are not on the sheet."""
    return [w for w in (wires or "").split("+") if w.startswith(SPARE)]


class HalfWords:
    """Sentences with the numbers that people see beside the ways."""

    def __init__(self, circuit: Circuit, half: HalfId) -> None:
        self._circuit, self._half = circuit, half

    def _seen(self, way: str) -> str:
        return number(self._circuit.connectors[self._half[0]], way)

    def slip(self, whole: Held) -> str:
        """The slip behind the differences, or behind most of them."""
        near = nearest_slip(self._circuit, self._half, whole)
        if near is not None and not near[1]:
            return say.capital(near[0])
        order = order_words(as_drawn(self._circuit, self._half), whole, self._seen)
        if order:
            return say.capital(order)
        beside = self._beside(whole)
        if beside:
            return beside
        if near is None:
            return "No single slip explains the differences"
        title, rest = near[0], [self._seen(way) for way in near[1]]
        ways = (
            f"ways {', '.join(rest[:-1])} and {rest[-1]} differ"
            if rest[1:]
            else f"way {rest[0]} differs"
        )
        return f"Mostly this: {title}. Besides, {ways}"

    def _beside(self, whole: Held) -> str:
        """A wire that sits beside that of another way; "" where something else is wrong."""
        drawn = as_drawn(self._circuit, self._half)
        differing = [way for way, wires in drawn.items() if whole.get(way) != wires]
        for gone, there in (differing, differing[::-1]) if len(differing) == 2 else ():
            wires, others = drawn[gone], drawn[there]
            both = set((whole.get(there) or "").split("+"))
            if (
                wires
                and others
                and not whole.get(gone)
                and both == {*f"{wires}+{others}".split("+")}
            ):
                way, other = self._seen(gone), self._seen(there)
                return (
                    f"The wire of way {way} put into way {other}, beside the one that belongs there"
                )
        return ""

    def differences(self, drawn: Held, found: Held) -> list[str]:
        """Each way that holds something else than it should."""
        rows: list[str] = []
        for way, should in drawn.items():
            has = found.get(way)
            if has != should:
                there, right = self._or_nothing(has), self._or_nothing(should)
                rows.append(f"Way {self._seen(way)}: {there} found, {right} belongs there.")
        return rows

    def _or_nothing(self, wires: str | None) -> str:
        return self._wire(wires) if wires else "nothing"

    def _wire(self, wires: str) -> str:
        """A wire, or several in one way: "RD (W3)", "a spare wire GY"."""
        own = "+".join(w for w in wires.split("+") if not w.startswith(SPARE))
        told = [f"{wires_named(self._circuit, own)} ({own})"] if own else []
        told += [f"a spare wire {w[len(SPARE) :]}".rstrip() for w in spares_in(wires)]
        return " and ".join(told)

    def alike(self, drawn: Held) -> list[str]:
        """Wires of one colour cannot be told apart by it."""
        by_colour: dict[str, list[str]] = {}
        for wires in drawn.values():
            if not wires or spares_in(wires):
                continue
            name = wires_named(self._circuit, wires)
            if "wire" not in name:
                by_colour.setdefault(name, []).append(wires)
        return [
            f"{len(alike)} wires are {colour}. Follow each to its other end before you say which it "
            f"is: {', '.join(alike)}."
            for colour, alike in by_colour.items()
            if len(alike) > 1
        ]

    def spares(self, drawn: Held, found: Held) -> list[str]:
        """What to do with wires that are not on the sheet, and with more than one in a way."""
        rows: list[str] = []
        for way, wires in found.items():
            belong = spares_in(drawn.get(way))
            rows += [self._spare(way, spare, spare in belong) for spare in spares_in(wires)]
            if wires and "+" in wires and wires != drawn.get(way):
                rows.append(self._several(way, wires, drawn.get(way)))
        return rows

    def _spare(self, way: str, spare: str, belongs: bool) -> str:
        colour, seen = spare[len(SPARE) :], self._seen(way)
        if belongs:
            return (
                f"Way {seen} holds {colour or 'a wire'} as the plug that was read: it is on no sheet, so "
                "what it does is not counted here."
            )
        named = f"The spare wire {colour}".rstrip()
        return (
            f"{named} of way {seen}: insulate its end by itself and tie it back. First measure that it "
            "carries no voltage."
        )

    def _several(self, way: str, wires: str, should: str | None) -> str:
        belong = len(should.split("+")) if should else "none"
        return (
            f"{len(wires.split('+'))} wires sit in way {self._seen(way)}, where the sheet has {belong}: one "
            "terminal is crimped for one wire."
        )

    def moves(self, drawn: dict[str, str | None], found: Held) -> list[str]:
        """How the wires are put right, or why nobody but qualified people may."""
        forbidden = hands_off(self._circuit, self._half[0])
        return [forbidden] if forbidden else [self._move(*row) for row in moves(drawn, found)]

    def _move(self, wires: str, start: str | None, end: str | None) -> str:
        """One move of wires between ways; None is outside."""
        name = self._wire(wires)
        if end is None:
            assert start is not None
            return f"Take {name} out of way {self._seen(start)} and hold it aside."
        if start is None:
            return f"Put {name} into way {self._seen(end)}."
        return f"Move {name} from way {self._seen(start)} to way {self._seen(end)}."
