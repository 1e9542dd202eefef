"""What a check is foretold to read where a relay or a fuse is in doubt, against drawn vehicles.

Each vehicle is drawn by hand: its supply, its resistances, and the limit at which its own relay or
fuse tips, and its circuit is solved by Ohm's law. Nothing of the core takes part in the drawing.
"""

from __future__ import annotations

import math
import random
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cache

import pytest

from footwell.checks.check import CLAMP, LISTEN, VOLTS, Check
from footwell.checks.predict import Branched, Reading, expected, readings
from footwell.circuit.circuit import Circuit
from footwell.circuit.setup import set_up
from footwell.parts.battery import Battery
from footwell.parts.fuse import Fuse
from footwell.parts.relay import Relay
from footwell.parts.resistor import Resistor
from footwell.reference.fuse_times import opening_time_seconds
from footwell.reference.relays import drop_out_volts, pull_in_volts

from .electrics_rig import EARTH, Part, circuit_of

DRAWS = 4000
WITHIN = 3.3
"""Standard errors that a drawn figure may lie off: once in a thousand."""

Mixture = Sequence[tuple[float, float, float]]
"""Weight, mean and standard deviation (V) of each normal part."""


@dataclass(frozen=True)
class Vehicle:
    """A circuit, the check, and how one vehicle is drawn: what the place reads (V) without a meter's
    noise, and whether the part in doubt lets current through."""

    circuit: Circuit
    check: Check
    draw: Callable[[random.Random], tuple[float, bool]]


def size_of(
    circuit: Circuit, element: str, branch: str = "", state: str = ""
) -> tuple[float, float]:
    """Resistance (Ω) of a branch and its relative spread, as the sheet's part has them."""
    part = circuit.elements[element]
    row = next(b for b in circuit.branches(part, state or part.rest) if b.name == branch)
    return 1.0 / row.law.at(1.0)[1], row.spread


def drawn_ohms(ohms: float, spread: float, chance: random.Random) -> float:
    """A resistance of one vehicle; none is below a fiftieth of what is usual."""
    return ohms * max(1.0 + spread * chance.gauss(0.0, 1.0), 0.02)


def on_a_relay(volts: float, inside: float, load: float) -> Vehicle:
    """A relay and the load it switches on one supply, the meter on its make contact."""
    nets = {"86": "plus", "85": EARTH, "30": "plus", "87": "out"}
    parts = [
        Part("G1", "battery", Battery(volts, inside), {"+": "plus", "-": EARTH}),
        Part("K1", "relay", Relay(85.0), nets),
        Part("R1", "resistor", Resistor(load), {"1": "out", "2": EARTH}),
    ]
    circuit = circuit_of(parts, joint_metres=0.001)
    supply = size_of(circuit, "G1")[1]
    coil, contact = size_of(circuit, "K1", "coil"), size_of(circuit, "K1", "contact", "pulled")
    resistor = size_of(circuit, "R1")
    pull_in, drop_out = pull_in_volts(12), drop_out_volts(12)

    def draw(chance: random.Random) -> tuple[float, bool]:
        emf = volts * (1.0 + supply * chance.gauss(0.0, 1.0))
        coil_ohms, contact_ohms = drawn_ohms(*coil, chance), drawn_ohms(*contact, chance)
        load_ohms = drawn_ohms(*resistor, chance) + contact_ohms
        free = emf * coil_ohms / (coil_ohms + inside)
        both = 1.0 / (1.0 / coil_ohms + 1.0 / load_ohms)
        loaded = emf * both / (both + inside)
        pulls = free >= chance.gauss(pull_in.mean, pull_in.sigma)
        holds = loaded >= chance.gauss(drop_out.mean, drop_out.sigma)
        on = pulls and holds
        return (loaded * (1.0 - contact_ohms / load_ohms) if on else 0.0), on

    return Vehicle(circuit, Check(VOLTS, "R1.1", "earth", set_up(circuit)), draw)


