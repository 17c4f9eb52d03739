"""Pages of a chapter to read: the story, and the page that hangs on the wall."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from dayleaf.core.errors import DayleafError
from dayleaf.figures.pieces.front import day_strip, svg
from dayleaf.packets.binding import bound
from dayleaf.sheets.book import Book, Drawing, Paragraph, Rows, Table, typeset_book

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from dayleaf.course.model import Chapter, Course, Day
    from dayleaf.sheets.model import Paper

KINDS: Final[Mapping[str, str]] = {
    "lesson": "",
    "look-back": "look back",
    "test": "test",
    "project": "project",
    "spare": "spare day",
    "look-back-all": "look over all",
}
DRAWING_MM: Final = 104.0


class NoStoryThere(DayleafError):
    """A chapter that the course does not have, or one whose story is not written."""

    def __init__(self, chapter: int) -> None:
        super().__init__(f"There is no story of chapter {chapter} to print.")


class NoSuchChapter(DayleafError):
    """The course has no chapter of this number."""

    def __init__(self, chapter: int, *, last: int) -> None:
        super().__init__(f"There is no chapter {chapter}; they run from 1 to {last}.")


def print_reading(course: Course, chapter: int, *, paper: Paper) -> bytes:
    """The chapter page and, where it is written, the story, as one file; each begins on a front.

    Raises:
        NoSuchChapter: the course has no such chapter.
    """
    parts = [print_chapter_page(course, chapter, paper=paper)]
    if chapter in course.stories:
        parts.append(print_story(course, chapter, paper=paper))
    return bound(parts)[0]


def print_story(course: Course, chapter: int, *, paper: Paper) -> bytes:
    """The story of a chapter on one side or two, in the largest type that fits.

    Raises:
        NoStoryThere: no story is written.
    """
    story = course.stories.get(chapter)
    if story is None:
        raise NoStoryThere(chapter)
    drawing = (Drawing(story.drawing, story.alt, DRAWING_MM),) if story.drawing else ()
    book = Book(
        title=story.title,
        over=f"Chapter {chapter} · to read aloud, about {story.minutes} minutes",
        under="",
        blocks=(
            *drawing,
            *(Paragraph(words) for words in story.paragraphs if words != story.question),
            Paragraph(story.question, "question"),
            Paragraph(f"For you: {story.answer}", "aside"),
        ),
        foot=f"Story page · chapter {chapter}",
        voice="read aloud",
    )
    return typeset_book(book, paper=paper, most=2)


def print_chapter_page(course: Course, number: int, *, paper: Paper) -> bytes:
    """One side: ten sheets to color in, aim, words, what is needed, usual trouble, and the pages of each day.

    Raises:
        NoSuchChapter: the course has no such chapter.
    """
    chapter = _chapter(course, number)
    days = [day for day in course.days if day.chapter == number]
    return typeset_book(_chapter_book(course, chapter, days), paper=paper, most=1)


def _chapter(course: Course, number: int) -> Chapter:
    found = next((chapter for chapter in course.chapters if chapter.number == number), None)
    if found is None:
        raise NoSuchChapter(number, last=len(course.chapters))
    return found


def _chapter_book(course: Course, chapter: Chapter, days: Sequence[Day]) -> Book:
    strip = day_strip([(day.number, KINDS[day.kind]) for day in days])
    said = f"Days {days[0].number} to {days[-1].number} as sheets of paper in a row, one to color in each day."
    rows = [
        ("Big idea", f"{chapter.big_idea}."),
        ("Words", ", ".join(chapter.words_taught)),
        ("Usual trouble", "; ".join(_lowered(trouble) for trouble in chapter.usual_trouble)),
        *_materials(course, days),
        ("Story", f"*{chapter.story}*"),
    ]
    if chapter.project:
        rows.append(("Project", f"{chapter.project.partition(':')[0]}, day {days[-1].number}"))
    table = Table(
        head=("Day", "What", "", "With you", "Alone", "Sheets"),
        rows=tuple(
            (
                str(day.number), day.title, KINDS[day.kind], f"{day.parent_minutes} min", f"{day.child_minutes} min",
                "2" if day.second_sheet else "1",
            )
            for day in days
        ),
        widths=(0, 1, 0, 0, 0, 0),
        right=(0, 3, 4, 5),
    )  # fmt: skip
    return Book(
        title=chapter.title,
        over=f"Chapter {chapter.number} · days {days[0].number} to {days[-1].number}",
        under=chapter.aim,
        blocks=(Drawing(svg(strip, title="The days of the chapter", said=said), said, 170.0), Rows(tuple(rows)), table),
        foot=f"Chapter page · chapter {chapter.number}",
    )


def _materials(course: Course, days: Iterable[Day]) -> list[tuple[str, str]]:
    """What the days need: to fetch, to cut, to print, to buy."""
    names = dict.fromkeys(name.partition(":")[0] for day in days for name in (*day.materials, *day.print_outs))
    found = [course.materials["picture-cards" if name == "picture-card" else name] for name in names
             if name in course.materials or name == "picture-card"]  # fmt: skip
    heads = {"home": "Fetch", "cut-out set": "Cut-out sets", "print-out": "Print-outs", "buy": "Bought things"}
    rows = []
    for source, head in heads.items():
        titles = [material.title for material in found if material.source == source]
        if titles:
            rows.append((head, ", ".join(titles)))
    return rows


def _lowered(words: str) -> str:
    return words[:1].lower() + words[1:]
