"""A connector's wiring: as it should be, as found, what that does and how to put it right."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from footwell.checks.catalogue import working_setups
from footwell.checks.works import word
from footwell.circuit.circuit import Circuit, HalfId, arranged
from footwell.circuit.places import wires_named
from footwell.diagnosis.case import Case, Sighting
from footwell.diagnosis.damage import Stress, damage_modes, stresses
from footwell.diagnosis.hypotheses import used_setups
from footwell.drawing.faces import face
from footwell.electrics.operating_point import operate
from footwell.faults.miswiring import SPARE, as_drawn, without_spares
from footwell.job.replay import OldPlug
from footwell.messages import ConnectorView, WayView, WireView, WiringFinding
from footwell.page import words as say
from footwell.page.ends_view import strange_wires
from footwell.page.wiring_words import HalfWords, spares_in
from footwell.reference.conductors import section_for_amps
from footwell.sheet.points import number, seen_point, way_point


def connector_view(
    case: Case,
    half: HalfId,
    found: Mapping[str, str | None] | None,
    doubtful: bool,
    old: OldPlug | None = None,
) -> ConnectorView:
    """One half of a connector with what was found in it; None where nobody has looked. `old` is the plug
    that its wiring as it should be was read off."""
    unlisted = old.unlisted if old else {}
    circuit = case.drawn
    connector = circuit.connectors[half[0]]
    drawn = as_drawn(circuit, half)
    side: Literal["a", "b"] = "b" if half[1] == "b" else "a"
    ways = [
        WayView(
            way=cavity.way,
            number=number(connector, cavity.way),
            row=cavity.row,
            column=cavity.column,
            mating_column=mating.column,
            should=unlisted.get(cavity.way) or drawn[cavity.way],
            found=(found or {}).get(cavity.way),
            known=found is not None and cavity.way in found,
        )
        for cavity, mating in zip(
            face(connector, side, "wire"),
            face(connector, side, "mating"),
            strict=True,
        )
    ]
    wires = [
        WireView(id=w, colour=wires_named(circuit, w), name=_leads_to(circuit, w, (half, way)))
        for way, w in _laid(drawn)
    ]
    wires += [
        WireView(id=w, colour=w[len(SPARE) :], name="not on the sheet")
        for w in dict.fromkeys(w for held in unlisted.values() for w in spares_in(held))
    ]
    return ConnectorView(
        id=half[0],
        name=connector.name,
        half=side,
        half_name=say.side_named(connector, half[1]),
        landmark=connector.landmark,
        doubtful=doubtful,
        inspected=found is not None,
        should_from=old.read_off if old else "sheet",
        ways=ways,
        wires=wires,
        finding=finding(case, half, found, unlisted) if found is not None else None,
    )


LOOM_SHARE = 0.6
"""A wire in a loom carries less than the guide for one in free air (common practice, no source)."""


def _renewing(circuit: Circuit, drawn: Mapping[str, str | None]) -> list[str]:
    """What a new wire in each place must carry, and how thick it must be."""
    mine = {name for wires in drawn.values() if wires for name in wires.split("+")}
    carried = carried_amps(circuit)
    rows: list[str] = []
    for wire in circuit.sheet.wires:
        if wire.id in mine:
            amps = carried[wire.id]
            told = f"up to {say.amps(amps)}" if amps >= 0.01 else "next to nothing"
            thick = (
                f"no thinner than {section_for_amps(amps / LOOM_SHARE):g} mm², nor than the old one"
                if wire.mm2 is None
                else f"{wire.mm2:g} mm² as on the sheet, for the fuse is chosen for it"
            )
            name = f"{wires_named(circuit, wire.id)} ({wire.id})"
            rows.append(f"{name} carries {told}. Renew it with {thick}.")
    return rows


def carried_amps(circuit: Circuit) -> dict[str, float]:
    """The most (A) that each wire carries in any position, everything sound."""
    if "carried" not in circuit.cache:
        points = [operate(circuit, setup) for setup in working_setups(circuit)]
        circuit.cache["carried"] = {
            wire.id: max((abs(p.amps(wire.id)) for p in points), default=0.0)
            for wire in circuit.sheet.wires
        }
    return circuit.cache["carried"]  # type: ignore[no-any-return]


def _laid(drawn: Mapping[str, str | None]) -> list[tuple[str, str]]:
    """Way and wires, each once: what is crimped together, and then each of it alone, for people may have
    taken it apart."""
    held = [(way, wires) for way, wires in drawn.items() if wires]
    alone = [(way, wire) for way, wires in held for wire in wires.split("+")]
    first = {wires: way for way, wires in reversed([*held, *alone])}
    return [(way, wires) for way, wires in [*held, *alone] if first.pop(wires, None) == way]


def _leads_to(circuit: Circuit, wires: str, seat: tuple[HalfId, str]) -> str:
    """Where wires of a way go at their other ends: "to F1"."""
    (connector, half), way = seat
    here = way_point(connector, way, half)
    ends: list[str] = []
    for wire in circuit.sheet.wires:
        if wire.id in wires.split("+"):
            point = wire.end if wire.start == here else wire.start
            far = seen_point(circuit.connectors, point).split(".")
            ends.append(f"{far[0]} way {far[1]}" if len(far) == 3 else far[0])
    return "to " + " and ".join(dict.fromkeys(ends))


def finding(
    case: Case,
    half: HalfId,
    found: Mapping[str, str | None],
    unlisted: Mapping[str, str | None] | None = None,
) -> WiringFinding:
    """What a wiring as found amounts to: differences, the slip behind them, effects, damage, moves.
    `unlisted` are wires that belong in ways although the sheet does not have them."""
    sound = case.drawn
    drawn = as_drawn(sound, half) | dict(unlisted or {})
    whole = drawn | dict(found)
    words = HalfWords(sound, half)
    notes = [*words.alike(drawn), *words.spares(drawn, whole)]
    if whole == drawn:
        return WiringFinding(
            same=True,
            slip="",
            differences=[],
            effects=[],
            explains_complaint=None,
            damage=[],
            moves=[],
            notes=notes,
            strange=[],
            renewing=_renewing(sound, drawn),
            corrected=dict(drawn),
        )
    conducting = without_spares(whole)
    wired = case.circuit_for(arranged(case.epochs[-1].arrangement, half, conducting))
    hurt = _stress(case, wired)
    return WiringFinding(
        same=False,
        slip=words.slip(whole),
        differences=words.differences(drawn, whole),
        effects=[*_effects(sound, wired), *_spared(wired, hurt)],
        explains_complaint=explains(case, wired, sound),
        damage=[damage_words(wired, s) for s in hurt],
        moves=words.moves(drawn, whole),
        notes=notes,
        strange=strange_wires(sound, half, whole),
        renewing=_renewing(sound, drawn),
        corrected=dict(drawn),
    )


def _stress(case: Case, wired: Circuit) -> list[Stress]:
    """Stress that the wiring brings and that a sound circuit does not have, gravest first."""
    setups = used_setups(case) or tuple(working_setups(wired))
    usual = stresses(case.drawn, setups, ())
    found = [s for key, s in stresses(wired, setups, ()).items() if key not in usual]
    return sorted(found, key=lambda s: (-round(s.ratio, 6), s.element, s.branch))


def _effects(sound: Circuit, wired: Circuit) -> list[str]:
    """What each load does in each position with this wiring."""
    rows: list[str] = []
    for setup in working_setups(sound):
        spoken = [
            f"{say.short_named(sound, load)} {word(sound, wired, setup, load)}"
            for load in sound.sheet.loads
        ]
        rows.append(f"{say.controls_words(sound, setup)}: {', '.join(spoken)}.")
    return rows


def _spared(wired: Circuit, hurt: list[Stress]) -> list[str]:
    """What the wiring cannot have done."""
    heated = {s.element for s in hurt}
    return [
        f"It cannot have overloaded {say.short_named(wired, element.id)}."
        for element in wired.elements.values()
        if element.kind.name in ("resistor_pack", "relay") and element.id not in heated
    ]


def explains(case: Case, wired: Circuit, sound: Circuit) -> bool | None:
    """Whether the wiring gives, in every position told, what was told; None where nothing was."""
    told = [e for e in case.evidence if isinstance(e, Sighting) and e.epoch == 0]
    if not told:
        return None
    return all(word(sound, wired, e.setup, e.load) == e.word for e in told)


def damage_words(circuit: Circuit, stress: Stress) -> str:
    """What may have been hurt, by how much, and which check tells."""
    name = say.short_named(circuit, stress.element)
    if stress.blown:
        return f"{name} blows. Look at it before you go on."
    where = f", {stress.branch}," if stress.branch else ""
    tell = _telling(circuit, stress)
    moment = " until the fuse opens" if stress.brief else ""
    load = f"{say.amps(stress.amps)} against a rating of {say.amps(stress.rating)}"
    return f"{name}{where} carries {load}{moment}. {tell}"


def _telling(circuit: Circuit, stress: Stress) -> str:
    """Which check tells whether a stressed part was hurt."""
    if not damage_modes(circuit, stress):
        return "Look at it for signs of heat."
    if stress.branch == "diode":
        return "With the relay out, near 0 Ω across the coil is a shorted diode."
    if circuit.elements[stress.element].kind.drives:
        return "Measure the voltage at its output with the load connected."
    return "Measure it by itself, out of the circuit."
