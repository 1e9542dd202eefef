"""What every kind of part tells about itself: terminals, branches, fault modes, ratings.

A kind is one file in this folder. It holds a frozen dataclass of the values a sheet may give (None
where the vehicle has not been asked yet) and an object of `Kind` that turns values into branches.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from typing import Any, Literal

from footwell.parts.laws import Law, Resistance
from footwell.parts.series import inner_volts
from footwell.reference import failures
from footwell.reference.sources import Spread

EARTH = "earth"
"""The vehicle's body: the point all voltages are counted from."""

SUPPLY = "supply"
"""The battery's positive post, where a short to supply leads."""


@dataclass(frozen=True, slots=True)
class Branch:
    """One element between two terminals of a part, or from a terminal to EARTH or SUPPLY.

    `spread` is the relative standard deviation of the law's size. `rating_amps` is what it may
    carry; None where it has no rating of its own. `joint` is the standard deviation (Ω) of a poor joint in
    it, where the law's size is a voltage that the joint leaves as it is.
    """

    name: str
    a: str
    b: str
    law: Law
    spread: float = 0.0
    rating_amps: float | None = None
    joint: float = 0.0


@dataclass(frozen=True, slots=True)
class Mode:
    """One way to fail, with its relative rate (reference.failures; 1 is one mated contact).

    `title` completes "<part> is ..."; modes of a part with the same `repair` are mended by the same
    act. `sized` faults are a resistance of unknown size; `factors` are the sizes of the others.
    """

    name: str
    rate: float
    title: str
    repair: str = "renew"
    sized: bool = False
    factors: tuple[float, ...] = ()
    of: str = ""
    """Branch that the generic modes open and high_resistance act on; "" for all of them."""
    in_holder: bool = False
    """It lies in what stays behind when the part is pulled out: ohms of the part do not show it."""


@dataclass(frozen=True, slots=True)
class Context:
    """What a part's values are read in: the vehicle's nominal voltage and the circuit's own default."""

    system_volts: int
    default_amps: float


def rate_of(kind: failures.Kind, mode: failures.Mode) -> float:
    """Relative rate of one mode of one part of a kind."""
    return failures.relative_rate(kind) * failures.mode_shares(kind)[mode]


State = str
"""A switch's position, a relay's "rest" or "pulled", a fuse's "whole" or "blown"; "" elsewhere."""


@dataclass(frozen=True, slots=True)
class Flow:
    """One branch of a part at work: `volts` (V) of its end a above its end b."""

    branch: Branch
    volts: float

    @property
    def amps(self) -> float:
        """Current (A) from end a to end b."""
        return self.branch.law.at(self.volts)[0]


@dataclass(frozen=True, slots=True)
class Felt:
    """What a part feels at an operating point: `volts` (V) of its terminals against the body, and the
    `flows` through its branches by name. Open branches have no flow."""

    state: State
    volts: Mapping[str, float]
    flows: Mapping[str, Flow]

    def across(self, branch: str) -> float:
        """Voltage (V) over a branch without its sign; 0 where it is open."""
        flow = self.flows.get(branch)
        return abs(flow.volts) if flow else 0.0

    def amps(self, branch: str = "") -> float:
        """Current (A) through a branch without its sign; 0 where it is open."""
        flow = self.flows.get(branch)
        return abs(flow.amps) if flow else 0.0


@dataclass(frozen=True, slots=True)
class Tipping:
    """A state that a part goes to by itself once the voltage or the current of one of its branches,
    without its sign, passes a limit of which no two parts have the same.

    `score(quantity)` rises as the limit nears: the part has gone there where a number drawn once for
    it from a standard normal distribution is at most the score. So 0 is an even chance.
    """

    to: State
    branch: str
    unit: Literal["V", "A"]
    score: Callable[[float], float]
    limit: str
    """What the trade calls it, such as "pull-in"."""
    done: str
    """Completes "the part ...", as "has pulled in"."""
    spared: str
    """The opposite: "has not pulled in"."""

    def reached(self, felt: Felt) -> float:
        """The score under what a part feels."""
        quantity = felt.across(self.branch) if self.unit == "V" else felt.amps(self.branch)
        return self.score(quantity)


def above(limit: Spread) -> Callable[[float], float]:
    """Score of a limit that is passed upwards."""
    return lambda quantity: (quantity - limit.mean) / limit.sigma


def below(limit: Spread) -> Callable[[float], float]:
    """Score of a limit that is passed downwards."""
    return lambda quantity: (limit.mean - quantity) / limit.sigma


Seconds = tuple[float, float]
"""The shortest and the longest time (s) until a protective part opens."""

Objection = tuple[str, str, str]
"""Name of a value, what is wrong with it, and what to do."""


