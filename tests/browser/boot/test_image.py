"""The image of Python's memory: what a start from it gives, and what happens where it cannot be used."""

from __future__ import annotations

import json
from collections.abc import Callable

from asking import NAME, REQUEST, ask, kill_over_a_call
from playwright.sync_api import BrowserContext, Page
from site_server import Site
from waiting import until, until_ready_offline

READY = "footwell.state().state === 'ready'"
INITIAL_MEMORY = 31_457_280
"""Bytes that the interpreter begins with."""

KEPT = """async (change) => {
    const cache = await caches.open("footwell-image");
    const request = (await cache.keys()).find(({ url }) => url.includes("/image/memory?"));
    const kept = request && await cache.match(request);
    return { cache, url: request?.url, kept, bytes: kept && new Uint8Array(await kept.arrayBuffer()) };
}"""
DAMAGE = """({ cache, url, kept, bytes }) => {
    bytes[bytes.length >> 1] ^= 1;
    return cache.put(url, new Response(bytes, { headers: kept.headers }));
}"""
EMPTY = """async ({ cache, url, bytes }) => {
    bytes.fill(0, 65536);
    const hash = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
    const sha256 = [...hash].map((byte) => byte.toString(16).padStart(2, "0")).join("");
    return cache.put(url, new Response(bytes, { headers: { sha256 } }));
}"""
REMOVE = "({ cache, url }) => cache.delete(url)"
SIZE = "({ bytes }) => bytes?.length ?? 0"
FIND = """({ bytes }, marker) => {
    const units = [1, 2, 4].map((width) => {
        const text = new Uint8Array(marker.length * width);
        [...marker].forEach((letter, at) => { text[at * width] = letter.charCodeAt(0); });
        return text;
    });
    const starts = (text, at) => text.every((byte, n) => bytes[at + n] === byte);
    return units.some((text) => {
        for (let at = bytes.indexOf(text[0]); at >= 0; at = bytes.indexOf(text[0], at + 1))
            if (starts(text, at)) return true;
        return false;
    });
}"""


def kept(page: Page, act: str, argument: object = None) -> object:
    """Do something with the image that is kept, or nothing being kept, with what is undefined."""
    script = f"async (argument) => ({act})(await ({KEPT})(), argument)"
    return page.evaluate(script, argument)


def started(page: Page) -> str:
    """Start anew, ask, and return the way in which Python started."""
    page.reload()
    until(page, READY)
    assert "ok" in ask(page)
    return str(page.evaluate("footwell.way()"))


def make_image(page: Page) -> None:
    page.evaluate("footwell.makeImage()")


def test_python_starts_from_its_image_and_without_a_word_plainly_where_that_fails(
    bridge: Page,
) -> None:
    assert started(bridge) == "bundle", "a new phone has no image"
    plain = ask(bridge)
    make_image(bridge)
    assert started(bridge) == "image"
    assert ask(bridge) == plain
    kill_over_a_call(bridge, "answer")
    assert ask(bridge) == plain
    assert bridge.evaluate("footwell.way()") == "image", "one that was taken away did not die of it"

    kept(bridge, DAMAGE)
    assert started(bridge) == "bundle"
    assert not kept(bridge, SIZE), "a damaged image is removed"
    make_image(bridge)
    assert started(bridge) == "image"

    kept(bridge, EMPTY)
    assert started(bridge) == "bundle"
    assert kept(bridge, SIZE), "one failure is not enough"
    assert started(bridge) == "bundle"
    assert set(bridge.evaluate("footwell.messages")) == {"Starting Python"}
    assert started(bridge) == "bundle"
    assert not kept(bridge, SIZE), "two are"
    make_image(bridge)
    assert not kept(bridge, SIZE), "it is not made again"


def test_the_page_has_its_image_made_when_it_is_ready_offline_and_idle(page: Page) -> None:
    page.evaluate("window.makesImages = true")
    until_ready_offline(page)
    until(page, f"({KEPT})().then({SIZE})")


MARKER = "zebra-7741"


def run(page: Page, text: str) -> object:
    return page.evaluate("(text) => bench.ask({ ask: 'run', text })", text)


def look_at_the_marker(page: Page) -> None:
    text = json.dumps({"text": str(REQUEST["text"]).replace("Saloon", MARKER)})
    question = {"ask": "call", "name": NAME, "text": text}
    assert MARKER in page.evaluate("(question) => bench.ask(question)", question)


def keep_image(page: Page, *texts: str) -> None:
    """Keep the image of an interpreter that has run texts."""
    page.evaluate("bench.begin('for an image')")
    for text in texts:
        run(page, text)
    page.evaluate("bench.ask({ ask: 'keep image' })")


def test_an_image_holds_no_job_may_outgrow_the_first_memory_and_draws_anew(
    new_phone: Callable[[], BrowserContext], harness_site: Site
) -> None:
    page = new_phone().new_page()
    page.goto(f"{harness_site.address}harness/bench.html")
    look_at_the_marker(page)
    page.evaluate("bench.makeImage()")
    assert kept(page, SIZE)
    assert not kept(page, FIND, MARKER)

    much = "much = bytes([7]) * 50_000_000"
    keep_image(page, f"import random; random.seed(1); {much}; word = '{MARKER}'")
    assert kept(page, FIND, MARKER), "the search finds nothing at all"
    assert int(str(kept(page, SIZE))) > 2 * INITIAL_MEMORY
    drawn = []
    for _ in range(2):
        page.evaluate("bench.begin('image')")
        assert run(page, "len(much) + much[-1]") == 50_000_007
        drawn.append(run(page, "random.random()"))
    assert drawn[0] != drawn[1]
