"""What must not be done, and what must be said before a step: from the circuit's own hazards.

`refusal` is asked for every check before it is ever proposed or accepted. `cautions` gives the texts of
a check's hazards, gravest first. All rules here are the trade's (common practice, no source) unless
noted.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from footwell.checks.behind_plug import behind_plug
from footwell.checks.check import (
    BENCH,
    CLAMP,
    FEED,
    FUSE_LAMP,
    LAMP,
    LOOK,
    OHMS,
    SUBSTITUTE,
    VOLTS,
    Check,
    bared,
)
from footwell.checks.clamped import clamp_end, owner_at
from footwell.checks.clipped import between_lines
from footwell.checks.lines import (
    DATA_LINE,
    bus_fuses,
    feeds_electronics,
    hangs_on,
    hazards_on,
    unfused,
)
from footwell.circuit.circuit import Circuit
from footwell.circuit.setup import set_up
from footwell.electrics.operating_point import operate

CURRENT_DRAWING = (LAMP, SUBSTITUTE, FEED, BENCH, FUSE_LAMP)
"""Instruments that put a load or a supply of their own on the circuit."""

PROTECTED = ("module input", "sensor line", "data line")


@dataclass(frozen=True, slots=True)
class CautionText:
    """Four parts of a caution, with its safety word."""

    hazard: str
    level: str
    what: str
    avoid: str
    where: str
    otherwise: str


TEXTS: dict[str, CautionText] = {
    c.hazard: c
    for c in (
        CautionText(
            "restraint system",
            "DANGER",
            "Airbag or belt-tensioner circuit",
            "Do not probe, lamp-test or unplug it. Leave it to qualified work with the maker's data",
            "yellow plugs and sleeves, seats, pillars, steering wheel",
            "It can fire and kill or maim",
        ),
        CautionText(
            "high voltage",
            "DANGER",
            "High voltage in orange cables",
            "Stop. No measuring here without training, isolation and rated tools",
            "orange cables and everything they lead to",
            "A touch can kill",
        ),
        CautionText(
            "fuel vapour",
            "WARNING",
            "Fuel vapour may be present",
            "Air the place. No lamp, no jumper, no plug opened under current",
            "at the tank, the pump and the lines",
            "A spark can set it on fire",
        ),
        CautionText(
            "moving fan",
            "WARNING",
            "The motor can start at any moment",
            "Keep hands, leads and sleeves clear of what it turns before you switch or feed it",
            "at its blades, vanes or belt",
            "Turning blades cut fingers",
        ),
        CautionText(
            "moving belt",
            "WARNING",
            "Belts move while the engine runs or is cranked",
            "Out of gear, parking brake on. Keep hands, leads and hair away; engine off where you can",
            "at the front of the engine",
            "A belt draws in and crushes",
        ),
        CautionText(
            "moving lock",
            "CAUTION",
            "The mechanism can move when fed",
            "Keep fingers out of it before you switch or feed it",
            "at the lock or window",
            "It pinches",
        ),
        CautionText(
            "hot part",
            "CAUTION",
            "This part gets hot enough to burn",
            "Switch off and let it cool before you touch it",
            "at the part and the metal around it",
            "Burns to the skin",
        ),
        CautionText(
            "hot lamp",
            "CAUTION",
            "The lamp you put in gets hot enough to burn",
            "Hang it clear of trim, wires and fingers. Not for longer than the reading takes",
            "at the lamp",
            "It melts plastic and burns the skin",
        ),
        CautionText(
            "battery",
            "WARNING",
            "Battery: high current, acid and explosive gas",
            "Rings and watch off. No sparks. Negative lead off first and on last",
            "at the battery and its posts",
            "Burns, acid in the eyes",
        ),
        CautionText(
            "fused lead",
            "WARNING",
            "You feed the part straight from the battery",
            "Lead with a fuse no larger than the circuit's own. Check polarity. Moving parts free",
            "at the part's plug, unplugged",
            "An unfused lead burns",
        ),
        CautionText(
            "live circuit",
            "CAUTION",
            "Ohms only with the part out of the circuit",
            "Switch off and unplug as told before the leads go on. Afterwards lead back to V",
            "at the terminals you measure",
            "Meter or part is damaged and the reading means nothing",
        ),
        CautionText(
            "live joint",
            "CAUTION",
            "The joint stays live with everything off",
            "Take the battery's negative lead off before the tape comes off",
            "at the splice",
            "A bare joint that touches metal sparks and burns",
        ),
        CautionText(
            "bare joint",
            "CAUTION",
            "The joint is bare and live while you measure",
            "Everything off while the tape comes off and goes on. Touch the joint with the probe alone",
            "at the splice",
            "Against metal it sparks and blows the fuse",
        ),
        CautionText(
            "unfused wire",
            "WARNING",
            "No fuse guards this wire, and it stays live",
            "Take the battery's negative lead off before you move it; at once if it is warm or smells",
            "all along the wire",
            "Lying on metal it glows and sets things on fire",
        ),
        CautionText(
            "dead bus",
            "CAUTION",
            "Ohms on a data bus only while nothing feeds it",
            "Take out what the step names, wait until all units sleep, and measure volts first: 0 on both"
            " lines. No lamp, no jumper, no supply of your own. Afterwards lead back to V",
            "at the two lines you measure",
            "A unit or the meter is damaged and the reading means nothing",
        ),
    )
}
ORDER = ("DANGER", "WARNING", "CAUTION", "NOTICE")


def refusal(circuit: Circuit, check: Check) -> str:
    """Why a check must not be done, as a sentence; "" where it may be done."""
    everywhere: set[str] = {h for part in circuit.sheet.parts for h in part.hazards}
    everywhere |= {h for c in circuit.sheet.connectors for h in c.hazards}
    if "high voltage" in everywhere:
        return "High voltage in this circuit: stop. Qualified work only."
    here = hazards_at(circuit, check)
    if RESTRAINT in here:
        return "This belongs to a restraint system: do not probe it. Qualified work only."
    if check.instrument in CURRENT_DRAWING or check.setup.stand_in:
        return _refused_load(circuit, check, here, everywhere)
    if check.instrument == OHMS:
        return _refused_ohms(circuit, check)
    return ""


def hands_off(circuit: Circuit, owner: str) -> str:
    """Why only qualified people may open a plug, or move a wire, as a sentence; "" where anybody may."""
    return refusal(circuit, Check(LOOK, owner, "", set_up(circuit)))


NO_OHMS = "No ohms on a sensor, data or control unit line: the meter feeds a current into it."
FEED_OFF = (
    " Between the two lines of a bus only once every unit is without supply: take {fuses} out."
)


def _refused_ohms(circuit: Circuit, check: Check) -> str:
    if not between_lines(circuit, check):
        return NO_OHMS if _protected_from_ohms(circuit, check) else ""
    others = hazards_at(circuit, check) & set(PROTECTED) - {DATA_LINE}
    if others or not _is_dead(circuit, check):
        fuses = " and ".join(bus_fuses(circuit)) or "their fuses"
        return NO_OHMS + ("" if others else FEED_OFF.format(fuses=fuses))
    return ""


DEAD_VOLTS = 0.05
"""A line with more than this is alive (common practice, no source)."""


def _is_dead(circuit: Circuit, check: Check) -> bool:
    """Whether no unit of a bus has supply in the set-up and nothing stands on the places."""
    key = ("dead", check.red, check.black, check.setup)
    if key not in circuit.cache:
        taken = {
            e.nodes[t]
            for e in circuit.elements.values()
            if e.kind.line == DATA_LINE
            for t in e.kind.takes
        }
        circuit.cache[key] = _without_voltage(circuit, check, touched(circuit, check) | taken)
    return circuit.cache[key]  # type: ignore[no-any-return]


def _without_voltage(circuit: Circuit, check: Check, nodes: set[int]) -> bool:
    """Whether none of some nodes has voltage in the set-up of a check, all being sound."""
    volts = operate(circuit, check.setup).volts
    return all(abs(volts[node]) < DEAD_VOLTS for node in nodes)


def _protected_from_ohms(circuit: Circuit, check: Check) -> bool:
    declared = _declared_at(circuit, check) & set(PROTECTED)
    on_line = hazards_on(circuit, touched(circuit, check)) & set(PROTECTED)
    return bool(declared or (on_line and not measured_by_itself(circuit, check)))


def _refused_load(circuit: Circuit, check: Check, here: set[str], everywhere: set[str]) -> str:
    if RESTRAINT in everywhere:
        return "No lamp, jumper or supply of your own on a circuit with a restraint system."
    if here & set(PROTECTED) and check.instrument != BENCH:  # out of its socket it is on no line
        return "No lamp, jumper or supply of your own on a sensor, data or control unit line."
    if "fuel vapour" in everywhere:
        return "Fuel vapour may be present: no lamp and no jumper here."
    if check.instrument == FEED and not circuit.elements[check.red].kind.feedable:
        return "Only a load may be fed directly."
    if check.instrument == LAMP and _fed_by_output(circuit, check):
        return (
            "No test lamp where an electronic output feeds: it may only drive its own kind of load."
        )
    lamped = _lamped(check)
    plugs = (held for held in lamped if held in circuit.connectors)
    if any(_drives_another_kind(circuit, check, plug) for plug in plugs):
        return "No lamp in place of this load: an electronic output may only drive its own kind of load."
    fuses = (held for held in lamped if held in circuit.elements)
    if any(_feeds_what_a_lamp_may_not(circuit, check, fuse) for fuse in fuses):
        return "No lamp in place of a fuse that feeds electronics."
    return ""


def _lamped(check: Check) -> list[str]:
    """Fuses, and plugs of loads, in whose place a lamp lies."""
    own = [check.red] if check.instrument in (SUBSTITUTE, FUSE_LAMP) else []
    return [*own, *(held for held, _ in check.setup.stand_in)]


def _drives_another_kind(circuit: Circuit, check: Check, plug: str) -> bool:
    """Whether an electronic output drives the load of a plug, and the load is no lamp."""
    parts = circuit.connectors[plug].parts
    own_kind = all(circuit.elements[part].kind.name == "lamp" for part in parts)
    return not own_kind and _fed_by_output(circuit, Check(SUBSTITUTE, plug, "", check.setup))


def _feeds_what_a_lamp_may_not(circuit: Circuit, check: Check, fuse: str) -> bool:
    seat = Check(FUSE_LAMP, fuse, "", check.setup)
    return feeds_electronics(circuit, fuse) or _fed_by_output(circuit, seat)


def _fed_by_output(circuit: Circuit, check: Check) -> bool:
    """Whether a place hangs on an electronic output through metal, fuses and switches alone."""
    return bool(touched(circuit, check) & hangs_on(circuit, "drives"))


def hazards_at(circuit: Circuit, check: Check) -> set[str]:
    """Hazards of every part and connector that the check touches or measures, and of the lines it lies on."""
    nodes, measured = touched(circuit, check), behind_plug(circuit, check)
    inside = _declared(circuit, {element.split(".")[0] for element in measured})
    found = _declared_at(circuit, check) | inside | hazards_on(circuit, nodes)
    return found | {RESTRAINT} if nodes & _restraint_nodes(circuit) else found


RESTRAINT = "restraint system"


def _restraint_nodes(circuit: Circuit) -> set[int]:
    """Nodes of the terminals of parts of a restraint system, but for the battery's posts and earth."""
    parts = (circuit.elements[p.id] for p in circuit.sheet.parts if RESTRAINT in p.hazards)
    return {n for part in parts for n in part.ends} - {circuit.earth, *circuit.supply_element.ends}


