"""The next check: uncertainty about what to repair that it takes away, per minute.

Outcomes of a check are cells: words, or ranges of a number within which suspects cannot be told apart.
The gain of a check is the entropy of the repairs now less what is expected to be left in its cells.
Once one repair stands above the others, only checks that could confirm it (or speak against it) count.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from footwell.checks.catalogue import catalogue
from footwell.checks.check import (
    BENCH,
    CLAMP,
    FEED,
    FUSE_LAMP,
    LISTEN,
    LOAD,
    LOOK,
    OHMS,
    SUBSTITUTE,
    VOLTS,
    Check,
)
from footwell.checks.clipped import part_of
from footwell.checks.glance import Panel
from footwell.checks.minutes import minutes
from footwell.checks.pairs import held_between
from footwell.checks.predict import Branched, Prediction, Reading, Words, expected, readings
from footwell.circuit.circuit import Circuit, Element, HalfId
from footwell.circuit.fault import Fault
from footwell.diagnosis.belief import Belief, Weighed, by_repair, entropy
from footwell.diagnosis.case import Case, started
from footwell.faults.suspects import Repair
from footwell.parts.base import EARTH

LIVE = 120
ENOUGH = 0.995
"""Suspects that take part in the choice: the rest together weigh next to nothing."""

CONFIRM_FROM = 0.8
"""Share of one set of repairs from which a confirming check is looked for."""

APART_SIGMAS = 3.0
"""Numbers closer than this many standard deviations count as one outcome."""

INSPECTION_MINUTES = 1.5
DECISIVE = 0.05
"""Gain (bits) below which a check is not worth proposing."""


@dataclass(frozen=True, slots=True)
class Choice:
    """A check, or the inspection of a half, with its worth: bits, minutes, bits a minute."""

    check: Check | None
    half: HalfId | None
    bits: float
    minutes: float

    @property
    def worth(self) -> float:
        return round(self.bits / max(self.minutes, 0.1), 6)


def choices(case: Case, belief: Belief) -> list[Choice]:
    """Everything worth doing next, best first, ties by the check's id. A check already made in the
    circuit as it stands would say the same again."""
    live = live_of(belief)
    panel = panel_of(case, live)
    before = entropy(list(by_repair(live).values()))
    found = [
        _inspection(case, half, live, before)
        for half in halves_in_doubt(case, live)
        if case.may_look_into(half)
    ]
    found += _telling(case, panel, live, sensible(case, live))
    return sorted(found, key=lambda c: (-c.worth, c.check.id if c.check else ""))


def halves_in_doubt(case: Case, suspects: Iterable[Weighed]) -> list[HalfId]:
    """Halves that may be wired wrongly: those that somebody wired, and those of which a suspect says so."""
    said = (w.hypothesis.slip.half for w in suspects if w.hypothesis.slip)
    return list(dict.fromkeys([*case.doubtful, *said]))


def best_of(case: Case, belief: Belief, checks: Iterable[Check]) -> Choice | None:
    """The one of some checks that is worth doing most, if any is."""
    live = live_of(belief)
    found = _telling(case, panel_of(case, live), live, checks)
    return min(found, key=lambda c: (-c.worth, c.check.id if c.check else ""), default=None)


def _telling(
    case: Case, panel: Panel, live: Sequence[Weighed], checks: Iterable[Check]
) -> Iterator[Choice]:
    """Those of some checks that tell something and are neither made nor passed over."""
    before = entropy(list(by_repair(live).values()))
    passed_over = case.skipped | case.taken
    for check in checks:
        out_of_reach = check.id in passed_over or owners(check) & case.unreachable
        if not out_of_reach and not panel.is_level(check, APART_SIGMAS):
            bits = before - bits_left(cells(panel, check, live))
            if bits > DECISIVE:
                yield Choice(check, None, bits, minutes(case.now, check, case.last_check))


def sensible(case: Case, live: Sequence[Weighed]) -> Iterator[Check]:
    """Every check at hand but for those from a fuse's empty seat where it is not thought to be blown."""
    blown = _blown(live)
    for check in catalogue(case.now, case.tools, case.engine):
        fuse = behind_fuse(check)
        if not fuse or blown.get(fuse, 0.0) >= BLOWN_FROM:
            yield check


def live_of(belief: Belief) -> tuple[Weighed, ...]:
    """The suspects that matter for a choice: the likeliest, up to nearly all of the weight."""
    total = 0.0
    for count, w in enumerate(belief.suspects[:LIVE]):
        if total > ENOUGH * (1.0 - belief.none):
            return belief.suspects[:count]
        total += w.share
    return belief.suspects[:LIVE]


