"""A phone for the tests of the store: a browser profile, its tabs, and the store in them."""

from __future__ import annotations

from typing import Any

from branch_counting import Counting
from playwright.sync_api import BrowserContext, Page
from storage_bugs import script

SITE = "https://footwell.test/"


class Phone:
    """One browser profile. Its store outlives its tabs."""

    def __init__(self, context: BrowserContext, page_script: str) -> None:
        self.context = context
        self.branches = Counting({f"{SITE}page.js": page_script} if page_script == script() else {})
        context.route(
            f"{SITE}**",
            lambda route: (
                route.fulfill(content_type="text/javascript", body=page_script)
                if route.request.url.endswith("page.js")
                else route.fulfill(content_type="text/html", body=html_for(route.request.url))
            ),
        )

    def tab(self, before: str = "") -> Page:
        """A new tab with the store opened; `before` runs ahead of everything else."""
        page = self.context.new_page()
        self.branches.count(page)
        if before:
            page.add_init_script(before)
        page.goto(SITE)
        page.evaluate("store.open()")
        return page

    def blank(self) -> Page:
        """A tab of the same site without the store, to get at the database behind its back."""
        page = self.context.new_page()
        page.goto(f"{SITE}blank")
        return page


def html_for(url: str) -> str:
    code = "" if url.endswith("blank") else '<script src="/page.js"></script>'
    return f"<!doctype html><title>store</title>{code}"


def append(page: Page, job: str, *words: str) -> list[dict[str, Any]]:
    """One action of as many notes as there are words."""
    return page.evaluate("events => store.appendMany(events)", notes(job, *words))


def append_photo(page: Page, job: str, word: str) -> str:
    """One photo with that word in it; the name it is stored under."""
    return page.evaluate(
        """async ([job, word]) => {
            const action = await photographed(job, word);
            await store.appendMany([action]);
            return action.body.sha256;
        }""",
        [job, word],
    )


def photo(page: Page, job: str, name: str) -> str:
    """The bytes of a stored photo, a character each; "" where it is not there."""
    return page.evaluate(
        """async ([job, name]) => {
            const photo = await store.photo(job, name);
            const bytes = photo ? new Uint8Array(await photo.arrayBuffer()) : [];
            return String.fromCharCode(...bytes);
        }""",
        [job, name],
    )


def notes(job: str, *words: str) -> list[dict[str, Any]]:
    return [{"job": job, "kind": "note made", "body": {"text": text}} for text in words]


def events(page: Page, job: str) -> list[dict[str, Any]]:
    return page.evaluate("job => store.events(job)", job)


def texts(page: Page, job: str) -> list[str]:
    return page.evaluate(
        "async job => (await store.events(job)).map((event) => JSON.parse(event.body).text)", job
    )


def state(page: Page) -> Any:
    return page.evaluate("store.state.value")


def failure(page: Page, expression: str, argument: Any = None) -> str:
    """The sentence with which a promise was rejected; "" when it was kept."""
    return page.evaluate(
        f"argument => Promise.resolve().then(() => {expression})"
        ".then(() => '', (fault) => `${fault.name}: ${fault.message}`)",
        argument,
    )


def foreign(n: int, kind: str, body: str, device: str = "ffff") -> dict[str, Any]:
    """An event of another phone, in a format and of a time that are not ours."""
    return {
        "device": device,
        "n": n,
        "job": "theirs",
        "kind": kind,
        "format": 7,
        "at": "2031-01-01T00:00:00.000Z",
        "body": body,
    }


def adopt(page: Page, job: str, theirs: list[dict[str, Any]]) -> list[dict[str, Any]]:
    return page.evaluate("([theirs, job]) => store.adopt(theirs, job)", [theirs, job])


def import_text(page: Page, text: str) -> dict[str, Any]:
    return page.evaluate("text => store.importText(text)", text)


def exported_by(phone: Phone, *words: str) -> str:
    """The file of a phone that made these notes."""
    tab = phone.tab()
    append(tab, "job", *words)
    return tab.evaluate("store.exportText()")
