"""What must hold between the elements of a sheet: each rule tells what is wrong in a draft."""

from collections.abc import Callable, Iterator

from footwell.sheet.draft import Draft
from footwell.sheet.places import Flaw
from footwell.sheet.rules import complaints, connectors, controls, names, nets, parts, wires

RULES: tuple[Callable[[Draft], Iterator[Flaw]], ...] = (
    names.told_apart,
    parts.terminals_exist,
    parts.assumed_are_written,
    parts.packs_are_cooled_by_motors,
    parts.one_battery,
    connectors.ways_named_once,
    connectors.part_ways_fit,
    controls.loads_are_parts,
    controls.controls_fit_parts,
    controls.everything_set_by_hand_has_a_control,
    complaints.complaints_fit,
    wires.ends_exist,
    nets.no_loose_ends,
    nets.supply_reaches_earth,
)
