"""Text that would be code, in every text field of a job."""

from __future__ import annotations

import json
from collections.abc import Iterator
from itertools import count, cycle
from typing import Any

from site_server import ROOT

from footwell.job.events import Event

RUN = "globalThis.hit=1"
TAGS = (
    f"<script>{RUN}</script>",
    f"<img src=x onerror={RUN}>",
    f"<svg onload={RUN}>",
    f"<body onload={RUN}>",
    "<iframe srcdoc='<script>parent.hit=1</script>'>",
    f"<a href=javascript:{RUN}>x</a>",
    f"<input autofocus onfocus={RUN}>",
    f"<details open ontoggle={RUN}>",
    f"<video><source onerror={RUN}></video>",
    f"<math><mtext><img src=x onerror={RUN}>",
    f"<object data=javascript:{RUN}>",
    "<base href=//x.invalid/>",
    "<meta http-equiv=refresh content=0;url=//x.invalid>",
    "<link rel=stylesheet href=//x.invalid>",
    "<style>@import'//x.invalid'</style>",
)
FRAMES = ("{}", '">{}', "'>{}", "</title>{}", "{{{{{}}}}}", "${{{}}}", "]]>{}", "--!>{}")
PAYLOADS = [frame.format(tag) for tag in TAGS for frame in FRAMES]
CREATED = (
    "script:not([src]), iframe, object, embed, base, video, math, details[ontoggle],"
    " [onerror], [onload], [onfocus], meta[http-equiv=refresh], a[href^='javascript:'],"
    " link[href*='x.invalid']"
)

WORDS = ("name", "at", "half_a", "half_b", "landmark", "title", "vehicle", "summary")


def filled(data: Any, payloads: Iterator[str]) -> Any:
    """Sheet data with a payload in every field of words."""
    if isinstance(data, list):
        return [filled(item, payloads) for item in data]
    if not isinstance(data, dict):
        return data
    return {
        key: next(payloads)[:118]
        if key in WORDS and isinstance(value, str)
        else filled(value, payloads)
        for key, value in data.items()
    }


def hostile_job(first: int) -> list[Event]:
    """A job on the minibus fan in which every text is a payload, beginning with the `first`."""
    turned = cycle(PAYLOADS[first % len(PAYLOADS) :] + PAYLOADS[: first % len(PAYLOADS)])
    text = (ROOT / "fixtures" / "circuits" / "minibus-saloon-fan.json").read_text("utf-8")
    numbers = count(1)

    def event(kind: str, **body: Any) -> Event:
        return Event(
            device="stranger",
            n=next(numbers),
            job="hostile",
            kind=kind,
            format=1,
            at=next(turned)[:40],
            body=json.dumps(body, ensure_ascii=False),
        )

    states = [{"controls": {"S1": p}, "load": "M1", "state": "still"} for p in "123"]
    setup = {"controls": {"S1": "3"}}
    shown = {"goal": next(turned), "do": next(turned), "verdict": next(turned)}
    return [
        event("job opened", title=next(turned)[:118], sheet=filled(json.loads(text), turned)),
        event("story told", words=next(turned), rewired=["X3"]),
        event("positions tried", seen_by="customer", states=states),
        event(
            "reading taken",
            instrument="volts",
            red="F1.2",
            black="earth",
            setup=setup,
            value=24.6,
            typed=next(turned)[:40],
            shown=shown,
        ),
        event("check skipped", check=next(turned), reason="other", asked=next(turned)),
        event(
            "sheet edited", changes=[{"element": "W3", "field": "at", "value": next(turned)[:118]}]
        ),
        event("note made", text=next(turned)),
        event("repair done", element="W2", mode="open", what="renewed", note=next(turned)),
        event(next(turned)[:40], unknown=next(turned)),
    ]
