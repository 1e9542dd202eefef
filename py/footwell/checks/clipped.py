"""The circuit with the instrument of a check in it: what the instrument does to it, it does here."""

from __future__ import annotations

from footwell.checks.behind_plug import behind_plug
from footwell.checks.check import FEED, FUSE_LAMP, LAMP, OHMS, VOLTS, Check, nodes
from footwell.checks.lines import on_both_lines
from footwell.circuit.circuit import Circuit, by_the_sheet
from footwell.circuit.fault import Fault
from footwell.circuit.setup import SetupState, set_up
from footwell.electrics.laying import Clip, lamp_ends, lamp_volts
from footwell.electrics.operating_point import OperatingPoint, operate
from footwell.parts.laws import Filament, Law, Resistance, Source
from footwell.reference import meters

METER_OHMS = meters.VOLTMETER_OHMS.value
OHMMETER = Source(1.0, 1000.0)
"""A meter on ohms: 1 V behind 1 kΩ, read by the divider (common practice, no source)."""


def clipped(circuit: Circuit, check: Check, faults: tuple[Fault, ...]) -> OperatingPoint:
    """The operating point while the check is made: in its set-up, under the faults, with the
    instrument between its places. A clamp, an eye and an ear change nothing.

    Parts measured or fed by themselves are alone, and only their own faults count.
    """
    part = part_of(circuit, check) if check.instrument == OHMS else check.red
    if check.instrument not in (OHMS, FEED) or not part:
        return operate(circuit, check.setup, faults, _clips(circuit, check))
    mine = tuple(f for f in faults if f.element == part and not _stays_behind(circuit, check, f))
    setup = alone(circuit, part)
    if check.instrument == OHMS:
        setup = setup._replace(controls=check.setup.controls)
    return operate(circuit, setup, mine, _clips(circuit, check))


def _stays_behind(circuit: Circuit, check: Check, fault: Fault) -> bool:
    """Whether a fault of a part that is pulled out lies in its holder."""
    return (
        fault.element in check.setup.apart
        and circuit.elements[fault.element].modes[fault.mode].in_holder
    )


def held_to(circuit: Circuit, check: Check) -> tuple[int, int] | None:
    """Nodes between which the instrument is clipped, red first; None where it touches nothing."""
    if check.instrument in (VOLTS, LAMP, OHMS):
        return nodes(circuit, check)
    if check.instrument in (FUSE_LAMP, FEED):
        return lamp_ends(circuit, check.red)
    return None


def _clips(circuit: Circuit, check: Check) -> tuple[Clip, ...]:
    ends = held_to(circuit, check)
    if ends is None:
        return ()
    return (Clip(*ends, _law(circuit, check.instrument)),)


def _law(circuit: Circuit, instrument: str) -> Law:
    if instrument == VOLTS:
        return Resistance(METER_OHMS)
    if instrument == OHMS:
        return OHMMETER
    if instrument == LAMP:
        return test_lamp(circuit)
    return fused_lead(circuit) if instrument == FEED else substitute_lamp(circuit)


def test_lamp(circuit: Circuit) -> Filament:
    """The electrician's small test lamp for this vehicle."""
    watts = meters.TEST_LAMP_WATTS[circuit.context.system_volts].value
    return Filament.rated(lamp_volts(circuit), watts)


def substitute_lamp(circuit: Circuit) -> Filament:
    """The lamp that goes in place of a fuse."""
    return Filament.rated(lamp_volts(circuit), meters.SUBSTITUTE_LAMP_WATTS.value)


def fused_lead(circuit: Circuit) -> Source:
    """The battery behind a lead with a fuse."""
    battery = circuit.branches(circuit.supply_element, "off")[0].law
    assert isinstance(battery, Source)
    return Source(battery.volts, battery.ohms + meters.JUMPER_OHMS.value)


def alone(circuit: Circuit, element: str) -> SetupState:
    """The set-up in which one part is out of the circuit: everything else is apart."""
    others = tuple(sorted(e for e in circuit.elements if e != element))
    return SetupState(set_up(circuit).controls, others)


def between_lines(circuit: Circuit, check: Check) -> bool:
    """Whether an ohms check lies, by the sheet, between the two lines of a data bus in the loom, and not on
    one part that is out of the circuit: all that hangs on the bus then counts."""
    return (
        check.instrument == OHMS
        and not all(_cut_off(circuit, check, place) for place in (check.red, check.black))
        and on_both_lines(by_the_sheet(circuit), check.red, check.black)
    )


def _cut_off(circuit: Circuit, check: Check, place: str) -> bool:
    """Whether a place is on the part's side of a plug that is off, or on a part that is out."""
    owner = place.split(".")[0]
    if owner in circuit.connectors:
        in_part = place.split(".")[1] in circuit.connectors[owner].part_ways
        return in_part and place.endswith(".b") and owner in check.setup.apart
    return owner in check.setup.apart


def part_of(circuit: Circuit, check: Check) -> str:
    """The part that an ohms check is held to; "" between the lines of a bus, and where all that hangs on a
    plug is measured."""
    if between_lines(circuit, check) or behind_plug(circuit, check):
        return ""
    owner = check.red.split(".")[0]
    if owner in circuit.connectors:
        joined = circuit.connectors[owner].part_ways[check.red.split(".")[1]]
        return joined.split(".")[0]
    return owner
