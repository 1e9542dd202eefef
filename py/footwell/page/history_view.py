"""The job's history: each event in a line, with what was shown when it was made."""

from __future__ import annotations

from footwell.checks.check import CLAMP, OHMS
from footwell.circuit.circuit import Circuit
from footwell.job.events import (
    Body,
    CheckSkipped,
    ConnectorPhotographed,
    Event,
    JobOpened,
    NoteMade,
    OldPlugRead,
    PlaceFound,
    PositionsTried,
    ReadingTaken,
    RepairDone,
    SheetEdited,
    SittingBegun,
    StoryTold,
    ToolsStated,
    WireFollowed,
    WirePutBack,
    WiresListed,
    WiringCorrected,
    WiringFound,
)
from footwell.job.replay import Replayed
from footwell.messages import ReadingView
from footwell.names import told
from footwell.page import words as say
from footwell.page.check_view import INSTRUMENT_NAMES, OVER_RANGE
from footwell.page.ends_view import run_told
from footwell.sheet.points import number

PHOTO = "Photo of "
QUIET = ("event withdrawn", "caution passed", "job opened", "practice begun")


def history_view(replayed: Replayed, events: list[Event], circuit: Circuit) -> list[ReadingView]:
    """Every event but withdrawals, oldest first; withdrawn ones stay and are marked."""
    bodies = {(t.event.device, t.event.n): t.body for t in replayed.told}
    rows: list[ReadingView] = []
    for event in events:
        if event.kind in QUIET:
            continue
        key = (event.device, event.n)
        kind = told(event.kind)
        title, value, expected, verdict = _line(bodies.get(key), circuit, kind)
        rows.append(
            ReadingView(
                device=event.device,
                n=event.n,
                at=event.at,
                kind=kind,
                title=title,
                value=value,
                expected=expected,
                verdict=verdict,
                withdrawn=key in replayed.withdrawn,
                can_withdraw=True,
            )
        )
    return rows


def _line(body: Body | None, circuit: Circuit, kind: str) -> tuple[str, str, str, str]:
    if isinstance(body, ReadingTaken):
        return _reading(body, circuit)
    if isinstance(body, PositionsTried):
        return "Positions tried", _states(body, circuit), "", ""
    if isinstance(body, CheckSkipped):
        return f"Skipped: {body.asked or body.check}", body.reason, "", "skipped"
    if isinstance(body, OldPlugRead):
        return _old_plug(body, circuit)
    title = _at_wires(body, circuit)
    if title:
        return title, "wiring noted" if isinstance(body, WiringFound) else "", "", ""
    if isinstance(body, RepairDone):
        return f"{say.place_named(circuit, body.element)}: {body.what}", body.note, "", ""
    return _plain(body, kind)


def _at_wires(body: Body | None, circuit: Circuit) -> str:
    """What was done at plugs and wires; "" for all else."""
    if isinstance(body, WiringFound):
        return f"Looked into {say.place_named(circuit, body.connector)}"
    if isinstance(body, WiringCorrected):
        return f"Put the wires of {say.place_named(circuit, body.connector)} right"
    if isinstance(body, WireFollowed):
        return say.capital(run_told(circuit, body.wire, body.start, body.end))
    if isinstance(body, WirePutBack):
        return f"Put {say.short_named(circuit, body.wire)} back where the sheet has it"
    if isinstance(body, ConnectorPhotographed):
        return f"{PHOTO}{_photographed(body, circuit)}"
    return ""


def _photographed(body: ConnectorPhotographed, circuit: Circuit) -> str:
    known = circuit.connectors.get(body.connector)
    if known is None:
        return body.connector
    half = f"{known.name}, {say.side_named(known, body.half)}"
    return half if body.shows == "half" else f"old plug of {half}"


def _old_plug(body: OldPlugRead, circuit: Circuit) -> tuple[str, str, str, str]:
    name = say.place_named(circuit, body.connector)
    seen = circuit.connectors.get(body.connector)
    rows = [
        f"{number(seen, way) if seen else way} {codes or '?'}"
        for way, codes in body.colours.items()
        if codes is not None
    ]
    return f"{name}, as it should be: read off the {body.read_off}", ", ".join(rows), "", ""


def _plain(body: Body | None, kind: str) -> tuple[str, str, str, str]:
    if isinstance(body, StoryTold):
        return "Story", body.words or "noted", "", ""
    if isinstance(body, ToolsStated):
        return "Tools at hand", ", ".join(body.instruments) or "eyes and ears", "", ""
    if isinstance(body, SheetEdited):
        return (
            "Found on the vehicle",
            ", ".join(f"{c.element} {c.field}: {c.value}" for c in body.changes),
            "",
            "",
        )
    if isinstance(body, SittingBegun):
        supply = f", supply {say.volts(body.supply_volts)}" if body.supply_volts else ""
        return "At the vehicle", f"engine {body.engine}{supply}", "", ""
    if isinstance(body, PlaceFound):
        where = f", {body.at}" if body.at else ""
        where += f", plug {body.plug}" if body.plug else ""
        return f"Found on the vehicle: {body.what}", f"in {body.inside}{where}", "", ""
    if isinstance(body, WiresListed):
        return "Wiring list taken over", f"{len(body.wires)} wires", "", ""
    if isinstance(body, NoteMade):
        return "Note", body.text, "", ""
    if isinstance(body, JobOpened):
        return "Job opened", body.title, "", ""
    return kind[:1].upper() + kind[1:], "", "", ""


def _reading(body: ReadingTaken, circuit: Circuit) -> tuple[str, str, str, str]:
    unit = {CLAMP: "A", OHMS: "Ω"}.get(body.instrument, "V")
    value = body.choice or (
        say.measured(body.value, unit) if body.value is not None else "not recorded"
    )
    places = say.place_named(circuit, body.red)
    if body.black not in ("", "earth"):
        places += f" to {say.place_named(circuit, body.black)}"
    name = INSTRUMENT_NAMES.get(body.instrument, body.instrument)
    expected = ""
    if body.shown and body.shown.low is not None and body.shown.high is not None:
        past = unit == "Ω" and body.shown.low >= OVER_RANGE
        expected = "over range" if past else say.band(body.shown.low, body.shown.high, unit)
    verdict = body.shown.verdict if body.shown else ""
    if body.complaint == "absent":
        verdict = "taken while it worked; clears nothing"
    return f"{name}: {places}", value, expected, verdict


def _states(body: PositionsTried, circuit: Circuit) -> str:
    rows: list[str] = []
    for seen in body.states:
        controls = " ".join(
            next(
                (
                    p.name
                    for c in circuit.sheet.controls
                    if c.part == part
                    for p in c.positions
                    if p.id == position
                ),
                position,
            )
            for part, position in seen.controls.items()
        )
        rows.append(f"{controls}: {seen.load} {seen.state}")
    return "; ".join(rows)
