"""The suspects of a case: single faults, wiring slips, and pairs that belong together.

Odds are relative to a sound vehicle. A pair joined by damage takes its odds from the stress that the
first fault puts on the second; other pairs are the product of their odds and are looked at only where
they may explain what no single fault explains.
"""

from __future__ import annotations

from dataclasses import replace

from footwell.circuit.circuit import Circuit, HalfId
from footwell.circuit.fault import Fault
from footwell.circuit.setup import SetupState
from footwell.diagnosis.case import Case, Hypothesis, Sighting, look_id
from footwell.diagnosis.complaint import complains
from footwell.diagnosis.damage import Stress, chance, damage_modes, stresses
from footwell.diagnosis.which_order import unseen_orders
from footwell.faults.miswiring import SLIP_ODDS, Slip, as_drawn, slips
from footwell.faults.orders import OTHER_ORDER, as_suspects
from footwell.faults.suspects import Repair, SingleFault, single_faults

OVERLOADS = ("stiff", "seized", "short", "short_to_earth", "stuck_closed")
"""Modes that can overload other parts."""


def overloads(fault: Fault) -> bool:
    """Whether a fault takes more current than is good for what lies before it."""
    return fault.mode.split(":")[0] in OVERLOADS


def used_setups(case: Case) -> tuple[SetupState, ...]:
    """Set-ups that the complaint shows were used, in the order told."""
    return tuple(dict.fromkeys(e.setup for e in case.evidence if isinstance(e, Sighting)))


def hypotheses(case: Case) -> list[Hypothesis]:
    """All suspects but screened pairs: nothing wrong, singles, slips, slips and faults with damage."""
    singles = raised_by_history(case, single_faults(case.now, case.story))
    used = used_setups(case)
    found = [Hypothesis((), _sound_odds(case), ())]
    for first in singles:
        found += _with_damage(case, used, first)
    mended = [s for s in singles if s.fault.element in case.epochs[-1].mended]
    for slip in suspected_slips(case):
        found += _slip_with_damage(case, used, slip)
        found += [_slip_beside(slip, first) for first in mended]
    return found


UNTOLD_ODDS = 0.002
"""Odds that a half of which nobody speaks is wired wrongly, in the scale of the faults' odds: half of those
of a bad contact (common practice, no source)."""

BROUGHT_IN_SOUND = 0.05
"""Odds that nothing is wrong on a vehicle that is brought in with a complaint, in the scale of the faults'
odds (common practice, no source)."""


def _sound_odds(case: Case) -> float:
    """Odds that nothing is broken: small after a complaint, unless wrong wiring has been put right."""
    wired_wrongly = any(e.arrangement for e in case.epochs)
    return BROUGHT_IN_SOUND if complains(case, 0) and not wired_wrongly else 1.0


def _slip_beside(slip: Slip, first: SingleFault) -> Hypothesis:
    """A slip that a fault hid until it was mended."""
    repairs = (slip_repair(slip), first.repair)
    return Hypothesis((first.fault,), slip.odds * first.odds, repairs, slip)


def suspected_slips(case: Case) -> list[Slip]:
    """Slips of the halves that somebody has wired and nobody looked at, against odds of being wired right;
    orders that no kind of slip gives too, once it is known that nobody can look into the half."""
    found: list[Slip] = []
    for half in case.doubtful:
        hidden = look_id(half) in case.skipped
        rare = unseen_orders(case, half) if hidden else []
        found += [_weighted(s, 1.0 / (1.0 - SLIP_ODDS)) for s in (*slips_of(case, half), *rare)]
    return found


def slips_of(case: Case, half: HalfId) -> list[Slip]:
    """Every kind of slip of a half that somebody has wired."""
    return slips(case.circuit_for(()), half)


def untold(case: Case, most_wires: int) -> list[Hypothesis]:
    """Slips of the halves of which nobody speaks, each alone, with the other orders of up to so many wires;
    but for a wire left out, which is a break at its contact that a look there shows."""
    circuit = case.circuit_for(())
    every = (
        s for h in case.untold for s in (*slips_of(case, h), *_other_orders(circuit, h, most_wires))
    )
    kept = (_weighted(s, UNTOLD_ODDS / SLIP_ODDS) for s in every if s.kind != "left out")
    return [Hypothesis((), s.odds, (slip_repair(s),), s) for s in kept]