def on_a_fuse(percent: float) -> Vehicle:
    """A fuse of 10 A that carries some percent of its rating, the meter behind it."""
    volts, inside = 12.5, 0.02
    load = volts / (percent / 10.0) - inside - 0.013
    parts = [
        Part("G1", "battery", Battery(volts, inside), {"+": "plus", "-": EARTH}),
        Part("F1", "fuse", Fuse(10.0), {"1": "plus", "2": "out"}),
        Part("R1", "resistor", Resistor(load), {"1": "out", "2": EARTH}),
    ]
    circuit = circuit_of(parts, joint_metres=0.001)
    supply, resistor = size_of(circuit, "G1")[1], size_of(circuit, "R1")
    seat = size_of(circuit, "F1")

    def draw(chance: random.Random) -> tuple[float, bool]:
        emf = volts * (1.0 + supply * chance.gauss(0.0, 1.0))
        load_ohms = drawn_ohms(*resistor, chance)
        amps = emf / (inside + load_ohms + drawn_ohms(*seat, chance))
        times = opening_time_seconds("C", 10.0, amps)
        z = chance.gauss(0.0, 1.0)
        if times is None:
            return amps * load_ohms, True
        # ISO 8820-3: 95 % of fuses between the two times; no longest one is promised below 135 %.
        longest = times[1] if times[1] < math.inf else 800.0 * times[0]
        middle = math.sqrt(times[0] * longest)
        opens = middle * (longest / times[0]) ** (z / 4.0)
        holds = opens > 10.0
        return (amps * load_ohms if holds else 0.0), holds

    return Vehicle(circuit, Check(VOLTS, "R1.1", "earth", set_up(circuit)), draw)


CASES = {
    "weak battery, relay at its pull-in": lambda: on_a_relay(6.6, 0.05, 20.0),
    "weak battery, relay below its pull-in": lambda: on_a_relay(6.0, 0.05, 20.0),
    "load that drags the relay to its drop-out": lambda: on_a_relay(12.5, 1.0, 0.26),
    "load that leaves the relay a little more": lambda: on_a_relay(12.5, 1.0, 0.31),
    "fuse at 140 % of its rating": lambda: on_a_fuse(140.0),
    "fuse at 133 % of its rating": lambda: on_a_fuse(133.0),
}


@cache
def case(name: str) -> tuple[Vehicle, list[tuple[float, bool]], float]:
    """The vehicle, its drawn readings, and the meter's own standard deviation on the live ones."""
    vehicle = CASES[name]()
    chance = random.Random(f"{name} of drawn vehicles")
    found = expected(vehicle.circuit, vehicle.check, ())
    meter = {state: reading.instrument_sigma for state, reading in by_state(found).items()}
    rows = []
    for _ in range(DRAWS):
        volts, on = vehicle.draw(chance)
        rows.append((volts + chance.gauss(0.0, meter.get(on, 0.0)), on))
    return vehicle, rows, meter.get(True, 0.0)


def by_state(found: object) -> dict[bool, Reading]:
    """The predicted reading where current passes, and where it does not."""
    assert isinstance(found, Branched)
    return {reading.mean > 0.5: reading for _, reading in found.readings}


def mixture(name: str) -> Mixture:
    vehicle, _, _ = case(name)
    found = readings(expected(vehicle.circuit, vehicle.check, ()))
    return [(weight, reading.mean, reading.sigma) for weight, reading in found]


def one_normal(name: str) -> Mixture:
    """What a wider normal distribution would say: the mixture's own mean and spread."""
    rows = mixture(name)
    mean = sum(w * m for w, m, _ in rows)
    variance = sum(w * (s * s + (m - mean) ** 2) for w, m, s in rows)
    return [(1.0, mean, math.sqrt(variance))]


def middle_alone(name: str) -> Mixture:
    """The state with the middle of all limits alone, as if nothing were in doubt."""
    rows = mixture(name)
    _, mean, sigma = max(rows, key=lambda row: row[0])
    return [(1.0, mean, sigma)]


