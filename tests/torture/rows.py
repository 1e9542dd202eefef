"""The rows of `npm run torture`: what is measured, its floor, its goal, and by what.

Most rows are tests of the browser or the core, run with their controls: tests with a planted bug, which
pass only when the bug turns the test inside them red. Their names end in "is_found_out".
"""

from __future__ import annotations

from dataclasses import dataclass

IN_FIREFOX = "Firefox is run by `npm run torture -- firefox` alone"
COVERING = tuple(
    f"tests/core/test_{name}.py"
    for name in (
        *("links", "links_samples", "links_strangers", "practice_job", "replay_facts"),
        *("service_events", "service_strangers", "service_timeline", "sheet_starter"),
        "terminal_jobs",
    )
)
STORAGE = "tests/browser/storage/test_storage_"
OFFLINE = "tests/browser/offline/test_"


@dataclass(frozen=True)
class Row:
    """`tests` are pytest's names, of which `chosen` (pytest's -k) takes some; `limits` bound what tests
    record: name of the figure, its highest value at the floor. `repeats`: rounds for floor and goal."""

    id: str
    measure: str
    floor: str
    goal: str
    tests: tuple[str, ...] = ()
    chosen: str = ""
    limits: tuple[tuple[str, float], ...] = ()
    repeats: tuple[int, int] = (1, 1)
    always_long: bool = False
    missing: str = ""
    """What of the row is not measured here; said beside the figure."""


ROWS = (
    Row(
        "R1",
        "saved events lost, page dies at each step of a save",
        "0; every step x 3",
        "0; x 100",
        (f"{STORAGE}saved.py", f"{STORAGE}photos.py"),
        "dies",
        repeats=(3, 100),
    ),
    Row(
        "R2",
        "saved events lost, browser killed",
        "0 of 20, two engines",
        "0 of 500",
        (f"{STORAGE}saved.py",),
        "killed or the_kill",
        missing=IN_FIREFOX,
    ),
    Row(
        "R3",
        "flushes for 100 saves (strace)",
        ">= 100, two engines",
        "same, both stores of Chromium",
        (f"{STORAGE}flushes.py",),
        always_long=True,
        missing=IN_FIREFOX,
    ),
    Row(
        "R4",
        "storage full: earlier events readable, told, export works",
        "100 %, two engines",
        "also at open",
        (f"{STORAGE}full.py",),
        missing=IN_FIREFOX,
    ),
    Row(
        "R5",
        "connection closed at random in 1,000 saves (seed 11): lost, doubled",
        "0, 0",
        "10,000 saves",
        (f"{STORAGE}connection.py",),
    ),
    Row(
        "R6",
        "tabs that save at once: numbers dense",
        "2 x 500",
        "4 x 5,000",
        (f"{STORAGE}tabs.py",),
    ),
    Row(
        "R7",
        "store silently emptied: alarm shown",
        "100 %",
        "and restore offered",
        (f"{STORAGE}emptied.py",),
    ),
    Row(
        "R8",
        "bad release (500, truncated, HTML as 200, cut off, missing) x each file: the old one works",
        "100 % of files",
        "and Firefox",
        (f"{OFFLINE}bad_release.py",),
        missing="the short form takes one file for each fault, by the commit; one engine",
    ),
    Row(
        "R9",
        "old tab after an update finds its own files",
        "100 %",
        "over two updates",
        (f"{OFFLINE}update.py",),
        "old_release",
        missing="no part of the page itself is loaded late; Python, its worker and files, and sheets are",
    ),
    Row(
        "R10",
        "one stored file gone, offline: blank pages",
        "0, every file",
        "heals when online",
        (f"{OFFLINE}lost_files.py",),
    ),
    Row(
        "R11",
        "interpreter killed at random (seed 5): calls lost; slowest answer",
        "0; 8 s",
        "0; 3 s, 500 kills",
        ("tests/browser/boot/test_death.py",),
        limits=(("slowest answer s", 8),),
    ),
    Row(
        "R12",
        "cold starts offline that reach a job",
        "50 of 50",
        "500 of 500",
        (f"{OFFLINE}cold_starts.py",),
    ),
    Row(
        "R13",
        "save until it is said, p99",
        "50 ms",
        "25 ms",
        (f"{STORAGE}speed.py",),
        limits=(("p99 ms", 50),),
    ),
    Row(
        "C1",
        "hostile links: over 1 s, over 32 MB, other faults than a sentence",
        "0 of 200 + 20,000 mutations",
        "5,000,000 mutations",
        (
            "tests/torture/test_hostile_links.py",
            "tests/browser/test_links_opened_hostile.py",
            "tests/browser/test_screens_links.py",
        ),
        limits=(("slowest in the browser s", 1),),
        missing="the short form opens a sample of the 200 in the browser; mutations in CPython alone",
    ),
    Row(
        "C2",
        "injection texts in every field and view: scripts run",
        "0 of 60",
        "0 of 300, two engines",
        ("tests/browser/test_payloads.py",),
        missing=f"each field meets one text in the short form, 30 in the long; {IN_FIREFOX}",
    ),
    Row(
        "C3",
        "policy on every response; text as code refused in page and worker",
        "100 %",
        "and Trusted Types enforced",
        ("tests/browser/boot/test_policy.py",),
    ),
    Row(
        "Q1",
        "branches taken by tests: links, job replay (Python); store, links and files (browser)",
        "95 %",
        "100 %",
        COVERING,
        missing="of the page, what the browser tells, of its store, links and files alone",
    ),
    Row(
        "Q2",
        "mutants killed: links, job replay, job files (Python)",
        "80 %",
        "95 %",
        missing="run by `npm run torture -- mutants` alone; the page's store has planted bugs only",
    ),
    Row(
        "Q3",
        "stored formats that still open; unknown kinds kept byte for byte",
        "100 %",
        "and newer, older, newer",
        (
            "tests/core/test_links_samples.py",
            "tests/browser/test_stored_formats.py",
            f"{STORAGE}links.py",
            f"{STORAGE}newer_fields.py",
        ),
        "sample or format or unknown or anew or not_know",
    ),
)
