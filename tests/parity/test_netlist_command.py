"""The netlist that the terminal prints runs unchanged in ngspice, with the instrument clipped in."""

from __future__ import annotations

import io
import json
import re
import subprocess
from contextlib import redirect_stdout
from pathlib import Path

import pytest

from footwell.cli import main

FOLDER = Path(__file__).parents[2] / "fixtures" / "circuits"
MINIBUS, TRACTOR = (
    str(FOLDER / f"{name}.json") for name in ("minibus-saloon-fan", "tractor-work-lamps")
)
ROW = re.compile(r"^\s*(\S+)\s+(-?\d\.\d+e[-+]\d+)\s*$", re.MULTILINE)


def printed(*arguments: str) -> str:
    out = io.StringIO()
    with redirect_stdout(out):
        assert main(arguments) == 0
    return out.getvalue()


def simulated(tmp_path: Path, deck: str) -> dict[str, float]:
    """Node voltages (V) that ngspice prints for a netlist, run as anybody would run it."""
    file = tmp_path / "circuit.cir"
    file.write_text(deck, encoding="utf-8")
    done = subprocess.run(
        ["ngspice", "-b", str(file)], capture_output=True, text=True, check=True, cwd=tmp_path
    )
    assert "error" not in (done.stdout + done.stderr).lower()
    return {name: float(volts) for name, volts in ROW.findall(done.stdout)}


def node(place: str) -> str:
    return place.replace(".", "_").lower()


CASES = {
    "in position 2": (MINIBUS, "X2.3.a", ["--control", "S1=2"]),
    "engine on": (MINIBUS, "X4.1.a", ["--control", "S1=3", "--engine", "on"]),
    "behind a corroded joint": (
        MINIBUS,
        "X4.1.a",
        ["--control", "S1=3", "--apart", "X4", "--fault", "W8:high_resistance@20000"],
    ),
    "on nothing": (MINIBUS, "X2.2.a", ["--control", "S1=3", "--fault", "W3:open"]),
    "behind a relay": (TRACTOR, "X6.1.a", ["--control", "A1=on", "S2=on"]),
}


@pytest.mark.parametrize(("file", "place", "situation"), CASES.values(), ids=CASES)
def test_a_meter_in_the_netlist_reads_what_is_expected(
    tmp_path: Path, file: str, place: str, situation: list[str]
) -> None:
    theirs = simulated(tmp_path, printed("netlist", file, *situation, "--red", place))
    told = json.loads(printed("expect", file, *situation, "--explain", place, "--json"))
    ours = told["row"]["value"]
    assert theirs[node(place)] == pytest.approx(ours, abs=max(0.001, 1e-4 * abs(ours)))


def test_the_meter_is_in_the_netlist_and_pulls_its_share(tmp_path: Path) -> None:
    """12.5 V through 10 MΩ into a meter of 10 MΩ: half of it is left."""
    joint = ["--control", "S1=3", "--apart", "X4", "--fault", "W8:high_resistance@10000000"]
    free = simulated(tmp_path, printed("netlist", MINIBUS, *joint))
    held = simulated(tmp_path, printed("netlist", MINIBUS, *joint, "--red", "X4.1.a"))
    assert held["x4_1_a"] == pytest.approx(free["x4_1_a"] / 2.0, rel=0.01)


def test_a_test_lamp_in_the_netlist_takes_the_voltage_that_is_explained(tmp_path: Path) -> None:
    lamp = ["--control", "S1=3", "--apart", "X4", "--instrument", "test lamp"]
    joint = [*lamp, "--fault", "W8:high_resistance@200"]
    theirs = simulated(tmp_path, printed("netlist", MINIBUS, *joint, "--red", "X4.1.a"))
    told = json.loads(printed("expect", MINIBUS, *joint, "--explain", "X4.1.a", "--json"))
    (ours,) = [step["drop"] for step in told["steps"] if step["kind"] == "instrument"]
    assert theirs["x4_1_a"] == pytest.approx(ours, abs=0.001)


@pytest.mark.parametrize(
    ("instrument", "place", "black", "apart"),
    [
        ("ohms", "X3.1.b", "X3.3.b", ["--apart", "X3"]),
        ("direct feed", "M1", "earth", []),
        ("clamp", "W9", "earth", []),
        ("lamp for fuse", "F1", "earth", ["--apart", "F1"]),
    ],
)
def test_every_instrument_gives_a_netlist_that_runs(
    tmp_path: Path, instrument: str, place: str, black: str, apart: list[str]
) -> None:
    options = ["--instrument", instrument, "--red", place, "--black", black, *apart]
    deck = printed("netlist", MINIBUS, "--control", "S1=3", *options)
    assert f"* instrument: {instrument}, " in deck
    assert simulated(tmp_path, deck)


@pytest.mark.parametrize("wire", ["W2", "W3", "W6"])
def test_a_clamp_with_a_lamp_in_place_of_the_fuse_reads_the_current_of_the_short(
    tmp_path: Path, wire: str
) -> None:
    """By ngspice's voltages over the wires; into the chafed wire comes what the lamp lets through."""
    short = ["--control", "S1=1", "--lamp", "F1=21", "--fault", "W6:short_to_earth"]
    deck = printed("netlist", MINIBUS, *short)
    theirs = simulated(tmp_path, deck)
    whole = "W3" if wire == "W6" else wire
    name, start, end, ohms = next(
        line for line in deck.splitlines() if line.startswith(f"R{whole} ")
    ).split()
    through = abs(theirs[start.lower()] - theirs[end.lower()]) / float(ohms)
    told = json.loads(
        printed("expect", MINIBUS, *short, "--instrument", "clamp", "--explain", wire, "--json")
    )
    assert name and told["row"]["value"] == pytest.approx(through, rel=0.01) and through > 0.5
