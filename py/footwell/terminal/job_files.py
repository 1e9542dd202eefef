"""Jobs as the terminal takes them: in every form in which their events leave the page."""

from __future__ import annotations

import re
from typing import Literal

from pydantic import BaseModel, ConfigDict, TypeAdapter, ValidationError

from footwell.job import links
from footwell.job.events import Event
from footwell.terminal.files import TerminalError, places

FILE_FORMAT = 1
ERASED = "erased"
"""Kind of an entry that was erased on its phone: its number stays taken, and it belongs to no job."""

_LINK = re.compile(r"(https?://[^#\s]*#)?F\d+\.")
_LIST: TypeAdapter[list[Event]] = TypeAdapter(list[Event])


class _Foreign(BaseModel):
    model_config = ConfigDict(strict=True, extra="ignore")


class _Holder(_Foreign):
    """An object with events and whatever else was printed beside them."""

    events: list[Event]


class _Heading(_Foreign):
    """First line of the page's export."""

    footwell: Literal["events"]
    format: int
    count: int


class _Name(_Foreign):
    device: str
    n: int


class _Exported(Event):
    """A line of the page's export; an adopted event goes by the name it had first."""

    origin: _Name | None = None

    def first_named(self) -> Event:
        name = self.origin.model_dump() if self.origin else {}
        return Event.model_validate(self.model_dump(exclude={"origin"}) | name)


def events_of(text: str, job: str | None = None) -> list[Event]:
    """The events of one job: a list, {"events": list}, the page's export, or a link.

    Raises TerminalError; LinkError for a link.
    """
    start = text.lstrip()
    if is_link(start):
        return links.decode(start)
    found = _exported(start) if '"footwell"' in start.partition("\n")[0] else _listed(start)
    return _one_job(found, job)


def is_link(text: str) -> bool:
    """Whether a text is a link, or the address of a page with one."""
    return _LINK.match(text) is not None


def _listed(text: str) -> list[Event]:
    try:
        if text.startswith("{"):
            return _Holder.model_validate_json(text).events
        return _LIST.validate_json(text)
    except ValidationError as error:
        raise TerminalError(
            "These are not the events of a job. Give a list of events, an object with “events”, a"
            " file exported from the page, or a link.",
            places(error, text),
        ) from None


def _exported(text: str) -> list[Event]:
    """The page's file: a heading, then one event a line."""
    # What else Python takes for the end of a line may stand in a text that somebody typed.
    first, *lines = (line for line in text.split("\n") if line.strip())
    try:
        heading = _Heading.model_validate_json(first)
        if heading.format != FILE_FORMAT:
            raise TerminalError("This file comes from a newer Footwell. Update this one first.")
        events = [_exported_line(n, line).first_named() for n, line in enumerate(lines, start=2)]
    except ValidationError as error:
        raise TerminalError(
            "This file is damaged. Export it again.", places(error, first)
        ) from None
    if len(events) < heading.count:
        raise TerminalError(
            f"This file is cut off: of {heading.count} entries it holds {len(events)}."
            " Export it again."
        )
    return events


def _exported_line(number: int, line: str) -> _Exported:
    try:
        return _Exported.model_validate_json(line)
    except ValidationError as error:
        told = [f"entry {number - 1}: {place}" for place in places(error, line)]
        raise TerminalError("This file is damaged. Export it again.", told) from None


def _one_job(events: list[Event], job: str | None) -> list[Event]:
    jobs = list(dict.fromkeys(event.job for event in events if event.kind != ERASED))
    if job is None and len(jobs) > 1:
        raise TerminalError(
            f"This file holds {len(jobs)} jobs. Choose one with --job.",
            [f"--job {j}" for j in jobs],
        )
    chosen = [event for event in events if job in (None, event.job)]
    if not chosen:
        raise TerminalError("There are no events of that job in this file.")
    return chosen
