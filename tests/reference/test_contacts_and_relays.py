"""Joints and relays against published limits and data sheets."""

import pytest

from footwell.reference.contacts import CONTACTS, TERMINAL_SIZES_MM, Contact, contact, terminal
from footwell.reference.relays import (
    COIL_OHMS,
    COILS,
    DROP_OUT_SHARE,
    PULL_IN_LIMIT_SHARE,
    PULL_IN_SHARE,
    SUPPRESSION_RESISTOR_OHMS,
    coil_ohms_at,
    drop_out_volts,
    pull_in_volts,
)


# SAE/USCAR-2 total connection resistance after conditioning, mohm (memory, low to medium).
@pytest.mark.parametrize(
    ("size", "limit"),
    [(0.5, 25), (0.64, 20), (1.2, 10), (1.5, 10), (2.8, 5), (6.3, 1.5), (9.5, 1.0)],
)
def test_terminal_pair_has_its_test_limit(size: float, limit: float) -> None:
    assert terminal(size).limit_milliohms == limit


@pytest.mark.parametrize("row", CONTACTS.values(), ids=lambda row: row.kind)
def test_a_sound_joint_stays_under_its_limit_even_two_sigma_high(row: Contact) -> None:
    high = row.milliohms * (1 + 2 * row.relative_sigma)
    assert row.limit_milliohms is None or high <= row.limit_milliohms


def test_good_new_joints_have_1_to_5_milliohm_when_small_and_under_1_when_large() -> None:
    # Remark to the same limits (memory).
    assert all(1 <= terminal(size).milliohms <= 5 for size in (0.5, 0.64, 1.2, 1.5, 2.8))
    assert all(terminal(size).milliohms < 1 for size in (6.3, 9.5))


def test_wider_terminals_have_less_resistance_and_carry_more() -> None:
    rows = [terminal(size) for size in TERMINAL_SIZES_MM]
    assert [row.milliohms for row in rows] == sorted((r.milliohms for r in rows), reverse=True)
    amps = [row.guide_amps or 0.0 for row in rows]
    assert amps == sorted(amps) and amps[0] > 0


def test_a_sound_pin_at_its_guide_current_loses_less_than_a_tenth_of_a_volt() -> None:
    # Common practice, no source: 0.1 V across a high-current connection is the most.
    for size in TERMINAL_SIZES_MM:
        row = terminal(size)
        assert row.ohms * (row.guide_amps or 0.0) < 0.1


def test_relay_contact_drops_20_millivolt_typical_and_300_at_most_at_10_amps() -> None:
    # Data sheet of a 40 A plug-in relay (seen).
    row = contact("relay contact")
    assert row.ohms * 10 == pytest.approx(0.020)
    assert row.limit_milliohms == pytest.approx(30)


def test_earth_joint_stays_far_below_the_5_milliohm_of_the_aircraft_rule() -> None:
    # FAA AC 43.13-1B ch. 11: earth return path 0.005 ohm.
    assert contact("earth point").limit_milliohms == 5.0


def test_crimp_lies_within_the_published_range() -> None:
    # SAE/USCAR-21 style limits: 0.2 to 0.6 mohm new (memory, low).
    assert 0.2 <= contact("crimp").milliohms <= 0.6


@pytest.mark.parametrize(
    ("width", "kind"), [(4.8, "terminal 2.8"), (0.4, "terminal 0.5"), (12.0, "terminal 9.5")]
)
def test_a_width_between_two_classes_counts_as_the_smaller(width: float, kind: str) -> None:
    assert terminal(width).kind == kind


def test_an_unseen_terminal_has_the_widest_spread() -> None:
    assert terminal(None).relative_sigma == max(row.relative_sigma for row in CONTACTS.values())


def test_an_unknown_joint_is_refused_with_those_listed() -> None:
    with pytest.raises(ValueError, match=r"No joint called 'glue'; the table lists terminal 0.5"):
        contact("glue")


