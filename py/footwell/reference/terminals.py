"""Terminal numbers of DIN 72552 and the pins of plug-in relays (ISO 7588-1), trailer plug ISO
1724."""

from collections.abc import Mapping

from .sources import Source

_MEMORY = Source("DIN 72552", "memory", "high")
_DOUBTFUL = Source("DIN 72552", "memory", "medium")
_SEEN = Source("DIN 72552, copy of an encyclopaedia list", "seen", "high")
_SEEN_DOUBTFUL = Source("DIN 72552, copy of an encyclopaedia list; makers differ", "seen", "medium")
RELAY_SOURCE = Source("ISO 7588-1", "memory", "medium")
TRAILER_SOURCE = Source("ISO 1724, 12N trailer plug of seven pins", "memory", "high")
LAYOUT_SOURCE = Source(
    "two socket layouts exist in which 30 and 86 change places", "common practice", "high"
)

_ROWS = (
    ("1", "ignition coil, low voltage", _MEMORY),
    ("4", "ignition coil, high voltage", _MEMORY),
    ("15", "switched battery positive after the ignition switch", _MEMORY),
    ("15a", "output of the ballast resistor to coil and starter", _DOUBTFUL),
    ("17", "glow-start switch: start", _MEMORY),
    ("19", "glow-start switch: preheat", _MEMORY),
    ("29", "battery positive, rear, with crash shut-off", _SEEN_DOUBTFUL),
    ("30", "battery positive, direct, unswitched", _SEEN),
    ("30a", "positive from second battery, 12/24 V change-over", _SEEN),
    ("30g", "switched permanent positive, not the same as 15", _SEEN_DOUBTFUL),
    ("31", "battery negative, vehicle earth", _SEEN),
    ("31a", "negative of second battery", _SEEN),
    ("31b", "earth through a switch (switched negative)", _SEEN),
    ("32", "motor return", _SEEN),
    ("33", "motor main connection", _SEEN),
    ("33a", "motor, self-parking switch-off", _SEEN_DOUBTFUL),
    ("33f", "motor, second speed (lower)", _SEEN),
    ("33g", "motor, third speed (lower)", _SEEN),
    ("33h", "motor, fourth speed (lower)", _SEEN),
    ("33L", "motor, counter-clockwise", _MEMORY),
    ("33R", "motor, clockwise", _MEMORY),
    ("49", "flasher unit, input", _MEMORY),
    ("49a", "flasher unit, output", _MEMORY),
    ("49b", "flasher unit, output, second circuit", _DOUBTFUL),
    ("49c", "flasher unit, output, third circuit", _DOUBTFUL),
    ("50", "starter control, direct", _MEMORY),
    ("50a", "starter control, battery change-over output", _DOUBTFUL),
    ("50b", "starter control, two starters in parallel", _DOUBTFUL),
    ("51", "generator, direct voltage at the rectifier (old)", _DOUBTFUL),
    ("53", "wiper motor, positive", _MEMORY),
    ("53a", "wiper, park switch positive", _MEMORY),
    ("53b", "wiper, second speed (shunt winding)", _MEMORY),
    ("53c", "washer pump", _MEMORY),
    ("53e", "wiper, brake winding", _MEMORY),
    ("53i", "wiper, third brush, higher speed", _MEMORY),
    ("54", "stop lamps", _MEMORY),
    ("55", "front fog lamps", _MEMORY),
    ("56", "headlamps, switch feed", _MEMORY),
    ("56a", "main beam and its tell-tale", _MEMORY),
    ("56b", "dipped beam", _MEMORY),
    ("56d", "headlamp flash", _MEMORY),
    ("57", "side or parking lamps, older", _DOUBTFUL),
    ("57a", "parking lamps", _MEMORY),
    ("57L", "parking lamp, left", _MEMORY),
    ("57R", "parking lamp, right", _MEMORY),
    ("58", "side, tail, number-plate and instrument lamps", _MEMORY),
    ("58d", "instrument lamps, dimmed", _DOUBTFUL),
    ("58L", "side and tail lamps, left", _MEMORY),
    ("58R", "side and tail lamps, right", _MEMORY),
    ("61", "charge warning lamp", _MEMORY),
    ("71", "horn control, input", _DOUBTFUL),
    ("75", "radio and lighter, accessory", _DOUBTFUL),
    ("76", "loudspeaker", _DOUBTFUL),
    ("81", "switch, break contact, input", _DOUBTFUL),
    ("82", "switch, make contact, input", _DOUBTFUL),
    ("83", "multi-position switch, input", _DOUBTFUL),
    ("84", "current relay, input of drive and contact", _DOUBTFUL),
    ("85", "relay coil, end (negative)", _MEMORY),
    ("86", "relay coil, start (positive)", _MEMORY),
    ("87", "relay contact, make (NO) output", _MEMORY),
    ("87a", "relay contact, break (NC) output", _MEMORY),
    ("87b", "relay contact, second make output", _DOUBTFUL),
    ("88", "relay make contact, input (older)", _DOUBTFUL),
    ("88a", "relay make contact, output (older)", _DOUBTFUL),
    ("B+", "battery positive at the generator", _MEMORY),
    ("B-", "battery negative", _MEMORY),
    ("D+", "generator positive, charge lamp and field feed", _MEMORY),
    ("D-", "generator negative", _MEMORY),
    ("DF", "generator field", _MEMORY),
    ("U", "generator phase", _MEMORY),
    ("V", "generator phase", _MEMORY),
    ("W", "generator phase, speed signal", _MEMORY),
    ("L", "turn lamps, left", _MEMORY),
    ("R", "turn lamps, right", _MEMORY),
    ("C", "flasher tell-tale, first", _MEMORY),
    ("C2", "flasher tell-tale, trailer", _DOUBTFUL),
    ("C3", "flasher tell-tale, second trailer", _DOUBTFUL),
)

