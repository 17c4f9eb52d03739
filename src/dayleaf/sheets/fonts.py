"""The typefaces of our paper, and which signs they can print.

A sign that a face lacks would come out as an empty frame, so every text is looked at when it is entered
(names above all) and once more before it is set.
"""

from __future__ import annotations

import struct
import unicodedata
from functools import cache, lru_cache
from importlib import resources
from pathlib import Path
from typing import TYPE_CHECKING, Final

from dayleaf.core.errors import DayleafError

if TYPE_CHECKING:
    from collections.abc import Iterable

CHILD_FACE: Final = "Lexend"
ADULT_FACES: Final = ("Source Sans 3", "Literata")

DRAWN: Final = "□○"
"""The signs for a place to write in; our templates draw them, whatever the face has."""

_FOLDERS: Final = {"Lexend": "fontpkg_lexend", "Source Sans 3": "fontpkg_source_sans_3", "Literata": "fontpkg_literata"}
_UPRIGHT: Final = {
    "Lexend": "Lexend[wght].ttf",
    "Source Sans 3": "SourceSans3[wght].ttf",
    "Literata": "Literata[opsz,wght].ttf",
}
_NEVER: Final = frozenset({"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"})
"""Controls, direction overrides, private and unassigned signs: nothing a pencil could copy."""


class UnprintableText(DayleafError):
    """A text holds signs that our typefaces do not have."""

    def __init__(self, *, text: str, signs: tuple[str, ...]) -> None:
        self.text, self.signs = text, signs
        named = ", ".join(f"{sign if sign.isprintable() else '�'} (U+{ord(sign):04X})" for sign in signs)
        super().__init__(f"“{text}” cannot be printed: our typefaces lack {named}; please give a printable form.")


def font_folders() -> list[str]:
    """The folders that hold our font files, for the typesetter."""
    return [str(Path(str(resources.files(package).joinpath("files")))) for package in _FOLDERS.values()]


@cache
def signs_of(face: str) -> frozenset[int]:
    """The code points that a face has a drawing for, read from its character map."""
    file = resources.files(_FOLDERS[face]).joinpath("files", _UPRIGHT[face])
    return frozenset(_character_map(file.read_bytes()))


@cache
def _signs_of_all(faces: tuple[str, ...]) -> frozenset[int]:
    return frozenset.intersection(*(signs_of(face) for face in faces))


@lru_cache(maxsize=8_192)
def unprintable(text: str, *, faces: tuple[str, ...] = (CHILD_FACE, *ADULT_FACES)) -> tuple[str, ...]:
    """The signs of `text` that at least one of `faces` lacks, each once, in order of appearance.

    A letter with marks counts as there when its pieces are (Unicode normal form D): the typesetter joins them.
    """
    have = _signs_of_all(faces)
    return tuple(dict.fromkeys(sign for sign in text if not _can_print(sign, have)))


def _can_print(sign: str, have: frozenset[int]) -> bool:
    if unicodedata.category(sign) in _NEVER:
        return False
    return sign in DRAWN or ord(sign) in have or all(ord(piece) in have for piece in unicodedata.normalize("NFD", sign))


def check_printable(texts: Iterable[str], *, faces: tuple[str, ...]) -> None:
    """Nothing, where every text can be printed.

    Raises:
        UnprintableText: for the first text that cannot.
    """
    for text in texts:
        if signs := unprintable(text, faces=faces):
            raise UnprintableText(text=text, signs=signs)


def _character_map(font: bytes) -> Iterable[int]:
    """Code points with a glyph, from the `cmap` table (OpenType 1.9: formats 4 and 12)."""
    tables = struct.unpack_from(">H", font, 4)[0]
    start = next(
        struct.unpack_from(">I", font, 12 + 16 * i + 8)[0]
        for i in range(tables)
        if font[12 + 16 * i : 16 + 16 * i] == b"cmap"
    )
    count = struct.unpack_from(">H", font, start + 2)[0]
    offsets = {struct.unpack_from(">I", font, start + 4 + 8 * i + 4)[0] for i in range(count)}
    for offset in sorted(offsets):
        form = struct.unpack_from(">H", font, start + offset)[0]
        if form == 4:
            yield from _segments(font, start + offset)
        elif form == 12:
            yield from _groups(font, start + offset)


def _segments(font: bytes, at: int) -> Iterable[int]:
    n = struct.unpack_from(">H", font, at + 6)[0] // 2
    ends = struct.unpack_from(f">{n}H", font, at + 14)
    starts = struct.unpack_from(f">{n}H", font, at + 16 + 2 * n)
    deltas = struct.unpack_from(f">{n}H", font, at + 16 + 4 * n)
    offsets_at = at + 16 + 6 * n
    offsets = struct.unpack_from(f">{n}H", font, offsets_at)
    for i, (first, last, delta, offset) in enumerate(zip(starts, ends, deltas, offsets, strict=True)):
        for code in range(first, last + 1):
            glyph = code
            if offset:
                glyph = struct.unpack_from(">H", font, offsets_at + 2 * i + offset + 2 * (code - first))[0]
                if glyph == 0:
                    continue
            if (glyph + delta) % 0x10000 and code != 0xFFFF:
                yield code


def _groups(font: bytes, at: int) -> Iterable[int]:
    n = struct.unpack_from(">I", font, at + 12)[0]
    for i in range(n):
        first, last, glyph = struct.unpack_from(">III", font, at + 16 + 12 * i)
        yield from (code for code in range(first, last + 1) if glyph + code - first)
