"""Kinds of parts. A new kind is one new file here and one line in `KINDS`."""

from footwell.parts import (
    battery,
    contact,
    diode,
    earth_point,
    fuse,
    hall_switch,
    heater,
    lamp,
    latching_relay,
    led_lamp,
    module_input,
    motor,
    ntc,
    output,
    potentiometer,
    reed_switch,
    regulator,
    relay,
    resistor,
    resistor_pack,
    splice,
    switch,
    twin_lamp,
    wire,
)
from footwell.parts.base import Kind

KINDS: dict[str, Kind] = {
    module.KIND.name: module.KIND
    for module in (
        battery,
        fuse,
        earth_point,
        splice,
        switch,
        relay,
        latching_relay,
        resistor,
        resistor_pack,
        diode,
        lamp,
        led_lamp,
        twin_lamp,
        motor,
        heater,
        output,
        ntc,
        potentiometer,
        hall_switch,
        reed_switch,
        regulator,
        module_input,
        wire,
        contact,
    )
}