TERMINALS: Mapping[str, str] = {number: meaning for number, meaning, _ in _ROWS}
TERMINAL_SOURCES: Mapping[str, Source] = {number: source for number, _, source in _ROWS}

# ISO pin moulded beside the DIN number on plug-in relays.
RELAY_PINS: Mapping[str, str] = {"1": "86", "2": "85", "3": "30", "4": "87a", "5": "87"}

TRAILER_PINS: Mapping[str, tuple[str, str, str]] = {
    "1": ("L", "left turn", "YE"),
    "2": ("54g", "rear fog", "BU"),
    "3": ("31", "earth", "WH"),
    "4": ("R", "right turn", "GN"),
    "5": ("58R", "right tail", "BN"),
    "6": ("54", "stop", "RD"),
    "7": ("58L", "left tail", "BK"),
}


def terminal_meaning(number: str) -> str:
    """What a terminal number of DIN 72552 stands for; ValueError for a number the table lacks.

    Older break and change-over relays use 87 as the contact's input; on plug-in relays it is the
    make output, which is what the table says.

    >>> terminal_meaning("87a")
    'relay contact, break (NC) output'
    """
    meaning = TERMINALS.get(number)
    if meaning is None:
        raise ValueError(
            f"Terminal {number!r} is not in DIN 72552 as listed here; take it from the diagram."
        )
    return meaning


def relay_terminal(pin: str) -> str:
    """DIN number of a pin printed 1 to 5 on a plug-in relay; DIN numbers come back as they are.

    >>> relay_terminal("3"), relay_terminal("87")
    ('30', '87')
    """
    terminal = RELAY_PINS.get(pin, pin)
    if terminal not in RELAY_PINS.values() and terminal != "87b":
        raise ValueError(
            f"Relay pin {pin!r} is not known; write 30, 85, 86, 87, 87a, 87b or 1 to 5."
        )
    return terminal
