"""Hostile links, opened as the app opens links, on a phone that has a job."""

from __future__ import annotations

from collections.abc import Callable, Iterator

import pytest
from chromium import SIMPLE_CODE, launch
from counts import LONG
from hostile_links import SAMPLE, corpus
from parity.seed import some
from planting import plant
from playwright.sync_api import Browser, BrowserContext, CDPSession, Page, Playwright, StorageState
from pressing import at_rest, soon
from site_server import Site
from test_stored_formats import STORED
from test_without_python import moved
from waiting import PATIENCE_S, until_python_is, until_ready_offline

NewPhone = Callable[..., BrowserContext]
SAMPLED = 12

TAKEN_UNASKED = (
    "web/src/features/openlink/OpenLinkScreen.tsx",
    '(job) => show({ is: "opened", job }),',
    """(job) => ports().store.adopt(
      job.events.map((event) => ({ ...event, at: event.at ?? "" })), newId(),
    ).then(() => show({ is: "opened", job })),""",
)

OPEN_AND_LEAVE = f"""async (text) => {{
  const begun = performance.now();
  const until = async (isThere) => {{
    while (!isThere()) {{
      if (performance.now() - begun > {1000 * PATIENCE_S}) throw new Error("it never came");
      await new Promise((resolve) => setTimeout(resolve, 5));
    }}
  }};
  const key = (name) => [...document.querySelectorAll("button")]
    .find((one) => one.textContent.trim() === name);
  const isRead = () => key("Leave it") && !document.querySelector("[role=status]");
  location.hash = text;
  await until(isRead);
  const isOpened = Boolean(key("Take over as a new job"));
  const says = document.querySelector("[role=alert]")?.textContent ?? "";
  key("Leave it").click();
  await until(() => !key("Leave it"));
  return {{ isOpened, says }};
}}"""


def left_at_a_job(phone: BrowserContext, site: Site) -> Page:
    page = phone.new_page()
    page.goto(site.address)
    until_python_is(page, "ready")
    soon(page, lambda: at_rest(page), "the job's view")
    return page


def processor_seconds(browser: CDPSession) -> float:
    """What all its pages have used, their workers too. What else the machine does is not their cost."""
    listed = browser.send("SystemInfo.getProcessInfo")["processInfo"]
    return float(sum(one["cpuTime"] for one in listed if one["type"] == "renderer"))


def links_do_no_harm(page: Page, links: list[str]) -> float:
    """Open and leave one after another; the processor's seconds for the slowest."""
    assert page.context.browser
    browser = page.context.browser.new_browser_cdp_session()
    before, workers = page.evaluate(STORED), page.evaluate("workersOfThisPage.length")
    assert before, "there is no job to be harmed"
    slowest = 0.0
    for link in links:
        begun = processor_seconds(browser)
        told = page.evaluate(OPEN_AND_LEAVE, link)
        assert told["isOpened"] or told["says"], f"nothing is said of {link[:60]!r}"
        alive = page.evaluate("workersOfThisPage.length")
        assert alive == workers, f"Python died of {link[:60]!r}"
        slowest = max(slowest, processor_seconds(browser) - begun)
    assert page.evaluate(STORED) == before, "what is stored was changed"
    return slowest


@pytest.fixture(scope="session")
def chromium(browsers: Playwright) -> Iterator[Browser]:
    """Where the cost of a link is measured, the interpreter is compiled as on any phone."""
    browser = launch(browsers) if LONG else launch(browsers, SIMPLE_CODE)
    yield browser
    browser.close()


@pytest.fixture
def job_page(new_phone: NewPhone, site: Site, kept_at_pad: StorageState) -> Page:
    return left_at_a_job(new_phone(storage_state=kept_at_pad), site)


def test_hostile_links_are_refused_and_python_and_the_job_stay(
    job_page: Page, record_property: Callable[[str, object], None]
) -> None:
    until_ready_offline(job_page)  # storing the site is no cost of a link
    links = some([link for link in corpus() if link], SAMPLED)
    slowest = links_do_no_harm(job_page, links)
    record_property("in the browser", len(links))
    record_property("slowest in the browser s", round(slowest, 2))


def test_a_link_that_python_died_of_is_found_out(job_page: Page) -> None:
    killing = "workersOfThisPage.at(-1).terminate()"
    job_page.evaluate(f"addEventListener('hashchange', () => {killing}, {{ once: true }})")
    with pytest.raises(AssertionError, match="Python died"):
        links_do_no_harm(job_page, ["F1.cut"])


def test_a_page_that_takes_a_link_over_unasked_is_found_out(
    new_phone: NewPhone, own_site: Site, kept_at_pad: StorageState
) -> None:
    plant(own_site, TAKEN_UNASKED)
    state = moved(kept_at_pad, own_site, "pad")
    page = left_at_a_job(new_phone(storage_state=state), own_site)
    with pytest.raises(AssertionError, match="was changed"):
        links_do_no_harm(page, [SAMPLE.read_text("utf-8").strip()])
