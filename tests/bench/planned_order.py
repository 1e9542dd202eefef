"""Whole jobs with the narrowing checks planned ahead: a case put as a planning problem.

Options are the checks worth doing, as Footwell ranks them; outcomes are the ranges of its numbers and its
words. Travel is what a check costs after another beyond the taking of the reading. A plan ends with the
confirming check: nothing where the last check was one, else the quickest from where that left the person.
A job goes on to confirm a repair that leads by far: repairs that together weigh next to nothing count as
the leading one's.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from footwell.checks.check import Check
from footwell.checks.glance import Panel
from footwell.checks.minutes import minutes
from footwell.diagnosis.belief import Belief, Weighed, by_repair
from footwell.diagnosis.case import Case
from footwell.diagnosis.choose import choices, confirming, live_of, panel_of
from footwell.diagnosis.conclude import Conclusion
from footwell.diagnosis.elimination import fault_behind
from footwell.diagnosis.hypotheses import raised_by_history
from footwell.diagnosis.planning.doubt import corrections
from footwell.diagnosis.planning.next_check import Plan, next_check
from footwell.diagnosis.planning.problem import Option, Problem
from footwell.diagnosis.planning.readings import chances, limits
from footwell.diagnosis.proof import confirmed_by
from footwell.faults.suspects import Repair, single_faults

STATES = 400
MOST_OPTIONS = 30
MOST_OUTCOMES = 6

TAIL = 0.05
"""Share of the repairs, the least likely first, that count as the leading one's."""

SELDOM = 0.03
"""Chance below which an outcome of a suspect is left out."""

Row = tuple[float, ...]
"""Chances of the outcomes of a check under one suspect."""


@dataclass
class Planned:
    """The order that begins the best plan each time. With `ends` the confirming check is in its minutes; with
    a `limit` nothing is planned among more groups of suspects. `plans` keeps every plan made."""

    ends: bool = True
    limit: int | None = None
    plans: list[Plan] = field(default_factory=list)

    def __call__(self, case: Case, conclusion: Conclusion) -> Check | None:
        """The check with which the best plan begins; None where planning has nothing to choose from."""
        belief = conclusion.belief
        ranked = [c.check for c in choices(case, belief) if c.check is not None]
        checks = sorted(ranked[:MOST_OPTIONS], key=lambda check: check.id)
        groups = len(by_repair(live_of(belief)))
        if not checks or (self.limit is not None and groups > self.limit):
            return None
        plan = next_check(problem_of(case, belief, checks, self.ends), STATES)
        if plan is None:
            return None
        self.plans.append(plan)
        return checks[plan.option]


def problem_of(
    case: Case, belief: Belief, checks: Sequence[Check], with_ends: bool = True
) -> Problem:
    """Station 0 is where the person stands; every check is a station of its own."""
    live = live_of(belief)
    panel = panel_of(case, live)
    options = [_option(case, check, n, panel, live) for n, check in enumerate(checks, 1)]
    travel = [(0.0, *(_way(case, a, b) for b in checks)) for a in (case.last_check, *checks)]
    repairs = _repairs(live)
    ends = _ends(case, belief, repairs, checks) if with_ends else ()
    return Problem(_shares(case, live), repairs, tuple(options), tuple(travel), ends=ends)


def _ends(
    case: Case, belief: Belief, repairs: Sequence[tuple[Repair, ...]], checks: Sequence[Check]
) -> tuple[Row, ...]:
    """Minutes to confirm what each suspect leaves to mend, from each station."""
    found: dict[Repair, Row] = {}
    for repair in dict.fromkeys(r for left in repairs for r in left):
        found[repair] = _to_confirm(case, belief, repair, checks)
    return tuple(
        tuple(map(sum, zip(*(found[r] for r in left), strict=True)))
        if left
        else (0.0,) * (1 + len(checks))
        for left in repairs
    )


def _to_confirm(case: Case, belief: Belief, repair: Repair, checks: Sequence[Check]) -> Row:
    """Minutes from each station to the quickest check that confirms a repair; none where it is confirmed
    there, was confirmed before, or cannot be."""
    fault, beside = fault_behind(belief, repair)
    if fault is None or confirmed_by(case, fault) is not None:
        return (0.0,) * (1 + len(checks))
    able = [c.check for c in confirming(case, fault, beside) if c.check]
    return tuple(
        0.0
        if before in able
        else min((minutes(case.now, check, before) for check in able), default=0.0)
        for before in (case.last_check, *checks)
    )


def _way(case: Case, before: Check | None, there: Check) -> float:
    return max(0.0, minutes(case.now, there, before) - minutes(case.now, there, there))


def _repairs(live: Sequence[Weighed]) -> tuple[tuple[Repair, ...], ...]:
    """What each suspect leaves to mend, the tail counted as the leader's."""
    classes = by_repair(live)
    leader = next(iter(classes))
    room = TAIL * sum(classes.values())
    tail: set[tuple[Repair, ...]] = set()
    for left, share in reversed(classes.items()):
        room -= share
        if room < 0.0:
            break
        tail.add(left)
    return tuple(leader if w.left in tail else w.left for w in live)


def _shares(case: Case, live: Sequence[Weighed]) -> tuple[float, ...]:
    """Shares as they would be, were the base rates of single repairs not fully believed."""
    rates: dict[Repair, float] = {}
    for single in raised_by_history(case, single_faults(case.now, case.story)):
        rates[single.repair] = rates.get(single.repair, 0.0) + single.odds
    doubted = corrections(rates)
    found: list[float] = []
    for w in live:
        share = w.share
        for repair in w.hypothesis.repairs:
            share *= doubted.get(repair, 1.0)
        found.append(share)
    return tuple(found)


def _option(
    case: Case, check: Check, station: int, panel: Panel, live: Sequence[Weighed]
) -> Option:
    rows = _ranges(panel, check) if check.numeric else _table(panel.words(check))
    return Option(_few(rows, live), minutes(case.now, check, check), station)


def _table(seen: Sequence[Mapping[str, float]]) -> list[Row]:
    words = dict.fromkeys(word for row in seen for word in row)
    return [tuple(row.get(word, 0.0) for word in words) for row in seen]


def _ranges(panel: Panel, check: Check) -> list[Row]:
    numbers = panel.numbers(check)
    between = limits((mean, sigma) for row in numbers for _, mean, sigma in row)
    found: list[Row] = []
    for row in numbers:
        parts = [[p * x for x in chances(mean, sigma, between)] for p, mean, sigma in row]
        found.append(tuple(map(sum, zip(*parts, strict=True))))
    return found


def _few(rows: Sequence[Row], live: Sequence[Weighed]) -> tuple[Row, ...]:
    """Seldom outcomes left out; the lightest joined to its lighter neighbour while there are too many."""
    columns = list(zip(*map(_without_seldom, rows), strict=True))
    while len(columns) > MOST_OUTCOMES:
        weights = [_weight(column, live) for column in columns]
        at = min(range(len(columns)), key=lambda n: (weights[n], n))
        beside = [n for n in (at - 1, at + 1) if 0 <= n < len(columns)]
        to = min(beside, key=lambda n: (weights[n], n))
        columns[to] = tuple(a + b for a, b in zip(columns[to], columns[at], strict=True))
        del columns[at]
    return tuple(zip(*columns, strict=True))


def _weight(column: Row, live: Sequence[Weighed]) -> float:
    return round(sum(w.share * x for w, x in zip(live, column, strict=True)), 9)


def _without_seldom(row: Row) -> Row:
    kept = [x if x >= SELDOM else 0.0 for x in row]
    total = sum(kept)
    return tuple(x / total for x in kept)
