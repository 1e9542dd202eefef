"""R2, R3, R4 and C2 in Debian's Firefox."""

from __future__ import annotations

import random
import sys
import threading
import time
from collections.abc import Collection
from functools import partial
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from tempfile import TemporaryDirectory

from counts import counted
from firefox import Firefox
from firefox_payloads import told as payloads_told

sys.path.insert(0, str(Path(__file__).parents[1] / "browser" / "storage"))
from storage_bugs import Bug, script
from storage_flushes import flushes_of
from storage_rig import html_for

SEED = 4
LONGEST_WAIT_S = 1.5

STORED_LATER = Bug(
    "append.ts",
    "  return connection.use((db, again) => saveIn(db, drafts, again, into));\n",
    "  const stored = () => connection.use((db, again) => saveIn(db, drafts, again, into));\n"
    "  return new Promise((said) => { setTimeout(stored, 3000);\n"
    "    said({ events: drafts.map((draft, i) => ({ device: 'x', n: i + 1, ...draft })),"
    " phone: { device: 'x', n: 0 }, count: 0 }); });\n",
)

SAVE_ON = """(async () => {
  await store.open();
  window.said = 0;
  window.saving = (async () => {
    for (let i = 1; ; i += 1) {
      await store.append("job", "note made", { text: String(i) });
      window.said = i;
    }
  })();
})()"""
TEXTS = (
    "store.open().then(() => store.events('job'))"
    ".then((all) => all.map((event) => JSON.parse(event.body).text))"
)

FILL_UP = """(async () => {
  await store.open();
  await store.append("job", "note made", { text: "one" });
  await store.append("job", "note made", { text: "two" });
  let said = 0;
  try {
    for (let i = 0; i < 3000; i += 1) {
      const bytes = crypto.getRandomValues(new Uint8Array(28000));
      const text = Array.from(bytes, (byte) => byte.toString(16)).join("");
      await store.append("heavy", "note made", { text });
      said += 1;
    }
  } catch (fault) {
    const jobs = await store.jobs();
    return { sentence: fault.message, state: store.state.value, said,
      counts: Object.fromEntries(jobs.map((job) => [job.id, job.count])),
      exported: (await store.exportText("job")).split("note made").length - 1 };
  }
  return { sentence: "", said };
})()"""


class Host:
    """The page of the store's tests, on this machine: a secure context."""

    def __init__(self, page_script: str) -> None:
        class Handler(BaseHTTPRequestHandler):
            def do_GET(self) -> None:
                is_script = self.path.endswith("page.js")
                body = (page_script if is_script else html_for(self.path)).encode()
                self.send_response(200)
                self.send_header("content-type", "text/javascript" if is_script else "text/html")
                self.send_header("content-length", str(len(body)))
                self.end_headers()
                self.wfile.write(body)

            def log_message(self, *_: object) -> None:
                """Nobody reads it."""

        self._server = ThreadingHTTPServer(("127.0.0.1", 0), Handler)
        threading.Thread(target=self._server.serve_forever, daemon=True).start()
        self.address = f"http://127.0.0.1:{self._server.server_port}/"

    def stop(self) -> None:
        self._server.shutdown()
        self._server.server_close()


def saved_and_kept(host: Host, profile: Path, wait_s: float) -> tuple[int, list[str]]:
    """Save without a pause, kill after a while; what was said to be saved, and what is there."""
    browser = Firefox(profile)
    browser.goto(host.address)
    browser.evaluate(SAVE_ON)
    while browser.evaluate("said") == 0:
        time.sleep(0.02)
    time.sleep(wait_s)
    said = int(browser.evaluate("said"))
    browser.kill()
    again = Firefox(profile)
    again.goto(host.address)
    kept = again.evaluate(TEXTS)
    again.close()
    return said, kept


def lost_in(said: int, kept: list[str]) -> int:
    """How many that were said are gone; holes count too."""
    whole = [str(i + 1) for i in range(len(kept))]
    return max(0, said - len(kept)) + sum(a != b for a, b in zip(kept, whole, strict=True))


