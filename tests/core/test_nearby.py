"""What lies beside an element, for faults that look alike from outside."""

from __future__ import annotations

from footwell.diagnosis.nearby import nearby

from .sample_circuits import sample

SEAT = "saloon-seat-heater"


def test_the_neighbours_of_a_wire_and_theirs_are_near() -> None:
    """The wire W3 runs from the seat switch's plug to the seat plug."""
    assert nearby(sample(SEAT), "W3") == {"X1.2", "S1", "X2.1", "W4"}


def test_what_meets_at_the_battery_or_at_earth_alone_is_not_near() -> None:
    circuit = sample(SEAT)
    assert nearby(circuit, "W1") == {"F1", "W2"}
    assert "W0" not in nearby(circuit, "W6")


def test_nearness_is_mutual() -> None:
    circuit = sample("coupe-rear-cluster")
    for element in circuit.elements:
        for other in nearby(circuit, element):
            assert element in nearby(circuit, other)
