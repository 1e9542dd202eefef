"""Links with any content, sound or not, as a stranger or a later release may make them."""

from __future__ import annotations

import base64
import zlib

from footwell.job import links
from footwell.job.link_words import WORDS

from .job_rig import compact


def packed(content: bytes, words: str = WORDS, level: int = 9) -> str:
    """A link with any content: its length and checksum are right."""
    packer = zlib.compressobj(level, zlib.DEFLATED, -15, zdict=words.encode())
    body = packer.compress(content) + packer.flush()
    text = base64.urlsafe_b64encode(body).decode().rstrip("=")
    return f"F1.{len(text)}.{links._checksum(text, content)}.{text}"


def holding(*events: object, **beside: object) -> str:
    """A link with these entries, and with anything beside them."""
    return packed(compact({"events": list(events)} | beside).encode())
