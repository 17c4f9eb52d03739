"""The front of the course, the parts page and the getting-ready list, with totals worked out from the course."""

from __future__ import annotations

from dataclasses import dataclass
from statistics import mean
from typing import TYPE_CHECKING, Final

from dayleaf.figures.pieces.front import day_line, day_strip, parts_picture, svg
from dayleaf.packets.cut_outs.pages import Frame, pages_of
from dayleaf.packets.cut_outs.sets import SETS
from dayleaf.packets.reading_pages import KINDS
from dayleaf.sheets.book import Book, Drawing, Heading, Paragraph, Rows, typeset_book
from dayleaf.sheets.model import Look
from dayleaf.sheets.weeks import PrepLine, WeekSheet, typeset_week

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from dayleaf.course.model import Course, FrontPage, Material
    from dayleaf.sheets.book import Block
    from dayleaf.sheets.model import Paper

A_WEEK: Final = 5
"""Days of a course week: week 1 has days 1 to 5."""
NOW: Final = 2
"""What is needed in the first so many weeks is made before the first day."""
PAGES: Final = 4


@dataclass(frozen=True, slots=True)
class Totals:
    """What a year asks for: sets to cut with their minutes and sheets, the week with most of it, sheets of pages.

    `cutting` is minutes by course week. Minutes are the planning values of `materials.toml`.
    """

    sets: int
    minutes: int
    cut_sheets: int
    cutting: tuple[tuple[int, int], ...]
    to_buy: int
    day_sheets: int
    second_sheets: int
    adult: int
    alone: int


def totals(course: Course, *, paper: Paper = "letter") -> Totals:
    """The totals of a course on this paper."""
    sets = [one for one in course.materials.values() if one.source == "cut-out set"]
    weeks: dict[int, int] = {}
    for one in sets:
        if one.first_day is not None:
            weeks[week_of(one)] = weeks.get(week_of(one), 0) + one.prep_minutes
    frame = Frame(paper)
    return Totals(
        sets=len(sets),
        minutes=sum(one.prep_minutes for one in sets),
        cut_sheets=sum(len(pages_of(SETS[one.id](course), frame)) for one in sets if one.id in SETS),
        cutting=tuple(sorted(weeks.items())),
        to_buy=sum(one.source == "buy" for one in course.materials.values()),
        day_sheets=len(course.days),
        second_sheets=sum(day.second_sheet for day in course.days),
        adult=round(mean(day.parent_minutes for day in course.days)),
        alone=round(mean(day.child_minutes for day in course.days)),
    )


def week_of(material: Material) -> int:
    """The course week in which a thing is first needed, counted from 1; 1 where no day names it."""
    return 1 if material.first_day is None else (material.first_day - 1) // A_WEEK + 1


def print_front(course: Course, *, paper: Paper) -> bytes:
    """How the course works, how a day runs, what each paper is for, when a day goes another way: four sides."""
    found = totals(course, paper=paper)
    slots = {
        "days": str(len(course.days)),
        "chapters": str(len(course.chapters)),
        "adult": str(found.adult),
        "alone": str(found.alone),
    }
    pictures = (_chapter_strip(course), _day_line(course))
    blocks: list[Block] = []
    for place, page in enumerate(course.front):
        blocks += (Heading(page.title, top=True),) if place else ()
        blocks += _blocks(page, slots, pictures[place : place + 1])
    book = Book(
        title=course.front[0].title,
        over=course.title,
        under="",
        blocks=tuple(blocks),
        foot="Front of the course",
    )
    return typeset_book(book, paper=paper, most=PAGES, pages=PAGES)


def _blocks(page: FrontPage, slots: Mapping[str, str], pictures: Sequence[Drawing]) -> Iterator[Block]:
    yield Paragraph(page.lead.format(**slots), "lead")
    yield from pictures
    for words in page.paragraphs:
        yield Paragraph(words.format(**slots))
    yield Rows(tuple((label, words.format(**slots)) for label, words in page.rows), ruled=True, label_mm=36)


def _chapter_strip(course: Course) -> Drawing:
    """The first chapter's days in a row."""
    days = [(day.number, KINDS[day.kind]) for day in course.days if day.chapter == 1]
    said = f"The {len(days)} days of a chapter as sheets of paper in a row."
    return Drawing(svg(day_strip(days), title="The days of a chapter", said=said), said, 170.0)


