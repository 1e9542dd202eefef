"""A poor contact of a fuse lies in its holder: ohms of the fuse do not show it, volts across it do."""

from __future__ import annotations

import math

from footwell.checks.catalogue import catalogue
from footwell.checks.check import OHMS, VOLTS, Check
from footwell.checks.hands import Tools
from footwell.checks.predict import expected, likeliest
from footwell.circuit.fault import Fault
from footwell.diagnosis.choose import confirms

from .loop_rig import ALL_TOOLS
from .sample_circuits import sample

CIRCUIT = sample("coupe-horn")
POOR, BLOWN = Fault("F1", "high_resistance", 2.0), Fault("F1", "open")


def across(instrument: str) -> Check:
    """The check between both ends of the fuse, under current where it is one of volts."""
    rows = catalogue(CIRCUIT, Tools(ALL_TOOLS), "off")
    return next(
        c for c in rows if c.instrument == instrument and {c.red, c.black} == {"F1.1", "F1.2"}
    )


def value(check: Check, *faults: Fault) -> float:
    said = likeliest(expected(CIRCUIT, check, faults))
    assert not isinstance(said, dict)
    return said.mean


def test_ohms_of_a_fuse_in_the_hand_do_not_show_its_holder() -> None:
    ohms = across(OHMS)
    assert value(ohms, POOR) == value(ohms)
    assert not confirms(CIRCUIT, ohms, POOR)


def test_ohms_of_a_fuse_in_the_hand_show_that_it_is_blown() -> None:
    ohms = across(OHMS)
    assert math.isinf(value(ohms, BLOWN)) and not math.isinf(value(ohms))
    assert confirms(CIRCUIT, ohms, BLOWN)


def test_volts_across_a_fuse_under_current_show_its_holder() -> None:
    volts = across(VOLTS)
    assert value(volts, POOR) > 10.0 * value(volts)
    assert confirms(CIRCUIT, volts, POOR)
