"""Whether what loads were seen to do is a complaint, and whether a fault would be one."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from typing import Literal

from footwell.checks import sights
from footwell.checks.catalogue import working_setups
from footwell.checks.outlook import activities
from footwell.checks.predict import seen_as
from footwell.circuit.circuit import Circuit
from footwell.circuit.fault import Fault
from footwell.circuit.setup import SetupState
from footwell.diagnosis.case import Case, Sighting

ODD_BELOW = 0.2
"""Chance of a word when all is well below which it counts as a complaint."""


def complains(case: Case, epoch: int) -> bool:
    """Whether some load was last seen in an epoch to do what it hardly does when all is well."""
    return bool(_odd_in(case, epoch))


def works_again(case: Case) -> bool:
    """Whether loads were tried since the last change, and every one last seen to do what it does when all is
    well."""
    last = len(case.epochs) - 1
    return bool(_told_in(case, last)) and not complains(case, last)


def odd_sightings(case: Case) -> list[Sighting]:
    """What loads were last seen to do that they hardly do when all is well, in the last epoch with any."""
    return next((odd for n in reversed(range(len(case.epochs))) if (odd := _odd_in(case, n))), [])


def odd_at_first(case: Case) -> list[Sighting]:
    """What loads were first told to do that they hardly do when all is well: the complaint."""
    return _odd_in(case, 0)


def _odd_in(case: Case, epoch: int) -> list[Sighting]:
    last = {(e.setup, e.load): e for e in _told_in(case, epoch)}
    return [e for e in last.values() if _is_odd(case, e)]


def _told_in(case: Case, epoch: int) -> list[Sighting]:
    return [e for e in case.evidence if isinstance(e, Sighting) and e.epoch == epoch]


def _is_odd(case: Case, seen: Sighting) -> bool:
    return _when_well(case, seen) < ODD_BELOW


def to_look_at_again(case: Case) -> list[Sighting]:
    """What was last seen since the last change and hardly is so when all is well: with the engine as it is
    now or, where nothing is, in the other state."""
    odd = _odd_in(case, len(case.epochs) - 1)
    return [e for e in odd if e.setup.engine == case.engine] or odd


def engine_for(case: Case, looks: Sequence[Sighting]) -> Literal["off", "on"] | None:
    """The state of the engine for a look, where it is not the one that it is in."""
    state = looks[0].setup.engine
    return None if state == case.engine else "on" if state == "on" else "off"


def odd_twice(case: Case) -> bool:
    """Whether some load was seen twice in one position, since the last change, to do what it hardly does when
    all is well: no slip of the eye."""
    odd = [(e.setup, e.load) for e in _told_in(case, len(case.epochs) - 1) if _is_odd(case, e)]
    return len(set(odd)) < len(odd)


def looks(case: Case) -> int:
    """How often the loads were looked at since the last change: the most for any load in one position."""
    seen = Counter((e.setup, e.load) for e in _told_in(case, len(case.epochs) - 1))
    return max(seen.values(), default=0)


def load_in_question(case: Case) -> str:
    """The load that was first told to do what it hardly does when all is well; the sheet's first load
    where none was."""
    told = (e for e in case.evidence if isinstance(e, Sighting))
    odd = (e.load for e in told if _is_odd(case, e))
    return next(odd, case.now.sheet.loads[0])


def seen_well(case: Case) -> frozenset[str]:
    """Loads last seen to do in every position what they do when all is well, at work in some."""
    told = {(e.setup, e.load): e for e in case.evidence if isinstance(e, Sighting)}
    odd = {e.load for e in told.values() if _is_odd(case, e)}
    at_work = {e.load for e in told.values() if activities(case.now, e.setup, ())[e.load] > AT_WORK}
    return frozenset(at_work - odd)


def _when_well(case: Case, seen: Sighting) -> float:
    return chance_of(case.now, seen, ())


def chance_of(circuit: Circuit, seen: Sighting, faults: tuple[Fault, ...]) -> float:
    """Chance that a person says of a load what was said, under faults."""
    usual, now = (
        activities(circuit, seen.setup, each).get(seen.load, 0.0) for each in ((), faults)
    )
    kind, slip = seen_as(circuit, seen.load), sights.SLIP[seen.told_by]
    return sights.chance(kind, seen.word, now, usual, slip)


AT_WORK = 0.5
"""Share of its nominal speed, light or heat from which a load is at work."""


ANOTHER_WORD = 0.5
"""Chance from which a person says another word than when all is well."""


def noticed(circuit: Circuit, fault: Fault, engine: str = "off") -> bool:
    """Whether people would notice a fault by what some load does in some position."""
    key = ("noticed", fault, engine)
    if key not in circuit.cache:
        setups = working_setups(circuit, engine)
        circuit.cache[key] = any(_shows(circuit, setup, fault) for setup in setups)
    return circuit.cache[key]  # type: ignore[no-any-return]


def _shows(circuit: Circuit, setup: SetupState, fault: Fault) -> bool:
    usual = activities(circuit, setup, ())
    now = activities(circuit, setup, (fault,))
    return any(_differs(seen_as(circuit, e), now[e], usual[e]) for e in circuit.sheet.loads)


def _differs(kind: str, now: float, usual: float) -> bool:
    said, well = (sights.chances(kind, share, usual, 0.0) for share in (now, usual))
    return sum(abs(said[word] - well[word]) for word in well) / 2.0 > ANOTHER_WORD