def _day_line(course: Course) -> Drawing:
    """The parts of one ordinary lesson with their minutes: the middle one of the course."""
    lessons = [day for day in course.days if day.kind == "lesson" and day.guide is not None]
    guide = lessons[len(lessons) // 2].guide
    parts = guide.parts if guide else ()
    drawn = [
        (part.name.capitalize(), part.minutes, part.name != "alone")
        for part in parts
        if part.name != "if-there-is-time"
    ]
    listed = ", ".join(f"{name} {minutes} minutes" for name, minutes, _ in drawn)
    said = f"The parts of a lesson as one bar: {listed}."
    return Drawing(svg(day_line(drawn), title="A day", said=said), said, 170.0)


def print_parts(course: Course, *, paper: Paper) -> bytes:
    """One side with one picture: how guide, pages, sheets, tests and cut-outs work together."""
    said = (
        "Once: the getting-ready list leads to the cut-out sets, the placement to the year plan. Each chapter: chapter "
        "page and story page. Each week: the week sheet and print-outs. Each day: lesson guide, together page, own "
        "page, practice sheet with today on its front and earlier work on its back. That evening: the answer key, the "
        "marks, what was seen, which chooses tomorrow’s back. At the end of a chapter: look back, chapter test, "
        "fix-up, project."
    )
    picture = Drawing(svg(parts_picture(), title="How the parts work together", said=said), said, 172.0)
    book = Book("How the parts work together", course.title, "", (picture,), "Parts page")
    return typeset_book(book, paper=paper, most=1)


def print_getting_ready(course: Course, *, paper: Paper, little_one: bool = True) -> bytes:
    """The getting-ready list of the year on at most two sides; cautions are said where a `little_one` is near."""
    return typeset_week(getting_ready(course, paper=paper, little_one=little_one), Look(paper))


def getting_ready(course: Course, *, paper: Paper = "letter", little_one: bool = True) -> WeekSheet:
    """The list as groups: print now, cut now, wait until a week, buy, have; every thing once, with its substitute."""
    things = sorted(course.materials.values(), key=lambda one: (week_of(one), one.title))
    cut = [one for one in things if one.source == "cut-out set"]
    paper_things = [one for one in things if one.source == "print-out"]
    now = [one for one in paper_things if week_of(one) <= NOW]
    later = [one for one in (*cut, *paper_things) if week_of(one) > NOW]
    groups = (
        ("Print now", now),
        ("Cut now", [one for one in cut if week_of(one) <= NOW]),
        ("Wait until", sorted(later, key=lambda one: (week_of(one), one.title))),
        ("Buy", [one for one in things if one.source == "buy"]),
        ("Have", [one for one in things if one.source == "home"]),
    )
    return WeekSheet(
        title="Getting ready for the year",
        under="Tick what is there. Make only what the next two weeks need.",
        lang="en",
        key=("", ""),
        days=(),
        prep_heading="Things and papers",
        prep=tuple(
            (head, tuple(_line(one, little_one=little_one) for one in group)) for head, group in groups if group
        ),
        facts=tuple(_facts(totals(course, paper=paper))),
        foot="Getting-ready list",
    )


def _line(one: Material, *, little_one: bool) -> PrepLine:
    more = [one.how_many] if one.how_many not in ("", "1") else []
    if one.substitute:
        more.append(f"or {one.substitute}")
    if one.source == "cut-out set":
        more.append(f"{one.prep_minutes} min")
    mind = one.caution if little_one or not one.small_parts else ""
    return PrepLine(one.title[:1].upper() + one.title[1:], ", ".join(more), f"week {week_of(one)}", mind)


def _facts(found: Totals) -> Iterator[tuple[str, str]]:
    most = sorted(found.cutting, key=lambda pair: -pair[1])[:2]
    weeks = " and ".join(f"week {week} ({minutes} minutes)" for week, minutes in sorted(most))
    yield (
        "Cutting",
        f"{found.sets} sets on {found.cut_sheets} sheets, {found.minutes} minutes over the year; most in {weeks}.",
    )
    sheets = (
        f"A sheet for the child on each of {found.day_sheets} days and a second one on {found.second_sheets} of them, "
        f"about {found.day_sheets + found.second_sheets} in all. Guides and keys come to that."
    )
    yield "Paper", sheets
    yield "Buying", f"{found.to_buy} things, each with something to take instead."
    each = f"About {found.adult} minutes with you and {found.alone} alone, on average over all days (planning values)."
    yield "Each day", each