def _declared_at(circuit: Circuit, check: Check) -> set[str]:
    """Hazards that the sheet names at the parts and connectors of the check."""
    owners = {point.split(".")[0] for point in (check.red, check.black)} | set(check.setup.apart)
    found = _declared(circuit, owners)
    # A wire has no hazards of its own, nor has a splice; what leads to a restraint system belongs to it.
    return found | (_declared(circuit, _led_to(circuit, owners)) & {RESTRAINT})


def _led_to(circuit: Circuit, owners: set[str]) -> set[str]:
    """Parts and connectors at the ends of wires among the owners, and of those that meet in their splices;
    parts that their connectors plug into."""
    spliced = {o for o in owners if o in circuit.elements and _is_splice(circuit, o)}
    plugs = (circuit.connectors[name] for name in owners if name in circuit.connectors)
    found = {part for plug in plugs for part in plug.parts}
    for wire in circuit.sheet.wires:
        if wire.id in owners or wire.owners & spliced:
            found |= wire.owners
    return found


def _is_splice(circuit: Circuit, element: str) -> bool:
    return circuit.elements[element].kind.name == "splice"


def _declared(circuit: Circuit, owners: set[str]) -> set[str]:
    found = {h for part in circuit.sheet.parts if part.id in owners for h in part.hazards}
    return found | {h for c in circuit.sheet.connectors if c.id in owners for h in c.hazards}


