"""Expected readings as CSV (RFC 4180): a heading, then one line a reading."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence

from footwell.messages import ExpectedTable

HEADING = (
    "set-up",
    "instrument",
    "place",
    "black",
    "name",
    "low",
    "value",
    "high",
    "unit",
    "text",
)


def readings(tables: Sequence[ExpectedTable]) -> str:
    """All rows of some tables. Numbers are in the row's unit, with a decimal point, and empty where
    the reading is a word; lines end as RFC 4180 asks, with CR and LF."""
    text = io.StringIO(newline="")
    writer = csv.writer(text)
    writer.writerow(HEADING)
    for table in tables:
        for row in table.rows:
            numbers = (_number(x) for x in (row.low, row.value, row.high))
            head = map(_words, (table.title, table.instrument, row.place, row.black, row.name))
            writer.writerow([*head, *numbers, _words(row.unit), _words(row.text)])
    return text.getvalue()


def _words(text: str) -> str:
    """A cell that no spreadsheet takes for a formula: one that looks like it begins with an apostrophe.

    >>> _words("=1+1"), _words("@x"), _words("X2.1.a")
    ("'=1+1", "'@x", 'X2.1.a')
    """
    return f"'{text}" if text.startswith(("=", "+", "-", "@", "\t", "\r")) else text


def _number(value: float | None) -> str:
    """Six digits, more than any meter shows.

    >>> _number(24.795214446831412), _number(-0.000012), _number(None)
    ('24.7952', '-1.2e-05', '')
    """
    return "" if value is None else f"{value:.6g}"
