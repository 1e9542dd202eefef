"""What to do for a check, in the words of the trade: what is stopped, held, opened, clipped or fed first."""

from __future__ import annotations

from collections.abc import Sequence

from footwell.checks.check import (
    BENCH,
    CLAMP,
    FEED,
    FUSE_LAMP,
    LAMP,
    LISTEN,
    LOOK,
    OHMS,
    SUBSTITUTE,
    VOLTS,
    Check,
    bared,
    nodes,
)
from footwell.checks.clamped import along, owner_at
from footwell.checks.fusing import own_fuse_amps
from footwell.checks.hands import held_down
from footwell.checks.safety import starters_of
from footwell.circuit.circuit import Circuit
from footwell.diagnosis.case import Case, Taken, started
from footwell.electrics.laying import lamp_ends
from footwell.page import words as say
from footwell.reference import meters

TRY_LAMP = "Try the lamp across the battery first: it must light."

STOP_ENGINE = "Stop the engine first."
START_ENGINE = "Clip the leads on with the engine off, start it for the reading, then stop it."


def what_to_do(case: Case, check: Check) -> str:
    """The step in full, what comes before it first."""
    circuit, do = case.now, _do(case.now, check)
    if case.engine == "on" and check.setup.engine == "off":
        do = f"{STOP_ENGINE} {do}"
    if started(case, check):
        do = f"{START_ENGINE} {do}"
    if check.instrument == LAMP and not _lamp_lit(case):
        do = f"{TRY_LAMP} {do}"
    held = held_down(circuit, check)
    if held and not case.tools.helper:
        do = f"{_hold(circuit, check, held)} {do}"
    return do


def _lamp_lit(case: Case) -> bool:
    """Whether the test lamp was seen alight in this job: a dead lamp is dark everywhere."""
    return any(
        isinstance(e, Taken) and e.check.instrument == LAMP and e.word not in ("", "dark")
        for e in case.evidence
    )


def condition_of(circuit: Circuit, check: Check) -> str:
    """The set-up in one line, as it is once the step is done."""
    return say.condition(circuit, check.setup, _plugged(circuit, check))


def _hold(circuit: Circuit, check: Check, held: Sequence[str]) -> str:
    """How a control stays where nobody has a hand for it: "Wedge brake pedal at pressed first."."""
    positions = dict(check.setup.controls)
    controls = [c for c in circuit.sheet.controls if c.part in held]
    names = " and ".join(
        f"{c.name} at {next(p.name for p in c.positions if p.id == positions[c.part])}"
        for c in controls
    )
    if starters_of(circuit):  # wedged, the engine would crank on by itself
        return f"Let somebody hold {names} for seconds only, or use a remote start switch. Never wedge it."
    return f"Wedge {names} first: both hands are at the instrument."


def _plugged(circuit: Circuit, check: Check) -> str:
    """What is said of the plugs: a step that opens one itself leaves not everything plugged in."""
    if check.instrument == FEED:
        return f"{say.short_named(circuit, check.red)} unplugged"
    opens = check.instrument in (LOOK, SUBSTITUTE) or check.setup.stand_in
    return "" if opens else "everything plugged in"


def _do(circuit: Circuit, check: Check) -> str:
    red, black = say.place_named(circuit, check.red), say.place_named(circuit, check.black)
    if check.instrument == VOLTS:
        return _do_volts(circuit, check, red, black)
    if check.instrument == LAMP:
        return _bared(circuit, check, f"Clip the test lamp to {black}. Touch {red}.")
    if check.instrument == CLAMP:
        return _do_clamp(circuit, check)
    if check.instrument == OHMS:
        apart = _take_apart(circuit, check)
        both = say.two_places(circuit, check.red, check.black)
        return f"{apart} Meter on Ω between {both}. Then lead and knob back to V."
    if check.instrument == FEED:
        return _do_feed(circuit, check)
    if check.instrument == BENCH:
        return _do_bench(circuit, check)
    if check.instrument == FUSE_LAMP:
        apart = _take_apart(circuit, check)
        lamp = _lamp(circuit, meters.SUBSTITUTE_LAMP_WATTS.value)
        return f"{apart} Put a {lamp} in place of {red}. Switch on and look at the lamp."
    if check.instrument == SUBSTITUTE:
        return f"{_put_lamp(circuit, check)} Switch on and look at the lamp."
    if check.instrument == LISTEN:
        return f"Hold a finger on {red} and switch on."
    return _do_look(circuit, check.red, red)


