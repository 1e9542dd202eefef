"""Every check worth thinking of on a circuit, with the tools at hand."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from footwell.checks.behind_plug import into_plugs
from footwell.checks.bench import BENCHED
from footwell.checks.check import (
    BENCH,
    CLAMP,
    FEED,
    FUSE_LAMP,
    LAMP,
    LISTEN,
    LOOK,
    OHMS,
    SUBSTITUTE,
    VOLTS,
    Check,
)
from footwell.checks.clamped import wires_behind
from footwell.checks.hands import Tools, at_hand
from footwell.checks.lines import bus_fuses, on_both_lines
from footwell.checks.minutes import reach_minutes
from footwell.checks.pairs import plugged_places, touchable_pairs
from footwell.checks.safety import refusal
from footwell.checks.showing import showing
from footwell.circuit.circuit import Circuit, Element
from footwell.circuit.setup import SetupState, can_run, set_up, taken_apart
from footwell.electrics.laying import load_ways
from footwell.electrics.network import Slot
from footwell.electrics.operating_point import OperatingPoint, operate
from footwell.parts.base import EARTH
from footwell.parts.laws import Open
from footwell.reference.meters import SUBSTITUTE_LAMP_WATTS
from footwell.sheet.models import SheetControl

MOST_SETUPS = 12
MOST_FOLLOWED = 3
"""Positions in which one wire is followed."""

FUSES = ("fuse",)
"""Kinds that are pulled by hand and replaced by a lamp."""

OPENED = (*FUSES, "contact")
LOOKED_AT = (*OPENED, "wire", "splice")
"""Kinds that are looked at: some once they are out or apart, wires and splices, which lie in the loom, where
nothing is left to measure."""


def working_setups(circuit: Circuit, engine: str = "off") -> list[SetupState]:
    """Set-ups in which some control is switched on, everything plugged, fewest controls on first; where there
    are very many, some in which each load works."""
    key = ("working set-ups", engine)
    if key not in circuit.cache:
        circuit.cache[key] = showing(circuit, _switched_on(circuit, engine), MOST_SETUPS)
    return list(circuit.cache[key])


def _switched_on(circuit: Circuit, engine: str) -> Iterator[SetupState]:
    controls = circuit.sheet.controls
    names = [c.part for c in controls]
    for on in range(1, len(controls) + 1):
        for row in _with_so_many_on(controls, on):
            setup = set_up(circuit, dict(zip(names, row, strict=True)), engine=engine)
            if engine == "off" or can_run(circuit, setup):
                yield setup


def _with_so_many_on(controls: Sequence[SheetControl], on: int) -> Iterator[tuple[str, ...]]:
    """Positions of all controls with `on` of them away from rest, in the order of the sheet. Made one
    by one: all of them would be hundreds of millions on a sheet of eight controls."""
    if not controls:
        yield ()
        return
    first, others = controls[0], controls[1:]
    for position in first.positions:
        left = on - (position.id != first.off)
        if 0 <= left <= len(others):
            yield from ((position.id, *row) for row in _with_so_many_on(others, left))


def catalogue(circuit: Circuit, tools: Tools, engine: str = "off") -> list[Check]:
    """All checks that may be done, each once, in a fixed order."""
    key = ("catalogue", tools, engine)
    if key not in circuit.cache:
        found = dict.fromkeys(_all(circuit, engine))
        circuit.cache[key] = [
            c for c in found if at_hand(circuit, c, tools) and not refusal(circuit, c)
        ]
    return circuit.cache[key]  # type: ignore[no-any-return]


def _all(circuit: Circuit, engine: str) -> Iterator[Check]:
    setups = working_setups(circuit, engine)
    for setup in setups:
        yield from _to_earth(circuit, setup)
        yield from _drops(circuit, setup)
        yield from (Check(CLAMP, wire, "", setup) for wire in _feed_wires(circuit))
        yield from (
            Check(LISTEN, e.id, "", setup)
            for e in circuit.elements.values()
            if e.kind.seen_as == "click"
        )
    yield from _opened(circuit, [setup._replace(engine="off") for setup in setups])


def _opened(circuit: Circuit, setups: list[SetupState]) -> Iterator[Check]:
    """Checks for which something is unplugged, pulled, opened or held in the hand: never while the engine
    runs."""
    yield from _substituted(circuit, setups)
    yield from _behind_fuses(circuit, setups)
    yield from _followed(circuit, setups)
    rest = set_up(circuit)
    yield from _isolated(circuit, rest)
    yield from into_plugs(circuit)
    yield from _between_lines(circuit, rest)
    yield from _without_a_unit(circuit, setups)
    yield from _switches(circuit)
    yield from (Check(FEED, load, "", rest) for load in circuit.sheet.loads)
    yield from (
        Check(BENCH, e.id, "", taken_apart(rest, (e.id,)))
        for e in circuit.elements.values()
        if e.kind.name in BENCHED
    )
    yield from (
        Check(LOOK, e.id, "", rest) for e in circuit.elements.values() if e.kind.name in OPENED
    )


def looked_at(circuit: Circuit, element: str) -> Check | None:
    """A look along a wire or at a splice; None where it must not be touched."""
    check = Check(LOOK, element, "", set_up(circuit))
    return None if refusal(circuit, check) else check


def _to_earth(circuit: Circuit, setup: SetupState) -> Iterator[Check]:
    for place in plugged_places(circuit):
        yield Check(VOLTS, place.id, EARTH, setup)
        yield Check(LAMP, place.id, EARTH, setup)


def _drops(circuit: Circuit, setup: SetupState) -> Iterator[Check]:
    """Between the two ends of every part, wire and contact that carries current when all is well: a
    drop without current says nothing."""
    point = operate(circuit, setup)
    carrying = {(s.element, s.branch.name) for s in point.slots if _carries(point, s)}
    for key, (a, b) in touchable_pairs(circuit).items():
        if key in carrying:
            yield Check(VOLTS, a, b, setup)


LEAST_AMPS = 0.02


def _carries(point: OperatingPoint, slot: Slot) -> bool:
    return abs(slot.branch.law.at(point.across(slot))[0]) >= LEAST_AMPS


def _feed_wires(circuit: Circuit) -> list[str]:
    """Wires that a clamp goes around: thick enough to feed a load, and not at the battery, where the
    rest of the vehicle's current flows as well."""
    battery = circuit.supply_element
    posts = {battery.nodes["+"], battery.nodes["-"]}
    return [
        w.id
        for w in circuit.sheet.wires
        if (w.mm2 or 1.0) >= 0.75
        and not posts & {circuit.elements[w.id].nodes[end] for end in ("1", "2")}
    ]


