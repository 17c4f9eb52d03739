"""A day of the course with example numbers and nobody's name: to look at, and to hand to whoever teaches that day.

Nothing here reads or writes a record; the same day, paper and course always give the same numbers.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import TYPE_CHECKING, Final

import pypdfium2

from dayleaf.course.load import grade2
from dayleaf.packets.day import prepare_day, print_packet
from dayleaf.packets.guide import compose_guide
from dayleaf.packets.model import Child
from dayleaf.packets.project import print_project, project_sheet
from dayleaf.records.coming import lesson_named
from dayleaf.sheets.model import Look
from dayleaf.sheets.typeset import typeset_guide

if TYPE_CHECKING:
    from dayleaf.core.ids import LessonId
    from dayleaf.packets.model import Packet
    from dayleaf.sheets.model import GuideSheet, PageSpec, Paper

SEED: Final = 0
SOMEBODY: Final = "the child"
"""Stands in sentences of a guide where a day is for nobody in particular."""
_AT_THE_START: Final = re.compile(rf"(?:^|(?<=[.?:“] )|(?<=[.?]” )){SOMEBODY}")
DOTS_A_POINT: Final = 1.6
"""A side as a picture is so many dots for a printer's point: about 980 wide on Letter."""


@dataclass(frozen=True, slots=True)
class ExamplePapers:
    """A day on paper: guide, the child's pages, key, and of a project its page for the table, else None."""

    guide: bytes
    pages: bytes
    key: bytes
    project: bytes | None


@lru_cache(maxsize=200)
def example_guide(lesson: LessonId, paper: Paper) -> GuideSheet:
    """The guide of a day with its example numbers, not set."""
    return _guide(_packet(lesson, paper))


def example_project(lesson: LessonId) -> GuideSheet | None:
    """The page of the project that a day makes; None on other days."""
    course = grade2()
    project = course.projects.get(lesson_named(lesson).chapter)
    if project is None or course.days[project.day - 1].id != lesson:
        return None
    return project_sheet(course, project)


def example_sides(lesson: LessonId, paper: Paper) -> tuple[PageSpec, ...]:
    """The child's sides of the day, in order; none where a day prints nothing."""
    return tuple(page for sheet in _packet(lesson, paper).sheets for page in sheet.pages)


@lru_cache(maxsize=24)
def example_papers(lesson: LessonId, paper: Paper) -> ExamplePapers:
    """The day's papers without a name on them, ready to print."""
    course, look = grade2(), Look(paper)
    prints = print_packet(course, _packet(lesson, paper))
    project = course.projects.get(lesson_named(lesson).chapter)
    makes = project is not None and course.days[project.day - 1].id == lesson
    return ExamplePapers(
        guide=typeset_guide(_guide(prints.packet), look),
        pages=prints.pages.pdf,
        key=prints.key,
        project=print_project(course, project, look) if project and makes else None,
    )


@lru_cache(maxsize=96)
def example_picture(lesson: LessonId, paper: Paper, side: int) -> bytes | None:
    """One printed side as a PNG, counted from 1; None where the day has fewer."""
    import cv2  # noqa: PLC0415 -- large, and only pictures need it

    document = pypdfium2.PdfDocument(example_papers(lesson, paper).pages)
    try:
        if not 1 <= side <= len(document):
            return None
        picture = document[side - 1].render(scale=DOTS_A_POINT, grayscale=True).to_numpy()
        return bytes(cv2.imencode(".png", picture)[1])
    finally:
        document.close()


@lru_cache(maxsize=200)
def _packet(lesson: LessonId, paper: Paper) -> Packet:
    return prepare_day(grade2(), lesson_named(lesson), Child("", Look(paper)), seed=SEED, backs=())


def _guide(packet: Packet) -> GuideSheet:
    day = packet.day
    sheet = compose_guide(grade2(), replace(packet, child=replace(packet.child, name=SOMEBODY)))
    return replace(
        sheet,
        under_title=f"Day {day.number} · {grade2().chapters[day.chapter - 1].title}",
        sections=tuple(
            replace(section, lines=tuple(replace(line, text=_begun(line.text)) for line in section.lines))
            for section in sheet.sections
        ),
        short=_begun(sheet.short),
        bare=_begun(sheet.bare),
    )


def _begun(text: str) -> str:
    """The text with a capital where a sentence begins with the word that stands for a name."""
    return _AT_THE_START.sub(SOMEBODY[:1].upper() + SOMEBODY[1:], text)
