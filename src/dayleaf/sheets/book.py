"""Pages to read: the story, the chapter page, the front of the course. Blocks of a few kinds, set in one look."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final, Literal

from dayleaf.core.errors import DayleafError
from dayleaf.sheets.cells import texts_of
from dayleaf.sheets.fonts import ADULT_FACES, check_printable
from dayleaf.sheets.geometry import PAPER
from dayleaf.sheets.press import finished, press

if TYPE_CHECKING:
    from datetime import date

    from dayleaf.sheets.model import Paper

Voice = Literal["read aloud", "adult", "report"]
SIZES: Final[dict[Voice, tuple[float, ...]]] = {
    "read aloud": (17, 16.5, 16, 15.5, 15, 14.5, 14, 13.5, 13, 12.5),
    "adult": (13, 12.5, 12, 11.5, 11, 10.5, 10, 9.5, 9),
    "report": (10.5, 10, 9.5, 9),
}
"""Type sizes in points, the largest that fits is taken."""


class TooLong(DayleafError):
    """Pages to read that need more sides than they may have, even in the smallest type."""

    def __init__(self, title: str, *, sides: int, most: int) -> None:
        super().__init__(f"“{title}” needs {sides} sides where {most} are wanted; shorten it.")


@dataclass(frozen=True, slots=True)
class Heading:
    """A heading inside the text; `top` begins a page of its own."""

    words: str
    top: bool = False


@dataclass(frozen=True, slots=True)
class Paragraph:
    """A paragraph; what stands between *stars* is set in italics. `kind` is "" or "question", "aside", "lead"."""

    words: str
    kind: str = ""


@dataclass(frozen=True, slots=True)
class Rows:
    """Short words at the left and what is said of them; `ruled` parts the rows by lines."""

    rows: tuple[tuple[str, str], ...]
    ruled: bool = False
    label_mm: float = 30.0


@dataclass(frozen=True, slots=True)
class Table:
    """A table with headings; `widths` are shares of the width, 0 for as narrow as its words; `right` aligns columns."""

    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    widths: tuple[float, ...]
    right: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Drawing:
    """A picture, `width` mm wide; `said` is what it shows."""

    svg: str
    said: str
    width: float


Block = Heading | Paragraph | Rows | Table | Drawing


@dataclass(frozen=True, slots=True)
class Book:
    """Some pages to read: a title, a line over it and one under it, blocks, and a line at the foot.

    With `made_on` they are meant to be kept: the typesetter is asked for PDF/A-2 (ISO 19005-2), and the file bears
    that date.
    """

    title: str
    over: str
    under: str
    blocks: tuple[Block, ...]
    foot: str
    voice: Voice = "adult"
    lang: str = "en"
    made_on: date | None = None


def typeset_book(book: Book, *, paper: Paper, most: int, pages: int | None = None) -> bytes:
    """The pages as one file on at most `most` sides, in the largest type that fits; exactly `pages` where asked.

    Raises:
        TooLong: it needs more sides (or fewer than asked for) in every type.
        UnprintableText: a text has signs that our typefaces lack.
    """
    check_printable(texts_of(_data(book, paper, 10)), faces=ADULT_FACES)
    last = 0
    for points in SIZES[book.voice]:
        pdf, found = press("book", _data(book, paper, points), labels=("end",), kept=book.made_on is not None)
        last = int(found["end"][0]["page"])
        if last <= most and (pages is None or last == pages):
            return finished(pdf, two_sided=last > 1)
    raise TooLong(book.title, sides=last, most=most)


def _data(book: Book, paper: Paper, points: float) -> dict[str, Any]:
    return {
        "title": book.title,
        "over": book.over,
        "under": book.under,
        "foot": book.foot,
        "lang": book.lang,
        "aloud": book.voice == "read aloud",
        "paper": PAPER[paper],
        "points": points,
        "made_on": [book.made_on.year, book.made_on.month, book.made_on.day] if book.made_on else [],
        "blocks": [_block(block) for block in book.blocks],
    }


def _block(block: Block) -> dict[str, Any]:
    match block:
        case Heading(words, top):
            return {"is": "heading", "words": words, "top": top}
        case Paragraph(words, kind):
            return {"is": "paragraph", "parts": _parts(words), "kind": kind}
        case Rows(rows, ruled, label_mm):
            said = [{"label": label, "parts": _parts(words)} for label, words in rows]
            return {"is": "rows", "rows": said, "ruled": ruled, "label": label_mm}
        case Table(head, rows, widths, right):
            return {
                "is": "table", "head": list(head), "rows": [list(row) for row in rows], "widths": list(widths),
                "right": list(right),
            }  # fmt: skip
        case Drawing(svg, said, width):
            return {"is": "drawing", "svg": svg, "said": said, "width": width}


def _parts(words: str) -> list[list[Any]]:
    """The text in pieces, each with whether it is set in italics: *stars* stand around those."""
    return [[piece, place % 2 == 1] for place, piece in enumerate(words.split("*")) if piece]
