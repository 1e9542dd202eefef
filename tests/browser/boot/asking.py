"""One call that the core checks on its way in and out, and how tests make it."""

import json

from playwright.sync_api import Page
from site_server import ROOT

NAME = "read_sheet"
SHEET = ROOT / "fixtures" / "circuits" / "minibus-saloon-fan.json"
REQUEST = {"text": SHEET.read_text(encoding="utf-8")}


def ask(page: Page, name: str = NAME, text: str | None = None) -> dict[str, object]:
    """Return the parsed answer of a call, or what the bridge rejected it with."""
    arguments = [name, json.dumps(REQUEST) if text is None else text]
    answer = page.evaluate("([name, text]) => footwell.call(name, text)", arguments)
    result: dict[str, object] = json.loads(answer) if isinstance(answer, str) else answer
    return result


def start_asking(page: Page, key: str) -> None:
    """Make the call without waiting; its answer will stand in `window[key]`."""
    script = "([key, name, text]) => footwell.call(name, text).then((it) => { window[key] = it })"
    page.evaluate(f"(all) => {{ ({script})(all) }}", [key, NAME, json.dumps(REQUEST)])
