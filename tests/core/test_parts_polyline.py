"""Laws of straight stretches: what the solver's proof asks of them, and what they say at their corners."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from footwell.parts.polyline import Polyline, steady

VOLTS = st.floats(-30.0, 30.0)
POINT = st.tuples(st.floats(0.1, 5.0), st.floats(0.001, 2.0))
LAWS = st.one_of(
    st.builds(steady, st.floats(0.001, 1), st.floats(0.5, 6)),
    st.lists(POINT, min_size=2, max_size=5).map(lambda steps: Polyline(tuple(_summed(steps)))),
)


def _summed(steps: list[tuple[float, float]]) -> list[tuple[float, float]]:
    volts, amps, found = -6.0, -3.0, []
    for du, di in steps:
        volts, amps = volts + du, amps + di
        found.append((volts, amps))
    return found


@given(LAWS, VOLTS, VOLTS)
def test_current_never_falls_as_the_voltage_rises(law: Polyline, one: float, other: float) -> None:
    low, high = sorted((one, other))
    assert law.at(low)[0] <= law.at(high)[0] + 1e-12
    assert law.at(low)[1] > 0.0


@given(LAWS, VOLTS)
def test_the_slope_is_that_of_the_curve(law: Polyline, volts: float) -> None:
    step = 1e-5
    if any(abs(volts - corner) <= step for corner, _ in law.points):
        return
    below, above = law.at(volts - step)[0], law.at(volts + step)[0]
    assert law.at(volts)[1] == pytest.approx((above - below) / (2 * step), rel=1e-4, abs=1e-9)


def test_a_steady_consumer_takes_as_much_at_five_volts_as_at_twelve() -> None:
    law = steady(0.005, 3.8)
    assert law.at(5.0)[0] == pytest.approx(law.at(12.0)[0], rel=0.01)
    assert law.at(1.9)[0] == pytest.approx(0.0025)
