"""What to do next: positions, a look into a connector, a check, a repair, or the end.

Before anything is mended its cause is looked for; before a fuse is renewed, what blew it.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import cache, partial

from footwell.checks.check import Check
from footwell.checks.minutes import minutes
from footwell.circuit.circuit import ENDS, HalfId
from footwell.circuit.fault import Fault
from footwell.diagnosis.along import along
from footwell.diagnosis.belief import Belief, believe, by_repair
from footwell.diagnosis.case import Case, Sighting
from footwell.diagnosis.choose import CONFIRM_FROM, Choice, choices, confirming, halves_in_doubt
from footwell.diagnosis.complaint import complains, looks, odd_twice, to_look_at_again, works_again
from footwell.diagnosis.elimination import (
    MOST_IN_VAIN,
    WORTH_TRYING,
    at_bare_joint,
    best_try,
    fault_behind,
    in_vain,
    last_look,
    may_follow,
    plug_at_last,
    plug_due,
    plug_of_contact,
    repairs_left,
    wire_at_last,
    wired_lately,
)
from footwell.diagnosis.hypotheses import overloads
from footwell.diagnosis.overloads import cause_check
from footwell.diagnosis.proof import Proven, confirmed_by, proven, was_seen
from footwell.diagnosis.unlike import STOP_FROM, astray, to_read_again, unlike
from footwell.faults.suspects import Repair

INSPECT_FROM = 0.2
"""Share of wiring slips from which a connector is looked at before anything is measured: readings at
a plug that may be wired wrongly mislead, and looking needs no tool."""

SEVERAL_FROM = 0.5
"""Share of two faults and more from which a plug that somebody wired lately is looked into: one of them and
wires in its wrong ways are likelier, and no suspect holds both."""

ELIMINATED_FROM = 0.98
"""Share from which a fault that cannot be shown at its place is mended though some check would still tell."""

WELL_FROM = 0.85
"""Share of "all is well now" from which nothing more is sought."""

MOST_SETUPS = 2
"""Positions in which one place is read, none of them a proof, before a fault is sought to be proven
elsewhere."""

MOST_LOOKS = 4
"""Where all is well but for an odd word that no other look repeats, the eye may have been mistaken; so often
the loads are looked at in all."""


@dataclass(frozen=True, slots=True)
class Next:
    """The step to take: `kind` is positions, wiring, ends (of a wire), check, repair or finished."""

    kind: str
    choice: Choice | None = None
    half: HalfId | None = None
    wire: str = ""
    proven: Proven | None = None
    solved: bool = False
    purpose: str = ""
    """Of a check: "narrow", "confirm", "cause", "look" or "bare joint" before a trial or, where its number
    fits nothing, "again"; of a repair: "try" where it is not proven; of positions: "look again" where one
    word alone is odd; of wiring: "put right", "misplaced" where a wire was found in another way, "several"
    where no one fault explains all, "before a repair", "before its contact" is made anew, "before a trial",
    or "at last" before the job is given up."""
    others: tuple[Choice, ...] = ()
    along: tuple[Choice, ...] = ()
    """Checks to take with this one, while the person is there."""


@dataclass(frozen=True)
class Conclusion:
    belief: Belief
    proven: tuple[Proven, ...]
    step: Next


def conclude(case: Case) -> Conclusion:
    """Belief, what is proven, and the next step."""
    belief = believe(case)
    found = proven(case, belief)
    return Conclusion(belief, found, _step(case, belief, found))


def _step(case: Case, belief: Belief, found: tuple[Proven, ...]) -> Next:
    open_now = sorted((p for p in found if not p.mended), key=lambda p: _is_fuse(case, p.fault))
    told = any(isinstance(e, Sighting) for e in case.evidence)
    if (case.positions_due and not open_now) or not told:
        return Next("positions")
    if case.epochs[-1].arrangement:
        return _put_right(case.epochs[-1].arrangement[0][0])
    wires = _wires_first(case, belief)
    if wires is not None:
        return wires
    cause = cause_check(case, found)
    if cause is not None:
        return Next("check", choice=cause, purpose="cause", others=tuple(choices(case, belief)[:3]))
    classes = by_repair(belief.suspects)
    ranked = cache(partial(choices, case, belief))
    one = _to_mend(case, belief, open_now, ranked)
    if one is not None:
        return _looked_first(case, belief, one) or Next("repair", proven=one)
    if classes.get((), 0.0) >= WELL_FROM * (1.0 - belief.none):
        if not complains(case, len(case.epochs) - 1):
            return Next("finished", solved=True)
        if _may_be_the_eye(case):
            return Next("positions", purpose="look again")
    if unlike(case, belief, STOP_FROM):
        return _doubt_the_sheet(case, belief)
    return _narrow(case, belief, ranked())


def _put_right(found: HalfId) -> Next:
    """What sits or runs elsewhere than it should is put right before anything else."""
    if found[1] == ENDS:
        return Next("ends", wire=found[0], purpose="put back")
    return Next("wiring", half=found, purpose="put right")


def _may_be_the_eye(case: Case) -> bool:
    """Whether what was last seen to be odd was seen once, so that the eye may have been mistaken."""
    return bool(to_look_at_again(case)) and not odd_twice(case) and looks(case) < MOST_LOOKS


def _to_mend(
    case: Case,
    belief: Belief,
    open_now: Sequence[Proven],
    ranked: Callable[[], list[Choice]],
) -> Proven | None:
    """The first of the proven faults whose repair is due: what nothing at its place has shown waits for the
    checks that still tell something, and a fuse for what blew it."""
    for one in open_now:
        if one.by is None and one.share < ELIMINATED_FROM and ranked():
            continue
        if _blows_again(case, belief, one.repair) <= MAY_BLOW_AGAIN:
            return one
    return None


def _is_fuse(case: Case, fault: Fault) -> bool:
    return case.now.elements[fault.element].kind.name == "fuse"


MAY_BLOW_AGAIN, EVEN = 0.05, 0.5
"""Share of a cause still there from which a fuse is not renewed: never another fuse to see. Where no check
is left, an even chance."""


def _blows_again(case: Case, belief: Belief, repair: Repair) -> float:
    """Chance that the cause of a blown fuse is still behind it; 0 for other repairs."""
    element = case.now.elements.get(repair[0])
    if element is None or element.kind.name != "fuse":
        return 0.0
    held = [w for w in belief.suspects if repair in w.left]
    behind = sum(w.share for w in held if any(overloads(f) for f in w.now))
    return behind / max(sum(w.share for w in held), 1e-12)


def _half_to_inspect(case: Case, belief: Belief, even_skipped: bool = False) -> HalfId | None:
    for half in halves_in_doubt(case, belief.suspects):
        if not case.may_look_into(half) and not even_skipped:
            continue
        share = sum(
            w.share for w in belief.suspects if w.hypothesis.slip and w.hypothesis.slip.half == half
        )
        if share >= INSPECT_FROM:
            return half
    return None


def _wires_first(case: Case, belief: Belief) -> Next | None:
    """The look into a plug that is due before anything is measured."""
    if case.misplaced:
        return Next("wiring", half=case.misplaced[0], purpose="misplaced")
    half = _half_to_inspect(case, belief)
    if half is not None:
        return Next("wiring", half=half)
    half = _half_beside(case, belief)
    return Next("wiring", half=half, purpose="several") if half else None


def _half_beside(case: Case, belief: Belief) -> HalfId | None:
    """The half that somebody wired lately, where several faults are likelier than one and not all mended."""
    several = sum(w.share for w in belief.suspects if len(w.hypothesis.faults) > 1 and w.left)
    return wired_lately(case) if several >= SEVERAL_FROM else None


def _narrow(case: Case, belief: Belief, ranked: Sequence[Choice]) -> Next:
    shares = repairs_left(belief)
    for repair, share in shares.items():
        confirm = _to_confirm(case, belief, repair) if share >= CONFIRM_FROM else None
        if confirm is not None:
            return Next("check", choice=confirm, purpose="confirm", others=tuple(ranked[:3]))
    if not ranked:
        half = _half_to_inspect(case, belief, even_skipped=True)
        if half is not None:
            return Next("wiring", half=half)
        return _last_resort(case, belief, shares)
    best = ranked[0]
    rest = tuple(c for c in ranked[1:] if c.check is not None)[:3]
    if best.half is not None:
        return Next("wiring", half=best.half, choice=best)
    with_it = along(case, belief, best.check, ranked) if best.check else ()
    return Next("check", choice=best, purpose="narrow", others=rest, along=with_it)


def _to_confirm(case: Case, belief: Belief, repair: Repair) -> Choice | None:
    """The quickest check that would confirm the fault behind a repair, where none has been made."""
    fault, beside = fault_behind(belief, repair)
    if fault is None or confirmed_by(case, fault) is not None:
        return None
    taken = case.taken
    places = Counter(_place(e.check) for e in case.taken_now)
    return next(
        (
            c
            for c in confirming(case, fault, beside)
            if c.check and c.check.id not in taken and places[_place(c.check)] < MOST_SETUPS
        ),
        None,
    )


def _place(check: Check) -> tuple[str, str, str]:
    return check.instrument, check.red, check.black


def _doubt_the_sheet(case: Case, belief: Belief) -> Next:
    """One reading that fits nothing once more, then the plugs, then the end."""
    odd = to_read_again(case, belief)
    if odd is None:
        return _given_up(case, belief)
    spent = minutes(case.now, odd, case.last_check)
    return Next("check", choice=Choice(odd, None, 0.0, spent), purpose="again")


def _given_up(case: Case, belief: Belief) -> Next:
    """The end without a cause, once every plug that may be opened was looked into, and the wires at the
    places were followed where readings were odd."""
    odd = [e.check for e in astray(case, belief)]
    half = plug_at_last(case, odd)
    if half is not None:
        return Next("wiring", half=half, purpose="at last")
    wire = wire_at_last(case, odd)
    if wire is not None:
        return Next("ends", wire=wire, purpose="at last")
    return Next("finished", solved=False)


def _last_resort(case: Case, belief: Belief, shares: Mapping[Repair, float]) -> Next:
    """No measurement tells the rest apart: the repair to try, a look before it, or the end, where enough was
    renewed in vain."""
    if unlike(case, belief) or len(in_vain(case, belief)) >= MOST_IN_VAIN:
        return _given_up(case, belief)
    tried = _on_trial(case, belief, shares)
    if works_again(case):
        # No position would tell whether a trial has helped; where it reads as broken one may still look.
        first = _looked_first(case, belief, tried) if tried else None
        return first or Next("finished", solved=False)
    if tried is None:
        return _given_up(case, belief)
    if by_repair(belief.suspects).get((), 0.0) >= WORTH_TRYING and _may_be_the_eye(case):
        return Next("positions", purpose="look again")
    bare = at_bare_joint(case, belief, shares)
    if bare is not None:
        return Next("check", choice=bare, purpose="bare joint")
    half = plug_due(case, belief, tried.repair)
    if half is not None:
        return Next("wiring", half=half, purpose="before a trial")
    look = last_look(case, belief, shares, tried.fault)
    if look is not None:
        spent = minutes(case.now, look, case.last_check)
        return Next("check", choice=Choice(look, None, 0.0, spent), purpose="look")
    return _looked_first(case, belief, tried) or Next("repair", proven=tried, purpose="try")


def _on_trial(case: Case, belief: Belief, shares: Mapping[Repair, float]) -> Proven | None:
    """The repair to try first of those that nothing tells apart and that are safe."""
    safe = {r: s for r, s in shares.items() if _blows_again(case, belief, r) < EVEN}
    repair = best_try(case.now, safe)
    fault = fault_behind(belief, repair)[0] if repair else None
    if repair is None or fault is None:
        return None
    return Proven(fault, repair, shares[repair], confirmed_by(case, fault), False)


def _looked_first(case: Case, belief: Belief, one: Proven) -> Next | None:
    """What is looked at before anything is mended that was not seen to be hurt. Wires in the wrong ways of a
    plug that somebody wired lately, and a wire that ends elsewhere than on the sheet, or another beside it,
    read as if it were."""
    if was_seen(case, one):
        return None
    half = wired_lately(case)
    if half is not None:
        return Next("wiring", half=half, purpose="before a repair")
    element = one.fault.element
    half = plug_of_contact(case, element)
    if half is not None:
        return Next("wiring", half=half, purpose="before its contact")
    half = plug_due(case, belief, one.repair) if one.by is None else None
    if half is not None:
        return Next("wiring", half=half, purpose="before a trial")
    return Next("ends", wire=element, proven=one) if may_follow(case, element) else None
