"""The course map: strands, chapters, and what rests on what, drawn from the course as one picture; and its totals.

Rows are strands, columns chapters; a dot is a skill in the chapter that first teaches it. Lines are few on purpose: the
longest chain of skills that rest on each other, or all that one chosen skill rests on and leads to.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from statistics import mean
from typing import TYPE_CHECKING, Final

import networkx as nx

from dayleaf.course.finding import days_of_skill
from dayleaf.course.skill_map import skill_graph
from dayleaf.figures.pen import Art, escaped, num, path
from dayleaf.figures.pieces.front import ADULT, svg
from dayleaf.packets.binding import bound
from dayleaf.packets.front import totals
from dayleaf.sheets.book import Book, Drawing, Paragraph, Rows, Table, typeset_book

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from dayleaf.core.ids import SkillId
    from dayleaf.course.model import Course, Skill
    from dayleaf.packets.front import Totals
    from dayleaf.sheets.model import Paper

LEFT: Final = 45.0
COLUMN: Final = 7.2
ROW: Final = 8.6
HEAD: Final = 10.0
DOT: Final = 0.78
A_ROW: Final = 3
"""Dots side by side in one field before a second row of them begins."""
WEEK: Final = 5
"""Days of a course week."""


@dataclass(frozen=True, slots=True)
class CourseMap:
    """Which skills each chapter teaches first in each strand, and the chain of skills drawn through them.

    `fields` is by (strand, chapter number); `chain` are links, each a skill and one that rests on it.
    """

    course: Course
    strands: tuple[str, ...]
    fields: Mapping[tuple[str, int], tuple[SkillId, ...]]
    links: tuple[tuple[SkillId, SkillId], ...]
    chosen: SkillId | None = None


@dataclass(frozen=True, slots=True)
class Week:
    """One course week: its days, minutes with an adult and alone over all of them, sheets, minutes of cutting."""

    number: int
    first: int
    last: int
    led: int
    alone: int
    sheets: int
    cutting: int


def course_map(course: Course, *, chosen: SkillId | None = None) -> CourseMap:
    """The map of a course, with the longest chain, or with what one skill rests on and what rests on it."""
    fields: dict[tuple[str, int], tuple[SkillId, ...]] = {}
    for day in course.days:
        for skill in day.new_skills:
            place = (course.skills[skill].strand, day.chapter)
            fields[place] = (*fields.get(place, ()), skill)
    taught = {skill for skills in fields.values() for skill in skills}
    strands = tuple(name for name in course.strands if any(strand == name for strand, _ in fields))
    graph = skill_graph(course).subgraph(taught)
    if chosen is None:
        chain = nx.dag_longest_path(graph) if taught else []
        links = tuple(pairwise(chain))
    elif chosen in taught:
        near = nx.ancestors(graph, chosen) | {chosen}
        links = (
            *(link for link in graph.edges if set(link) <= near),
            *((chosen, one) for one in graph.successors(chosen)),
        )
    else:
        links = ()
    return CourseMap(course, strands, fields, tuple(sorted(links)), chosen)


def map_svg(found: CourseMap) -> str:
    """The picture in millimetres, black on white, with its words inside."""
    chapters = found.course.chapters
    places = dict(_places(found))
    marked = {skill for link in found.links for skill in link} | ({found.chosen} if found.chosen else set())
    width, height = LEFT + COLUMN * len(chapters) + 1, HEAD + ROW * len(found.strands) + 1
    body = "".join(_grid(found, width, height))
    for before, after in found.links:
        body += path(_arc(places[before], places[after]), w=0.35)
    for skill, (x, y) in places.items():
        body += _dot(found.course.skills[skill], x, y, marked=skill in marked, chosen=skill == found.chosen)
    return svg(Art(body, width, height), title=f"The map of {found.course.title}", said=map_words(found))


def map_words(found: CourseMap) -> str:
    """What the picture shows, in words."""
    course = found.course
    rows = [
        f"{course.strands[strand]}: "
        + ", ".join(
            f"chapter {chapter} {_count(len(skills))}"
            for (name, chapter), skills in sorted(found.fields.items())
            if name == strand
        )
        for strand in found.strands
    ]
    return "Dots are skills where they are first taught. " + "; ".join(rows) + "."


def chain_words(found: CourseMap) -> tuple[str, ...]:
    """The titles along the chain in order, where it is one; else none."""
    after = dict(found.links)
    if not found.links or found.chosen is not None:
        return ()
    at = next(first for first, _ in found.links if first not in after.values())
    names = [at]
    while at in after:
        at = after[at]
        names.append(at)
    return tuple(found.course.skills[name].title for name in names)


def weeks_of(course: Course) -> tuple[Week, ...]:
    """The honest totals week by week, from the days and the materials of the course."""
    cutting = dict(totals(course).cutting)
    weeks = []
    for place in range(0, len(course.days), WEEK):
        days = course.days[place : place + WEEK]
        number = place // WEEK + 1
        weeks.append(
            Week(
                number=number,
                first=days[0].number,
                last=days[-1].number,
                led=sum(day.parent_minutes for day in days),
                alone=sum(day.child_minutes for day in days),
                sheets=sum(2 if day.second_sheet else 1 for day in days),
                cutting=cutting.get(number, 0),
            )
        )
    return tuple(weeks)


def ordinary_week(course: Course) -> Week:
    """The week nearest to the middle in minutes, paper and kinds of day: neither the nicest nor the fullest.

    Among weeks in which new skills are taught on every day, the one whose minutes lie nearest to their mean.
    """
    plain = [
        week
        for week in weeks_of(course)
        if all(day.kind == "lesson" for day in course.days[week.first - 1 : week.last])
    ] or list(weeks_of(course))
    middle = mean(week.led + week.alone for week in plain)
    return min(plain, key=lambda week: (abs(week.led + week.alone - middle), week.number))


def totals_sentences(found: Totals, course: Course) -> tuple[str, ...]:
    """The year in sentences: minutes, paper, cutting, buying."""
    busiest = max(found.cutting, key=lambda pair: pair[1], default=(1, 0))
    paper = found.day_sheets + found.second_sheets
    day = f"{len(course.days)} days; {found.adult} minutes with you and {found.alone} alone on an average one."
    sheets = f"{found.day_sheets} practice sheets and {found.second_sheets} second ones where they are worth it"
    cut = f"{found.sets} sets to cut out, {found.minutes} minutes in all"
    return (
        day,
        f"{paper} sheets of paper for a child in a year, printed on both sides: {sheets}.",
        f"{cut}; most in week {busiest[0]}, {busiest[1]} minutes.",
        f"{found.to_buy} things to buy, each with a substitute from the house.",
    )


def print_map(course: Course, *, paper: Paper) -> bytes:
    """The map on one side, its chain and totals below; behind it the index of all skills and the weeks.

    Raises:
        TooLong: the index needs more than eight sides.
    """
    found = course_map(course)
    front = Book(
        title="The course map",
        over=course.title,
        under="Rows are strands, columns chapters. A dot is a skill where it is first taught.",
        blocks=(
            Drawing(map_svg(found), map_words(found), LEFT + COLUMN * len(course.chapters) + 1),
            Paragraph("The longest chain, each resting on the one before: " + " → ".join(chain_words(found)) + "."),
            *(Paragraph(words) for words in totals_sentences(totals(course, paper=paper), course)),
        ),
        foot="Course map",
    )
    index = Book(
        title="Where everything stands",
        over=course.title,
        under="The days that teach each skill, practise it on their front, and test it.",
        blocks=tuple(_index(course)),
        foot="Index of the course",
    )
    return bound((typeset_book(front, paper=paper, most=1), typeset_book(index, paper=paper, most=8)))[0]


def _index(course: Course) -> Iterator[Table | Paragraph | Rows]:
    for strand, title in course.strands.items():
        skills = [skill for skill in course.skills.values() if skill.strand == strand]
        rows = tuple(row for skill in skills if (row := _row(course, skill)) is not None)
        if rows:
            yield Table(head=(title, "Taught", "Practised", "Tested"), rows=rows, widths=(3, 1, 2, 1))
    weeks = tuple(
        (
            str(week.number),
            f"{week.first}–{week.last}",
            str(week.led),
            str(week.alone),
            str(week.sheets),
            str(week.cutting),
        )
        for week in weeks_of(course)
    )
    yield Table(
        head=("Week", "Days", "With you", "Alone", "Sheets", "Cutting"),
        rows=weeks,
        widths=(1, 1, 1, 1, 1, 1),
        right=(0, 2, 3, 4, 5),
    )


def _row(course: Course, skill: Skill) -> tuple[str, ...] | None:
    found = dict(days_of_skill(course, skill.id))
    if not found:
        return None
    return (
        skill.title,
        *(", ".join(str(day.number) for day in found.get(k, ())) for k in ("taught", "practised", "tested")),
    )


def _places(found: CourseMap) -> Iterator[tuple[SkillId, tuple[float, float]]]:
    """Where each dot lies: side by side in its field, a second row where there are many."""
    rows = {strand: n for n, strand in enumerate(found.strands)}
    for (strand, chapter), skills in found.fields.items():
        lines = [skills[n : n + A_ROW] for n in range(0, len(skills), A_ROW)]
        for n, line in enumerate(lines):
            y = HEAD + ROW * (rows[strand] + (n + 1) / (len(lines) + 1))
            for k, skill in enumerate(line):
                x = LEFT + COLUMN * (chapter - 1 + (k + 1) / (len(line) + 1))
                yield skill, (x, y)


def _grid(found: CourseMap, width: float, height: float) -> Iterator[str]:
    for n, chapter in enumerate(found.course.chapters):
        yield _text(LEFT + COLUMN * (n + 0.5), HEAD - 4, str(chapter.number), weight=600)
    yield _text(LEFT - 2, HEAD - 4, "chapter", anchor="end")
    for n, strand in enumerate(found.strands):
        y = HEAD + ROW * n
        yield path(f"M0 {num(y)}H{num(width - 1)}", w=0.12)
        yield _text(LEFT - 2, y + ROW / 2, found.course.strands[strand], anchor="end")
    yield path(f"M0 {num(height - 1)}H{num(width - 1)}", w=0.12)


def _dot(skill: Skill, x: float, y: float, *, marked: bool, chosen: bool) -> str:
    size = DOT * (1.6 if chosen else 1.25 if marked else 1)
    fill = "#000" if marked else "#fff"
    place = f'cx="{num(x)}" cy="{num(y)}" r="{num(size)}"'
    return f'<circle {place} fill="{fill}" stroke-width="0.3"><title>{escaped(skill.title)}</title></circle>'


def _arc(start: tuple[float, float], end: tuple[float, float]) -> str:
    """A flat curve that leaves and arrives level, so that lines run along the rows rather than across them."""
    (x1, y1), (x2, y2) = start, end
    bend = max(abs(x2 - x1) * 0.5, 2.0)
    lift = 2.6 if abs(y2 - y1) < 0.1 and abs(x2 - x1) > COLUMN else 0.0
    c1, c2 = (x1 + bend, y1 - lift), (x2 - bend, y2 - lift)
    return f"M{num(x1)} {num(y1)}C{num(c1[0])} {num(c1[1])} {num(c2[0])} {num(c2[1])} {num(x2)} {num(y2)}"


def _text(x: float, y: float, said: str, *, weight: int = 500, anchor: str = "middle") -> str:
    place = f'x="{num(x)}" y="{num(y + 1.1)}" font-size="3.1" font-weight="{weight}"'
    return f'<text {place} {ADULT} text-anchor="{anchor}" fill="#000" stroke="none">{escaped(said)}</text>'


def _count(n: int) -> str:
    return f"{n} skill" if n == 1 else f"{n} skills"
