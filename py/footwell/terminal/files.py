"""Files and sheets as the terminal takes them, and what it says where they cannot be used."""

from __future__ import annotations

import sys
from pathlib import Path
from tempfile import NamedTemporaryFile

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from footwell import messages as m
from footwell import service
from footwell.errors import FootwellError
from footwell.job.events import EVENT_FORMAT, Event, JobOpened
from footwell.sheet.json_text import why_not_json

LARGEST_FILE = 50_000_000


class TerminalError(FootwellError):
    """Something on the command line or in a file that cannot be used."""

    def __init__(self, sentence: str, details: list[str] | None = None) -> None:
        super().__init__("terminal", sentence, details or [])


_WRONG = {
    "missing": "is missing",
    "extra_forbidden": "does not belong here",
    "string_type": "must be a text",
    "int_type": "must be a whole number",
    "list_type": "must be a list",
    "model_type": "must be an object with fields",
    "model_attributes_type": "must be an object with fields",
}


def places(error: ValidationError, text: str = "") -> list[str]:
    """Where data are wrong, one line each; `text` is what they were read from."""
    return [_place(row, text) for row in error.errors(include_input=False)[:20]]


def _place(row: ErrorDetails, text: str) -> str:
    if row["type"] == "json_invalid":
        where, sentence, remedy = why_not_json(text, str(row["ctx"]["error"]))
        return f"{where}: {sentence} {remedy}"
    where = ".".join(map(str, row["loc"])) or "the whole"
    wrong = _WRONG.get(row["type"])
    return f"{where} {wrong}." if wrong else f"{where}: {row['msg']}."


def text_of(name: str) -> str:
    """The text of a file, or of the input for "-". Raises TerminalError."""
    try:
        data = sys.stdin.buffer.read() if name == "-" else Path(name).read_bytes()
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or "the name cannot be used"
        raise TerminalError(f"{name} cannot be read: {reason}.") from None
    if len(data) > LARGEST_FILE:
        raise TerminalError(f"{name} is larger than 50 MB, so it is no file of Footwell.")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise TerminalError(f"{name} is not text in UTF-8. Save it as UTF-8.") from None


def put_whole(name: str, text: str) -> None:
    """Writes a file whole or not at all, also over one that is there. Raises TerminalError."""
    path = Path(name)
    try:
        with NamedTemporaryFile(
            "w", encoding="utf-8", newline="", dir=path.parent, delete=False
        ) as to:
            to.write(text)
        Path(to.name).replace(path)
    except OSError as error:
        raise TerminalError(f"{name} cannot be written: {error.strerror}.") from None


def sheet_of(name: str) -> m.SheetAnswer:
    """The sheet in a file. Raises TerminalError, SheetError."""
    return service.read_sheet(m.SheetText(text=text_of(name)))


def opened_on(sheet: m.SheetAnswer) -> list[Event]:
    """A job that has only been opened, on a sheet."""
    body = JobOpened(title=sheet.title, sheet=sheet.sheet).model_dump_json()
    return [
        Event(
            device="terminal",
            n=1,
            job="terminal",
            kind="job opened",
            format=EVENT_FORMAT,
            body=body,
        )
    ]