def behind_fuse(check: Check) -> str:
    """The fuse from whose empty seat a check looks for a short; "" for any other check."""
    fuse = check.red.split(".")[0]
    across = check.instrument == VOLTS and check.black != EARTH
    if check.instrument == FUSE_LAMP or (across and owners(check) <= {*check.setup.apart}):
        return fuse
    return check.setup.stand_in[0][0] if check.instrument == CLAMP and check.setup.stand_in else ""


BLOWN_FROM = 0.5
"""Share of a fuse being blown from which shorts are looked for from its seat, and nobody asks what is lost
across it."""


def _blown(live: Sequence[Weighed]) -> dict[str, float]:
    """Share of each element being open."""
    found: dict[str, float] = {}
    for w in live:
        for element in {f.element for f in w.faults if f.mode == "open"}:
            found[element] = found.get(element, 0.0) + w.share
    return found


def owners(check: Check) -> set[str]:
    """Connectors and parts that a check's probes are held to."""
    return {p.split(".")[0] for p in (check.red, check.black)}


def _inspection(case: Case, half: HalfId, live: Sequence[Weighed], before: float) -> Choice:
    """Looking into a half tells its wiring, and nothing else."""
    cellmates: dict[str, list[tuple[Weighed, float]]] = {}
    for w in live:
        slip = w.hypothesis.slip
        key = str(slip.wiring) if slip is not None and slip.half == half else "as drawn"
        cellmates.setdefault(key, []).append((w, 1.0))
    spent = case.now.connectors[half[0]].minutes + INSPECTION_MINUTES
    return Choice(None, half, before - bits_left(list(cellmates.values())), spent)


Cell = list[tuple[Weighed, float]]
"""Suspects that share an outcome, each with its chance of giving it."""


def panel_of(case: Case, live: Sequence[Weighed]) -> Panel:
    """The live suspects as they stand now, ready to be read by any check."""
    now = len(case.epochs) - 1
    rows = [(case.circuit(now, w.hypothesis.slip), w.now, w.known) for w in live]
    return Panel(case.now, rows, case.supply_measured)


def cells(panel: Panel, check: Check, live: Sequence[Weighed]) -> list[Cell]:
    """Outcomes of a check among the live suspects."""
    if check.numeric:
        every = zip(panel.numbers(check), live, strict=True)
        return _ranges([(*number, w) for numbers, w in every for number in numbers])
    words: dict[str, Cell] = {}
    for seen, w in zip(panel.words(check), live, strict=True):
        for word, chance in seen.items():
            words.setdefault(word, []).append((w, chance))
    return list(words.values())


def _ranges(numbers: list[tuple[float, float, float, Weighed]]) -> list[Cell]:
    """Numbers with their chances in rising order, cut where the next lies clearly apart."""
    numbers.sort(key=lambda row: row[1])
    found: list[Cell] = []
    start = -math.inf
    width = 0.0
    for chance, mean, sigma, w in numbers:
        if not found or mean - start > APART_SIGMAS * max(width, sigma):
            found.append([])
            start, width = mean, sigma
        found[-1].append((w, chance))
    return found


def bits_left(parts: list[Cell]) -> float:
    """Expected entropy (bits) of the repairs once the outcome is known."""
    total = left = 0.0
    for cell in parts:
        classes: dict[tuple[Repair, ...], float] = {}
        for w, chance in cell:
            classes[w.left] = classes.get(w.left, 0.0) + w.share * chance
        mass = sum(classes.values())
        total += mass
        if len(classes) > 1:
            left += mass * entropy(list(classes.values()))
    return left / total if total > 0.0 else 0.0


def subjects(circuit: Circuit, check: Check) -> set[tuple[str, str]]:
    """(element, branch) that a check is held to directly; branch "" stands for the whole element."""
    if check.instrument == OHMS and not part_of(circuit, check):
        return set()
    if check.instrument == OHMS:
        part = circuit.elements[part_of(circuit, check)]
        return {(part.id, ""), *((part.id, b) for b in _branches_between(circuit, check, part.id))}
    if check.instrument in (BENCH, LOOK):
        return {
            (check.red, ""),
            *((check.red, m.of) for m in circuit.elements[check.red].modes.values()),
        }
    if check.instrument in (FEED, LISTEN, LOAD):
        return {(check.red, "")}
    if check.instrument == CLAMP and check.setup.stand_in:
        return set()  # what the lamp lets through is no load's own
    if check.instrument in (CLAMP, SUBSTITUTE):
        return {(load, "") for load in circuit.sheet.loads}
    return {*held_between(circuit, check)}