def test_relay_coils_of_the_data_sheets_take_the_printed_power_and_current() -> None:
    # Two automotive relay data sheets (seen): 90 ohm 1.6 W; 300 ohm 40 mA, 480 mW.
    by_ohms = {coil.ohms: coil.nominal_volts for coil in COILS}
    assert by_ohms[90.0] ** 2 / 90.0 == pytest.approx(1.6)
    assert by_ohms[300.0] / 300.0 == pytest.approx(0.040)
    assert by_ohms[300.0] ** 2 / 300.0 == pytest.approx(0.480)


# Four automotive relay data sheets (seen): ohm, pull-in by, release by, in V.
@pytest.mark.parametrize(
    ("ohms", "pull_in", "release"),
    [(90, 6.9, 1.2), (75, 8, None), (300, 7.0, 0.5), (260, 7.2, 1.2)],
)
def test_coil_has_the_voltages_of_its_data_sheet(
    ohms: float, pull_in: float, release: float | None
) -> None:
    (coil,) = (coil for coil in COILS if coil.ohms == ohms)
    assert (coil.pull_in_by_volts, coil.release_by_volts) == (pull_in, release)


# Common practice, no source: 560 to 680 ohm at 12 V, 1.8 to 2.7 kohm at 24 V.
@pytest.mark.parametrize(("nominal", "low", "high"), [(12, 560, 680), (24, 1800, 2700)])
def test_suppression_resistor_covers_the_range_of_the_trade(
    nominal: int, low: float, high: float
) -> None:
    usual = SUPPRESSION_RESISTOR_OHMS[nominal]
    assert usual.mean - 2 * usual.sigma == pytest.approx(low, rel=0.05)
    assert usual.mean + 2 * usual.sigma == pytest.approx(high, rel=0.05)


@pytest.mark.parametrize("coil", COILS, ids=lambda coil: coil.name)
def test_usual_pull_in_lies_under_what_every_data_sheet_demands(coil) -> None:  # type: ignore[no-untyped-def]
    usual = pull_in_volts(coil.nominal_volts)
    assert coil.pull_in_by_volts is not None and usual.mean < coil.pull_in_by_volts


@pytest.mark.parametrize("coil", [c for c in COILS if c.release_by_volts], ids=lambda c: c.name)
def test_usual_drop_out_lies_above_what_every_data_sheet_demands(coil) -> None:  # type: ignore[no-untyped-def]
    usual = drop_out_volts(coil.nominal_volts)
    assert usual.mean - 2 * usual.sigma > 0.9 * coil.release_by_volts


def test_pull_in_limit_is_60_to_67_percent_of_nominal() -> None:
    # Data sheets: 7 to 8 V of 12 V; two sigma of the usual coil stay inside.
    assert PULL_IN_LIMIT_SHARE.value == pytest.approx(8 / 12, abs=0.005)
    assert PULL_IN_SHARE.mean + 2 * PULL_IN_SHARE.sigma < PULL_IN_LIMIT_SHARE.value


def test_a_coil_holds_well_below_the_voltage_that_pulls_it_in() -> None:
    assert (
        DROP_OUT_SHARE.mean + 3 * DROP_OUT_SHARE.sigma
        < PULL_IN_SHARE.mean - 3 * PULL_IN_SHARE.sigma
    )


# Common practice, no source: 75 to 100 ohm at 12 V, 250 to 400 ohm at 24 V.
@pytest.mark.parametrize(("nominal", "low", "high"), [(12, 75, 100), (24, 250, 400)])
def test_cube_relay_coil_lies_in_the_range_of_the_trade(
    nominal: int, low: float, high: float
) -> None:
    coil = COIL_OHMS[nominal]
    assert low <= coil.mean - coil.sigma and coil.mean + coil.sigma <= high


@pytest.mark.parametrize("nominal", [12, 24])
def test_suppression_resistor_lowers_the_coil_reading_by_10_to_15_percent(nominal: int) -> None:
    # Common practice, no source; 12 V as printed, 24 V the same share.
    coil, resistor = COIL_OHMS[nominal].mean, SUPPRESSION_RESISTOR_OHMS[nominal].mean
    assert 0.10 <= 1 - resistor / (coil + resistor) <= 0.15


def test_a_hot_coil_needs_more_volts() -> None:
    # Copper, IEC 60028: 0.393 % a kelvin.
    assert coil_ohms_at(85.0, 105.0) / 85.0 == pytest.approx(1.334, abs=5e-4)
