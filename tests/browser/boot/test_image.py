"""The image of Python's memory: what a start from it gives, and what happens where it cannot be used."""

from __future__ import annotations

import json
from collections.abc import Callable

import pytest
from asking import NAME, REQUEST, ask
from playwright.sync_api import BrowserContext, Page
from site_server import Site
from waiting import kill_workers, until

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
RENAME = """async ({ cache, url, kept, bytes }) => {
    await cache.delete(url);
    await cache.put(url.replace(FROM, "another"), new Response(bytes, { headers: kept.headers }));
}"""
OTHER_ENGINE = RENAME.replace("FROM", "encodeURIComponent(navigator.userAgent)")
OTHER_RELEASE = RENAME.replace("FROM", "/footwell-[0-9a-f]+/")
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


@pytest.fixture
def imaged(bridge: Page) -> Page:
    """A phone that has made its image."""
    until(bridge, READY)
    assert bridge.evaluate("footwell.way()") == "bundle"
    bridge.evaluate("footwell.makeImage()")
    return bridge


def test_the_next_start_is_from_the_image_and_answers_the_same(imaged: Page) -> None:
    plain = ask(imaged)
    assert started(imaged) == "image"
    assert ask(imaged) == plain
    kill_workers(imaged)
    assert ask(imaged) == plain
    assert imaged.evaluate("footwell.way()") == "bundle", "a worker that died is not trusted again"


@pytest.mark.parametrize("change", [DAMAGE, OTHER_ENGINE, OTHER_RELEASE, REMOVE])
def test_without_a_fitting_image_python_starts_plainly_and_without_a_word(
    imaged: Page, change: str
) -> None:
    kept(imaged, change)
    assert started(imaged) == "bundle"
    assert set(imaged.evaluate("footwell.messages")) == {"Starting Python"}


def test_two_failed_restores_switch_the_image_off_for_the_release(imaged: Page) -> None:
    kept(imaged, EMPTY)
    assert started(imaged) == "bundle"
    assert kept(imaged, SIZE), "one failure is not enough"
    assert started(imaged) == "bundle"
    assert started(imaged) == "bundle"
    assert not kept(imaged, SIZE)
    imaged.evaluate("footwell.makeImage()")
    assert not kept(imaged, SIZE), "it is not made again"
    assert set(imaged.evaluate("footwell.messages")) == {"Starting Python"}


def test_a_restore_that_works_forgives_the_one_before_it(imaged: Page) -> None:
    kept(imaged, DAMAGE)
    for _ in range(2):
        assert started(imaged) == "bundle"
        imaged.evaluate("footwell.makeImage()")
        assert started(imaged) == "image"
        kept(imaged, DAMAGE)


def bench(context: BrowserContext, site: Site) -> Page:
    page = context.new_page()
    page.goto(f"{site.address}harness/bench.html")
    return page


def run(page: Page, text: str) -> object:
    return page.evaluate("(text) => bench.ask({ ask: 'run', text })", text)


def keep_image(page: Page, *texts: str) -> None:
    """Keep the image of an interpreter that has run texts."""
    page.evaluate("bench.begin('for an image')")
    for text in texts:
        run(page, text)
    page.evaluate("bench.ask({ ask: 'keep image' })")


def test_an_image_larger_than_the_first_memory_is_restored_and_chance_is_new(
    new_phone: Callable[[], BrowserContext], harness_site: Site
) -> None:
    page = bench(new_phone(), harness_site)
    keep_image(page, "import random; random.seed(1); much = bytes([7]) * 50_000_000; 1")
    assert int(str(kept(page, SIZE))) > 2 * INITIAL_MEMORY
    drawn = []
    for _ in range(2):
        page.evaluate("bench.begin('image')")
        assert run(page, "len(much) + much[-1]") == 50_000_007
        drawn.append(run(page, "random.random()"))
    assert drawn[0] != drawn[1]


def test_an_image_holds_nothing_of_the_jobs_on_the_phone(imaged: Page, harness_site: Site) -> None:
    marker = "zebra-7741"
    text = json.dumps({"text": REQUEST["text"].replace("Saloon", marker)})
    assert marker in json.dumps(ask(imaged, NAME, text))
    kept(imaged, REMOVE)
    imaged.evaluate("footwell.makeImage()")
    assert kept(imaged, SIZE)
    assert not kept(imaged, FIND, marker)
    keep_image(bench(imaged.context, harness_site), f"word = '{marker}'")
    assert kept(imaged, FIND, marker), "the search finds nothing at all"
