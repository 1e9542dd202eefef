"""What to do about a fault, by kind of part and by what is wrong with it (common practice, no source)."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

Advice = tuple[str, ...]

SAME_FUSE = "Fit a fuse of the same rating and type, never a larger one."
SAME_LINK = "Fit a link of the same cross-section and length, never plain wire."
LOAD_ON_CONTACT = "See what it switches: too large a load burns or welds a contact."
SLEEP = "Give all units 20 to 60 minutes to fall asleep, then measure the current again."
BUS_OHMS = "Then measure 60 Ω between the lines, supply off."
LEARN = "Renew the sensor. Let the unit learn its ends where the maker asks for it."
BEFORE_CONDEMNED = "Check its feed, its earth and what it is told before the unit is condemned."
RIGHT_LAMP = "Renew the lamp with one of the same code."
FREE_FIRST = "See which is stiff, the motor or what it drives. Free that, or renew the motor."
AIR = "Check that air passes it."

_OF_KIND: Mapping[str, Mapping[str, Advice]] = MappingProxyType(
    {
        "wire": {
            "": (
                "Mend with wire of the same cross-section or larger, crimped and sealed.",
                "Find and remove what damaged it.",
            ),
            "short_to_earth": (
                "Free it from the metal. Renew the chafed length with the same cross-section or larger.",
                "Sleeve it, and clip it clear of edges and moving parts.",
            ),
        },
        "contact": {
            "": (
                "Renew both terminals of the pair and cut the wire back to bright copper.",
                "Use a terminal of the right rating.",
            )
        },
        "splice": {"": ("Make the splice anew: crimp, seal, support.",)},
        "earth_point": {
            "": ("Clean to bright metal, refit with sound hardware, tighten and protect.",)
        },
        "unknown_stretch": {
            "": (
                "Follow it from both ends: plugs, splices, spots that are rubbed or green.",
                "Put what you find in under Circuit, and mend it there.",
            )
        },
        "fuse": {
            "": ("Look for what overloaded it first, where that is not known yet.", SAME_FUSE),
            "high_resistance": (
                "Clean its clips to bright metal, or renew them, so that they grip.",
                SAME_FUSE,
            ),
        },
        "fusible_link": {
            "": ("Look for the short behind it first.", SAME_LINK),
            "high_resistance": ("Clean and tighten both its ends.", f"Where burnt: {SAME_LINK}"),
        },
        "breaker": {
            "": (
                "Fit a breaker of the same rating and type, never a larger one.",
                "Measure its current afterwards: one that opens again has a cause behind it.",
            )
        },
        "resistor_pack": {
            "": (
                "Renew the pack. Never bridge its thermal fuse.",
                "Check that air passes the pack and that the fan turns freely.",
            )
        },
        "resistor": {"": ("Renew it with one of the same ohms and watts.",)},
        "rheostat": {
            "": ("Renew the control. Dust and heat come from its own losses: keep it aired.",)
        },
        "motor": {
            "": ("Renew the motor. Check that what it drives turns freely.",),
            "worn_brushes": ("Renew the brushes where they can be had, else the motor.",),
            "stiff": (FREE_FIRST,),
            "seized": (FREE_FIRST,),
        },
        "two_speed_motor": {
            "": ("Renew the motor. Check that its linkage moves freely.",),
            "stiff": (FREE_FIRST,),
            "seized": (FREE_FIRST,),
        },
        "reversing_motor": {
            "": ("Renew the motor. Check that what it moves runs freely in its guides.",),
            "stiff": (FREE_FIRST,),
            "seized": (FREE_FIRST,),
        },
        "starter_solenoid": {
            "": (
                "Disconnect the battery and renew the solenoid. Clean and tighten 30 and 45.",
                "Test the battery under load: a weak one burns the contact.",
            )
        },
        "relay": {
            "": ("Renew the relay with one of the same print and rating.",),
            "high_resistance:contact": (
                "Renew the relay with one of the same print and rating.",
                LOAD_ON_CONTACT,
            ),
            "stuck_closed": (
                "Renew the relay with one of the same print and rating.",
                LOAD_ON_CONTACT,
            ),
        },
        "latching_relay": {"": ("Renew the relay with one of the same print, coils and rating.",)},
        "switch": {
            "": ("Renew the switch.",),
            "high_resistance": ("Renew the switch.", LOAD_ON_CONTACT),
            "stuck_closed": ("Renew the switch.", LOAD_ON_CONTACT),
        },
        "hall_switch": {
            "": ("Renew the switch. Check its distance to the magnet and the magnet itself.",)
        },
        "reed_switch": {
            "": ("Renew the switch. Check its distance to the magnet and the magnet itself.",),
            "high_resistance": ("Renew the switch.", LOAD_ON_CONTACT),
            "stuck_closed": ("Renew the switch.", LOAD_ON_CONTACT),
        },
        "lamp": {
            "": (RIGHT_LAMP,),
            "wrong_part": ("Fit a lamp of the code that the maker gives for this place.",),
        },
        "twin_lamp": {
            "": ("Renew the lamp with one of the same code, the right way round in its holder.",)
        },
        "led_lamp": {
            "": (f"{RIGHT_LAMP[:-1]}; most light one way round only.",),
            "reversed": ("Turn it round: it lights one way only.",),
        },
        "horn": {
            "": ("Renew the horn, or clean and set its contact where it can be set.",),
            "short": ("Renew the horn.",),
        },
        "solenoid": {
            "": ("Renew the valve or magnet. Check that what it moves is free.",),
            "sticking": ("Clean it and free what it moves. Renew it where it still sticks.",),
            "wrong_part": ("Fit one of the right voltage.",),
        },
        "heater": {"": ("Renew or mend the element.",)},
        "ptc_heater": {"": (f"Renew the heater. {AIR}",)},
        "glow_plug": {
            "": (
                "Loosen it with the engine warm and without force: it may break off.",
                "Renew it to the maker's torque, and test the others of the set.",
            )
        },
        "diode": {"": ("Renew it with one of the same type, the right way round.",)},
        "zener": {"": ("Renew it with one of the same voltage and power, the right way round.",)},
        "battery": {
            "": (
                "Charge it and test it under load. Renew it where it fails.",
                "Find out what made it flat: age, poor charging, or something left on.",
            )
        },
        "second_battery": {
            "": ("Charge it and test it by itself, apart from the first. Renew it where it fails.",)
        },
        "charging_source": {
            "": (
                "Check its belt, its B+ cable and its earth first.",
                "Renew it with one of the same output and regulator, battery disconnected.",
            ),
            "over_voltage": (
                "Renew the regulator, or the whole with it, battery disconnected.",
                "Test battery and lamps afterwards: too much voltage harms them.",
            ),
            "short_diode": ("Renew the rectifier, or the whole, battery disconnected.",),
            "open:field": (
                "Renew brushes and regulator where they can be had, else the whole, battery disconnected.",
            ),
        },
        "standing_load": {
            "": (BEFORE_CONDEMNED,),
            "stays_awake": (
                "Find what keeps it awake: a door or lock contact, a feed that stays on, something added.",
                SLEEP,
            ),
            "drains": ("Unplug it: the current must fall to the usual. Then renew it.", SLEEP),
        },
        "ntc": {
            "": ("Renew the sensor with one of the same type.",),
            "drifted": (
                "Compare its ohms with the maker's table.",
                "Renew the sensor with one of the same type.",
            ),
            "wrong_part": ("Fit the type that the maker gives for this place.",),
        },
        "potentiometer": {"": (LEARN,)},
        "double_potentiometer": {"": (LEARN,)},
        "regulator": {
            "": ("Unplug the sensors on its line one at a time before the unit is condemned.",)
        },
        "module_input": {
            "": ("Renew the unit, only after line and sensor have been proven sound.",)
        },
        "output": {
            "": (BEFORE_CONDEMNED,),
            "not_commanded": (
                "Find out why the unit keeps it off: stored faults, its inputs, its coding.",
                "Renew nothing before that is known.",
            ),
            "stuck_closed": (
                "Unplug the unit: only if the load then goes off is the unit to be renewed.",
            ),
        },
        "bus_termination": {"": (f"Fit one of the same resistance. {BUS_OHMS}",)},
        "bus_unit": {
            "": (
                "Unplug it, supply off: afterwards the other units must be in touch.",
                "Only then renew it, and code it as the maker asks.",
            ),
            "open:termination": (f"Renew the unit that holds the termination. {BUS_OHMS}",),
        },
    }
)
SAME_AS = {"low_side_output": "output"}
"""Kinds that are mended as another."""

WIRE_ON_TRIAL: Advice = (
    "Take it off at both ends and lay a new one beside it: same cross-section or larger.",
    "Put the old one back where that does not help.",
)
"""Where a wire is mended on trial, nobody has found the place that is hurt."""

OTHER: Advice = ("Renew the part.",)


def advice(kind: str, mode: str, on_trial: bool = False) -> Advice:
    """Steps of a repair in their order, by the name of a kind and of its fault mode.

    >>> advice("led_lamp", "reversed")
    ('Turn it round: it lights one way only.',)
    >>> advice("switch", "high_resistance:1-2") == advice("switch", "high_resistance")
    True
    >>> advice("switch", "open:1-2")
    ('Renew the switch.',)
    """
    if on_trial and kind == "wire":
        return WIRE_ON_TRIAL
    known = _OF_KIND.get(SAME_AS.get(kind, kind), {})
    return next((known[m] for m in (mode, mode.split(":")[0], "") if m in known), OTHER)
