"""The plain report: complaint, findings, proof, what was done, what stays open, then the evidence."""

from __future__ import annotations

from collections import Counter

from footwell.diagnosis.conclude import Conclusion
from footwell.job.events import StoryTold
from footwell.job.replay import Replayed
from footwell.messages import CauseView, ReadingView, ReportSection, Suspects
from footwell.page import words as say
from footwell.page.causes import NOT_ESTABLISHED
from footwell.page.history_view import PHOTO

NOT_RECORDED = "Not recorded."


DONE = ("repair done", "wiring corrected", "wire put back")

NO_VEHICLE = "There is no vehicle behind this job. Its readings were computed, to practise on."


def report_view(
    replayed: Replayed,
    conclusion: Conclusion,
    suspects: Suspects,
    causes: list[CauseView],
    history: list[ReadingView],
    told: tuple[str, str],
) -> list[ReportSection]:
    """Sections in the order of reading; empty ones say that nothing was recorded. `told` are the complaint
    and what worked beside it."""
    kept = [row for row in history if not row.withdrawn]
    done = [row.title for row in kept if row.kind in DONE]
    readings = [_evidence(row) for row in kept if row.kind == "reading taken"]
    skipped = [f"{row.title} ({row.value})" for row in kept if row.kind == "check skipped"]
    practice = [_section("Practice", [NO_VEHICLE])] if replayed.practice else []
    return [
        *practice,
        _section(
            "Complaint",
            [told[0], f"In order: {told[1]}" if told[1] else "", *_words(replayed.story)],
        ),
        _section("What was found", [c.title + "." for c in causes]),
        _section("What proves it", [p for c in causes for p in c.proof]),
        _section("Why it failed", _why(causes)),
        _section("What was done", done),
        _section("What stays open", [*_open(conclusion, suspects, bool(done)), *skipped]),
        _section("Evidence", [*readings, *_photos(kept)]),
        _section(
            "Please note",
            [
                "The vehicle maker's data, local rules and licensed practice come before this report."
            ],
        ),
    ]


def _section(title: str, lines: list[str]) -> ReportSection:
    return ReportSection(title=title, lines=[line for line in lines if line] or [NOT_RECORDED])


def _words(story: StoryTold | None) -> list[str]:
    return [story.words] if story and story.words else []


def _evidence(row: ReadingView) -> str:
    expected = f"; expected {row.expected}" if row.expected else ""
    verdict = f"; {row.verdict}" if row.verdict else ""
    return f"{row.title}: {row.value}{expected}{verdict}."


def _photos(kept: list[ReadingView]) -> list[str]:
    """How many photos stand beside the job, and of what."""
    taken = Counter(
        row.title.removeprefix(PHOTO) for row in kept if row.kind == "connector photographed"
    )
    if not taken:
        return []
    named = "; ".join(f"{what} ({count})" for what, count in taken.items())
    total = taken.total()
    return [f"{total} photo{'s' if total > 1 else ''} kept with the job: {named}."]


def _why(causes: list[CauseView]) -> list[str]:
    """Reasons and what is open of them; where there are several causes, each by its name."""
    return [
        f"{cause.title}: {line[:1].lower()}{line[1:]}"
        if causes[1:] and line == NOT_ESTABLISHED
        else line
        for cause in causes
        for line in (*cause.reasons, *cause.open_questions)
    ]


def _open(conclusion: Conclusion, suspects: Suspects, done: bool) -> list[str]:
    if conclusion.step.kind == "finished" and conclusion.step.solved:
        return [
            "Nothing: every position was tried again and works."
            if done
            else "Nothing was mended: every position does what it should."
        ]
    lines = [f"Not mended yet: {p.title}." for p in suspects.proven]
    for group in suspects.groups:
        names = say.joined([s.title for s in group.suspects], 4)
        lines.append(f"Possible, not proven: {names} ({group.words}).")
    return lines
