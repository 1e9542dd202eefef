"""Faults, controls, lamps and wirings as they are written on a command line."""

from __future__ import annotations

import re
from collections.abc import Sequence

from footwell.circuit.circuit import AS_DRAWN, Arrangement, Circuit, HalfId, arranged
from footwell.circuit.fault import Fault
from footwell.faults.miswiring import SHARES, Slip, slips
from footwell.messages import FaultNamed
from footwell.page import words as say
from footwell.terminal.files import TerminalError
from footwell.terminal.shapes import FaultSaid


def pairs(texts: Sequence[str], option: str, example: str) -> dict[str, str]:
    """NAME=VALUE texts as a mapping. Raises TerminalError.

    >>> pairs(["S1=3", "A1=on"], "--control", "S1=3")
    {'S1': '3', 'A1': 'on'}
    """
    found: dict[str, str] = {}
    for text in texts:
        name, sign, value = (piece.strip() for piece in text.partition("="))
        if not (name and sign and value):
            raise TerminalError(
                f"{option} takes a name and a value, such as {example}; not {text!r}."
            )
        found[name] = value
    return found


def lamps(texts: Sequence[str]) -> dict[str, str]:
    """Substitute lamps by plug: X4=21 as well as "X4=21 W".

    >>> lamps(["X4=21"])
    {'X4': '21 W'}
    """
    found = pairs(texts, "--lamp", "X4=21")
    return {plug: f"{watts.removesuffix('W').strip()} W" for plug, watts in found.items()}


def fault(text: str) -> FaultNamed:
    """PART:MODE or PART:MODE@SIZE. Raises TerminalError.

    >>> fault("R1:open:thermal fuse").mode, fault("W9:high_resistance@0.2").size
    ('open:thermal fuse', 0.2)
    """
    element, sign, rest = (piece.strip() for piece in text.partition(":"))
    mode, at, size = rest.partition("@")
    if not (element and sign and mode):
        example = "R1:open or W9:high_resistance@0.2"
        raise TerminalError(f"--fault takes PART:MODE, such as {example}; not {text!r}.")
    try:
        return FaultNamed(element=element, mode=mode.strip(), size=float(size) if at else None)
    except ValueError:
        raise TerminalError(
            f"The size of a fault is a number, such as @0.2; not {size!r}."
        ) from None


def said(circuit: Circuit, faults: Sequence[Fault]) -> list[FaultSaid]:
    """Faults in the terminal's form."""
    return [
        FaultSaid(
            part=f.element,
            mode=f.mode,
            where=say.place_named(circuit, f.element),
            size=f.size or None,
        )
        for f in faults
    ]


def half_named(half: HalfId) -> str:
    """A half of a connector: "X2.a"."""
    return ".".join(half)


def slip_of(circuit: Circuit, text: str) -> Slip:
    """CONNECTOR=SLIP, such as X2=mirrored, X2.b=turned, X2=exchanged:1,2. Raises TerminalError.

    What follows the colon are words of the slip's name: ways, or up and down.
    """
    ((where, what),) = pairs([text], "--wiring", "X2=mirrored").items()
    connector, _, side = where.partition(".")
    half = (connector, side or "a")
    if connector not in circuit.connectors or half[1] not in ("a", "b"):
        raise TerminalError(f"{where} is no connector of this sheet, nor half a or b of one.")
    kind, _, rest = what.partition(":")
    words = set(re.findall(r"[^\s,]+", rest))
    found = [s for s in slips(circuit, half) if s.kind == kind and words <= set(s.title.split())]
    if len(found) != 1:
        raise _not_one(where, what, found)
    return found[0]


def _not_one(where: str, what: str, found: Sequence[Slip]) -> TerminalError:
    if not found:
        return TerminalError(
            f"{where} cannot be {what!r}. Slips are: {', '.join(SHARES)}, with ways after a colon."
        )
    listed = [slip.title for slip in found]
    return TerminalError(
        f"{where}={what} may be any of {len(found)}. Add ways after a colon, such as {what}:1,2.",
        listed,
    )


def arrangement_of(chosen: Sequence[Slip]) -> Arrangement:
    """The wiring of a vehicle with these slips."""
    wired = AS_DRAWN
    for slip in chosen:
        wired = arranged(wired, slip.half, dict(slip.wiring))
    return wired
