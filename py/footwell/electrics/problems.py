"""What an operating point has against it, in the words of the trade.

Nothing here stops the work: every circuit of a sheet can be solved. But where a fuse opens, a relay
chatters, a wire would burn or no rest was found, the voltages alone would mislead.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import inf

from footwell.circuit.circuit import Circuit
from footwell.circuit.setup import SetupState
from footwell.electrics.breaks import Side, name_of
from footwell.electrics.laying import is_apart
from footwell.electrics.network import Slot
from footwell.electrics.normal import below
from footwell.electrics.operating_point import (
    CHECK_SECONDS,
    OperatingPoint,
    opening_seconds,
    operate,
)
from footwell.electrics.tipping import doubts
from footwell.electrics.turns import Doubt
from footwell.electrics.unfed import SIDES, Unfed, unfed

BURNS_AT = 3.0
"""A wire at its guide is some 30 K warmer than the air, and heat goes with the square of the
current: three times the guide is 270 K, more than any insulation stands (derived)."""


@dataclass(frozen=True)
class Trouble:
    """One thing that is odd: a code for programs, a sentence for people, the elements concerned."""

    code: str
    sentence: str
    elements: tuple[str, ...]


def troubles(point: OperatingPoint) -> list[Trouble]:
    """All that is odd about an operating point, the gravest first.

    >>> from footwell.circuit.example import work_lamp
    >>> from footwell.circuit.fault import Fault
    >>> from footwell.circuit.setup import set_up
    >>> from footwell.electrics.operating_point import operate
    >>> circuit, chafed = work_lamp(), (Fault("W3", "short_to_earth"),)
    >>> for trouble in troubles(operate(circuit, set_up(circuit, {"S1": "on"}), chafed)):
    ...     print(trouble.sentence)
    Fuse F1 (10 A) blows at once: 155 A would flow through it.
    No supply reaches lamp H1 with the switch in “on”: fuse F1 has blown.
    """
    return [
        *_not_settled(point),
        *_burning_wire(point),
        *_blown_fuses(point),
        *_to_and_fro(point),
        *_in_doubt(point),
        *_another_rest(point),
        *_odd_states(point),
        *_unfed_loads(point),
    ]


def _not_settled(point: OperatingPoint) -> Iterator[Trouble]:
    if point.settled:
        return
    bent = dict.fromkeys(s.element for s in point.slots if not s.branch.law.linear)
    names = " and ".join(_name(point, e) for e in bent if e in point.circuit.elements)
    yield Trouble(
        "not_settled",
        f"No steady voltages were found, so the figures shown are only the last ones tried. "
        f"Check the volts, amps, watts and ohms that the sheet gives for {names}.",
        tuple(bent),
    )


def _odd_states(point: OperatingPoint) -> Iterator[Trouble]:
    """Electronics that protect themselves, or that lack the supply they would have if all were sound."""
    for element in point.circuit.elements.values():
        state = point.states[element.id]
        told = element.kind.oddities.get(state, "")
        here = told and not is_apart(element, point.setup.apart)
        if here and (state != element.rest or _sound_state(point, element.id) != state):
            yield Trouble("odd_state", f"{_start(point, element.id)} {told}.", (element.id,))


def _sound_state(point: OperatingPoint, element: str) -> str:
    return operate(point.circuit, point.setup).states[element]


def _burning_wire(point: OperatingPoint) -> Iterator[Trouble]:
    """The wire furthest beyond its guide; what follows from the same current needs no sentence."""
    beyond = [(_amps(point, s) / rating, s) for s, rating in _rated_wires(point)]
    ratio, slot = max(beyond, key=lambda row: row[0], default=(0.0, None))
    if slot is None or ratio < BURNS_AT:
        return
    amps, guide = _amps(point, slot), slot.branch.rating_amps
    yield Trouble(
        "wire_burns",
        f"{_start(point, slot.element)} would burn: it carries {_told(amps)} A, its guide is "
        f"{_told(guide or 0.0)} A, and no fuse opens. Leave this switched off until the cause is "
        f"found.",
        (slot.element,),
    )


def _rated_wires(point: OperatingPoint) -> Iterator[tuple[Slot, float]]:
    for slot in point.slots:
        element = point.circuit.elements.get(slot.element)
        if element is not None and element.kind.name == "wire" and slot.branch.rating_amps:
            yield slot, slot.branch.rating_amps


def _blown_fuses(point: OperatingPoint) -> Iterator[Trouble]:
    for n, fuse in enumerate(point.blown):
        still_whole = {e: point.circuit.elements[e].rest for e in point.blown[n:]}
        yield Trouble("fuse_blows", _blowing(point.held(still_whole), fuse), (fuse,))


def _blowing(before: OperatingPoint, fuse: str) -> str:
    slot = max((s for s in before.slots if s.element == fuse), key=lambda s: _amps(before, s))
    amps, rating = _amps(before, slot), slot.branch.rating_amps or 0.0
    times = opening_seconds(before, before.circuit.elements[fuse])
    latest = times[1] if times else inf
    when = " at once" if latest <= 1.0 else f" within {latest:.0f} s" if latest <= 60.0 else ""
    element = before.circuit.elements[fuse]
    after = element.kind.after_opening(element.values)
    return (
        f"{_start(before, fuse)} ({_told(rating)} A) {element.kind.opens_as}{when}: {_told(amps)} A "
        f"would flow through it. {after}"
    ).rstrip()


def _to_and_fro(point: OperatingPoint) -> Iterator[Trouble]:
    for name in point.chatters:
        element = point.circuit.elements[name]
        first, second = (
            point.held({name: state}).felt(name)
            for state in element.kind.states(element.values)[:2]
        )
        words = "goes to and fro by itself. Look at what feeds it."
        if element.kind.to_and_fro is not None:
            words = element.kind.to_and_fro(first, second, point.circuit.context)
        yield Trouble("relay_chatters", f"{_start(point, name)} {words}", (name,))


def _in_doubt(point: OperatingPoint) -> Iterator[Trouble]:
    """Parts so near to a limit that another of their make would do the opposite."""
    for doubt in doubts(point):
        tipping, gone = doubt.tipping, below(doubt.score)
        rows = [(gone, tipping.done), (1.0 - gone, tipping.spared)]
        first, second = (
            f"{words} ({share * 100.0:.0f} %)"
            for share, words in sorted(rows, key=lambda row: -row[0])
        )
        yield Trouble(
            "in_doubt",
            f"{_start(point, doubt.element)} is near its {tipping.limit}: {_feeling(doubt)}. "
            f"It {first}, or it {second}.",
            (doubt.element,),
        )


def _feeling(doubt: Doubt) -> str:
    if doubt.tipping.unit == "V":
        return f"its coil gets {doubt.quantity:.1f} V"
    return f"{_told(doubt.quantity)} A would flow through it for {CHECK_SECONDS:.0f} s"


def _another_rest(point: OperatingPoint) -> Iterator[Trouble]:
    """Parts that would as well stay in another state, had something put them there before."""
    for element in point.circuit.elements.values():
        kind, found = element.kind, point.states[element.id]
        if kind.moves is None or (kind.positions is not None and not kind.remembers):
            continue
        if element.id in (*point.chatters, *point.setup.apart):
            continue
        for state in kind.states(element.values):
            if state != found and _stays(point, element.id, state):
                yield Trouble(
                    "another_rest",
                    f'{_start(point, element.id)} is taken as in "{found}", where it is from '
                    f'switch-off; once put in "{state}" it would stay there as well. Find out which it is.',
                    (element.id,),
                )


def _stays(point: OperatingPoint, name: str, state: str) -> bool:
    """Whether an element that is put in a state stays there by itself."""
    element, circuit = point.circuit.elements[name], point.circuit
    put = operate(circuit, point.setup, point.faults, point.clips, held={name: state})
    assert element.kind.moves is not None
    return element.kind.moves(element.values, put.felt(name), circuit.context) == state


def _unfed_loads(point: OperatingPoint) -> Iterator[Trouble]:
    """A sentence for every reason, with all the loads that it puts out."""
    groups: dict[tuple[tuple[Side, ...], str], list[Unfed]] = {}
    for row in unfed(point):
        groups.setdefault((row.lacks, row.reason), []).append(row)
    where = _positions(point.circuit, point.setup)
    for group in groups.values():
        first, loads = group[0], [row.load for row in group]
        names = _together([name_of(point.circuit, load) for load in loads])
        both = first.both_at if not group[1:] else None
        after = "" if both is None else f" Both its sides stand at {both:.1f} V."
        sentence = f"{_lack(first.lacks, names, len(group))}{where}{_why(first)}.{after}"
        yield Trouble("no_current", sentence, tuple(dict.fromkeys([*loads, first.element])))


def _lack(lacks: tuple[Side, ...], names: str, count: int) -> str:
    if lacks == ("earth",) and count == 1:
        return f"The earth side of {names} reaches no earth"
    heads = {
        ("supply",): "No supply reaches",
        ("earth",): "No earth reaches the earth sides of",
        SIDES: "Neither supply nor earth reaches",
        (): "Supply and earth reach",
    }
    return f"{heads[lacks]} {names}"


def _why(row: Unfed) -> str:
    return f": {row.reason}" if row.lacks else f", but {row.reason}"


def _positions(circuit: Circuit, setup: SetupState) -> str:
    """Where the controls stand that are not at rest: " with the fan switch in “3”"."""
    at = dict(setup.controls)
    spoken = [
        f"the {control.name} in “{name}”"
        for control in circuit.sheet.controls
        if at[control.part] != control.off
        for name in (p.name for p in control.positions if p.id == at[control.part])
    ]
    return f" with {_together(spoken)}" if spoken else ""


def _together(names: list[str]) -> str:
    """Names as a list in words.

    >>> _together(["a"]), _together(["a", "b", "c"])
    ('a', 'a, b and c')
    """
    return " and ".join([", ".join(names[:-1]), names[-1]] if names[1:] else names)


def _coil_volts(point: OperatingPoint, relay: str) -> float:
    nodes = point.circuit.elements[relay].nodes
    return abs(point.volts[nodes["86"]] - point.volts[nodes["85"]])


def _amps(point: OperatingPoint, slot: Slot) -> float:
    return abs(slot.branch.law.at(point.across(slot))[0])


def _told(amps: float) -> str:
    """Amps as a person says them: whole from 10 A on.

    >>> [_told(amps) for amps in (0.25, 2.0, 7.46, 15.0, 612.4)]
    ['0.25', '2', '7.5', '15', '612']
    """
    return f"{amps:.0f}" if amps >= 10.0 else f"{amps:.2g}"


def _name(point: OperatingPoint, element: str) -> str:
    return point.circuit.elements[element].name


def _start(point: OperatingPoint, element: str) -> str:
    name = _name(point, element)
    return name[:1].upper() + name[1:]
