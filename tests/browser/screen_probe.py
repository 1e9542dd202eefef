"""What is wrong with the screen that stands there now: sizes, cut content, names, contrast."""

from __future__ import annotations

from pathlib import Path

from playwright.sync_api import Page

ROOT = Path(__file__).resolve().parents[2]
AXE = ROOT / "node_modules" / "axe-core" / "axe.min.js"

SMALLEST_KEY_PX = 48
"""Smallest side of anything to press (WCAG 2.2, 2.5.5 asks for 44; bare and gloved thumbs for 48)."""
SMALLEST_TEXT_PX = 14

PROBE = """([smallestKey, smallestText]) => {
  const found = [];
  const spoken = (e) => (e.getAttribute("aria-label") ?? e.textContent ?? e.tagName).slice(0, 40);
  const pressed = "button, [role=button], select, input:not([type=file]), textarea, a, summary";
  for (const key of document.querySelectorAll(pressed)) {
    const box = (key.querySelector(".place-touch") ?? key).getBoundingClientRect();
    if (box.width === 0) continue;
    if (Math.min(box.width, box.height) < smallestKey - 0.5)
      found.push(`${spoken(key)}: ${box.width.toFixed()} by ${box.height.toFixed()} px`);
    const scrolls = key.closest(".drawing, .face") || key.tagName === "TEXTAREA";
    if (scrolls) continue;
    if (box.right > innerWidth + 1 || box.left < -1) found.push(`${spoken(key)}: out of sight`);
    if (key.scrollWidth > key.clientWidth + 2) found.push(`${spoken(key)}: words do not fit`);
  }
  const texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (texts.nextNode()) {
    const holder = texts.currentNode.parentElement;
    if (!texts.currentNode.textContent.trim()) continue;
    if (holder.closest(".unseen, noscript, svg")) continue;
    const size = parseFloat(getComputedStyle(holder).fontSize);
    if (size < smallestText) found.push(`${holder.textContent.slice(0, 40)}: text of ${size} px`);
  }
  if (document.documentElement.scrollWidth > innerWidth) found.push("the page is wider than the screen");
  const middle = document.querySelector(".middle");
  if (middle && middle.scrollWidth > middle.clientWidth + 1) found.push("the words are wider than the screen");
  const overlap = (a, b) => a.left < b.right - 1 && b.left < a.right - 1 && a.top < b.bottom - 1 && b.top < a.bottom - 1;
  const keys = [...document.querySelectorAll(".foot button")].map((key) => [key, key.getBoundingClientRect()]);
  keys.forEach(([a, boxA], i) => keys.slice(i + 1).forEach(([b, boxB]) =>
    overlap(boxA, boxB) && found.push(`${spoken(a)} lies over ${spoken(b)}`)));
  return [...new Set(found)];
}"""

RULES = ["wcag2a", "wcag2aa", "wcag2aaa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]


def faults_of_size(page: Page) -> list[str]:
    """Keys too small, text too small, content cut or out of sight, keys over keys."""
    found: list[str] = page.evaluate(PROBE, [SMALLEST_KEY_PX, SMALLEST_TEXT_PX])
    return found


def faults_of_access(page: Page) -> list[str]:
    """Everything that axe finds, contrast of 7:1 and best practice included."""
    page.evaluate(AXE.read_text())
    result = page.evaluate("(tags) => axe.run({ runOnly: tags })", RULES)
    return [
        f"{violation['impact']}: {violation['id']} at {node['target']}"
        for violation in result["violations"]
        for node in violation["nodes"]
    ]
