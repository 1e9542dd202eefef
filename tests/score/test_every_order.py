"""Some orders of six wires, by a seed from the commit, held against what they must come to; the whole is
printed by wiring_score.py. A planted mistake in each thing that is counted is found."""

from __future__ import annotations

import random
from typing import Any

import every_order
import pytest
from every_order import LAYOUTS, kind_told, kinds_of, rings, told
from parity.seed import commit

STEP = 41
"""One order in so many of six wires."""


@pytest.mark.parametrize("layout", LAYOUTS, ids=lambda rows: "+".join(map(str, rows)))
def test_orders_are_detected_named_simulated_and_put_right_in_the_fewest_moves(
    layout: tuple[int, ...],
) -> None:
    step = STEP if sum(layout) > 4 else 1
    first = random.Random(f"{commit()} {layout}").randrange(step)
    found = told(layout, slice(first, None, step))
    assert found.wrong == [] and found.orders > 0
    counts = (found.detected, found.named, found.simulated, found.righted, found.fewest)
    assert counts == (found.orders,) * 5


@pytest.mark.parametrize(
    ("name", "broken", "count"),
    [
        ("moves", lambda drawn, found: [], "righted"),
        ("effects", lambda layout, order: [], "simulated"),
        ("kind_told", lambda slip: "none", "named"),
        ("rings", lambda drawn, order: 9, "fewest"),
    ],
)
def test_a_mistake_is_counted(
    monkeypatch: pytest.MonkeyPatch, name: str, broken: Any, count: str
) -> None:
    monkeypatch.setattr(every_order, name, broken)
    found = told((3,))
    assert getattr(found, count) == 0 and len(found.wrong) >= found.orders


def test_slips_are_read_off_the_face() -> None:
    drawn = {str(n): f"V{n}" for n in range(1, 7)}

    def kinds(order: str) -> set[str]:
        held = {way: f"V{n}" for way, n in zip(drawn, order, strict=True)}
        return kinds_of((3, 3), drawn, held)

    assert kinds("321654") == {"mirrored"} and kinds("654321") == {"reversed"}
    assert kinds("456123") == {"rows exchanged"} and kinds("234561") == {"shifted"}
    assert kinds("213456") == {"pair swapped"} and kinds("231456") == {"another order"}
    assert kind_told("The wires of ways 1 and 2 exchanged; those of 3 and 4 exchanged") == (
        "another order"
    )
    assert rings(drawn, drawn | {"1": "V2", "2": "V1", "3": "V4", "4": "V3"}) == 2
