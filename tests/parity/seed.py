"""The seed of random samples: another with every commit, and the same again from its hash."""

from __future__ import annotations

import subprocess


def commit() -> str:
    """Hash of the commit; empty outside a repository, which is a seed as good as any."""
    asked = ["git", "rev-parse", "HEAD"]
    return subprocess.run(asked, capture_output=True, text=True, check=False).stdout.strip()
