"""Suspects in four groups: proven, still possible, cannot be told apart, cleared by which reading."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterable, Mapping

from footwell.checks import sights
from footwell.checks.bare import splices_at
from footwell.checks.outlook import outlook
from footwell.checks.predict import Reading, expected, readings, seen_as
from footwell.circuit.circuit import Circuit
from footwell.circuit.fault import Fault
from footwell.circuit.setup import SetupState
from footwell.diagnosis.belief import Belief, Weighed, by_repair
from footwell.diagnosis.case import Case, Evidence, Sighting
from footwell.diagnosis.choose import cells, live_of, owners, panel_of, sensible
from footwell.diagnosis.conclude import Conclusion
from footwell.faults.suspects import Repair, SingleFault, single_faults
from footwell.messages import Cleared, Suspect, SuspectGroup, Suspects
from footwell.page import words as say
from footwell.parts.base import EARTH

SHOWN_FROM = 0.01
MOST_SHOWN = 8
NONE_WARNS_FROM = 0.3
GONE = 0.02
"""A suspect whose odds fell to this share of what they were counts as cleared."""


NOTHING_YET = Suspects(
    proven=[],
    groups=[],
    cleared=[],
    mended=[],
    none_of_these=0.01,
    warning="",
    left_words="nothing known yet",
)
"""Before anything is told, a list of what fails most would only mislead."""


def suspects_view(case: Case, conclusion: Conclusion, hidden: Collection[str] = ()) -> Suspects:
    """The four groups with words and numbers for how likely each is. What is `hidden` by a fault that is to
    be mended is no suspect, and not cleared either."""
    belief = conclusion.belief
    if not case.evidence:
        return NOTHING_YET
    return Suspects(
        proven=[
            _proven(case, belief, p.repair, p.share) for p in conclusion.proven if not p.mended
        ],
        groups=_groups(case, conclusion),
        cleared=_cleared(case, belief, hidden),
        mended=[say.short_named(case.now, e) for e in sorted(case.epochs[-1].mended)],
        none_of_these=round(min(max(belief.none, 0.01), 0.99), 3),
        warning=_warning(belief),
        left_words=_left_words(belief),
    )


def shown(belief: Belief) -> dict[tuple[Repair, ...], float]:
    """Share of each set of repairs that is likely enough to be counted as a suspect, falling."""
    return {r: s for r, s in by_repair(belief.suspects).items() if r and s >= SHOWN_FROM}


def _members(belief: Belief, repairs: tuple[Repair, ...]) -> list[Weighed]:
    return [w for w in belief.suspects if w.left == repairs]


def _proven(case: Case, belief: Belief, repair: Repair, share: float) -> Suspect:
    best = next(w for w in belief.suspects if repair in w.repairs)
    found = suspect(case.now, best, [best], share, only=repair)
    return found.model_copy(update={"title": repair_told(case.now, belief, repair)})


WORTH_NAMING = 0.1
"""Share of what one repair mends below which a fault of it goes unnamed."""


def repair_told(circuit: Circuit, belief: Belief, repair: Repair) -> str:
    """What a repair mends, with every fault that it may still be: "Fan motor M1 shorted inside or seized"."""
    rows = [w for w in belief.suspects if repair in w.repairs]
    shares = mode_shares(rows, repair[0])
    for mode in [m for m in shares if m.startswith("high_resistance")]:
        # A joint so poor that it reads as open is called open, and one that carries something is not.
        broken = mode.replace("high_resistance", "open")
        if broken in shares:
            poor, open_ = (_likeliest(rows, repair[0], m) for m in (mode, broken))
            del shares[broken if poor > open_ else mode]
    return modes_told(circuit, repair[0], shares)


def mode_shares(rows: Iterable[Weighed], element: str) -> dict[str, float]:
    """Share of each fault of an element among suspects."""
    found: dict[str, float] = {}
    for w in rows:
        for f in w.faults:
            if f.element == element:
                found[f.mode] = found.get(f.mode, 0.0) + w.share
    return found


def _likeliest(rows: Iterable[Weighed], element: str, mode: str) -> float:
    """Share of the likeliest suspect with a fault of an element."""
    return max(
        w.share for w in rows if any((f.element, f.mode) == (element, mode) for f in w.faults)
    )


def modes_told(circuit: Circuit, element: str, shares: Mapping[str, float]) -> str:
    """An element with those of its faults that are worth naming, the likeliest first."""
    total = sum(shares.values())
    modes = circuit.elements[element].modes
    kept = sorted(shares, key=lambda m: (-round(shares[m], 9), m))
    titles = dict.fromkeys(modes[m].title for m in kept if shares[m] > WORTH_NAMING * total)
    return f"{say.capital(say.short_named(circuit, element))} {say.joined([*titles])}"


def suspect(
    circuit: Circuit,
    best: Weighed,
    members: list[Weighed],
    share: float,
    only: Repair | None = None,
) -> Suspect:
    """A set of repairs with its likeliest faults; sizes of one fault are told as a range."""
    hypothesis = best.hypothesis
    held = best.faults if only else best.now or best.faults
    faults = [f for f in held if only is None or f.element == only[0]]
    titles = [say.fault_title(circuit, f) for f in faults]
    if hypothesis.slip is not None and only is None:
        titles.insert(0, f"{hypothesis.slip.half[0]} {hypothesis.slip.title}")
    first = faults[0] if faults else None
    return Suspect(
        element=first.element if first else best.repairs[0][0],
        mode=first.mode if first else (hypothesis.slip.kind if hypothesis.slip else ""),
        where=say.place_named(circuit, first.element) if first else best.repairs[0][0],
        size=_sizes(members) if first and first.mode.startswith("high_resistance") else "",
        also=[f.element for f in faults[1:]],
        title=say.capital(say.joined_all(titles)),
        share=round(min(max(share, 0.01), 0.99), 3),
        words=f"{say.likelihood(share)}, {say.percent(share)}",
        note="",
    )


def _sizes(members: list[Weighed]) -> str:
    """Range of sizes that holds nine tenths of the members' weight."""
    rows = sorted((w.faults[0].size, w.share) for w in members if w.faults)
    total = sum(share for _, share in rows)
    kept: list[float] = []
    run = 0.0
    for size, share in rows:
        if run + share > 0.05 * total and run < 0.95 * total:
            kept.append(size)
        run += share
    if not kept:
        return ""
    low, high = say.ohms(kept[0]), say.ohms(kept[-1])
    return low if low == high else f"{low} to {high}"


