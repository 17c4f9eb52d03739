"""Everything that can be printed by its name: sets to cut out, papers, pages to read, the front of the course."""

from __future__ import annotations

import difflib
from dataclasses import dataclass
from io import BytesIO
from types import MappingProxyType
from typing import TYPE_CHECKING, Final

import pikepdf

from dayleaf.core.errors import Problem
from dayleaf.packets import front, reading_pages
from dayleaf.packets.binding import bound
from dayleaf.packets.calibration import print_calibration
from dayleaf.packets.cut_outs.model import NothingPrintable
from dayleaf.packets.cut_outs.pages import Frame, only, pages_of, sides_of
from dayleaf.packets.cut_outs.sets import SETS
from dayleaf.packets.print_outs import PAPERS, PICTURE_CARD, card_sides, knows, paper_sides
from dayleaf.sheets.true_size import typeset_true

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
    from datetime import date

    from dayleaf.course.model import Course, Day
    from dayleaf.items.model import Figure
    from dayleaf.sheets.model import Paper
    from dayleaf.sheets.true_size import TrueSide

OF_A_CHAPTER: Final[Mapping[str, Callable[..., bytes]]] = MappingProxyType(
    {"chapter-page": reading_pages.print_chapter_page, "story-page": reading_pages.print_story}
)
OF_THE_COURSE: Final[Mapping[str, Callable[..., bytes]]] = MappingProxyType(
    {
        "front": front.print_front,
        "parts": front.print_parts,
        "getting-ready": front.print_getting_ready,
        "calibration": lambda _course, *, paper: print_calibration(paper=paper),
    }
)
CARDS: Final = "picture-cards"
_NONE: Final[Mapping[str, int]] = MappingProxyType({})


@dataclass(frozen=True, slots=True)
class Printed:
    """One thing on paper: its sides, the sheets they take, and of a set to cut out its pieces and straight cuts."""

    word: str
    pdf: bytes
    sides: int
    sheets: int
    pieces: int = 0
    cuts: int = 0


def things(course: Course) -> tuple[str, ...]:
    """Every name that `print_thing` knows; pages of a chapter stand with a chapter's number."""
    chapters = (f"{name}:{chapter.number}" for name in OF_A_CHAPTER for chapter in course.chapters)
    shown = (f"{PICTURE_CARD}{kind}" for kind in course.pictures if knows(f"{PICTURE_CARD}{kind}"))
    return (*SETS, *PAPERS, *shown, *chapters, *OF_THE_COURSE)


def print_thing(
    course: Course,
    word: str,
    *,
    paper: Paper,
    scale: float = 1.0,
    one_sided: bool = False,
    pieces: Mapping[str, int] = _NONE,
    month: date | None = None,
) -> Printed:
    """One thing by its name, as `base-ten-blocks`, `pv-mat`, `picture-card:clock`, `story-page:9`, `front`.

    `scale` corrects a printer that does not keep the size; `one_sided` leaves the backs of pieces out; `pieces` asks
    for some pieces of a set alone, by name and number; `month` is what a calendar shows.

    Raises:
        NothingPrintable: the name is none.
        NoSuchPiece: the set has no piece of a name.
        PieceTooLarge: a piece does not fit on the paper at this scale.
        NoSuchChapter, NoStoryThere: the chapter is none, or has no story.
    """
    name, _, more = word.partition(":")
    frame = Frame(paper, scale)
    if word in SETS:
        return _cut_out(course, word, frame, one_sided=one_sided, pieces=pieces)
    if pieces:
        raise NothingPrintable(word, why="only sets to cut out have pieces")
    if knows(word):
        return _sides(word, paper_sides(course, word, frame, month=month), paper)
    if name in OF_A_CHAPTER and more.isdecimal():
        return _pages(word, OF_A_CHAPTER[name](course, int(more), paper=paper))
    if word in OF_THE_COURSE:
        return _pages(word, OF_THE_COURSE[word](course, paper=paper))
    why = "write the chapter after it, as story-page:9" if name in OF_A_CHAPTER else ""
    raise NothingPrintable(word, close=difflib.get_close_matches(word, things(course), n=3), why=why)


