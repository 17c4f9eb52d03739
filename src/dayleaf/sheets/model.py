"""What is put on paper, before and after typesetting. Everything a sheet prints is in these values."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    from collections.abc import Mapping

    from dayleaf.core.ids import ErrorWayId, FormatId, LessonId, SheetId, SkillId
    from dayleaf.items.model import Figure, Item

Paper = Literal["letter", "a4"]
PageKind = Literal["together", "own", "front", "back"]
BoxKind = Literal["digit", "tick", "circle", "compare"]
BoxRole = Literal["answer", "trade", "look"]
"""answer: the child's · trade: a small box for a new ten · look: ticked by a grown-up who has looked."""


@dataclass(frozen=True, slots=True)
class Look:
    """How one child's pages are laid out."""

    paper: Paper = "letter"
    lang: str = "en"
    left_handed: bool = False
    large_boxes: bool = False
    compact: bool = False


@dataclass(frozen=True, slots=True)
class Placed:
    """An item with its number on the sheet; numbers run through both sides."""

    n: int
    item: Item


@dataclass(frozen=True, slots=True)
class Block:
    """Items under one instruction of at most twelve words.

    `example` is one worked item shown with its steps. `with_parent` marks items done together.
    """

    instruction: str
    items: tuple[Placed, ...]
    example: Item | None = None
    pictures: bool = True


@dataclass(frozen=True, slots=True)
class PageSpec:
    """One side. `title` is a few words for the child.

    `topics` are words for things learned, each with three boxes for the child to sort it by: sure, nearly, help me.
    """

    kind: PageKind
    title: str
    blocks: tuple[Block, ...]
    topics: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class SheetSpec:
    """One sheet of paper: one or two sides under one id. `form` is the letter of a chapter test's form, else ""."""

    id: SheetId
    lesson: LessonId
    child: str
    pages: tuple[PageSpec, ...]
    form: str = ""


@dataclass(frozen=True, slots=True)
class KeyTable:
    """A table at the end of a key: marks by skill, or what to look for in what is drawn, built or told.

    `wide` is the column that takes the room that the others leave, counted from 0; -1 shares it out evenly.
    """

    title: str
    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    note: str = ""
    wide: int = 0


@dataclass(frozen=True, slots=True)
class Box:
    """One answer box, in millimetres from the page's top left, y down."""

    id: str
    item: int
    part: str
    role: BoxRole
    kind: BoxKind
    x: float
    y: float
    w: float
    h: float
    answer: str


@dataclass(frozen=True, slots=True)
class Mark:
    """A corner mark."""

    id: int
    x: float
    y: float
    size: float


@dataclass(frozen=True, slots=True)
class Qr:
    """The sheet code's square; the first copy."""

    x: float
    y: float
    size: float
    text: str


@dataclass(frozen=True, slots=True)
class MapItem:
    """An item as frozen on paper."""

    n: int
    key: str
    skill: SkillId
    format: FormatId
    numbers: Mapping[str, int]
    text: str
    answer: str
    errors: Mapping[ErrorWayId, str]


@dataclass(frozen=True, slots=True)
class PageMap:
    """Everything reading and marking need of one printed side."""

    sheet: SheetId
    page: int
    pdf_page: int
    kind: PageKind
    lesson: LessonId
    lang: str
    size_mm: tuple[float, float]
    qr: Qr
    marks: tuple[Mark, ...]
    boxes: tuple[Box, ...]
    items: tuple[MapItem, ...]


@dataclass(frozen=True, slots=True)
class Typeset:
    """A finished print: the file and the map of its pages."""

    pdf: bytes
    pages: tuple[PageMap, ...]


@dataclass(frozen=True, slots=True)
class GuideLine:
    """One line of a printed guide; `kind` is a word of the margin (say, do, ask, answer, if-instead, watch) or "".

    `pictures` are what the line speaks of, each with its letter where there are several.
    """

    kind: str
    text: str
    pictures: tuple[tuple[str, Figure], ...] = ()


@dataclass(frozen=True, slots=True)
class GuideSection:
    """One part of a printed guide, slots already filled."""

    heading: str
    minutes: int | None
    lines: tuple[GuideLine, ...]
    core: bool = False


@dataclass(frozen=True, slots=True)
class GuideSheet:
    """A lesson guide ready to set: at most two sides.

    `facts` are the lines at the top (minutes, fetch, yesterday). `answers` repeats the key: one pair
    (heading, answers in order) a page of the child.
    """

    lesson: LessonId
    title: str
    under_title: str
    facts: tuple[tuple[str, str], ...]
    sections: tuple[GuideSection, ...]
    short: str
    bare: str
    answers: tuple[tuple[str, tuple[str, ...]], ...]
    tables: tuple[KeyTable, ...] = ()