def _other_orders(circuit: Circuit, half: HalfId, most_wires: int) -> list[Slip]:
    """Orders that no kind of slip gives, of a half with no more wires than that."""
    if sum(1 for wires in as_drawn(circuit, half).values() if wires) > most_wires:
        return []
    return [s for s in as_suspects(circuit, half) if s.kind == OTHER_ORDER]


def _weighted(slip: Slip, factor: float) -> Slip:
    return replace(slip, odds=slip.odds * factor)


def slip_repair(slip: Slip) -> Repair:
    return (f"{slip.half[0]}.{slip.half[1]}", "put the wires right")


def raised_by_history(case: Case, singles: list[SingleFault]) -> list[SingleFault]:
    """Odds raised where wiring as found earlier overloaded a part."""
    damage = history_damage(case)
    return [
        SingleFault(s.fault, s.odds + damage.get(s.fault, 0.0), s.repair)
        if s.fault in damage
        else s
        for s in singles
    ]


def history_damage(case: Case) -> dict[Fault, float]:
    """Odds of faults left by the wiring of earlier epochs."""
    found: dict[Fault, float] = {}
    for stress in history_stresses(case):
        if stress.blown:
            # What the wiring blew follows from the wiring itself, epoch by epoch.
            continue
        odds = odds_of(chance(stress))
        modes = damage_modes(case.now, stress)
        for fault in modes:
            found[fault] = max(found.get(fault, 0.0), odds / len(modes))
    return found


def history_stresses(case: Case) -> list[Stress]:
    """Stress in earlier epochs whose wiring differed from now, in the set-ups used then."""
    found: list[Stress] = []
    now = case.epochs[-1].arrangement
    for epoch in {e.arrangement: n for n, e in enumerate(case.epochs)}.values():
        if case.epochs[epoch].arrangement != now:
            found += stresses(case.circuit(epoch, None), used_setups(case), ()).values()
    return found


def odds_of(probability: float) -> float:
    return probability / (1.0 - probability)


def _with_damage(case: Case, used: tuple[SetupState, ...], first: SingleFault) -> list[Hypothesis]:
    """The fault alone, and together with each part that it overloads in the positions that were used."""
    alone = Hypothesis((first.fault,), first.odds, (first.repair,))
    if not overloads(first.fault):
        return [alone]
    hurt = stresses(case.now, used, (first.fault,)).values()
    others = [s for s in hurt if s.element != first.fault.element]
    return _spread_over_damage(case.now, alone, others)


def _slip_with_damage(case: Case, used: tuple[SetupState, ...], slip: Slip) -> list[Hypothesis]:
    circuit = case.circuit(len(case.epochs) - 1, slip)
    alone = Hypothesis((), slip.odds, (slip_repair(slip),), slip)
    return _spread_over_damage(circuit, alone, list(stresses(circuit, used, ()).values()))


def _spread_over_damage(
    circuit: Circuit, first: Hypothesis, hurt: list[Stress]
) -> list[Hypothesis]:
    """First cause without damage, and with each damage: the odds of the first are shared out."""
    spared = 1.0
    found: list[Hypothesis] = []
    for stress in hurt:
        modes = damage_modes(circuit, stress)
        if not modes:
            continue
        spared *= 1.0 - chance(stress)
        for fault in modes:
            odds = first.odds * chance(stress) / len(modes)
            repairs = (*first.repairs, repair_of(circuit, fault))
            found.append(Hypothesis((*first.faults, fault), odds, repairs, first.slip))
    return [Hypothesis(first.faults, first.odds * spared, first.repairs, first.slip), *found]


def repair_of(circuit: Circuit, fault: Fault) -> Repair:
    """The act that mends a fault."""
    return (fault.element, circuit.elements[fault.element].modes[fault.mode].repair)
