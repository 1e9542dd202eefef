"""Text that would be code: in every text field of a job, through every view of it."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from itertools import count, cycle
from typing import Any

import pytest
from counts import counted
from playwright.sync_api import BrowserContext, Page
from site_server import ROOT, Site
from walk import Walk

from footwell.job import links
from footwell.job.events import Event

NewPhone = Callable[..., BrowserContext]
ROUNDS = counted(1, 30, 30)
"""Each round gives every field other payloads."""

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


def nothing_came_of_it(page: Page) -> None:
    assert page.evaluate("globalThis.hit") is None
    assert page.locator(CREATED).count() == 0


def toured(page: Page, site: Site, events: list[Event]) -> None:
    """Opens the job by its link, takes it over and looks at every view."""
    dialogs: list[str] = []
    page.on("dialog", lambda dialog: (dialogs.append(dialog.message), dialog.dismiss()))
    walk = Walk(page, site.address, lambda name: nothing_came_of_it(page))
    page.goto(f"{site.address}#{links.make(events)}")
    walk.key("Take over as a new job").wait_for()
    nothing_came_of_it(page)
    walk.go("Take over as a new job")
    walk.key("Suspects").wait_for()
    walk.settle()
    walk.tour()
    walk.tap("More", exact=True)
    walk.tap("Report")
    page.locator(".report").wait_for()
    nothing_came_of_it(page)
    walk.tap("More", exact=True)
    walk.tap("All jobs")
    page.locator(".jobs li").first.wait_for()
    nothing_came_of_it(page)
    assert dialogs == []


@pytest.mark.parametrize("first", range(0, 4 * ROUNDS, 4))
def test_text_that_would_be_code_stays_text_in_every_view(
    new_phone: NewPhone, site: Site, first: int, record_property: Callable[[str, object], None]
) -> None:
    record_property("payloads", len(PAYLOADS))
    toured(new_phone(locale="en-GB").new_page(), site, hostile_job(first))


@pytest.mark.parametrize("made", ["document.body.append(document.createElement('video'))", RUN])
def test_text_that_became_code_is_found_out(page: Page, made: str) -> None:
    page.evaluate(f"() => void ({made})")
    with pytest.raises(AssertionError):
        nothing_came_of_it(page)
