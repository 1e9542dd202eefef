"""What is compared: set-ups with their faults and with an instrument laid in."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import product
from pathlib import Path
from random import Random

from footwell.checks.clipped import OHMMETER, alone, substitute_lamp, test_lamp
from footwell.circuit.circuit import Circuit, Element, build
from footwell.circuit.fault import Fault, sizes
from footwell.circuit.setup import SetupState, set_up
from footwell.electrics.laying import Clip
from footwell.parts.laws import Law, Resistance
from footwell.reference import meters
from footwell.sheet.reading import read_sheet

CIRCUITS = Path(__file__).parents[2] / "fixtures" / "circuits"

SOUND, ONE_FAULT, TWO_FAULTS, INSTRUMENT = "sound", "one fault", "two faults", "instrument"
CLASSES = (SOUND, ONE_FAULT, TWO_FAULTS, INSTRUMENT)
FAULTS = 16
"""Single faults of a random circuit; it gets half as many double ones."""

OHMS, STAND_IN = "ohmmeter", "substitute lamp"
LAID_IN: dict[str, Callable[[Circuit], Law]] = {
    "meter": lambda _: Resistance(meters.VOLTMETER_OHMS.value),
    "test lamp": test_lamp,
    "jumper": lambda _: Resistance(meters.JUMPER_OHMS.value),
    "lamp for fuse": substitute_lamp,
}
"""What is laid in between two places."""


@dataclass(frozen=True)
class Case:
    """`clip` names the instrument that `clips` lays in."""

    setup: SetupState
    faults: tuple[Fault, ...] = ()
    clips: tuple[Clip, ...] = ()
    clip: str = ""

    @property
    def kind(self) -> str:
        if self.clips or self.setup.stand_in:
            return INSTRUMENT
        return (SOUND, ONE_FAULT, TWO_FAULTS)[len(self.faults)]


def sample_sheets() -> list[str]:
    return sorted(
        path.stem for path in CIRCUITS.glob("*.json") if '"system_volts"' in path.read_text()
    )


def load(name: str) -> Circuit:
    read = read_sheet((CIRCUITS / f"{name}.json").read_text())
    return build(read.sheet, read.values)


def positions(circuit: Circuit) -> list[dict[str, str]]:
    """Every combination of the positions of the controls."""
    controls = circuit.sheet.controls
    every = product(*([position.id for position in control.positions] for control in controls))
    return [
        {c.part: position for c, position in zip(controls, chosen, strict=True)} for chosen in every
    ]


def single_faults(circuit: Circuit) -> Iterator[Fault]:
    """All modes of all elements, in all their sizes and factors."""
    ohms = sizes(circuit.context.system_volts, circuit.context.default_amps)
    for element in circuit.elements.values():
        yield from _faults_of(element, ohms)


def _faults_of(element: Element, ohms: Sequence[float]) -> Iterator[Fault]:
    for mode in element.modes.values():
        for size in ohms if mode.sized else mode.factors or (0.0,):
            yield Fault(element.id, mode.name, size)


def healthy_cases(circuit: Circuit) -> Iterator[Case]:
    """All positions without a fault: whole, engine on, each thing apart, a lamp for each load."""
    parts = [e.id for e in circuit.elements.values() if e.kind.pulls_out]
    plugs = [c.id for c in circuit.sheet.connectors if c.unplugs]
    for controls in positions(circuit):
        yield Case(set_up(circuit, controls))
        yield Case(set_up(circuit, controls, engine="on"))
        yield from (Case(set_up(circuit, controls, (apart,))) for apart in [*parts, *plugs])
        for plug in load_plugs(circuit):
            yield Case(set_up(circuit, controls, stand_in={plug: 21.0}))


def load_plugs(circuit: Circuit) -> list[str]:
    """Plugs of parts with two terminals, where a substitute lamp fits."""
    return [c.id for c in circuit.sheet.connectors if c.unplugs and len(c.part_ways) == 2]


def faulty_cases(circuit: Circuit) -> Iterator[Case]:
    """All positions under every single fault."""
    faults = list(single_faults(circuit))
    for controls in positions(circuit):
        setup = set_up(circuit, controls)
        yield from (Case(setup, (fault,)) for fault in faults)


def instruments(circuit: Circuit) -> dict[str, Law]:
    """What is laid in between two places."""
    return {
        "meter": Resistance(meters.VOLTMETER_OHMS.value),
        "test lamp": test_lamp(circuit),
        "jumper": Resistance(meters.JUMPER_OHMS.value),
        "substitute lamp": substitute_lamp(circuit),
    }


def random_cases(circuit: Circuit, chance: Random) -> list[Case]:
    """Every position of the controls, sound and with an instrument laid in; single and double faults
    in positions at random, each kind of part as often as the next."""
    setups = [
        set_up(circuit, controls, engine=chance.choice(("off", "on")))
        for controls in positions(circuit)
    ]
    singles = [Case(chance.choice(setups), (_any_fault(circuit, chance),)) for _ in range(FAULTS)]
    doubles = [
        Case(chance.choice(setups), tuple(sorted(_any_fault(circuit, chance) for _ in range(2))))
        for _ in range(FAULTS // 2)
    ]
    laid_in = [_with_instrument(circuit, setup, chance) for setup in setups]
    return [*(Case(setup) for setup in setups), *singles, *doubles, *laid_in]


def _any_fault(circuit: Circuit, chance: Random) -> Fault:
    """Any kind of part, any part of it, any mode, any size."""
    kinds = sorted({e.kind.name for e in circuit.elements.values() if e.modes})
    kind = chance.choice(kinds)
    element = chance.choice([e for e in circuit.elements.values() if e.kind.name == kind])
    ohms = sizes(circuit.context.system_volts, circuit.context.default_amps)
    mode = chance.choice(list(element.modes))
    return chance.choice([f for f in _faults_of(element, ohms) if f.mode == mode])


def _with_instrument(circuit: Circuit, setup: SetupState, chance: Random) -> Case:
    """Any instrument between any two nodes of a circuit that is sound or has a fault; the ohmmeter on
    a part by itself; a lamp in place of a load."""
    name = chance.choice((*LAID_IN, OHMS, STAND_IN))
    if name == OHMS:
        return _ohmmeter(circuit, setup, chance)
    plugs = load_plugs(circuit)
    if name == STAND_IN and plugs:
        return Case(setup._replace(stand_in=((chance.choice(plugs), 21.0),)))
    law = LAID_IN.get(name, test_lamp)(circuit)
    fault = (_any_fault(circuit, chance),) if chance.random() < 0.5 else ()
    a, b = chance.sample(range(circuit.earth + 1), 2)
    return Case(setup, fault, (Clip(a, b, law),), name)


def _ohmmeter(circuit: Circuit, setup: SetupState, chance: Random) -> Case:
    fault = _any_fault(circuit, chance)
    element = circuit.elements[fault.element]
    a, b = (list(dict.fromkeys(element.nodes.values())) * 2)[:2]
    held = alone(circuit, element.id)._replace(controls=setup.controls)
    faults = (fault,) if chance.random() < 0.5 else ()
    return Case(held, faults, (Clip(a, b, OHMMETER),), OHMS)
