"""How Python starts in the browser, with all files and without some."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from asking import ask
from guard import Guard
from parity.seed import some
from playwright.sync_api import Page
from site_server import Site
from waiting import until, until_python_is

OpenBridge = Callable[[], Page]
Harm = Callable[[Site, str], None]

READY = "footwell.state().state === 'ready'"
FAILED = "footwell.state().state === 'failed'"

BUNDLE = "python/footwell-*.zip"
CORE = "python/pydantic_core-*.wasm"


def wheels_were_asked_for(page: Page) -> bool:
    script = "performance.getEntriesByType('resource').map((entry) => entry.name)"
    names = page.workers[0].evaluate(script)
    return any("/wheels-" in name for name in names)


def test_python_answers_a_validated_call(bridge: Page) -> None:
    assert "ok" in ask(bridge)


def test_the_page_says_when_python_is_ready(page: Page) -> None:
    until_python_is(page, "ready")


def test_a_sound_start_asks_for_no_wheels(bridge: Page) -> None:
    until(bridge, READY)
    assert not wheels_were_asked_for(bridge)


def cut(site: Site, file: str) -> None:
    whole = site.path(file).read_bytes()
    site.replace(file, whole[: len(whole) // 2])


@pytest.mark.parametrize("harm", some([Site.remove, cut], 1))
@pytest.mark.parametrize("file", some([BUNDLE, CORE], 1))
def test_without_a_whole_file_of_the_bundle_python_starts_from_the_wheels(
    own_site: Site,
    own_bridge: OpenBridge,
    bridge: Page,
    guards: list[Guard],
    harm: Harm,
    file: str,
) -> None:
    harm(own_site, file)
    page = own_bridge()
    until(page, READY)
    if (harm, file) == (Site.remove, BUNDLE):
        guards[-1].forgive("Failed to load")  # the interpreter says so twice, once to nobody
    assert wheels_were_asked_for(page)
    assert ask(page) == ask(bridge)


def test_without_any_file_of_python_calls_are_refused_with_a_sentence(
    own_site: Site, own_bridge: OpenBridge
) -> None:
    own_site.remove("python/interpreter-*/pyodide.mjs")
    page = own_bridge()
    until(page, FAILED)
    answer = ask(page)
    assert answer["code"] == "no_python"
    assert "What you entered is kept" in str(answer["sentence"])


def test_python_can_be_started_again_after_it_failed(
    own_site: Site, own_bridge: OpenBridge
) -> None:
    loader = own_site.path("python/interpreter-*/pyodide.mjs")
    content = loader.read_bytes()
    own_site.remove("python/interpreter-*/pyodide.mjs")
    page = own_bridge()
    until(page, FAILED)
    loader.write_bytes(content)
    page.evaluate("footwell.start()")
    until(page, READY)
    assert "ok" in ask(page)
