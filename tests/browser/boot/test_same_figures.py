"""The browser's Python and CPython compute the same: voltages, readings, belief, next check."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import asdict
from pathlib import Path
from random import Random
from typing import Any

import pytest
from core.random_circuits import random_circuit
from parity import figures as here
from parity.cases import load, sample_sheets
from parity.seed import commit, some
from playwright.sync_api import BrowserContext
from site_server import ROOT, Site

from footwell.circuit.circuit import Circuit

RANDOM_CIRCUITS = 30
DRAWN = some(sample_sheets(), 6)
"""All sheets with FOOTWELL_LONG=1, else some drawn by the commit."""
ALLOWED = 1e-9
"""Relative, of anything above a nanovolt or its like."""
LEAST = 1e-9


def written(circuit: Circuit) -> dict[str, Any]:
    values = {part: asdict(values) for part, values in circuit.values.items()}
    return {"sheet": circuit.sheet.model_dump(), "values": values}


def jobs() -> list[list[Any]]:
    """Stored jobs, and a job of every drawn sheet with its loads dead in every control's last position."""
    files = [ROOT / "fixtures" / "jobs" / name for name in ("1.jsonl", "1-old-plug.jsonl")]
    kept = [file.read_text("utf-8").splitlines()[1:] for file in files]
    return [list(map(json.loads, lines)) for lines in kept] + [complaint(name) for name in DRAWN]


def complaint(name: str) -> list[Any]:
    sheet = json.loads((ROOT / "fixtures" / "circuits" / f"{name}.json").read_text("utf-8"))
    controls = {c["part"]: c["positions"][-1]["id"] for c in sheet["controls"]}
    states = [{"controls": controls, "load": load, "state": "still"} for load in sheet["loads"]]
    bodies = (
        ("job opened", {"title": name, "sheet": sheet}),
        ("positions tried", {"seen_by": "customer", "states": states}),
    )
    return [
        {"device": "3" * 32, "n": n, "job": "c" * 32, "kind": kind, "format": 1}
        | {"body": json.dumps(body), "at": f"2026-05-12T09:0{n}:00.000Z"}
        for n, (kind, body) in enumerate(bodies, 1)
    ]


def request() -> str:
    sheets = [load(name) for name in DRAWN]
    chance = Random(commit())
    drawn = [random_circuit(chance, chance.randint(5, 20)) for _ in range(RANDOM_CIRCUITS)]
    return json.dumps({"circuits": [written(c) for c in [*sheets, *drawn]], "jobs": jobs()})


def in_browser(page: Any, text: str) -> Any:
    """The same file, run in the worker."""
    source = Path(here.__file__).read_text("utf-8")
    program = f"{source}\nfigures({text!r})\n"
    question = {"ask": "run", "text": program}
    return json.loads(page.evaluate("(question) => bench.ask(question)", question))


def apart(one: Any, other: Any) -> float:
    """Relative difference of two figures; words differ wholly or not at all."""
    if isinstance(one, str) or isinstance(other, str):
        return 0.0 if one == other else 1.0
    return float(abs(one - other) / max(abs(one), abs(other), LEAST))


def test_every_figure_is_the_same_in_the_browser_to_a_billionth(
    new_phone: Callable[[], BrowserContext], harness_site: Site
) -> None:
    text = request()
    page = new_phone().new_page()
    page.goto(f"{harness_site.address}harness/bench.html")
    theirs, ours = in_browser(page, text), json.loads(here.figures(text))
    assert [name for name, _ in ours] == [name for name, _ in theirs]
    rows = [(apart(a, b), name, a, b) for (name, a), (_, b) in zip(ours, theirs, strict=True)]
    worst = max(rows, key=lambda row: row[0])
    print(f"{len(rows)} figures, at most {worst[0]:.2g} apart: {worst[1:]}")
    assert worst[0] <= ALLOWED, worst


@pytest.mark.parametrize(
    ("one", "other", "same"),
    [(12.0, 12.0 + 1e-9, True), (12.0, 12.0 + 1e-7, False), ("a", "b", False), ("a", "a", True)],
)
def test_a_difference_beyond_a_billionth_is_told(one: Any, other: Any, same: bool) -> None:
    assert (apart(one, other) <= ALLOWED) is same
