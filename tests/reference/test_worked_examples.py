"""The worked examples are whole: every answer can be asked of its circuit."""

import pytest

from .worked_examples import EXAMPLES, LINEAR, Answer, Example, half_a_unit

ANSWERS = [(example, answer) for example in EXAMPLES for answer in example.answers]


def test_there_are_examples_enough_and_no_two_share_a_name() -> None:
    names = [example.name for example in EXAMPLES]
    assert len(EXAMPLES) >= 50 and len(ANSWERS) >= 150
    assert len(set(names)) == len(names)


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda example: example.name)
def test_no_element_is_named_twice_and_none_joins_a_node_to_itself(example: Example) -> None:
    # Circuit simulators do not tell capitals from small letters.
    names = [element.name.lower() for element in example.elements]
    assert len(set(names)) == len(names)
    assert all(element.a != element.b for element in example.elements)


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda example: example.name)
def test_every_circuit_reaches_the_common_point_and_has_a_source(example: Example) -> None:
    assert any("0" in (element.a, element.b) for element in example.elements)
    assert any(element.kind in ("source", "current") for element in example.elements)


@pytest.mark.parametrize(("example", "answer"), ANSWERS, ids=lambda part: str(part[0]))
def test_every_answer_names_an_element_or_two_nodes_of_its_circuit(
    example: Example, answer: Answer
) -> None:
    names = {element.name for element in example.elements}
    nodes = {node for element in example.elements for node in (element.a, element.b)}
    assert answer.of in names or set(answer.of.split(",")) <= nodes
    assert answer.quantity == "volts" or "," not in answer.of


# Printed figure, digits, half a unit of the last digit.
@pytest.mark.parametrize(
    ("printed", "digits", "half"),
    [
        (8.333, 4, 0.0005),
        (120.0, 3, 0.5),
        (0.804, 3, 0.0005),
        (-16.552e-3, 5, 0.5e-6),
        (0.0, 1, 1e-6),
    ],
)
def test_tolerance_is_half_a_unit_of_the_last_printed_digit(
    printed: float, digits: int, half: float
) -> None:
    assert half_a_unit(Answer("volts", "R", printed, digits)) == pytest.approx(half)


def test_the_two_misprints_of_the_wire_table_are_told_from_the_right_lines() -> None:
    # FAA AC 43.13-1B tables 11-7 and 11-8: 3.60 for 3.555 V and 0.366 for 0.491 V.
    for example in LINEAR:
        if not example.name.startswith("wire drop"):
            continue
        (current, wire), (answer,) = example.elements, example.answers
        off = abs(current.values[0] * wire.values[0] - answer.printed)
        assert (off > half_a_unit(answer)) is answer.is_misprint
