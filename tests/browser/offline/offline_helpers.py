"""Making releases of a site, and asking a page about them."""

from __future__ import annotations

import re

from playwright.sync_api import Page
from site_server import Site
from waiting import PATIENCE_S, until

NEWER = "Newer"
UPDATE_WAITS = "document.documentElement.dataset.update === 'waiting'"

# Every listed file stands in one of the two stores.
STORES = """caches.keys()
  .then((names) => names.filter((name) => name !== "footwell-image"))
  .then((names) => Promise.all(names.map((name) => caches.open(name))))"""
REMOVE = f"""async (path) => {{
  const url = new URL(path, location.href).href;
  for (const store of await {STORES}) {{
    const found = await store.match(url);
    if (found) window.taken = {{ store, url, found }};
    await store.delete(url);
  }}
}}"""

# Ends when the new worker has stored its files, or was thrown away because it could not. One that comes to
# neither is told with the state it is in: a browser that is watched sets it no limit.
LOOK = """(patienceMs) => navigator.serviceWorker.ready.then(async (registration) => {
  await registration.update();
  const worker = registration.installing ?? registration.waiting;
  if (!worker) return 'nothing new';
  const ends = (resolve) => {
    const look = () => {
      if (worker.state === 'installed') resolve('stored');
      if (worker.state === 'redundant') resolve('refused');
    };
    worker.addEventListener('statechange', look);
    setTimeout(() => resolve(`neither: ${worker.state}`), patienceMs);
    look();
  };
  return new Promise(ends);
})"""

TAKE = """navigator.serviceWorker.ready.then((registration) => {
  registration.waiting.postMessage({ say: 'take over' });
})"""

NO_WORKER_WAITS = "navigator.serviceWorker.ready.then((it) => it.waiting === null)"


def make_release(site: Site) -> None:
    """Change the site into another release with a script under another name."""
    site.replace("NOTICES.txt", b"Another release.\n")
    page = site.path("index.html").read_text()
    script = site.path("assets/main-*.js")
    renamed = script.with_name("main-ANOTHER.js")
    script.rename(renamed)
    site.replace("index.html", page.replace(script.name, renamed.name).encode())
    site.list_anew()


def rename_all(site: Site, name: str) -> None:
    """Change the site into another release that has no script, no sheet and no file of Python under its old
    name; its sheets call themselves newer."""
    sheets = [*site.folder.glob("assets/circuits/*")]
    tops = [*sheets, *site.folder.glob("assets/*.*"), *site.folder.glob("python/*")]
    names = {top.name: re.sub(r"-\w+(\.\w+)?$", rf"-{name}\1", top.name) for top in tops}
    for top in tops:
        top.rename(top.with_name(names[top.name]))
    for file in [*site.folder.glob("assets/**/*.js*"), *site.folder.glob("*.*")]:
        if file.suffix in (".js", ".html", ".json"):
            text = file.read_text()
            for old, new in names.items():
                text = text.replace(old, new)
            if file.parent.name == "circuits":
                text = text.replace('"title": "', f'"title": "{NEWER} ')
            file.unlink()
            file.write_text(text)
    site.list_anew()


def forget_fetched(page: Page) -> None:
    """Empty the browser's own cache: what it still has from an earlier try or release does not count."""
    session = page.context.new_cdp_session(page)
    session.send("Network.clearBrowserCache")
    session.detach()


def look_for_update(page: Page, patience_s: float = PATIENCE_S) -> str:
    """Return what became of a new release: stored, refused, nothing new, or neither in so long a time."""
    outcome: str = page.evaluate(LOOK, 1000 * patience_s)
    return outcome


def take_update(page: Page) -> None:
    """Let the waiting release take over, without loading the page again."""
    page.evaluate(TAKE)
    until(page, NO_WORKER_WAITS)


def release_of(page: Page) -> str:
    """Return the release that a page belongs to."""
    name: str = page.evaluate("document.querySelector('meta[name=release]').content")
    return name


def cache_names(page: Page) -> list[str]:
    """Return the names of the stores of the site's files; the image of Python's memory is none of them."""
    names: list[str] = page.evaluate("caches.keys()")
    return [name for name in names if name != "footwell-image"]
