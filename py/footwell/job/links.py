"""A whole job in the fragment of a link: format, length, checksum, compressed events.

Text of a link: "F1." + characters of the last piece + "." + checksum + "." + base64url of the raw
deflate of the events' JSON, with the words of `link_words` known to both ends beforehand. Length and
checksum tell a link that was cut from one that was changed. A link is foreign text: it is bounded,
unpacked as a stream with a limit, its depth is counted before any parser sees it, and it is read by
pydantic alone.
"""

from __future__ import annotations

import base64
import binascii
import hashlib
import re
import zlib
from collections.abc import Sequence
from typing import Annotated, NamedTuple

from pydantic import BaseModel, ConfigDict, FailFast, ValidationError
from pydantic_core import core_schema

from footwell.errors import FootwellError
from footwell.job.events import Event
from footwell.job.link_words import WORDS

FORMAT = 1
LONGEST_TEXT = 65_536
LONGEST_CONTENT = 1_000_000
COMFORTABLE = 1_900
"""Characters that most messengers and mail programs carry in one piece."""

DEEPEST = 32
_FORM = re.compile(r"F(\d{1,4})", re.ASCII)
_LENGTH = re.compile(r"\d{1,6}", re.ASCII)
_BETWEEN = bytes(set(range(256)) - set(b'"[]{}'))
_BRACKETS = re.compile(rb'"[^"]*+"?|([][{}]+)')
"""Brackets, and strings to step over. An unfinished string is one too: tried again from each quote in it,
the search would take very long."""

_STEPS = {ord("["): 1, ord("{"): 1, ord("]"): -1, ord("}"): -1}
_RAW = -15
"""Raw deflate with the largest window: no header, and no checksum but our own."""


class LinkError(FootwellError):
    """A link that cannot be opened: cut, changed, of a newer format, or too large."""

    def __init__(self, sentence: str) -> None:
        super().__init__("link", sentence)


class _LeftOut:
    """Any value of a field that this release does not know, passed over without being made."""

    @classmethod
    def __get_pydantic_core_schema__(cls, *_: object) -> core_schema.CoreSchema:
        nothing = core_schema.none_schema()
        return core_schema.with_default_schema(nothing, default=None, on_error="default")


class _LinkedEvent(Event):
    model_config = ConfigDict(extra="allow")
    __pydantic_extra__: dict[str, _LeftOut]


class _Content(BaseModel):
    model_config = ConfigDict(strict=True, extra="allow")
    __pydantic_extra__: dict[str, _LeftOut]
    events: Annotated[list[_LinkedEvent], FailFast()]
    """The first entry that is none ends the reading: a hundred thousand would make a hundred thousand
    reports."""


class _Made(BaseModel):
    events: list[Event]


class Linked(NamedTuple):
    """What a link holds. Bodies are as they came; what else a later release wrote beside them is not
    carried on, and `more_inside` says that there was something."""

    events: list[Event]
    more_inside: bool


def make(events: Sequence[Event]) -> str:
    """The link's text for a job; empty for a job too large for any link to be opened."""
    content = _Made(events=list(events)).model_dump_json().encode()
    packer = zlib.compressobj(9, zlib.DEFLATED, _RAW, 9, zdict=WORDS.encode())
    packed = packer.compress(content) + packer.flush()
    body = base64.urlsafe_b64encode(packed).decode().rstrip("=")
    text = f"F{FORMAT}.{len(body)}.{_checksum(body, content)}.{body}"
    return text if len(text) <= LONGEST_TEXT and len(content) <= LONGEST_CONTENT else ""


def decode(text: str) -> list[Event]:
    """The events inside a link's text, or in a whole address. Raises LinkError."""
    return opened(text).events


def opened(text: str) -> Linked:
    """What a link's text, or a whole address, holds. Raises LinkError."""
    length, checksum, body = _pieces(text.strip().rpartition("#")[2])
    if len(body) < length:
        raise LinkError(
            f"This link is cut off: {len(body)} of its {length} characters arrived."
            " Ask for it again, or for the job as a file."
        )
    content = _unpacked(body)
    if len(body) != length or _checksum(body, content) != checksum:
        raise _changed()
    return _linked(content)


def _checksum(body: str, content: bytes) -> str:
    """Over what is sent, so that every changed character counts, and over what it unfolds to."""
    return hashlib.sha256(body.encode() + content).hexdigest()[:12]


def _changed() -> LinkError:
    return LinkError(
        "This link was changed on its way. Ask for it again, or for the job as a file."
    )


def _pieces(text: str) -> tuple[int, str, str]:
    """Length, checksum and body of a link of the format known here."""
    if len(text) > LONGEST_TEXT:
        raise LinkError("This link is longer than any Footwell link. Ask for the job as a file.")
    form, *pieces = text.split(".")
    known = _FORM.fullmatch(form)
    if known and int(known[1]) > FORMAT:
        raise LinkError(
            "This link comes from a newer Footwell. Update Footwell, then open it again."
        )
    if known is None or int(known[1]) != FORMAT or len(pieces) != 3:
        raise LinkError("This link is cut off or is not a Footwell link. Ask for it again.")
    length, checksum, body = pieces
    if not _LENGTH.fullmatch(length):
        raise _changed()
    return int(length), checksum, body


def _unpacked(body: str) -> bytes:
    """Decompressed content, never more than the limit."""
    stream = zlib.decompressobj(_RAW, zdict=WORDS.encode())
    try:
        packed = base64.b64decode(body + "=" * (-len(body) % 4), altchars=b"-_", validate=True)
        content = stream.decompress(packed, LONGEST_CONTENT)
    except (binascii.Error, zlib.error, ValueError):
        raise _changed() from None
    if stream.unconsumed_tail:
        raise LinkError("This link unfolds to more than a job can hold. It was not opened.")
    if not stream.eof:
        raise _changed()
    return content


def _linked(content: bytes) -> Linked:
    try:
        text = content.decode()
        _refuse_depth(text)
        found = _Content.model_validate_json(text)
    except (UnicodeDecodeError, ValidationError):
        raise LinkError("This link does not hold a Footwell job. Ask for it again.") from None
    for event in found.events:
        _refuse_depth(event.body)
    more_inside = any(each.model_extra for each in (found, *found.events))
    return Linked([_known(event) for event in found.events], more_inside)


def _known(event: _LinkedEvent) -> Event:
    return Event.model_construct(**{name: getattr(event, name) for name in Event.model_fields})


def _refuse_depth(text: str) -> None:
    """Refuse deep nesting before any parser sees it.

    The text may be long. What is no mark is dropped first, in steps that go over all of it at once; two
    quotes side by side say nothing of which brackets stand in a string.
    """
    unescaped = text.encode().replace(b"\\\\", b"").replace(b'\\"', b"")
    marks = unescaped.translate(None, _BETWEEN).replace(b'""', b"")
    depth = 0
    for found in _BRACKETS.finditer(marks):
        for bracket in found[1] or b"":
            depth += _STEPS[bracket]
            if depth > DEEPEST:
                raise LinkError("This link is nested deeper than any job. It was not opened.")
