"""Electronic output of a control unit, earth side: it switches its load's "out" to the unit's earth "-".

Off, its terminal reads the supply through the load, and nothing where the load is open.
"""

from __future__ import annotations

from dataclasses import replace

from footwell.parts import output
from footwell.parts.base import Branch, Context, State
from footwell.parts.output import Output


def _branches(values: Output, state: State, context: Context) -> list[Branch]:
    return output.between("out", "-", values, state)


KIND = replace(
    output.KIND,
    name="low_side_output",
    title="control unit output to earth",
    terminals=lambda _: ("out", "-"),
    branches=_branches,
    takes=(),
)