@dataclass(frozen=True, eq=False)
class Kind:
    """A kind of part. `branches(values, state, context)` is the healthy part; `broken` changes it. Values of
    a kind that moves or opens by itself are hashable: what follows from them is kept.

    `broken(mode, size, branches, values, state, context)` returns the branches under a fault, or None
    to let the generic modes act. They lie between terminals that the sound part joins in some state, if
    only by an open branch, or lead to EARTH or SUPPLY.
    """

    name: str
    title: str
    values: type[Any]
    terminals: Callable[[Any], tuple[str, ...]]
    branches: Callable[[Any, State, Context], list[Branch]]
    modes: Callable[[Any], tuple[Mode, ...]]
    broken: Callable[[Mode, float, list[Branch], Any, State, Context], list[Branch] | None] = (
        lambda *_: None
    )
    states: Callable[[Any], tuple[State, ...]] = lambda _: ("",)
    """All states, the one of rest first."""
    positions: Callable[[Any], tuple[State, ...]] | None = None
    """States that a person, or what the part measures, sets; None where nothing outside does."""
    oddities: Mapping[State, str] = field(default_factory=dict)
    """What must be told of a state that it goes to by itself; completes "the part ..."."""
    phases: Callable[[Any, State], tuple[tuple[float, State], ...]] | None = None
    """The states between which it changes so quickly in a position that meter and eye see their mean,
    each with its share of the time; one state alone where it is steady."""
    moves: Callable[[Any, Felt, Context], State] | None = None
    """The state that the part goes to by itself under what it feels; None where it never moves."""
    remembers: bool = False
    """It stays, without current, in the state that it was left in; its positions say how it was found."""
    tips: Callable[[Any, State, Context], tuple[Tipping, ...]] = lambda *_: ()
    """Limits, each with a spread, by which `moves` takes the part out of a state; those of `opens`
    need no mention."""
    opens: Callable[[Any, float, Context], Seconds | None] | None = None
    """When a current (A) opens the part that protects the others; None for other parts. It then goes
    to `opened`."""
    opened: State = "blown"
    """Completes "the part has ..." too."""
    opens_as: str = "blows"
    """Completes "the part ..." where it opens."""
    after_opening: Callable[[Any], str] = lambda _: ""
    """What an electrician must know of a part that has opened, as a sentence."""
    to_and_fro: Callable[[Felt, Felt, Context], str] | None = None
    """Words after the part's name where it goes to and fro by itself between its first state and its
    second, from what it feels in each."""
    follows_engine: bool = False
    """Its state is "on" while the engine runs."""
    charges: bool = False
    """It holds up the supply while the engine runs, and a battery beside it is charged."""
    beside: State = ""
    """The state of a battery while another part charges it."""
    seen_as: str = ""
    """What a person can notice: a kind of sight of checks.sights, or "" for nothing."""
    shows: Callable[[Any, Felt, Context], float] | None = None
    """What it does, as a share of its nominal speed, light or heat, or 1.0 and 0.0."""
    follows: Literal["moments", "power", "average"] = "moments"
    """What it does under a supply that is switched quickly: the mean of what it does at each moment, or
    what it does at the voltage of the mean power or at the mean voltage."""
    taken_for: Callable[[Any, Felt, Context], str] | None = None
    """What an electronic input takes its voltage for, in words that follow "takes its line for"."""
    pulls_out: bool = False
    feedable: bool = False
    """A person may feed it straight from the battery."""
    measured_alone: bool = True
    """Ohms between its terminals mean something once it is out of the circuit."""
    measured_between: tuple[str, ...] = ()
    """Terminals between which they mean something though they do not between all."""
    metal: bool = False
    """It passes current like a wire: what hangs on one end hangs on the other."""
    shorts_to_supply: tuple[str, ...] = ()
    """Terminals from which a fault can lead to SUPPLY."""
    drives: tuple[str, ...] = ()
    """Terminals that an electronic output feeds or sinks: no lamp and no supply may be put there."""
    takes: tuple[str, ...] = ()
    """Terminals by which electronics take their own supply."""
    line: str = ""
    """The hazard that every line on its terminals has: "sensor line", "module input", "data line"."""
    assumes: Mapping[str, Callable[[Any, Context], str]] = field(default_factory=dict)
    """Words for what is taken where a value is left open."""
    seldom_given: tuple[str, ...] = ()
    """Values left open as a rule, of which nothing is said."""
    objections: Callable[[Any, Context], Iterator[Objection]] = lambda *_: iter(())
    """What is wrong with values that are sound one by one."""


def moved_by(
    tips: Callable[[Any, State, Context], tuple[Tipping, ...]],
) -> Callable[[Any, Felt, Context], State]:
    """`moves` of a kind that goes wherever the first of its limits is passed."""

    def moves(values: Any, felt: Felt, context: Context) -> State:
        gone = (t.to for t in tips(values, felt.state, context) if t.reached(felt) >= 0.0)
        return next(gone, felt.state)

    return moves


SHORT_OHMS = 0.02
"""A dead short: metal on metal (common practice, no source)."""


def idle(branch: Branch, law: Law) -> Branch:
    """A branch whose current does none of the part's work, under a name of its own, so that whatever
    the part shows or does by the sound branch is not there."""
    return replace(branch, name=f"idle {branch.name}".rstrip(), law=law)


def shorted(branches: list[Branch]) -> list[Branch]:
    """The branches of a load that is shorted inside: much current, and nothing to show for it."""
    return [idle(branch, Resistance(SHORT_OHMS)) for branch in branches]


WARM_SHARE = 1.04
"""Nominal voltage of things that heat, as a share of the system's (common practice, no source)."""


def power_share(felt: Felt, sound: Branch, context: Context) -> float:
    """Power in the unnamed branch as a share of what it takes when sound at nominal voltage; what a
    joint in series with it wastes is not counted."""
    flow = felt.flows.get(sound.name)
    if flow is None:
        return 0.0
    nominal = WARM_SHARE * context.system_volts
    volts = inner_volts(flow.branch.law, flow.volts)
    return volts * flow.amps / (nominal * sound.law.at(nominal)[0])
