"""What people typed, as it is compared and as it is told. As it is kept, it stays."""

from __future__ import annotations

import re
from typing import Annotated
from unicodedata import normalize

from pydantic import AfterValidator


def composed(name: str) -> str:
    """An accent as one sign with its letter (Unicode NFC): keyboards and systems write it either way.

    >>> composed("Zu\\u0308ndung") == "Z\\u00fcndung"
    True
    """
    return normalize("NFC", name)


_TURNS = re.compile(r"[\u202a-\u202e\u2066-\u2069]")
"""Signs that turn the direction of writing until they are taken back: in a title they would turn a
voltage that is told behind it."""


def told(text: str) -> str:
    """Without signs that turn what stands behind it. Words of languages written from the right need none.

    >>> told("Fan \u202e42 reven") + ", 24 V"
    'Fan 42 reven, 24 V'
    """
    return _TURNS.sub("", text)


Composed = Annotated[str, AfterValidator(composed)]
Told = Annotated[str, AfterValidator(told)]
