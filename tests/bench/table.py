"""Tables for the terminal."""

from __future__ import annotations

from collections.abc import Sequence


def print_table(title: str, head: Sequence[str], rows: Sequence[Sequence[object]]) -> None:
    """Print rows under a head: the first column to the left, the others to the right."""
    lines = [[str(cell) for cell in row] for row in (head, *rows)]
    widths = [max(map(len, column)) for column in zip(*lines, strict=True)]
    print(f"\n{title}")
    for line in lines:
        first, *others = zip(line, widths, strict=True)
        cells = [first[0].ljust(first[1]), *(cell.rjust(width) for cell, width in others)]
        print("  ".join(cells).rstrip())


def megabytes(count: float) -> str:
    """Return a number of bytes in millions, as hosts and phones count them."""
    return f"{count / 1e6:.2f} MB"