def killed(times: int, *bugs: Bug) -> tuple[int, int]:
    """R2: saved entries lost, and how many were said, over so many kills."""
    chance = random.Random(SEED)
    host = Host(script(*bugs))
    lost = total = 0
    for _ in range(times):
        with TemporaryDirectory(ignore_cleanup_errors=True) as folder:
            said, kept = saved_and_kept(host, Path(folder), LONGEST_WAIT_S * chance.random())
        lost, total = lost + lost_in(said, kept), total + said
    host.stop()
    return lost, total


def filled_up() -> list[str]:
    """R4: what did not hold when storage was full; nothing when all did."""
    host = Host(script())
    quota = {"dom.quotaManager.temporaryStorage.fixedLimit": 10_000}
    with TemporaryDirectory(ignore_cleanup_errors=True) as folder:
        browser = Firefox(Path(folder), **quota)
        browser.goto(host.address)
        full = browser.evaluate(FILL_UP)
        browser.close()
        again = Firefox(Path(folder))
        again.goto(host.address)
        kept = again.evaluate(TEXTS)
        again.close()
    host.stop()
    holds = {
        "told": "no room left" in full["sentence"],
        "earlier readable": full.get("counts") == {"job": 2, "heavy": full["said"]},
        "exported": full.get("exported") == 2,
        "there after a new start": kept == ["one", "two"],
    }
    return [name for name, held in holds.items() if not held]


FLUSHED_SOMETIME = Bug("database.ts", 'durability: "strict"', 'durability: "relaxed"')
SAVE_A_HUNDRED = """(async () => {
  for (let i = 0; i < 100; i += 1) await store.append("job", "note made", { text: `${i}` });
})()"""


def flushed(*bugs: Bug) -> int:
    """R3: flushes for 100 saves."""
    host = Host(script(*bugs))
    with TemporaryDirectory(ignore_cleanup_errors=True) as folder:
        browser = Firefox(Path(folder) / "profile")
        browser.goto(host.address)
        browser.evaluate("store.open().then(() => store.append('job', 'note made', { text: '' }))")
        saved = partial(browser.evaluate, SAVE_A_HUNDRED)
        flushes = flushes_of([browser.process.pid], saved, Path(folder) / "calls")
        browser.kill()
    host.stop()
    return flushes


def flushes_told() -> int:
    """Print R3; 1 where it does not hold."""
    flushes, careless = flushed(), flushed(FLUSHED_SOMETIME)
    held = flushes >= 100 > careless
    print(
        f"R3  Firefox: {'holds' if held else 'BELOW THE FLOOR'}: {flushes} flushes for 100 saves;"
    )
    print(f"    planted bug, flushed some time: {careless} (must be under 100)", flush=True)
    return int(not held)


def kills_told() -> int:
    """Print R2; 1 where it does not hold."""
    times = counted(3, 20, 500)
    lost, said = killed(times)
    bug_lost, _ = killed(1, STORED_LATER)
    print(
        f"R2  Firefox killed {times} times (seed {SEED}): {lost} lost of {said} said to be saved;"
    )
    print(f"    planted bug, a save that is said too early: {bug_lost} lost (must be more than 0)")
    return int(lost > 0 or bug_lost == 0)


def full_told() -> int:
    """Print R4; 1 where it does not hold."""
    short = filled_up()
    print(f"R4  Firefox, storage full: {'holds' if not short else 'BELOW: ' + ', '.join(short)}")
    return int(bool(short))


ROWS = {"R2": kills_told, "R3": flushes_told, "R4": full_told, "C2": payloads_told}


def main(names: Collection[str]) -> int:
    """Print the rows of these names, or all; 1 where one does not hold, 2 where there is no such row."""
    if unknown := set(names) - set(ROWS):
        print(f"There is no such row of Firefox: {', '.join(sorted(unknown))}")
        return 2
    return max(told() for name, told in ROWS.items() if not names or name in names)