def touched(circuit: Circuit, check: Check) -> set[int]:
    """Nodes under the probes, or those of the part or plug that the check is held to."""
    found: set[int] = set()
    for named in (check.red, check.black):
        if named in circuit.node_of:
            found.add(circuit.node_of[named])
        elif named in circuit.elements:
            found |= circuit.elements[named].ends
        elif named in circuit.connectors:
            found |= {
                circuit.node_of[f"{named}.{way}.a"] for way in circuit.connectors[named].part_ways
            }
    return found - {circuit.earth}


def measured_by_itself(circuit: Circuit, check: Check) -> bool:
    """Whether both leads lie on one part that is out of the circuit and takes no harm of a meter: a
    sensor with its plug off is no line any more."""
    owners = {_owner_apart(circuit, check, point) for point in (check.red, check.black)}
    return (
        len(owners) == 1
        and "" not in owners
        and all(_means_something(circuit, check, owner) for owner in owners)
    )


def _means_something(circuit: Circuit, check: Check, part: str) -> bool:
    """Whether ohms between the two places of a part tell anything of it."""
    element = circuit.elements[part]
    nodes = {node for place in (check.red, check.black) for node in _terminals_at(circuit, place)}
    between = {element.nodes[t] for t in element.kind.measured_between}
    return element.kind.measured_alone or bool(nodes and nodes <= between)