def _branches_between(circuit: Circuit, check: Check, part: str) -> list[str]:
    element = circuit.elements[part]
    ends = {circuit.node_of[check.red], circuit.node_of[check.black]}
    state = element.kind.states(element.values)[0]
    return [
        b.name
        for b in circuit.branches(element, state)
        if {element.nodes[b.a], element.nodes[b.b]} == ends
    ]


def confirms(
    circuit: Circuit, check: Check, fault: Fault, standing: tuple[Fault, ...] = ()
) -> bool:
    """Whether a check is held to the faulty place itself and reads otherwise there than on a sound one,
    other faults standing."""
    element = circuit.elements.get(fault.element)
    if element is None or check.instrument in (SUBSTITUTE, FUSE_LAMP):
        return False
    of = element.modes[fault.mode].of
    held = subjects(circuit, check)
    at_it = (fault.element, of) in held or (not of and (fault.element, "") in held)
    if not at_it and not _is_charged_by(circuit, check, element):
        return False
    bad = expected(circuit, check, tuple(sorted((*standing, fault))))
    good = expected(circuit, check, standing)
    if (check.instrument == CLAMP or not at_it) and not _is_more(bad, good):
        return False
    return distinct(_of_one_size(bad, fault), good)


def _is_charged_by(circuit: Circuit, check: Check, element: Element) -> bool:
    """Whether a check is the voltage over a battery that an element charges."""
    battery = circuit.supply_element
    posts = {f"{battery.id}.+", f"{battery.id}.-"}
    return element.kind.charges and check.instrument == VOLTS and {check.red, check.black} == posts


def _is_more(bad: Prediction, good: Prediction) -> bool:
    """Whether more current flows, or more voltage stands, than with a sound part: where less does, or none, a
    break or a poor joint anywhere in line would do the same."""
    least = max((abs(reading.mean) for _, reading in readings(good)), default=0.0)
    return all(abs(reading.mean) > least for _, reading in readings(bad))


def _of_one_size(seen: Prediction, fault: Fault) -> Prediction:
    """A prediction without the spread of the fault's own size: however large, it never reads sound."""
    if isinstance(seen, Branched):
        return seen.each(lambda reading: _without_its_own(reading, fault))
    return _without_its_own(seen, fault) if isinstance(seen, Reading) else seen


def _without_its_own(seen: Reading, fault: Fault) -> Reading:
    leans = {key: x for key, x in seen.leans.items() if key[0] != fault.element}
    return Reading(seen.mean, leans, seen.instrument_sigma)


def distinct(a: Prediction, b: Prediction) -> bool:
    """Whether two predictions can hardly be mistaken for each other, whichever way a doubt turns out."""
    if isinstance(a, dict) and isinstance(b, dict):
        return _distinct_words(a, b)
    return all(_distinct_numbers(x, y) for _, x in readings(a) for _, y in readings(b))


def _distinct_numbers(a: Reading, b: Reading) -> bool:
    if math.isinf(a.mean) or math.isinf(b.mean):
        return math.isinf(a.mean) != math.isinf(b.mean)
    return abs(a.mean - b.mean) > 4.0 * math.hypot(a.sigma, b.sigma)


def _distinct_words(a: Words, b: Words) -> bool:
    return sum(abs(a.get(w, 0.0) - b.get(w, 0.0)) for w in {*a, *b}) / 2.0 > 0.7


def confirming(case: Case, fault: Fault, standing: tuple[Fault, ...] = ()) -> list[Choice]:
    """Checks that would confirm a fault, other faults standing, quickest first. What a charging source gives
    shows with the engine running alone: where it stands still, it is started for that."""
    found = _confirming(case, case.engine, fault, standing)
    element = case.now.elements.get(fault.element)
    if not found and element and element.kind.charges and case.engine == "off":
        found = [
            c
            for c in _confirming(case, "on", fault, standing)
            if c.check and started(case, c.check)
        ]
    return sorted(found, key=lambda c: (c.minutes, c.check.id if c.check else ""))


def _confirming(case: Case, engine: str, fault: Fault, standing: tuple[Fault, ...]) -> list[Choice]:
    return [
        Choice(check, None, 0.0, minutes(case.now, check, case.last_check))
        for check in catalogue(case.now, case.tools, engine)
        if check.id not in case.skipped
        and not owners(check) & case.unreachable
        and confirms(case.now, check, fault, standing)
    ]
