"""Pictures made up for the tests: plain PNG, and a JPEG with what a camera writes beside it."""

from __future__ import annotations

import base64
import struct
import zlib

from playwright.sync_api import FilePayload, Page

MARKER = b"zebra-7741"
"""Stands where a camera writes place and owner."""


def png(width: int, height: int, busy: bool = False) -> bytes:
    """Dark on the left, light on the right; `busy` with stripes, so that it packs badly."""
    row = bytes((17 * x * x % 251 if busy else 30 if x < width // 2 else 230) for x in range(width))
    turned = [row[n * 37 % width :] + row[: n * 37 % width] if busy else row for n in range(8)]
    lines = b"".join(b"\0" + turned[y % 8] for y in range(height))
    head = struct.pack(">IIBBBBB", width, height, 8, 0, 0, 0, 0)
    chunks = ((b"IHDR", head), (b"IDAT", zlib.compress(lines, 1)), (b"IEND", b""))
    return b"\x89PNG\r\n\x1a\n" + b"".join(_chunk(name, data) for name, data in chunks)


def _chunk(name: bytes, data: bytes) -> bytes:
    return struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))


def as_file(name: str, content: bytes, kind: str = "image/png") -> FilePayload:
    return {"name": name, "mimeType": kind, "buffer": content}


JPEG = """([width, height]) => {
    const canvas = document.createElement("canvas");
    Object.assign(canvas, { width, height });
    const pen = canvas.getContext("2d");
    pen.fillStyle = "white";
    pen.fillRect(0, 0, width, height / 2);
    return canvas.toDataURL("image/jpeg");
}"""


def lying_jpeg(page: Page, width: int, height: int) -> bytes:
    """A JPEG held as a phone on its side takes it, to be turned right by a quarter (TIFF orientation 6);
    its upper half is white. It has the marker beside it."""
    address: str = page.evaluate(JPEG, [width, height])
    plain = base64.b64decode(address.partition(",")[2])
    entry = struct.pack(">HHIHH", 0x0112, 3, 1, 6, 0)
    exif = b"Exif\0\0MM\0*\0\0\0\x08\0\x01" + entry + b"\0\0\0\0" + MARKER
    return plain[:2] + b"\xff\xe1" + struct.pack(">H", len(exif) + 2) + exif + plain[2:]