def _terminals_at(circuit: Circuit, place: str) -> set[int]:
    """The node of the terminal that a place on a part's side of its plug is."""
    return {circuit.node_of[place]} if place in circuit.node_of else set()


def _owner_apart(circuit: Circuit, check: Check, point: str) -> str:
    """The part whose own terminal, cut off from the loom, a place is; "" for any other place."""
    owner = point.split(".")[0]
    if owner in circuit.connectors and point.endswith(".b") and owner in check.setup.apart:
        return circuit.connectors[owner].part_ways.get(point.split(".")[1], "").split(".")[0]
    return owner if owner in circuit.elements and owner in check.setup.apart else ""


def cautions(circuit: Circuit, check: Check) -> list[CautionText]:
    """Texts to pass before the check, gravest first."""
    names = hazards_at(circuit, check) & TEXTS.keys()
    if _moves(circuit, check):
        names |= {
            h
            for part in circuit.sheet.parts
            if part.id in circuit.sheet.loads
            for h in part.hazards
        } & {
            "moving fan",
            "moving belt",
            "moving lock",
        }
    if _engine_turns(circuit, check) and any(
        "moving belt" in p.hazards for p in circuit.sheet.parts
    ):
        names.add("moving belt")
    if check.instrument in (FEED, BENCH):
        names.add("fused lead")
    if _lamped(check):
        names.add("hot lamp")
    if check.instrument == OHMS:
        names.add("dead bus" if between_lines(circuit, check) else "live circuit")
    if _bares_live_metal(circuit, check):
        names.add("live joint")
    if bared(circuit, check) and check.instrument != LOOK:
        names.add("bare joint")
    if _moves_unfused_wire(circuit, check):
        names.add("unfused wire")
    texts = (_at_its_part(circuit, TEXTS[n]) for n in names)
    return sorted(texts, key=lambda c: (ORDER.index(c.level), c.hazard))


def _bares_live_metal(circuit: Circuit, check: Check) -> bool:
    """Whether the tape comes off a joint that has voltage with everything off."""
    splice = bared(circuit, check)
    if not splice:
        return False
    look = Check(LOOK, splice, "", set_up(circuit))
    return not _without_voltage(circuit, look, touched(circuit, look))


def _moves_unfused_wire(circuit: Circuit, check: Check) -> bool:
    """Whether a wire is felt along that has voltage in the set-up of the look and no fuse before it."""
    if check.instrument != LOOK or circuit.elements[check.red].kind.name != "wire":
        return False
    ends = touched(circuit, check)
    return ends <= unfused(circuit) and not _without_voltage(circuit, check, ends)


def _at_its_part(circuit: Circuit, text: CautionText) -> CautionText:
    """The caution with the names of the parts that bring the hazard."""
    named = [p.name for p in circuit.sheet.parts if text.hazard in p.hazards]
    return replace(text, where=f"{', '.join(named)}: {text.where}") if named else text


def _engine_turns(circuit: Circuit, check: Check) -> bool:
    """Whether the engine runs, or the starter would crank it if all were sound: wherever the hands are."""
    if check.setup.engine == "on":
        return True
    starters = starters_of(circuit)
    states = operate(circuit, check.setup).states if starters else {}
    return any(states[starter] == "pulled" for starter in starters)


def starters_of(circuit: Circuit) -> list[str]:
    """Parts that crank the engine when they pull in."""
    return [e.id for e in circuit.elements.values() if e.kind.name == "starter_solenoid"]


def _moves(circuit: Circuit, check: Check) -> bool:
    """Whether the check switches a load on while hands are near it."""
    off = {c.part: c.off for c in circuit.sheet.controls}
    on = any(position != off.get(part) for part, position in check.setup.controls)
    near = _hands_at(circuit, check) in {*circuit.sheet.loads, *_plugs_of_loads(circuit)}
    return check.instrument == FEED or (
        on and near and check.instrument in (VOLTS, CLAMP, LAMP, LOOK)
    )


def _hands_at(circuit: Circuit, check: Check) -> str:
    """The connector or part that the hands are at."""
    if check.instrument == CLAMP:
        return owner_at(circuit, check.red, clamp_end(circuit, check.red, check.setup))
    return check.red.split(".")[0]


def _plugs_of_loads(circuit: Circuit) -> set[str]:
    return {c.id for c in circuit.sheet.connectors if c.parts & set(circuit.sheet.loads)}
