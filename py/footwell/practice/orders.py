"""Other ways to choose where to measure next, to compare Footwell's choice with.

Each takes the place of the narrowing checks alone. Belief, confirming checks, repairs and the end of a job
stay Footwell's, so the comparison shows what the choice is worth and not what the reasoning is worth.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Mapping

from footwell.checks import sights
from footwell.checks.catalogue import catalogue
from footwell.checks.check import VOLTS, Check, nodes
from footwell.checks.outlook import outlook
from footwell.checks.predict import seen_as
from footwell.circuit.circuit import Circuit
from footwell.circuit.setup import SetupState
from footwell.diagnosis.case import Case, Sighting
from footwell.diagnosis.choose import cells, choices, live_of, panel_of
from footwell.diagnosis.conclude import Conclusion
from footwell.parts.base import EARTH, SUPPLY

Order = Callable[[Case, Conclusion], Check | None]
"""The check to make in place of the proposed one; None leaves the proposal as it is."""


def load_to_supply(case: Case, conclusion: Conclusion) -> Check | None:
    """Volts to earth in a fixed order, from the load that fails back towards the supply; places that can
    tell nothing new are passed over."""
    complaint = complaint_now(case)
    if complaint is None:
        return None
    away = steps_from(case.now, complaint.load)
    useful = {c.check for c in choices(case, conclusion.belief)}
    rows = [c for c in _fresh_volts(case, complaint.setup) if c in useful]
    return min(rows, key=lambda c: (away.get(nodes(case.now, c)[0], len(away)), c.id), default=None)


def half_split(case: Case, conclusion: Conclusion) -> Check | None:
    """Volts to earth where the repairs still possible fall most evenly apart, all counted alike."""
    complaint = complaint_now(case)
    live = live_of(conclusion.belief)
    if complaint is None or not live:
        return None
    panel = panel_of(case, live)

    def most_left(check: Check) -> int:
        return max(len({w.left for w, _ in cell}) for cell in cells(panel, check, live))

    all_left = len({w.left for w in live})
    rows = [(most_left(c), c.id, c) for c in _fresh_volts(case, complaint.setup)]
    best = min(rows, default=None)
    return best[2] if best and best[0] < all_left else None


def at_random(seed: int) -> Order:
    """Any check of the catalogue that was not made yet, drawn by seed and length of the job."""

    def draw(case: Case, conclusion: Conclusion) -> Check | None:
        done = case.taken
        rows = [c for c in catalogue(case.now, case.tools, case.engine) if c.id not in done]
        return random.Random(f"{seed} {len(case.evidence)}").choice(rows) if rows else None

    return draw


def complaint_now(case: Case) -> Sighting | None:
    """The first sighting since the last change in which a load does not do what it should."""
    now = len(case.epochs) - 1
    for item in case.evidence:
        if isinstance(item, Sighting) and item.epoch == now and item.word != usual(case, item):
            return item
    return None


def usual(case: Case, seen: Sighting) -> str:
    """The word for what a load does in a set-up when all is well."""
    sound = case.drawn
    share = outlook(sound, seen.setup, ()).activity[seen.load]
    chances = sights.chances(seen_as(sound, seen.load), share, share, 0.0)
    return max(chances, key=lambda word: chances[word])


def steps_from(circuit: Circuit, load: str) -> dict[int, int]:
    """Elements between a load and every node, the body and the supply's post not passed through."""
    ends = {circuit.earth, circuit.supply_element.nodes["+"]}
    away = {node: 0 for node in circuit.elements[load].nodes.values() if node not in ends}
    front = list(away)
    while front:
        node = front.pop(0)
        for element in circuit.elements.values() if node not in ends else ():
            if node in _terminals(element.nodes):
                for other in _terminals(element.nodes) - away.keys():
                    away[other] = away[node] + 1
                    front.append(other)
    return away


def _terminals(held: Mapping[str, int]) -> set[int]:
    return {node for name, node in held.items() if name not in (EARTH, SUPPLY)}


def _fresh_volts(case: Case, setup: SetupState) -> list[Check]:
    """Volts to earth in one set-up at every place that was not read since the last change."""
    done = case.taken
    return [
        c
        for c in catalogue(case.now, case.tools, case.engine)
        if c.instrument == VOLTS and c.black == EARTH and c.setup == setup and c.id not in done
    ]
