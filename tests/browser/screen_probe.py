"""What is wrong with the screen that stands there now: sizes, cut content, names, contrast."""

from __future__ import annotations

from pathlib import Path

from playwright.sync_api import Page

ROOT = Path(__file__).resolve().parents[2]
AXE = ROOT / "node_modules" / "axe-core" / "axe.min.js"

SMALLEST_KEY_PX = 48
"""Smallest side of anything to press (WCAG 2.2, 2.5.5 asks for 44; bare and gloved thumbs for 48)."""
SMALLEST_TEXT_PX = 14

PROBE = Path(__file__).with_name("screen_probe.js")

RULES = ["wcag2a", "wcag2aa", "wcag2aaa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
MORE = {"label-content-name-mismatch": {"enabled": True}}


def faults_of_size(page: Page) -> list[str]:
    """Keys too small, text too small, content cut or out of sight, keys over keys."""
    found: list[str] = page.evaluate(
        PROBE.read_text().rstrip().rstrip(";"), [SMALLEST_KEY_PX, SMALLEST_TEXT_PX]
    )
    return found


def faults_of_access(page: Page) -> list[str]:
    """Everything that axe finds: contrast of 7:1, best practice, and that a name holds what is to be seen."""
    if not page.evaluate("'axe' in window"):
        page.evaluate(AXE.read_text())
    result = page.evaluate("([tags, rules]) => axe.run({ runOnly: tags, rules })", [RULES, MORE])
    return [
        f"{violation['impact']}: {violation['id']} at {node['target']}"
        for violation in result["violations"]
        for node in violation["nodes"]
    ]
