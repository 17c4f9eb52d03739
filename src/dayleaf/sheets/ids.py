"""Sheet ids, and the code that is printed on every side and read back from a photo.

A code reads `S1.<id>.<page>.<check>`: a version, the sheet's seven signs, the side (from 1) and two signs
that tell a misread or mistyped code from a true one. Every sign lies in the QR standard's alphanumeric set
(ISO/IEC 18004), so that a code fits into version 1 with a quarter of it lost.
"""

from __future__ import annotations

from hashlib import blake2b
from typing import Final

from dayleaf.core.errors import DayleafError
from dayleaf.core.ids import SheetId

SIGNS: Final = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
"""Thirty-two signs without I, L, O and U: nothing that reads as another sign or spells a word by chance."""

_ID_SIGNS: Final = 7
_CHECK_PRIME: Final = 1021
"""The largest prime that two signs of base 32 can count: a prime catches every single wrong sign."""

_MEANT: Final = str.maketrans({"I": "1", "L": "1", "O": "0"})


class NotASheetCode(DayleafError):
    """A text that is not a code of ours, or one that was misread."""

    def __init__(self, *, text: str) -> None:
        self.text = text
        super().__init__(f"“{text}” is not a sheet code: it reads like S1.7KQ2M4D.1.XY, at the top of the sheet.")


def _in_signs(value: int, length: int) -> str:
    signs = ""
    for _ in range(length):
        value, rest = divmod(value, 32)
        signs = SIGNS[rest] + signs
    return signs


def _value_of(signs: str) -> int:
    value = 0
    for sign in signs:
        value = value * 32 + SIGNS.index(sign)
    return value


def sheet_id(*parts: str | int) -> SheetId:
    """Seven signs of base 32 that depend on every part and on their order.

    The hash is BLAKE2b (RFC 7693) cut to 35 bits: among 10,000 sheets of one household two ids meet with
    probability 0.0015, which the records room has to notice when it freezes a sheet.
    """
    text = "\x1f".join(str(part) for part in parts)
    number = int.from_bytes(blake2b(text.encode(), digest_size=8).digest(), "big")
    return SheetId(_in_signs(number >> 29, _ID_SIGNS))


def check_signs(sheet: str, page: int) -> str:
    """Two signs of base 32: the id and side as one number, modulo 1021.

    Any single wrong sign of the id and any two neighbours exchanged change the number by something that the
    prime does not divide, so both are always noticed; other damage slips through once in about a thousand.
    """
    return _in_signs((_value_of(sheet) * 32 + page) % _CHECK_PRIME, 2)


def code_text(sheet: SheetId, page: int) -> str:
    """The code of one side (1 to 31), for example `S1.7KQ2M4D.1.XY`."""
    return f"S1.{sheet}.{page}.{check_signs(sheet, page)}"


def read_code(text: str) -> tuple[SheetId, int]:
    """The sheet and the side that a code names; small letters, spaces and I, L, O for 1, 1, 0 are forgiven.

    Raises:
        NotASheetCode: the shape or the two check signs do not fit.
    """
    pieces = "".join(text.upper().split()).split(".")
    if len(pieces) == 4 and pieces[0] == "S1":
        sheet, page, check = (piece.translate(_MEANT) for piece in pieces[1:])
        shaped = len(sheet) == _ID_SIGNS and set(sheet) <= set(SIGNS) and page.isascii() and page.isdigit()
        if shaped and 1 <= int(page) <= 31 and check == check_signs(sheet, int(page)):
            return SheetId(sheet), int(page)
    raise NotASheetCode(text=text)
