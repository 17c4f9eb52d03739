"""What a file is and how large the picture in it would be, told from its first bytes before anything is decoded."""

from __future__ import annotations

import struct
from dataclasses import dataclass
from typing import Final, Literal

from dayleaf.reading.refusals import Damaged, Heic, OneBit, TooLarge, WrongType

Kind = Literal["jpeg", "png", "webp", "pdf"]

MOST_BYTES: Final = 40_000_000
MOST_PIXELS: Final = 50_000_000
"""Twice what phones take; the decoder is never asked for more."""

HEIC_BRANDS: Final = frozenset(b"heic heix hevc hevx heim heis mif1 msf1 avif avis".split())
"""Brands of ISO/IEC 23008-12 files that phones write, and of AV1 pictures in the same container."""

_STARTS_OF_FRAME: Final = frozenset(range(0xC0, 0xD0)) - {0xC4, 0xC8, 0xCC}
"""JPEG markers that carry the picture's size (ITU-T T.81, table B.1)."""

_TAIL: Final = 4096


@dataclass(frozen=True, slots=True)
class Sniffed:
    """A file that may be decoded: its kind and, for a picture, its width and height in pixels (0, 0 for a PDF)."""

    kind: Kind
    size: tuple[int, int]


def sniff(data: bytes) -> Sniffed:
    """What the file is; its name is not looked at.

    Raises:
        WrongType, Heic: it is none of JPEG, PNG, WebP, PDF.
        TooLarge: it has more bytes or pixels than any photo.
        Damaged: it ends early or its header makes no sense.
        OneBit: it is a picture of black and white pixels only.
    """
    if len(data) > MOST_BYTES:
        raise TooLarge(megabytes=len(data) // 1_000_000)
    kind = _kind(data)
    if kind == "pdf":
        if b"%%EOF" not in data[-_TAIL:]:
            raise Damaged
        return Sniffed("pdf", (0, 0))
    try:
        width, height = {"jpeg": _jpeg_size, "png": _png_size, "webp": _webp_size}[kind](data)
    except (struct.error, IndexError) as ended:
        raise Damaged from ended
    if width == 0 or height == 0:
        raise Damaged
    if width * height > MOST_PIXELS:
        raise TooLarge(megapixels=width * height // 1_000_000)
    return Sniffed(kind, (width, height))


def _kind(data: bytes) -> Kind:
    if data[:3] == b"\xff\xd8\xff":
        return "jpeg"
    if data[:8] == b"\x89PNG\r\n\x1a\n":
        return "png"
    if data[:4] == b"RIFF" and data[8:12] == b"WEBP":
        return "webp"
    if b"%PDF-" in data[:1024]:
        return "pdf"
    if data[4:8] == b"ftyp" and ({data[8:12]} | {data[at : at + 4] for at in range(16, 40, 4)}) & HEIC_BRANDS:
        raise Heic
    raise WrongType


def _png_size(data: bytes) -> tuple[int, int]:
    """Width and height of the header chunk (ISO/IEC 15948, 11.2.2)."""
    if data[12:16] != b"IHDR":
        raise Damaged
    width, height, bits = struct.unpack(">IIB", data[16:25])
    if width * height > MOST_PIXELS:
        return width, height
    if b"IEND" not in data[-_TAIL:]:
        raise Damaged
    if bits == 1:
        raise OneBit
    return width, height


def _jpeg_size(data: bytes) -> tuple[int, int]:
    """Width and height of the frame header (ITU-T T.81, B.2.2)."""
    at, size = 2, None
    while True:
        if data[at] != 0xFF:
            raise Damaged
        marker = data[at + 1]
        if marker == 0xFF:
            at += 1
            continue
        (length,) = struct.unpack(">H", data[at + 2 : at + 4])
        if marker in _STARTS_OF_FRAME:
            height, width = struct.unpack(">HH", data[at + 5 : at + 9])
            size = (width, height)
        if marker == 0xDA:
            break
        at += 2 + length
    if size is None or (size[0] * size[1] <= MOST_PIXELS and data.rfind(b"\xff\xd9") < at):
        raise Damaged
    return size


def _webp_size(data: bytes) -> tuple[int, int]:
    """Width and height of the first chunk (RFC 9649, 2.5 to 2.7)."""
    (length,) = struct.unpack("<I", data[4:8])
    if length + 8 > len(data):
        raise Damaged
    chunk = data[12:16]
    if chunk == b"VP8X":
        return 1 + int.from_bytes(data[24:27], "little"), 1 + int.from_bytes(data[27:30], "little")
    if chunk == b"VP8L":
        (bits,) = struct.unpack("<I", data[21:25])
        return 1 + (bits & 0x3FFF), 1 + (bits >> 14 & 0x3FFF)
    if chunk == b"VP8 ":
        width, height = struct.unpack("<HH", data[26:30])
        return width & 0x3FFF, height & 0x3FFF
    raise Damaged
