"""Answers as plain text for a terminal."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from footwell import messages as m
from footwell.terminal.shapes import Expectations, FaultSaid, JobState, PracticeRun, WiresAnswer


def sheet(answer: m.SheetAnswer) -> str:
    return _lines(
        [
            f"{answer.title}, {answer.vehicle}: {answer.parts} parts. The sheet is sound.",
            *_listed("Be aware:", answer.notices),
            *_listed("Assumed, because the sheet leaves it open:", answer.assumed),
        ]
    )


def expectations(answer: Expectations) -> str:
    blocks = [_table(each) for each in answer.tables]
    return "\n".join([_lines(_listed("With:", map(fault, answer.faults))), *blocks]).lstrip("\n")


def _table(table: m.ExpectedTable) -> str:
    rows = [(_held(row), row.text, row.name) for row in table.rows]
    head = [f"{table.title}: {', '.join(table.seen)}.", *table.warnings]
    return _lines([*head, *(f"  {line}" for line in columns(rows))])


def _held(row: m.ExpectedRow) -> str:
    return " ".join(x for x in (row.place, row.black if row.black != "earth" else "") if x)


def explanation(answer: m.Explanation) -> str:
    """Why a value is expected: sentences, then the way of the current, then the band's parts."""
    value = f"{answer.row.name}: {answer.row.text}"
    drops = [(step.text, _percent(step.share), step.name, *_marks(step)) for step in answer.steps]
    spread = [(_percent(part.share), part.text, part.name) for part in answer.spread]
    return _lines(
        [
            value,
            answer.condition,
            *answer.warnings,
            *answer.lines,
            *([answer.meter] if answer.meter else []),
            *_listed(_way(answer), columns([(*row, "")[:4] for row in drops]) if drops else []),
            *_listed("The band, by what makes it wide:", columns(spread) if spread else []),
        ]
    )


def _percent(share: float) -> str:
    """A share with one decimal.

    >>> _percent(0.2188)
    '21.9 %'
    """
    return f"{share * 100:.1f} %"


def _way(answer: m.Explanation) -> str:
    return (
        f"The current's way, and what falls along it of {answer.supply}:" if answer.supply else ""
    )


def _marks(step: m.ExplainStep) -> tuple[str, ...]:
    words = {"red": "← red lead", "black": "← black lead", "held": "← holds it", "body": "← earth"}
    return (" ".join(words[mark] for mark in step.marks),) if step.marks else ()


def job(state: JobState) -> str:
    return _lines(
        [
            f"{state.title}, {state.vehicle}",
            *_step(state.next),
            *_groups(state.groups),
            *_listed("Not used:", state.problems),
        ]
    )


def _step(step: m.Step) -> Iterator[str]:
    if isinstance(step, m.CheckStep):
        yield from _check(step.check)
    elif isinstance(step, m.WiringStep | m.EndsStep | m.PositionsStep):
        yield f"Next: {step.goal}"
        yield f"  {step.why}"
    else:
        yield f"Next: {step.title}"
        yield from (f"  {line}" for line in (step.do if step.kind == "repair" else step.lines))


def _check(check: m.Check) -> Iterator[str]:
    yield f"Next: {check.goal}"
    yield from (f"  {c.level}: {c.what}. {c.avoid}." for c in check.cautions)
    yield f"  {check.condition}"
    yield f"  {check.do}"
    yield f"  Expected: {check.band.text if check.band else check.healthy_choice}"
    yield from (f"  {outcome.when}: {outcome.means}" for outcome in check.outcomes)
    yield f"  {check.why}"


def _groups(told: m.Suspects) -> Iterator[str]:
    yield from _listed("Proven:", (s.title for s in told.proven))
    rows = [(s.words, s.title) for group in told.groups for s in group.suspects]
    yield from _listed("Suspects:", columns(rows))
    yield from _listed("Cleared:", (f"{c.title}: {c.by}" for c in told.cleared))
    yield from _listed("Mended:", told.mended)
    if told.warning:
        yield told.warning


def practice(run: PracticeRun) -> str:
    wired = [f"{each.half}: {each.slip}" for each in run.wiring]
    end = "Solved" if run.solved else "Not solved"
    return _lines(
        [
            *_listed("True:", [*map(fault, run.faults), *wired] or ["nothing is wrong"]),
            *_listed("Road:", run.steps),
            f"{end} with {run.readings} readings in {run.minutes:.0f} minutes.",
            *_listed("Still wrong:", map(fault, run.left)),
        ]
    )


def fault(one: FaultSaid) -> str:
    """A fault in a line: "W4 high_resistance 20 (wire BU from …)"."""
    size = f" {one.size:g}" if one.size is not None else ""
    return f"{one.part} {one.mode}{size} ({one.where})"


def columns(rows: Sequence[tuple[str, ...]]) -> list[str]:
    """Rows with their columns one under the other.

    >>> columns([("a", "b"), ("long", "c")])
    ['a     b', 'long  c']
    """
    widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
    return [
        "  ".join(x.ljust(w) for x, w in zip(row, widths, strict=True)).rstrip() for row in rows
    ]


def wires_put(file: str, answer: WiresAnswer) -> str:
    """What became of a wiring list that went into a file."""
    return _lines(
        [
            f"{file} is written.",
            *_listed("New wires:", answer.new),
            *_listed("Changed wires:", answer.changed),
            *_listed("Be aware:", answer.notices),
        ]
    )


def _listed(title: str, lines: Iterator[str] | Sequence[str]) -> list[str]:
    found = [f"  {line}" for line in lines]
    return [title, *found] if found else []


def _lines(lines: Sequence[str]) -> str:
    return "".join(f"{line}\n" for line in lines)
