"""A relay's socket in which a wire is told to sit in another way than the sheet has it."""

from __future__ import annotations

from footwell.checks.catalogue import working_setups

from .job_rig import Job
from .sample_circuits import sample

GLOW, HALF = "van-glow-plugs", ("X1", "a")
"""The glow relay's socket."""
EXCHANGED = {"30": "W2", "86": "W3", "85": "W14", "87": "W13"}


def cold() -> Job:
    circuit = sample(GLOW)
    states = [
        {"controls": dict(setup.controls), "load": load, "state": "cold"}
        for setup in working_setups(circuit, "off")
        for load in circuit.sheet.loads
    ]
    return Job(GLOW).tools("meter").add("positions tried", states=states)


def led(*told: tuple[str, str, str]) -> Job:
    job = cold()
    for wire, start, end in told:
        job.add("wire followed", wire=wire, start=start, end=end)
    return job


def drawn_run() -> tuple[str, str, str]:
    (wire,) = (w for w in sample(GLOW).sheet.wires if w.id == "W13")
    return wire.id, wire.start, wire.end


def in_way(way: str) -> tuple[str, str, str]:
    """W13 in a way of the socket, its other end where the sheet has it."""
    wire, start, end = drawn_run()
    seat = f"X1.{way}.a"
    return (wire, seat, end) if start.startswith("X1.") else (wire, start, seat)


def with_hazard(hazard: str) -> Job:
    """A job on the same circuit with a hazard at the socket."""
    opened = sample(GLOW).sheet.model_dump(mode="json", exclude_unset=True)
    next(c for c in opened["connectors"] if c["id"] == "X1")["hazards"] = [hazard]
    job = Job(GLOW)
    job.events = []
    job.add("job opened", title="Glow plugs", sheet=opened).events += cold().events[1:]
    return job


def found_wrong(hazard: str) -> Job:
    """The same, where somebody has looked into the socket unasked and found it wired wrongly."""
    return with_hazard(hazard).add("wiring found", connector="X1", half="a", found=EXCHANGED)