def farthest(rows: Sequence[tuple[float, bool]], parts: Mixture) -> float:
    """Largest gap between the shares of readings up to a voltage, drawn and foretold (Kolmogorov)."""
    drawn = sorted(volts for volts, _ in rows)

    def share(volts: float) -> float:
        return sum(w * 0.5 * math.erfc((m - volts) / s / math.sqrt(2.0)) for w, m, s in parts)

    return max(
        max(abs(share(v) - n / len(drawn)), abs(share(v) - (n + 1) / len(drawn)))
        for n, v in enumerate(drawn)
    )


# Kolmogorov: beyond 1.95 / sqrt(n) once in a thousand samples of what is foretold.
FARTHEST = 1.95 / math.sqrt(DRAWS)


@pytest.mark.parametrize("name", CASES)
def test_drawn_vehicles_read_as_foretold(name: str) -> None:
    _, rows, _ = case(name)
    assert farthest(rows, mixture(name)) < FARTHEST


@pytest.mark.parametrize("name", CASES)
@pytest.mark.parametrize("other", [one_normal, middle_alone])
def test_one_normal_distribution_fails_the_same_test(
    name: str, other: Callable[[str], Mixture]
) -> None:
    _, rows, _ = case(name)
    assert farthest(rows, other(name)) > 3.0 * FARTHEST


@pytest.mark.parametrize("name", CASES)
def test_chance_of_each_state_is_that_of_drawn_vehicles(name: str) -> None:
    _, rows, _ = case(name)
    share = sum(on for _, on in rows) / DRAWS
    foretold = sum(w for w, m, _ in mixture(name) if m > 0.5)
    assert abs(share - foretold) < WITHIN * math.sqrt(foretold * (1.0 - foretold) / DRAWS)


@pytest.mark.parametrize("name", CASES)
def test_mean_and_spread_of_the_live_state_are_those_of_drawn_vehicles(name: str) -> None:
    _, rows, _ = case(name)
    live = [volts for volts, on in rows if on]
    mean = sum(live) / len(live)
    sigma = math.sqrt(sum((v - mean) ** 2 for v in live) / (len(live) - 1))
    ((_, foretold_mean, foretold_sigma),) = [row for row in mixture(name) if row[1] > 0.5]
    assert abs(mean - foretold_mean) < WITHIN * foretold_sigma / math.sqrt(len(live))
    assert sigma == pytest.approx(foretold_sigma, rel=WITHIN / math.sqrt(2.0 * len(live)) + 0.02)


@pytest.mark.parametrize(
    "sure",
    [lambda: on_a_relay(12.5, 0.05, 20.0), lambda: on_a_relay(3.0, 0.05, 20.0)],
    ids=["full supply", "hardly any supply"],
)
def test_where_nothing_is_in_doubt_one_reading_is_foretold_and_every_draw_agrees(
    sure: Callable[[], Vehicle],
) -> None:
    vehicle = sure()
    found = expected(vehicle.circuit, vehicle.check, ())
    assert isinstance(found, Reading)
    chance = random.Random(11)
    assert {vehicle.draw(chance)[1] for _ in range(DRAWS)} == {found.mean > 0.5}


def test_current_is_foretold_both_ways_too() -> None:
    vehicle = on_a_fuse(140.0)
    wire = next(e for e in vehicle.circuit.elements if e.startswith("J"))
    found = expected(vehicle.circuit, Check(CLAMP, wire, "", set_up(vehicle.circuit)), ())
    assert isinstance(found, Branched)
    amps = sorted(abs(reading.mean) for _, reading in found.readings)
    assert amps[0] < 0.01 and amps[1] == pytest.approx(14.0, rel=0.02)


@pytest.mark.parametrize(("volts", "sure"), [(6.6, False), (12.5, True)])
def test_click_of_a_relay_in_doubt_is_a_matter_of_chance(volts: float, sure: bool) -> None:
    vehicle = on_a_relay(volts, 0.05, 20.0)
    words = expected(vehicle.circuit, Check(LISTEN, "K1", "", set_up(vehicle.circuit)), ())
    assert isinstance(words, dict)
    assert sum(words.values()) == pytest.approx(1.0)
    assert (max(words.values()) > 0.85) is sure
