"""Failure rates and mode shares: published figures copied here, and what must hold of any."""

from typing import get_args

import pytest

from footwell.reference.failures import (
    HANDBOOK_SHARES,
    MODE_SHARES,
    RATES,
    Kind,
    Mode,
    mode_shares,
    relative_rate,
)

KINDS: tuple[Kind, ...] = get_args(Kind)

# MIL-HDBK-338B sec. 7.8 (memory, medium; the lead-acid row seen).
HANDBOOK = [
    ("battery, lead-acid", (0.70, 0.20, 0.10)),
    ("fuse", (0.49, 0.43, 0.08)),
    ("relay", (0.55, 0.26, 0.19)),
    ("switch, toggle", (0.65, 0.19, 0.16)),
    ("connector", (0.61, 0.23, 0.16)),
    ("cable", (0.45, 0.36, 0.19)),
    ("resistor, wirewound", (0.65, 0.26, 0.09)),
    ("diode, general", (0.49, 0.36, 0.15)),
    ("resistor, variable", (0.53, 0.40, 0.07)),
    ("thermistor", (0.63, 0.22, 0.15)),
    ("coil", (0.42, 0.42, 0.16)),
    ("LED", (0.70, 0.30)),
    ("diode, zener regulator", (0.45, 0.35, 0.20)),
    ("solenoid", (0.52, 0.43, 0.05)),
    ("circuit breaker", (0.51, 0.49)),
    ("generator", (0.60, 0.22, 0.09, 0.09)),
    ("lamp, filament", (0.67, 0.33)),
]


@pytest.mark.parametrize(("row", "shares"), HANDBOOK)
def test_handbook_row_is_as_published(row: str, shares: tuple[float, ...]) -> None:
    assert tuple(HANDBOOK_SHARES[row].values()) == shares


@pytest.mark.parametrize("row", list(HANDBOOK_SHARES))
def test_handbook_shares_sum_to_one(row: str) -> None:
    assert sum(HANDBOOK_SHARES[row].values()) == pytest.approx(1.0)


@pytest.mark.parametrize("kind", KINDS)
def test_shares_in_use_sum_to_one_and_none_is_negative(kind: Kind) -> None:
    shares = mode_shares(kind)
    assert sum(shares.values()) == pytest.approx(1.0)
    assert all(share > 0 for share in shares.values())


@pytest.mark.parametrize("kind", KINDS)
def test_every_kind_has_a_rate_and_modes_that_exist(kind: Kind) -> None:
    assert relative_rate(kind) > 0
    assert set(mode_shares(kind)) <= set(get_args(Mode))


# Rows taken over from the handbook unchanged: kind, handbook row, share of its first mode.
@pytest.mark.parametrize(
    ("kind", "row", "mode", "published"),
    [
        ("battery", "battery, lead-acid", "weak", "degraded output"),
        ("resistor", "resistor, wirewound", "open", "open"),
        ("resistor", "resistor, wirewound", "drift", "parameter change"),
        ("diode", "diode, general", "short_across", "short"),
        ("diode", "diode, general", "open", "open"),
        ("relay_coil", "coil", "open", "open"),
        ("module_output", "module", "stuck_open", "no output"),
        ("led", "LED", "open", "open"),
        ("solenoid", "solenoid", "sticking", "slow movement"),
        ("breaker", "circuit breaker", "open", "opens without stimuli"),
        ("generator", "generator", "over_voltage", "loss of control"),
        ("thermistor", "thermistor", "open", "open"),
        ("thermistor", "thermistor", "drift", "parameter change"),
        ("potentiometer", "resistor, variable", "worn_track", "erratic output"),
    ],
)
def test_mode_taken_from_the_handbook_keeps_its_share(
    kind: Kind, row: str, mode: Mode, published: str
) -> None:
    assert mode_shares(kind)[mode] == HANDBOOK_SHARES[row][published]


def test_switch_modes_add_up_to_the_handbook_groups() -> None:
    # Toggle switch: open 0.65; sticking and short 0.35 together.
    shares, published = mode_shares("switch"), HANDBOOK_SHARES["switch, toggle"]
    opens = shares["open"] + shares["open_common"] + shares["high_resistance"]
    assert opens == pytest.approx(published["open"])
    assert shares["stuck_closed"] == pytest.approx(published["sticking"] + published["short"])


def test_thermal_fuse_modes_add_up_to_the_thermal_switch_row() -> None:
    published = HANDBOOK_SHARES["switch, thermal"]
    opens = published["parameter change"] + published["open"]
    assert mode_shares("thermal_fuse")["open"] == pytest.approx(opens)


# MIL-HDBK-217F Notice 2 appendix A, ground mobile, failures per million hours.
@pytest.mark.parametrize(
    ("kind", "rate"),
    [("fuse", 0.08), ("contact", 0.11), ("lamp", 38.0), ("motor", 3.3), ("battery", 1.25)],
)
def test_handbook_rate_is_kept_beside_ours(kind: Kind, rate: float) -> None:
    assert RATES[kind].handbook_per_million_hours == rate


def test_relay_coil_and_contact_share_the_rate_of_one_relay() -> None:
    # Relay, general purpose: 2.1 at ground mobile.
    assert relative_rate("relay_coil") + relative_rate("relay_contact") == pytest.approx(2.1)


# Common practice, no source: what road vehicles teach against the handbook.
@pytest.mark.parametrize("kind", ["contact", "splice", "earth_point"])
def test_joints_of_road_vehicles_fail_by_high_resistance_first(kind: Kind) -> None:
    shares = mode_shares(kind)
    assert max(shares, key=lambda mode: shares[mode]) == "high_resistance"


def test_wires_open_more_often_than_they_short() -> None:
    # Lessons In Electric Circuits vol. V ch. 8, likely failures in proven systems (seen).
    shares = mode_shares("wire")
    assert shares["open"] + shares["high_resistance"] > shares["short_to_earth"]


def test_figures_without_a_source_say_so() -> None:
    for kind in ("contact", "earth_point", "wire", "splice"):
        assert RATES[kind].source.standing == "common practice"
        assert MODE_SHARES[kind].source.title.startswith("common practice, no source")


def test_answers_can_be_edited_without_changing_the_table() -> None:
    mode_shares("fuse")["open"] = 0.0
    assert mode_shares("fuse")["open"] > 0


def test_an_unknown_kind_is_refused_with_those_listed() -> None:
    with pytest.raises(ValueError, match="No failure data for parts of kind 'turbine'"):
        relative_rate("turbine")  # type: ignore[arg-type]
