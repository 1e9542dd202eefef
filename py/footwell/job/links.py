"""A whole job in the fragment of a link: format number, checksum, compressed events.

Text of a link: "F1." + checksum + "." + base64url of the deflated JSON of the events. The checksum is
over the decompressed bytes, so that any changed character is noticed. A link is foreign text: it is
bounded in length, unpacked as a stream with a limit, and read by pydantic alone.
"""

from __future__ import annotations

import base64
import binascii
import hashlib
import zlib
from collections.abc import Sequence

from pydantic import BaseModel, ConfigDict, ValidationError

from footwell.errors import FootwellError
from footwell.job.events import Event
from footwell.job.replay import replay
from footwell.messages import LinkMade, LinkOpened

FORMAT = "F1"
LONGEST_TEXT = 65_536
LONGEST_CONTENT = 1_000_000
COMFORTABLE = 1_900
"""Characters that most messengers and mail programs carry in one piece."""

DEEPEST = 32


class LinkError(FootwellError):
    """A link that cannot be opened: cut, changed, of a newer format, or too large."""

    def __init__(self, sentence: str) -> None:
        super().__init__("link", sentence)


class _Content(BaseModel):
    model_config = ConfigDict(strict=True, extra="ignore")
    events: list[Event]


def make(events: Sequence[Event]) -> LinkMade:
    """The link's text for a job."""
    content = _Content(events=list(events)).model_dump_json().encode()
    packed = zlib.compress(content, 9, -15)
    text = ".".join(
        (FORMAT, _checksum(content), base64.urlsafe_b64encode(packed).decode().rstrip("="))
    )
    return LinkMade(text=text, length=len(text), too_long=len(text) > COMFORTABLE)


def _checksum(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()[:12]


def opened(text: str) -> LinkOpened:
    """The job inside a link. Raises LinkError with what is wrong and what to do."""
    events = decode(text)
    replayed = replay(events)
    taken = sum(1 for e in events if e.kind == "reading taken")
    return LinkOpened(
        title=replayed.title, vehicle=replayed.read.sheet.vehicle, readings=taken, events=events
    )


def decode(text: str) -> list[Event]:
    """The events inside a link's text."""
    form, checksum, body = _pieces(text.strip().lstrip("#"))
    if form != FORMAT:
        raise LinkError(
            "This link comes from a newer Footwell. Update Footwell, then open it again."
        )
    content = _unpacked(body)
    if _checksum(content) != checksum:
        raise LinkError(
            "This link was changed on its way. Ask for it again, or for the job as a file."
        )
    _refuse_depth(content)
    try:
        return _Content.model_validate_json(content).events
    except ValidationError:
        raise LinkError("This link does not hold a Footwell job. Ask for it again.") from None


def _pieces(text: str) -> tuple[str, str, str]:
    if len(text) > LONGEST_TEXT:
        raise LinkError("This link is longer than any Footwell link. Ask for the job as a file.")
    pieces = text.split(".")
    if len(pieces) != 3 or not pieces[0].startswith("F") or not pieces[0][1:].isdigit():
        raise LinkError("This link is cut off or is not a Footwell link. Ask for it again.")
    return pieces[0], pieces[1], pieces[2]


def _unpacked(body: str) -> bytes:
    """Decompressed content, never more than the limit."""
    cut = LinkError(
        "This link is cut off: its end is missing. Ask for it again, or for the job as a file."
    )
    try:
        packed = base64.b64decode(body + "=" * (-len(body) % 4), altchars=b"-_", validate=True)
        stream = zlib.decompressobj(-15)
        content = stream.decompress(packed, LONGEST_CONTENT)
    except (binascii.Error, zlib.error, ValueError):
        raise LinkError("This link was changed or cut off on its way. Ask for it again.") from None
    if stream.unconsumed_tail:
        raise LinkError("This link unfolds to more than a job can hold. It was not opened.")
    if not stream.eof:
        raise cut
    return content


def _refuse_depth(content: bytes) -> None:
    """Refuse deep nesting before any parser sees it."""
    depth = 0
    for byte in content:
        if byte in b"[{":
            depth += 1
            if depth > DEEPEST:
                raise LinkError("This link is nested deeper than any job. It was not opened.")
        elif byte in b"]}":
            depth -= 1
