"""One call that the core checks on its way in and out, and how tests make it."""

import json

from playwright.sync_api import Page
from site_server import ROOT
from waiting import kill_workers, until

NAME = "read_sheet"
SHEET = ROOT / "fixtures" / "circuits" / "minibus-saloon-fan.json"
REQUEST = {"text": SHEET.read_text(encoding="utf-8")}


def ask(page: Page, name: str = NAME, text: str | None = None) -> dict[str, object]:
    """Return the parsed answer of a call, or what the bridge rejected it with."""
    arguments = [name, json.dumps(REQUEST) if text is None else text]
    answer = page.evaluate("([name, text]) => footwell.call(name, text)", arguments)
    result: dict[str, object] = json.loads(answer) if isinstance(answer, str) else answer
    return result


START = """([key, name, text]) => {
  window[key] = undefined;
  footwell.call(name, text).then((it) => { window[key] = it });
}"""
START_AND_KILL = f"""(all) => {{
  ({START})(all);
  workersOfThisPage.splice(0).forEach((worker) => worker.terminate());
}}"""


def start_asking(page: Page, key: str, script: str = START) -> None:
    """Make the call without waiting; its answer will stand in `window[key]`."""
    page.evaluate(script, [key, NAME, json.dumps(REQUEST)])


def kill_over_a_call(page: Page, key: str) -> None:
    """End the worker with the call in its hand: before it could have answered."""
    start_asking(page, key, START_AND_KILL)


def kill_idle(page: Page) -> None:
    """End the worker, which has nothing to do, and wait until the page has noticed."""
    before = page.evaluate("footwell.messages.length")
    kill_workers(page)
    until(page, f"footwell.messages.length > {before}")