def _groups(case: Case, conclusion: Conclusion) -> list[SuspectGroup]:
    """Repairs still possible; those that no check at hand parts share one group."""
    belief = conclusion.belief
    done = {p.repair for p in conclusion.proven if not p.mended}
    rows = [row for row in shown(belief).items() if not set(row[0]) <= done][:MOST_SHOWN]
    parted = _parting(case, conclusion, [r for r, _ in rows])
    groups: list[SuspectGroup] = []
    for key in dict.fromkeys(parted.values()):
        mates = [(r, s) for r, s in rows if parted[r] == key]
        share = sum(s for _, s in mates)
        groups.append(
            SuspectGroup(
                suspects=[
                    suspect(case.now, _members(belief, r)[0], _members(belief, r), s)
                    for r, s in mates
                ],
                share=round(min(share, 0.99), 3),
                words=f"{say.likelihood(share)}, {say.percent(share)}",
                apart_by=""
                if len(mates) == 1
                else _apart_by(case, conclusion, [r for r, _ in mates]),
            )
        )
    return groups


def _apart_by(case: Case, conclusion: Conclusion, mates: list[tuple[Repair, ...]]) -> str:
    """What parts suspects that no check of the catalogue parts: what is due before a trial, or nothing."""
    step = conclusion.step
    check = step.choice.check if step.choice and step.purpose in ("look", "bare joint") else None
    elements = {element for repairs in mates for element, _ in repairs}
    if check and step.purpose == "look" and check.red in elements:
        return f"A look at {say.place_named(case.now, check.red)}. No measurement does."
    at = owners(check).intersection(splices_at(case.now, elements)) if check else ()
    if step.purpose == "bare joint" and at:
        return f"A reading at the joint of {say.place_named(case.now, *at)}. No other check does."
    return "No check with the tools at hand tells these apart."


def _parting(
    case: Case, conclusion: Conclusion, rows: list[tuple[Repair, ...]]
) -> dict[tuple[Repair, ...], tuple[int, ...]]:
    """Mark of each set of repairs: sets with the same mark share every outcome of every check at hand."""
    marks: dict[tuple[Repair, ...], tuple[int, ...]] = dict.fromkeys(rows, ())
    best = [_members(conclusion.belief, r)[0] for r in rows]
    panel = panel_of(case, best)
    for check in sensible(case, live_of(conclusion.belief)):
        if len(set(marks.values())) == len(rows):
            break
        for number, cell in enumerate(cells(panel, check, best)):
            for w, chance in cell:
                if chance > 0.5:
                    marks[w.left] = (*marks[w.left], number)
    return marks


