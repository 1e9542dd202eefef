"""A job kept as the page keeps it: stored events, and the core asked by its calls alone."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from footwell.job.events import Event
from footwell.service import call

FOLDER = Path(__file__).parents[2] / "fixtures" / "circuits"
MINIBUS, TRACTOR, VAN = "minibus-saloon-fan", "tractor-work-lamps", "van-rear-screen"
DEVICE, JOB = "3f9c1be07a5d42e8b6f1049d7c28ae53", "c04d7e19ab8235f6d17c90e2b54a386f"
"""128 bits each, drawn once: as long in a link as those of a phone."""

MIRRORED = {"1": None, "2": None, "3": "W5", "4": "W4", "5": "W3", "6": "W2"}
"""The minibus's switch plug X2 with its face read from the wrong side."""

Data = dict[str, Any]


def sheet(name: str) -> Data:
    data = json.loads((FOLDER / f"{name}.json").read_text("utf-8"))
    assert isinstance(data, dict)
    return data


def compact(data: object) -> str:
    """JSON as the page writes it."""
    return json.dumps(data, ensure_ascii=False, separators=(",", ":"))


def answered(name: str, request: Data) -> Data:
    """The whole answer of a call: {"ok": …} or {"error": …}."""
    answer = json.loads(call(name, compact(request)))
    assert isinstance(answer, dict)
    return answer


def asked(name: str, request: Data) -> Data:
    """The result of a call that is not refused."""
    answer = answered(name, request)
    assert "ok" in answer, answer
    result = answer["ok"]
    assert isinstance(result, dict)
    return result


def _moment(n: int) -> str:
    """A time of day for an entry: minutes apart, with seconds as they fall."""
    fallen = (n * 7919 * 104729) % 60_000
    return f"2026-05-12T{9 + n // 60:02}:{n % 60:02}:{fallen // 1000:02}.{fallen % 1000:03}Z"


class Job:
    """Events in the order of their making."""

    def __init__(self, circuit: str = MINIBUS) -> None:
        self.events: list[Data] = []
        opened = sheet(circuit)
        self.add("job opened", title=opened["title"], sheet=opened)

    def add(self, kind: str, **body: Any) -> Job:
        return self.add_text(kind, compact(body))

    def add_text(self, kind: str, body: str) -> Job:
        n = len(self.events) + 1
        event = {"device": DEVICE, "n": n, "job": JOB, "kind": kind, "format": 1, "body": body}
        self.events.append(event | {"at": _moment(n)})
        return self

    def withdraw(self, n: int) -> Job:
        return self.add("event withdrawn", device=DEVICE, n=n)

    def tools(self, *instruments: str) -> Job:
        return self.add("tools stated", instruments=list(instruments), helper=False)

    def positions(self, seen_by: str = "customer", **states: str) -> Job:
        """What the minibus's fan does in positions 1, 2 and 3: `p1="still"`."""
        rows = [
            {"controls": {"S1": name[1:]}, "load": "M1", "state": state}
            for name, state in states.items()
        ]
        return self.add("positions tried", seen_by=seen_by, states=rows)

    def dead(self) -> Job:
        return self.positions(p1="still", p2="still", p3="still")

    def volts(self, red: str, value: float, position: str, **more: Any) -> Job:
        """A voltage to earth on the minibus."""
        return self.add(
            "reading taken",
            instrument="volts",
            red=red,
            black="earth",
            setup={"controls": {"S1": position}},
            value=value,
            **more,
        )

    def stored(self) -> list[Event]:
        return [Event.model_validate(event) for event in self.events]

    def answer(self, name: str, **request: Any) -> Data:
        return answered(name, {"events": self.events} | request)

    def ask(self, name: str, **request: Any) -> Data:
        return asked(name, {"events": self.events} | request)

    def look(self) -> Data:
        return self.ask("look")

    def refused(self, name: str, **request: Any) -> str:
        """The sentence with which a call is refused."""
        return str(self.answer(name, **request)["error"]["sentence"])


def suspects(view: Data) -> dict[str, float]:
    """Title of every suspect still possible or proven, with its share."""
    told = view["suspects"]
    listed = [s for group in told["groups"] for s in group["suspects"]]
    return {s["title"]: s["share"] for s in [*told["proven"], *listed]}