def print_cut_outs(
    course: Course, ids: Iterable[str], *, paper: Paper, scale: float = 1.0, one_sided: bool = False
) -> bytes:
    """Several sets to cut out bound to one two-sided file, each begun on a front.

    Raises:
        NothingPrintable: a name is no set.
        PieceTooLarge: a piece does not fit on the paper at this scale.
    """
    words = tuple(ids)
    for word in words:
        if word not in SETS:
            raise NothingPrintable(
                word, close=difflib.get_close_matches(word, SETS, n=3), why="it is no set to cut out"
            )
    frame = Frame(paper, scale)
    parts = [_cut_out(course, word, frame, one_sided=one_sided, pieces=_NONE).pdf for word in words]
    return bound(parts)[0]


def print_outs_of(
    course: Course,
    day: Day,
    *,
    paper: Paper,
    scale: float = 1.0,
    pictures: Sequence[Figure] = (),
    month: date | None = None,
) -> tuple[bytes, ...]:
    """The print-outs of a day in the order of use, one file each; picture cards stand two to a side on one file.

    `pictures` are those of the day's own items, `month` is the month the day falls in.

    Raises:
        NothingPrintable: the day names something that cannot be printed.
    """
    frame = Frame(paper, scale)
    found = []
    for word in day.print_outs:
        if word in OF_A_CHAPTER:
            if word == "story-page" and day.chapter not in course.stories:
                continue
            found.append(OF_A_CHAPTER[word](course, day.chapter, paper=paper))
        elif not word.startswith(PICTURE_CARD):
            found.append(_sides(word, paper_sides(course, word, frame, month=month), paper).pdf)
    kinds = [word.removeprefix(PICTURE_CARD) for word in day.print_outs if word.startswith(PICTURE_CARD)]
    if kinds:
        found.append(_sides(CARDS, card_sides(kinds, frame, pictures=pictures), paper).pdf)
    return tuple(found)


def check_things(course: Course) -> Iterator[Problem]:
    """Every word of a day's print-outs and every set or print-out of the materials can be printed.

    What comes from home or from a shop has something to take instead; small parts have their caution.
    """
    for day in course.days:
        for word in day.print_outs:
            if not (word in OF_A_CHAPTER or knows(word)):
                where = f"{course.id}/chapters/{day.chapter:02}/{day.id}.toml: print_outs"
                yield Problem(where, f'"{word}" cannot be printed; use a name of `dayleaf print --list`')
    for one in course.materials.values():
        where = f"{course.id}/materials.toml: {one.id}"
        if one.source == "cut-out set" and one.id not in SETS:
            yield Problem(where, 'is a set to cut out that nobody has drawn; mend the name or write from = "home"')
        if one.source == "print-out" and not (one.id in OF_A_CHAPTER or one.id == CARDS or knows(one.id)):
            yield Problem(where, 'is a print-out that nobody has drawn; mend the name or write from = "home"')
        if one.source in ("home", "buy") and not one.substitute:
            yield Problem(where, "has no substitute; say what a household takes instead")
        if one.small_parts and not one.caution:
            yield Problem(where, "has small parts and no caution; write one")


def _cut_out(course: Course, word: str, frame: Frame, *, one_sided: bool, pieces: Mapping[str, int]) -> Printed:
    cut = SETS[word](course)
    if pieces:
        cut = only(cut, pieces)
    pages = pages_of(cut, frame, label=not pieces)
    sides = sides_of(cut, pages, frame, one_sided=one_sided)
    pdf = typeset_true(sides, paper=frame.paper, two_sided=len(sides) > len(pages))
    laid = sum(one.piece.name != "label" for page in pages for one in page.laid)
    return Printed(word, pdf, len(sides), len(pages), laid, sum(len(page.cuts) for page in pages))


def _sides(word: str, sides: Sequence[TrueSide], paper: Paper) -> Printed:
    pdf = typeset_true(sides, paper=paper, two_sided=len(sides) > 1)
    return Printed(word, pdf, len(sides), -(-len(sides) // 2))


def _pages(word: str, pdf: bytes) -> Printed:
    with pikepdf.open(BytesIO(pdf)) as document:
        sides = len(document.pages)
    return Printed(word, pdf, sides, -(-sides // 2))
