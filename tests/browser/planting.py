"""A page with a bug planted in its source."""

from __future__ import annotations

import os
import subprocess

from site_server import ROOT, Site

Bug = tuple[str, str, str]
"""File, what stands there, and what a careless hand would have written."""


def plant(site: Site, bug: Bug | tuple[()] = ()) -> None:
    """Build the page of a site, readable and with a bug in it, if there is one."""
    command = ["node", "tests/browser/planted_page.mjs", str(site.folder), *bug]
    subprocess.run(command, cwd=ROOT, check=True, timeout=120)
    os.replace(site.path("index.html.new"), site.path("index.html"))