def _substituted(circuit: Circuit, setups: list[SetupState]) -> Iterator[Check]:
    watts = SUBSTITUTE_LAMP_WATTS.value
    for plug in load_plugs(circuit):
        feed, earth = load_ways(circuit, plug)
        for setup in setups:
            lamped = taken_apart(setup, (plug,), ((plug, watts),))
            yield Check(SUBSTITUTE, plug, "", lamped)
            yield Check(VOLTS, feed, earth, lamped)
            yield Check(VOLTS, feed, earth, taken_apart(setup, (plug,)))


def fuses(circuit: Circuit) -> list[str]:
    """Fuses that are pulled by hand."""
    return [e.id for e in circuit.elements.values() if e.kind.name in FUSES]


def _behind_fuses(circuit: Circuit, setups: list[SetupState]) -> Iterator[Check]:
    """A lamp or a meter in place of a fuse, with the loads plugged in, with some unplugged, and with all
    of them and one more connector apart: what flows then flows through a short before that."""
    plugs = _pulled(circuit)
    for fuse in fuses(circuit):
        for setup in setups:
            point = operate(circuit, setup)
            if not any(s.element == fuse and _carries(point, s) for s in point.slots):
                continue
            for apart in plugs:
                opened = taken_apart(setup, (fuse, *apart))
                yield Check(FUSE_LAMP, fuse, "", opened)
                yield Check(VOLTS, f"{fuse}.1", f"{fuse}.2", opened)


def _followed(circuit: Circuit, setups: list[SetupState]) -> Iterator[Check]:
    """A clamp around each wire behind a fuse, a lamp in the fuse's place: through a short the lamp drives a
    current that the clamp follows wire by wire to where it ends. Each wire in the first positions in which
    the switches let the current come to it: in one of them a relay may fail to."""
    watts = SUBSTITUTE_LAMP_WATTS.value
    for fuse in fuses(circuit):
        followed: Counter[str] = Counter()
        for setup in setups:
            lamped = taken_apart(setup, (fuse,), ((fuse, watts),))
            behind = [w for w in wires_behind(circuit, fuse, setup) if followed[w] < MOST_FOLLOWED]
            followed.update(behind)
            yield from (Check(CLAMP, wire, "", lamped) for wire in behind)


def _pulled(circuit: Circuit) -> list[tuple[str, ...]]:
    """Sets of connectors to pull in the search for a short, each once."""
    loads = [unplugged(circuit, load) for load in circuit.sheet.loads]
    everything = tuple(sorted({plug for plugs in loads for plug in plugs}))
    further = [tuple(sorted({*everything, c.id})) for c in circuit.sheet.connectors if c.unplugs]
    return list(dict.fromkeys([(), *loads, everything, *further]))


def unplugged(circuit: Circuit, part: str) -> tuple[str, ...]:
    """Connectors to pull so that a part is out of the circuit; () where it has no plug."""
    return tuple(
        c.id
        for c in circuit.sheet.connectors
        if c.unplugs and any(p.startswith(f"{part}.") for p in c.part_ways.values())
    )


def load_plugs(circuit: Circuit) -> list[str]:
    """Plugs whose two ways lead to one load alone."""
    found: list[str] = []
    for c in circuit.sheet.connectors:
        if (
            len(c.part_ways) == 2
            and len(c.parts) == 1
            and c.parts <= set(circuit.sheet.loads)
            and c.unplugs
        ):
            found.append(c.id)
    return found


