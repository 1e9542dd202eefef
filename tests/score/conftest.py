"""Lets the samples of the scores find what they share with the benchmarks and the other tests."""

from __future__ import annotations

import sys
from pathlib import Path

TESTS = Path(__file__).parents[1]
sys.path[:0] = [str(TESTS), str(TESTS / "bench")]
