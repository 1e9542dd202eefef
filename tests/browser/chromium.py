"""How the tests start the browser."""

from contextlib import suppress
from pathlib import Path

from playwright.sync_api import Browser, BrowserContext, Error, Playwright
from waiting import PATIENCE_S

OPTIONS = {
    "executable_path": "/usr/bin/chromium",
    "headless": True,
    "args": [
        "--no-sandbox",
        "--disable-gpu",
        "--disable-quic",
        "--no-first-run",
        "--disable-background-networking",
        "--disable-component-update",
        "--disable-sync",
        # No name but this machine's own can be resolved: what asks another host fails.
        "--host-resolver-rules=MAP * ~NOTFOUND , EXCLUDE 127.0.0.1",
    ],
}

PHONE = {
    "viewport": {"width": 360, "height": 740},
    "device_scale_factor": 2,
    "has_touch": True,
    "is_mobile": True,
}

# Keeps hold of the page's workers, so that a test can end them. The one that makes the image of Python's
# memory begins only where a test sets `makesImages`: it takes a start of Python, on every new phone.
TRACK_WORKERS = """
window.workersOfThisPage = [];
window.makesImages = false;
window.Worker = class extends Worker {
  constructor(url, options) {
    const makesOne = options?.name === "image" && String(url).includes("image_worker");
    if (makesOne && !window.makesImages) return { terminate() {} };
    super(url, options);
    window.workersOfThisPage.push(this);
  }
};
"""


SIMPLE_CODE = "--js-flags=--liftoff-only"
"""The interpreter is compiled once, simply. A test is over before the making of faster code pays."""


def launch(browsers: Playwright, *more: str) -> Browser:
    """Return a running Chromium, with more arguments if there are some."""
    options = {**OPTIONS, "args": [*OPTIONS["args"], *more]}  # type: ignore[misc]
    return browsers.chromium.launch(**options)  # type: ignore[arg-type]


def phone(browser: Browser, **options: object) -> BrowserContext:
    """Return a fresh profile with a phone's screen and touch; options are Playwright's."""
    context = browser.new_context(**{**PHONE, **options})  # type: ignore[arg-type]
    context.add_init_script(TRACK_WORKERS)
    context.set_default_timeout(1000 * PATIENCE_S)
    return context


def own_browser(browsers: Playwright, folder: Path, **options: object) -> BrowserContext:
    """Return a Chromium of its own on a profile folder, which outlives it."""
    context = browsers.chromium.launch_persistent_context(
        folder,
        **{**OPTIONS, **options},  # type: ignore[arg-type]
    )
    context.set_default_timeout(1000 * PATIENCE_S)
    return context


LED_AWAY_MS = 5000
"""A page that died or hangs is not waited for longer."""


def close(context: BrowserContext) -> None:
    """Close a phone. A page that loads itself anew just then would live on, and the browser would wait for
    its end for ever; so each is led away first."""
    for page in context.pages:
        with suppress(Error):
            page.goto("about:blank", timeout=LED_AWAY_MS)
    context.close()


def put_away(phones: list[BrowserContext]) -> None:
    """Close phones and forget them."""
    while phones:
        close(phones.pop())