def _do_look(circuit: Circuit, element: str, name: str) -> str:
    kind = circuit.elements[element].kind.name
    if kind == "fuse":
        return f"Pull {name} out and look at its wire."
    if kind == "splice":
        return f"Take the tape off {name}. Look at the joint, pull gently on each wire. Tape it up again."
    if kind == "wire":
        return f"Follow {name} by hand and eye, most of all where it bends or lies on metal."
    connector = circuit.connectors[element.split(".")[0]]
    way = name.removesuffix(f" of {connector.name}")
    return f"Open {connector.name}. Look at {way} on both halves, pull gently on each wire."


def _do_volts(circuit: Circuit, check: Check, red: str, black: str) -> str:
    if check.setup.stand_in:
        across = {*lamp_ends(circuit, check.setup.stand_in[0][0])} == {*nodes(circuit, check)}
        where = (
            "Measure across the lamp." if across else f"Red lead on {red}. Black lead on {black}."
        )
        return f"{_put_lamp(circuit, check)} {where}"
    apart = f"{_take_apart(circuit, check)} " if check.setup.apart else ""
    verb = "Back-probe" if check.red.count(".") == 2 and not apart else "Red lead on"
    return _bared(circuit, check, f"{apart}{verb} {red}. Black lead on {black}.")


def _bared(circuit: Circuit, check: Check, step: str) -> str:
    """A step with the tape of a splice off for it, where it has to be."""
    joint = bared(circuit, check)
    if not joint:
        return step
    name = say.short_named(circuit, joint)
    return f"With everything off take the tape off {name}. Switch on. {step} Tape it up again, all off."


def _put_lamp(circuit: Circuit, check: Check) -> str:
    """The lamp of a set-up, to its place."""
    held, watts = check.setup.stand_in[0]
    lamp = _lamp(circuit, watts)
    if held in circuit.connectors:
        return f"Unplug {circuit.connectors[held].name}. Put a {lamp} across its two ways."
    return f"Pull out {say.short_named(circuit, held)}. Put a {lamp} in its place."


USUAL_VOLTS = 12


def _lamp(circuit: Circuit, watts: float) -> str:
    """A lamp by its watts, and by its volts where the usual one would burn out."""
    volts = circuit.context.system_volts
    return f"{watts:g} W lamp" if volts == USUAL_VOLTS else f"{volts:g} V {watts:g} W lamp"


def _do_clamp(circuit: Circuit, check: Check) -> str:
    at, sign = along(circuit, check.red, check.setup)
    end, arrow = owner_at(circuit, check.red, at), "away from" if sign > 0.0 else "towards"
    wire = say.place_named(circuit, check.red)
    clamp = f"Zero the clamp, put it around {wire} alone, close to {end}, arrow {arrow} it."
    return f"{_put_lamp(circuit, check)} Switch on. {clamp}" if check.setup.stand_in else clamp


def _take_apart(circuit: Circuit, check: Check) -> str:
    spoken = [
        f"unplug {circuit.connectors[n].name}"
        if n in circuit.connectors
        else f"pull out {say.short_named(circuit, n)}"
        for n in check.setup.apart
    ]
    off = "Switch off, " if check.instrument == OHMS else ""
    return say.capital(f"{off}{say.joined_all(spoken)}{_then_set(circuit, check)}.")


def _then_set(circuit: Circuit, check: Check) -> str:
    """A switch is measured in a position of its own, set once it is unplugged."""
    off = {c.part: c.off for c in circuit.sheet.controls}
    on = [p for p, position in check.setup.controls if position != off.get(p)]
    if check.instrument != OHMS or not on:
        return ""
    return f", then put the {say.controls_words(circuit, check.setup)}"


def _do_feed(circuit: Circuit, check: Check) -> str:
    largest = own_fuse_amps(circuit, check.red)
    rating = f"of at most {largest:g} A" if largest else "no larger than the circuit's own"
    load = say.short_named(circuit, check.red)
    return (
        f"Unplug {load}. Feed it from the battery through a lead with a fuse {rating}, its other"
        " side to battery −. Mind the polarity."
    )


COIL_FUSE_AMPS = 3.0
"""Far above what a coil takes, far below what hurts a hand's wire (common practice, no source)."""


def _do_bench(circuit: Circuit, check: Check) -> str:
    """86 is plus: with a diode across the coil the other way round is a short."""
    largest = min(own_fuse_amps(circuit, check.red) or COIL_FUSE_AMPS, COIL_FUSE_AMPS)
    return (
        f"Pull {say.short_named(circuit, check.red)} out. Feed 86 from battery +, 85 from −, through a fuse"
        f" of at most {largest:g} A. Meter on Ω from 30 to 87, fed and not. Then lead back to V."
    )
