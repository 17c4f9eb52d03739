"""A course made of a family's outline: the same days, chapters and skills as ours, beside books of their own."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import TYPE_CHECKING, Final

from dayleaf.core.ids import CourseId, LessonId
from dayleaf.course.model import Chapter, Course, Day, Material
from dayleaf.course.outline import named

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from dayleaf.core.ids import SkillId
    from dayleaf.course.model import IfShort, Skill
    from dayleaf.course.outline import Outline, OutlineLine

MINUTES: Final = 40
MOST_TOPICS: Final = 8
"""Skills that a look back or a test of a family's chapter asks at the most, the latest ones (common practice)."""
CHAPTER: Final = 10
"""How many days of an outline without chapters make one (common practice, no source)."""


def course_id(title: str, taken: Sequence[str] = ()) -> CourseId:
    """A name for a course made of its title: small letters and hyphens, unlike those taken."""
    stem = re.sub(r"[^a-z0-9]+", "-", title.casefold()).strip("-")[:24].strip("-") or "own-course"
    names = (stem, *(f"{stem}-{n}" for n in range(2, len(taken) + 3)))
    return CourseId(next(name for name in names if name not in taken))


def course_of_outline(ours: Course, outline: Outline, *, id: CourseId, title: str) -> Course:  # noqa: A002 -- its own name
    """The course of an outline whose skills are confirmed; skills, formats and pictures are those of `ours`.

    Every line is a day, in the order of the outline, or as many days as it takes. A line without confirmed skills is a
    day without sheets of ours. What a day needs keeps the family's own words.
    """
    chapters: list[Chapter] = []
    days: list[Day] = []
    before: str | None = None
    for line in outline.lines:
        if line.chapter != before or (not line.chapter and len(days) >= CHAPTER * len(chapters)):
            chapters.append(_chapter(len(chapters) + 1, line))
        before = line.chapter
        for part in range(line.days):
            days.append(_day(ours, line, id=id, number=len(days) + 1, chapter=len(chapters), part=part))
    days = list(_with_new_skills(days))
    last = days[-1] if days else None
    if last is not None and last.if_short == "join-next":
        days[-1] = replace(last, if_short="keep")
    return replace(
        ours,
        id=id,
        title=title,
        chapters=tuple(chapters),
        days=tuple(days),
        skills={name: _whenever(skill) for name, skill in ours.skills.items()},
        materials={**ours.materials, **{one.id: one for one in _materials(outline)}},
        covers="",
        stories={},
        projects={},
        front=(),
    )


def _chapter(number: int, line: OutlineLine) -> Chapter:
    title = named(line.chapter) or line.chapter or f"Part {number}"
    title = f"Chapter {title}" if title.isdecimal() else title
    return Chapter(
        number=number,
        title=title,
        aim="",
        big_idea="",
        words_taught=(),
        usual_trouble=(),
        project="",
        story="",
        stretch_skills=(),
    )


def _day(ours: Course, line: OutlineLine, *, id: CourseId, number: int, chapter: int, part: int) -> Day:  # noqa: A002
    skills = tuple(skill for skill in line.skills if skill in ours.skills)
    minutes = line.minutes or MINUTES
    led = 0 if line.alone or line.kind == "test" else (minutes + 1) // 2
    title = line.title if line.days == 1 else f"{line.title} ({part + 1} of {line.days})"
    return Day(
        id=LessonId(f"{id}-{number:03}"),
        number=number,
        chapter=chapter,
        kind=line.kind,
        title=title,
        how=pages_sentence(line.pages),
        new_skills=skills if line.kind == "lesson" else (),
        refresh_skills=(),
        front_skills=skills if line.kind == "lesson" else (),
        back_skills=(),
        stretch_skills=(),
        fact_warm_up=None,
        materials=tuple(_material_id(one) for one in line.materials),
        print_outs=(),
        small_task="",
        second_sheet=False,
        parent_minutes=led,
        child_minutes=minutes - led,
        if_short=_if_short(line),
        pages=line.pages,
        alone=line.alone,
    )


def pages_sentence(pages: Sequence[tuple[str, str]]) -> str:
    """What to open: `Pages 114–115 of the family's workbook; page 52 of the family's guide.`; "" without pages."""
    said = [f"{_page_word(numbers)} {numbers} of the family's {book}" for book, numbers in pages]
    whole = "; ".join(said)
    return f"{whole[0].upper()}{whole[1:]}." if said else ""


def _page_word(numbers: str) -> str:
    return "page" if numbers.isalnum() else "pages"


def _if_short(line: OutlineLine) -> IfShort:
    if line.kind in {"spare", "project"}:
        return "drop"
    return "join-next" if line.kind == "look-back" else "keep"


def _with_new_skills(days: Sequence[Day]) -> Iterator[Day]:
    """The days with a skill new only on the first day that has it; look backs and tests with their chapter's skills."""
    met: dict[SkillId, None] = {}
    of_chapter: dict[int, dict[SkillId, None]] = {}
    for day in days:
        own = of_chapter.setdefault(day.chapter, {})
        if day.kind == "lesson":
            fresh = tuple(skill for skill in day.front_skills if skill not in met)
            again = tuple(skill for skill in day.front_skills if skill in met)
            met.update(dict.fromkeys(fresh))
            own.update(dict.fromkeys(day.front_skills))
            yield replace(day, new_skills=fresh, refresh_skills=again)
        elif day.kind in {"look-back", "test"}:
            yield replace(day, front_skills=tuple(own)[-MOST_TOPICS:])
        elif day.kind == "look-back-all":
            yield replace(day, front_skills=tuple(met)[-MOST_TOPICS:])
        else:
            yield day


def _whenever(skill: Skill) -> Skill:
    """The skill with no format held back: our own days say from when, and they are not this course's."""
    return replace(skill, format_from_day={}) if skill.format_from_day else skill


def _material_id(words: str) -> str:
    return "own-" + re.sub(r"[^a-z0-9]+", "-", words.casefold()).strip("-")


def _materials(outline: Outline) -> Iterator[Material]:
    """What the outline's lines need, as things of the house."""
    words = dict.fromkeys(word for line in outline.lines for word in line.materials)
    for word in words:
        yield Material(
            id=_material_id(word),
            title=word,
            source="home",
            prep_minutes=0,
            small_parts=False,
            scissors=False,
            substitute="",
            how_many="",
            first_day=None,
        )