def _cleared(case: Case, belief: Belief, hidden: Collection[str]) -> list[Cleared]:
    """Elements that the evidence has cleared, each with the evidence that first spoke for it."""
    gone = cleared_elements(case, belief)
    common: dict[str, SingleFault] = {}
    for s in single_faults(case.now, case.story):
        known = common.get(s.fault.element)
        if known is None or (round(s.odds, 12), s.fault) > (round(known.odds, 12), known.fault):
            common[s.fault.element] = s
    return [
        Cleared(title=say.short_named(case.now, e), by=_cleared_by(case, common[e].fault))
        for e in case.now.elements
        if e in gone and e not in hidden
    ]


def cleared_elements(case: Case, belief: Belief) -> set[str]:
    """Elements whose odds have fallen to next to nothing."""
    before: dict[str, float] = {}
    for s in single_faults(case.now, case.story):
        before[s.fault.element] = before.get(s.fault.element, 0.0) + s.odds
    now: dict[str, float] = {}
    for w in belief.suspects:
        for f in w.faults:
            now[f.element] = now.get(f.element, 0.0) + w.share
    total = sum(before.values())
    mended = case.epochs[-1].mended
    if not case.evidence:
        return set()
    return {
        e for e, odds in before.items() if e not in mended and now.get(e, 0.0) < GONE * odds / total
    }


def _cleared_by(case: Case, common: Fault) -> str:
    """The first piece of evidence that speaks against an element's commonest fault: one that reads as it
    would if all were sound, or else one that this fault would not bring about."""
    against = [
        item
        for item in case.evidence
        if common.element not in case.epochs[item.epoch].mended
        and _speaks_against(case, item, (common,))
    ]
    sound = next((item for item in against if not _speaks_against(case, item, ())), None)
    if sound is not None:
        return item_words(case.now, sound)
    if against:
        return f"{item_words(case.now, against[0])}, which it would not cause"
    return "the readings taken together"


def _speaks_against(case: Case, item: Evidence, faults: tuple[Fault, ...]) -> bool:
    circuit = case.circuit(item.epoch, None)
    if isinstance(item, Sighting):
        now = outlook(circuit, item.setup, faults).activity[item.load]
        usual = outlook(case.now, item.setup, ()).activity[item.load]
        chances = sights.chances(seen_as(circuit, item.load), now, usual, sights.SLIP[item.told_by])
        return chances.get(item.word, 0.0) < 0.1
    predicted = expected(circuit, item.check, faults)
    if isinstance(predicted, dict):
        return predicted.get(item.word, 0.0) < 0.1
    return all(_far(item.value, reading) for _, reading in readings(predicted))


def _far(value: float | None, reading: Reading) -> bool:
    if value is None or math.isinf(value) or math.isinf(reading.mean):
        return value is not None and value != reading.mean
    return abs(value - reading.mean) > 3.0 * reading.sigma


def item_words(circuit: Circuit, item: Evidence) -> str:
    """A piece of evidence in words: "12.3 V at way 2 …" or "fan motor runs, fan switch at 3"."""
    if isinstance(item, Sighting):
        return f"{say.short_named(circuit, item.load)} {item.word}, {say.controls_words(circuit, item.setup)}"
    value = item.word if item.value is None else say.measured(item.value, item.check.unit)
    where = f"at {say.place_named(circuit, item.check.red)}"
    if item.check.black not in ("", EARTH):
        where = f"between {say.two_places(circuit, item.check.red, item.check.black)}"
    return f"{value} {where}, {_in_setup(circuit, item.check.setup)}"


def _in_setup(circuit: Circuit, setup: SetupState) -> str:
    """Positions of the controls, and what was apart."""
    apart = say.apart_words(circuit, setup, say.short_named)
    return " · ".join([say.controls_words(circuit, setup), *apart])


def _warning(belief: Belief) -> str:
    if belief.none < NONE_WARNS_FROM:
        return ""
    return (
        "The readings fit no fault on this sheet. Usual reasons: a probe or the earth lead not on metal, a"
        " control not in the stated position, or the vehicle is not like the sheet."
    )


def _left_words(belief: Belief) -> str:
    """How many are left; some are two or three faults at once, which a reading may bring in."""
    left = shown(belief)
    if not left:
        return "nothing suspected"
    if len(left) == 1:
        return "1 suspect left"
    several = sum(len(repairs) > 1 for repairs in left)
    counted = f"{len(left)} suspects left"
    return f"{counted}, {several} of them several faults at once" if several else counted
