"""The picture on the card of a shared link: two blocks and the line across them, as a PNG.

Source: PNG specification, third edition (W3C 2025): chunks of length, type, data and CRC; colour
type 3 has a palette; filter 0 leaves each line as it is.
"""

from __future__ import annotations

import struct
import zlib
from functools import cache

WIDTH, HEIGHT = 1200, 630
"""The size that most readers of Open Graph cards ask for. Common practice, no source."""

PAPER, INK, METAL, LINE = range(4)
PALETTE = bytes.fromhex("F7F4ED 1A1D21 C6CACD 1B4B82")
SHAPES = (
    (INK, 330, 95, 640, 535),
    (METAL, 342, 107, 628, 523),
    (INK, 628, 175, 870, 455),
    (METAL, 640, 187, 858, 443),
    (LINE, 410, 295, 790, 335),
)
"""Rectangles, later ones on top: colour, left, top, right, bottom."""


@cache
def share_picture() -> bytes:
    """The picture's bytes, the same on every page; cached because they never differ."""
    lines = b"".join(b"\0" + _line(y) for y in range(HEIGHT))
    header = struct.pack(">IIBBBBB", WIDTH, HEIGHT, 8, 3, 0, 0, 0)
    chunks = ((b"IHDR", header), (b"PLTE", PALETTE), (b"IDAT", zlib.compress(lines, 9)))
    return b"\x89PNG\r\n\x1a\n" + b"".join(_chunk(*one) for one in (*chunks, (b"IEND", b"")))


def _line(y: int) -> bytes:
    found = bytearray([PAPER]) * WIDTH
    for colour, left, top, right, bottom in SHAPES:
        if top <= y < bottom:
            found[left:right] = bytes([colour]) * (right - left)
    return bytes(found)


def _chunk(kind: bytes, data: bytes) -> bytes:
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))