def _isolated(circuit: Circuit, rest: SetupState) -> Iterator[Check]:
    """Ohms between terminals of parts that come out of the circuit by a plug or by hand."""
    for part in circuit.sheet.parts:
        element = circuit.elements[part.id]
        kind = element.kind
        if not kind.measured_alone and not kind.measured_between:
            continue
        plugs = [
            c
            for c in circuit.sheet.connectors
            if any(p.startswith(part.id + ".") for p in c.part_ways.values())
        ]
        apart = tuple(c.id for c in plugs if c.unplugs) or (
            (part.id,) if element.kind.pulls_out else ()
        )
        if not apart:
            continue
        held = _terminal_points(circuit, part.id)
        setup = taken_apart(rest, apart)
        for branch in circuit.branches(element, element.kind.states(element.values)[0]):
            if (
                branch.a in held
                and branch.b in held
                and (kind.measured_alone or {branch.a, branch.b} <= {*kind.measured_between})
                and branch.name not in ("contact", "rest", "diode")
            ):
                yield Check(OHMS, held[branch.a], held[branch.b], setup)


def _between_lines(circuit: Circuit, rest: SetupState) -> Iterator[Check]:
    """Ohms between the two lines of a data bus with the units' fuses out: as it is, and with each plug
    on it off, at that plug's side of the loom."""
    fuses = bus_fuses(circuit)
    for red, black in _line_pairs(circuit) if fuses else ():
        yield Check(OHMS, red, black, taken_apart(rest, fuses))
        plug = circuit.connectors[red.split(".")[0]]
        if plug.unplugs:
            yield Check(OHMS, red, black, taken_apart(rest, (*fuses, plug.id)))


def _without_a_unit(circuit: Circuit, setups: list[SetupState]) -> Iterator[Check]:
    """Volts on each line of a data bus with one plug on it off. Where a probe gets to it most easily: a
    short that goes with the plug lies behind it. At the plug's own half: what is open before it shows."""
    pairs = sorted(_line_pairs(circuit), key=lambda pair: reach_minutes(circuit, _owner(pair[0])))
    plugs = dict.fromkeys(_owner(red) for red, _ in pairs)
    for plug in (name for name in plugs if circuit.connectors[name].unplugs):
        elsewhere = next((pair for pair in pairs if _owner(pair[0]) != plug), ())
        own = [place for pair in pairs if _owner(pair[0]) == plug for place in pair]
        for setup in setups:
            apart = taken_apart(setup, (plug,))
            yield from (Check(VOLTS, place, EARTH, apart) for place in (*elsewhere, *own))


def _owner(place: str) -> str:
    return place.split(".")[0]


def _line_pairs(circuit: Circuit) -> Iterator[tuple[str, str]]:
    """Two places of one half of a connector on the two lines of a bus; of a part's plug the loom's half."""
    for c in circuit.sheet.connectors:
        ways = [way for row in c.rows for way in row]
        for half in ("a",) if c.part_ways else ("a", "b"):
            here = [p for way in ways if (p := f"{c.id}.{way}.{half}") in circuit.wires_in]
            yield from (
                (red, black)
                for n, red in enumerate(here)
                for black in here[n + 1 :]
                if on_both_lines(circuit, red, black)
            )


def _switches(circuit: Circuit) -> Iterator[Check]:
    """Ohms across a control with its plug off, in every position, between the terminals it should join."""
    for control in circuit.sheet.controls:
        element = circuit.elements[control.part]
        apart = unplugged(circuit, control.part)
        held = _terminal_points(circuit, control.part)
        for position in (p.id for p in control.positions) if apart else ():
            setup = set_up(circuit, {control.part: position}, apart)
            for a, b in _joined(circuit, element, position):
                if a in held and b in held:
                    yield Check(OHMS, held[a], held[b], setup)


def _joined(circuit: Circuit, element: Element, position: str) -> list[tuple[str, str]]:
    """Terminals between which an ohmmeter should find something in a position."""
    if not element.kind.measured_alone and not element.kind.metal:
        return []
    branches = circuit.branches(element, position)
    return [(b.a, b.b) for b in branches if not isinstance(b.law, Open)]


def _terminal_points(circuit: Circuit, part: str) -> dict[str, str]:
    """Terminal of a part to the place where it is touched with its plug off."""
    found = {t: f"{part}.{t}" for p in circuit.sheet.parts if p.id == part for t in p.probe}
    for c in circuit.sheet.connectors:
        for way, point in c.part_ways.items():
            owner, terminal = point.split(".", 1)
            if owner == part:
                found.setdefault(terminal, f"{c.id}.{way}.b")
    element = circuit.elements[part]
    if element.kind.pulls_out and not found:
        found = {t: f"{part}.{t}" for t in element.kind.terminals(element.values)}
    return found
