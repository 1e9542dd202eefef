"""What to look at and to mend where nothing can be measured at the faulty place itself.

Of repairs that no check at hand tells apart, the one with the largest chance for its cost comes first; that
order has the lowest expected cost (each repair is tried, then every position again).
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from footwell.checks.bare import at_bare_joints
from footwell.checks.catalogue import looked_at, working_setups
from footwell.checks.check import LAMP, VOLTS, Check
from footwell.circuit.circuit import Circuit, HalfId
from footwell.circuit.fault import Fault
from footwell.diagnosis.belief import Belief
from footwell.diagnosis.case import Case, Taken, ends_id
from footwell.diagnosis.choose import Choice, best_of, owners
from footwell.diagnosis.hypotheses import overloads
from footwell.faults.suspects import Repair

JOINT_COST, PART_COST = 1.0, 4.0
"""Cost of making a joint or a wire anew, and of a part that has to be bought (common practice, no
source)."""

JOINTS = ("contact", "wire", "splice", "earth_point", "fuse")

WORTH_TRYING = 0.05
"""Share of a repair below which it is not tried without proof."""


def repairs_left(belief: Belief) -> dict[Repair, float]:
    """Share of every repair that is still to be done, falling."""
    found: dict[Repair, float] = {}
    for w in belief.suspects:
        for repair in w.left:
            found[repair] = found.get(repair, 0.0) + w.share
    return dict(sorted(found.items(), key=lambda item: (-round(item[1], 9), item[0])))


def fault_behind(
    belief: Belief, repair: Repair
) -> tuple[Fault, tuple[Fault, ...]] | tuple[None, tuple[()]]:
    """The fault that a repair would mend and the others that stand beside it, under the likeliest suspect
    that holds it."""
    for w in belief.suspects:
        if repair in w.left:
            mine = next((f for f in w.now if f.element == repair[0]), None)
            if mine is not None:
                return mine, tuple(f for f in w.now if f != mine)
    return None, ()


MOST_IN_VAIN = 4
"""Sound things renewed after which nothing more is tried. Of 434 jobs with two and three faults on all sheets
(`score -- sheets`) none renewed so many, and three renewed three, one of which a further trial cured."""

SOUND_BELOW = 0.1
"""Share of having been at fault below which what was renewed was sound."""


def in_vain(case: Case, belief: Belief) -> list[str]:
    """What was renewed and, as the evidence stands now, had been sound."""
    at_fault: dict[str, float] = {}
    for w in belief.suspects:
        for element in {f.element for f in w.faults}:
            at_fault[element] = at_fault.get(element, 0.0) + w.share
    return sorted(e for e in case.epochs[-1].mended if at_fault.get(e, 0.0) < SOUND_BELOW)


def wired_lately(case: Case) -> HalfId | None:
    """A half that somebody wired lately and nobody has looked into."""
    return next((h for h in case.doubtful if case.may_look_into(h)), None)


def plug_due(case: Case, belief: Belief, tried: Repair) -> HalfId | None:
    """The half that is looked into before something is mended on trial: where a part would be bought, or
    something was renewed in vain already, one at which it lies and that nobody has looked into."""
    if not _is_bought(case.now, tried) and not in_vain(case, belief):
        return None
    plugs = _plugs_at(case.now, tried[0])
    return next((h for h in _not_seen(case) if h[0] in plugs), None)


def plug_of_contact(case: Case, element: str) -> HalfId | None:
    """The half of a contact, where nobody has looked into it: who makes one anew sees its other wires."""
    if _kind(case, element) != "contact":
        return None
    return next((h for h in _not_seen(case) if h[0] == element.split(".")[0]), None)


def plug_at_last(case: Case, odd: Iterable[Check]) -> HalfId | None:
    """The half that is looked into before a job is given up: those first at which a reading was odd, then
    those soonest reached."""
    held = {owner for check in odd for owner in owners(check)}
    plugs = held.union(*(_plugs_at(case.now, part) for part in held & case.now.elements.keys()))
    rows = [(h[0] not in plugs, case.now.connectors[h[0]].minutes, h) for h in _not_seen(case)]
    return min(rows)[2] if rows else None


def may_follow(case: Case, element: str) -> bool:
    """Whether an element is a wire both ends of which may be sought and nobody has found."""
    if _kind(case, element) != "wire" or element in case.followed:
        return False
    wire = next(w for w in case.now.sheet.wires if w.id == element)
    if ends_id(element) in case.skipped or wire.owners & case.unreachable:
        return False
    return looked_at(case.now, element) is not None


def wire_at_last(case: Case, odd: Iterable[Check]) -> str | None:
    """The wire whose ends are sought before a job is given up: one that ends where a reading was odd, at that
    part or in that way of a plug."""
    held = {_spot(case.now, place) for check in odd for place in (check.red, check.black)}
    wires = (
        w.id for w in case.now.sheet.wires if {_spot(case.now, p) for p in (w.start, w.end)} & held
    )
    return next((wire for wire in wires if may_follow(case, wire)), None)


def _spot(circuit: Circuit, place: str) -> str:
    """The part, or the way of a connector, that a place belongs to."""
    owner, _, rest = place.partition(".")
    return f"{owner}.{rest.split('.')[0]}" if owner in circuit.connectors else owner


def _not_seen(case: Case) -> list[HalfId]:
    """Halves that nobody has looked into and that may be opened."""
    return [h for h in (*case.doubtful, *case.untold) if case.may_look_into(h)]


def _plugs_at(circuit: Circuit, element: str) -> set[str]:
    """Connectors that an element is part of or plugs into, and those a wire away."""
    found = {c.id for c in circuit.sheet.connectors if element in c.parts} | {element.split(".")[0]}
    for wire in circuit.sheet.wires:
        found |= wire.owners if element in {wire.id, *wire.owners} else set()
    return found & circuit.connectors.keys()


def last_look(
    case: Case, belief: Belief, shares: Mapping[Repair, float], tried: Fault
) -> Check | None:
    """The look that is due before something is mended on trial: at the likeliest of the places that may show
    the fault and that nobody has looked at."""
    # A wire or a splice looks the same after another one was mended.
    passed = case.skipped | {e.check.id for e in case.evidence if isinstance(e, Taken)}
    for repair, share in shares.items():
        fault, _ = fault_behind(belief, repair)
        if fault is None or share < WORTH_TRYING or not _may_show(case, fault, tried):
            continue
        check = looked_at(case.now, fault.element)
        if check is not None and check.id not in passed and not owners(check) & case.unreachable:
            return check
    return None


def at_bare_joint(case: Case, belief: Belief, shares: Mapping[Repair, float]) -> Choice | None:
    """The reading at a splice with its tape off that is due before something is mended on trial: where it
    tells a joint from a wire that ends there."""
    elements = [repair[0] for repair, share in shares.items() if share >= WORTH_TRYING]
    # A line of a bus shows only with the plug off that was off for the readings so far.
    read = (e.check for e in case.taken_now if e.check.instrument in (VOLTS, LAMP))
    used = (check.setup for check in read if not check.setup.stand_in)
    setups = list(dict.fromkeys([*working_setups(case.now, case.engine), *used]))
    return best_of(case, belief, at_bare_joints(case.now, elements, case.tools, setups))


def _may_show(case: Case, fault: Fault, tried: Fault) -> bool:
    """A bad splice is seen once its tape is off. A wire that lies on earth has its insulation through: before
    anything is tried that takes too much current wires are looked along. A break hides in its insulation."""
    return _kind(case, fault.element) == "splice" or (_on_earth(case, fault) and overloads(tried))


def _on_earth(case: Case, fault: Fault) -> bool:
    return _kind(case, fault.element) == "wire" and fault.mode == "short_to_earth"


def _kind(case: Case, element: str) -> str:
    found = case.now.elements.get(element)
    return found.kind.name if found else ""


def best_try(circuit: Circuit, shares: Mapping[Repair, float]) -> Repair | None:
    """The repair to try first among those that nothing tells apart."""
    rows = [
        (-round(share / _cost(circuit, repair), 9), repair)
        for repair, share in shares.items()
        if share >= WORTH_TRYING and repair[0] in circuit.elements
    ]
    return min(rows)[1] if rows else None


def _cost(circuit: Circuit, repair: Repair) -> float:
    return PART_COST if _is_bought(circuit, repair) else JOINT_COST


def _is_bought(circuit: Circuit, repair: Repair) -> bool:
    return repair[1].startswith("renew") and circuit.elements[repair[0]].kind.name not in JOINTS
