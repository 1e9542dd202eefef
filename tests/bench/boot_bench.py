"""From starting a worker to the first validated answer: naive, ours and from the image, cold and warm.

Naive: the stock interpreter and library, the packages installed by micropip from the same host.
Ours: the site's own worker. Cold: a new browser profile. Warm: the same profile again; ours then
comes from the service worker's store, the naive start from the browser's own cache. Image: as ours, with
the image of Python's memory that the phone made before.
The call reads a whole circuit sheet through pydantic's models.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from contextlib import contextmanager
from statistics import median
from urllib.request import Request, urlopen

from chromium import launch, phone
from in_browser import bench_site
from playwright.sync_api import Browser, Page, sync_playwright
from site_server import ROOT, Site
from table import megabytes, print_table
from waiting import until, until_ready_offline

COLD_RUNS = 3
WARM_RUNS = 12
WARM_GOALS = {"ours": 0.30, "image": 0.17}  # of the naive warm start's time
TRANSFER_LIMIT = 9_000_000  # bytes of the whole first visit
MEMORY_LIMIT = 64_000_000  # bytes of Python's memory

SHEET = ROOT / "fixtures" / "circuits" / "minibus-saloon-fan.json"
CALL = ["read_sheet", json.dumps({"text": SHEET.read_text(encoding="utf-8")})]
COLD_KINDS = ("naive", "ours")
WARM_KINDS = ("naive", "ours", "image")


@contextmanager
def bench_page(browser: Browser, site: Site, kind: str) -> Iterator[Page]:
    """Open the benchmark's page in a new profile; for our warm starts the site is stored there."""
    context = phone(browser)
    page = context.new_page()
    page.goto(f"{site.address}harness/bench.html")
    yield page
    context.close()


def start_once(page: Page, kind: str) -> dict[str, float]:
    """Start one worker and return its milliseconds and memory."""
    result = page.evaluate(f"([name, text]) => bench.{kind}(name, text)", CALL)
    assert "ok" in json.loads(result["answer"]), result["answer"]
    assert result.get("found", False) is (kind == "image")
    return {"ms": result["ms"], "heap": result["heapBytes"]}


def cold_start(browser: Browser, site: Site, kind: str) -> dict[str, float]:
    """Return the figures of a start in a profile that has nothing yet."""
    with bench_page(browser, site, kind) as page:
        return start_once(page, kind)


def store_site(page: Page, site: Site) -> None:
    """Visit the site itself until all of it is on the device."""
    page.goto(site.address)
    until_ready_offline(page)
    page.goto(f"{site.address}harness/bench.html")
    until(page, "navigator.serviceWorker.controller !== null")


def warm_starts(browser: Browser, site: Site) -> tuple[dict[str, list[dict[str, float]]], int]:
    """Return the figures of later starts, taken in turns so that all meet the same weather, and the
    bytes of the image."""
    with bench_page(browser, site, "naive") as naive, bench_page(browser, site, "ours") as ours:
        store_site(ours, site)
        image_bytes = ours.evaluate("bench.makeImage()")
        pages = {"naive": naive, "ours": ours, "image": ours}
        for kind in WARM_KINDS:
            start_once(pages[kind], kind)
        results: dict[str, list[dict[str, float]]] = {kind: [] for kind in WARM_KINDS}
        for _ in range(WARM_RUNS):
            for kind in WARM_KINDS:
                pages[kind].reload()
                results[kind].append(start_once(pages[kind], kind))
        return results, image_bytes


def cold_starts(browser: Browser, site: Site) -> dict[str, list[dict[str, float]]]:
    """Return the figures of first starts."""
    pairs = [
        {kind: cold_start(browser, site, kind) for kind in COLD_KINDS} for _ in range(COLD_RUNS)
    ]
    return {kind: [pair[kind] for pair in pairs] for kind in COLD_KINDS}


def row(name: str, results: dict[str, list[dict[str, float]]], kind: str) -> list[str]:
    """Return one line of the table of start times."""
    naive, ours = (median(run["ms"] for run in results[it]) for it in ("naive", kind))
    times = [run["ms"] for run in results[kind]]
    spread = f"{min(times):.0f}-{max(times):.0f}"
    return [name, f"{naive:.0f}", f"{ours:.0f}", spread, f"{ours / naive:.2f}"]


def warm_rows(warm: dict[str, list[dict[str, float]]]) -> list[list[str]]:
    """Return the lines of later starts, each with its goal."""
    return [
        [*row(f"warm, {kind} ({WARM_RUNS})", warm, kind), f"{goal:.2f}"]
        for kind, goal in WARM_GOALS.items()
    ]


def warm_up(site: Site) -> None:
    """Let the server compress every file once, as a real host has done long ago."""
    for path in site.folder.rglob("*"):
        if path.is_file():
            address = site.address + path.relative_to(site.folder).as_posix()
            asked = Request(address, headers={"accept-encoding": "gzip"})
            urlopen(asked).close()


def first_visit(browser: Browser, site: Site) -> list[tuple[str, int]]:
    """Return what the server sent until the site was stored: paths and bytes as compressed."""
    site.requests.clear()
    context = phone(browser)
    page = context.new_page()
    page.goto(site.address)
    until_ready_offline(page)
    context.close()
    return [(line["path"], line["bytes"]) for line in site.requests]


def print_transfer(sent: list[tuple[str, int]]) -> None:
    """Print the largest files of the first visit and the sum of all."""
    largest = sorted(sent, key=lambda line: -line[1])[:8]
    rows = [[path, megabytes(size)] for path, size in largest]
    total = sum(size for _, size in sent)
    rows.append(
        [
            f"whole first visit, {len(sent)} answers (at most {megabytes(TRANSFER_LIMIT)})",
            megabytes(total),
        ]
    )
    print_table("Transfer of the first visit, gzip", ["file", "size"], rows)


def main() -> None:
    """Print all tables."""
    with bench_site() as site, sync_playwright() as browsers:
        browser = launch(browsers)
        warm_up(site)
        cold, (warm, image_bytes) = cold_starts(browser, site), warm_starts(browser, site)
        print_table(
            "Worker start to first validated answer, medians",
            ["start", "naive ms", "ms", "spread", "ratio", "goal"],
            [[*row(f"cold, ours ({COLD_RUNS})", cold, "ours"), ""], *warm_rows(warm)],
        )
        print_transfer(first_visit(browser, site))
        heaps = [[kind, megabytes(warm[kind][-1]["heap"])] for kind in WARM_KINDS]
        heaps.append(["the image as kept", megabytes(image_bytes)])
        heaps.append(["at most", megabytes(MEMORY_LIMIT)])
        title = "Python's memory after the first answer: length of the WebAssembly heap"
        print_table(title, ["start", "size"], heaps)
        browser.close()


if __name__ == "__main__":
    main()
