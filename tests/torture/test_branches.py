"""Branches of the store are counted as taken only where some page took them."""

from __future__ import annotations

from branches import branches_of

TEXT = """// tests/page.ts
outside();
// ../tmp/x/web/src/storage/append.ts
function save() { if (a) { b(); } else { c(); } }
function never() { d(); }
"""
SAVE = (TEXT.index("function save"), TEXT.index("function never") - 1)
THEN = (TEXT.index("{ b"), TEXT.index(" else"))
ELSE = (TEXT.index(" else"), TEXT.index(" }\nfunction never"))
NEVER = (TEXT.index("function never"), len(TEXT) - 1)


def function(*told: tuple[tuple[int, int], int]) -> dict[str, object]:
    ranges = [{"startOffset": a, "endOffset": b, "count": n} for (a, b), n in told]
    return {"functionName": "", "ranges": ranges, "isBlockCoverage": True}


def page(*of_save: tuple[tuple[int, int], int]) -> list[dict[str, object]]:
    return [function(((0, len(TEXT)), 1)), function(*of_save), function((NEVER, 0))]


def test_a_branch_that_no_page_took_is_missed_and_so_is_a_function_that_never_ran() -> None:
    found = branches_of(TEXT, [page((SAVE, 2), (ELSE, 0))])
    assert (found.total, found.missed) == (3, {"append.ts": [4, 5]})


def test_a_branch_that_another_page_took_as_often_as_all_around_it_is_taken() -> None:
    other = page((SAVE, 1), (THEN, 0))
    found = branches_of(TEXT, [page((SAVE, 2), (ELSE, 0)), other])
    assert (found.total, found.missed) == (4, {"append.ts": [5]})


def test_what_is_not_of_the_store_does_not_count() -> None:
    assert branches_of(TEXT, [[function(((0, 20), 0))]]).total == 0
