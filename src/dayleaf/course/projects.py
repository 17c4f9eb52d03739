"""The projects, on the tenth day of some chapters: `chapters/NN/project.toml`."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from dayleaf.core.errors import Problem
from dayleaf.course.guide import read_steps
from dayleaf.course.model import Project
from dayleaf.course.rubrics import read_row

if TYPE_CHECKING:
    from collections.abc import Iterator

    from dayleaf.course.model import Course
    from dayleaf.course.shape import Fields

PROJECT: Final = "project.toml"
ROWS: Final = (2, 5)
"""A rubric that a hand can hold (common practice, no source)."""


def read_project(fields: Fields) -> Project:
    """One project from its file; what is wrong is noted in `fields`."""
    project = Project(
        title=fields.text("title"),
        day=fields.whole("day", least=1),
        begins=fields.whole("begins", least=1),
        needs=fields.texts("needs"),
        steps=read_steps(fields),
        evidence=" ".join(fields.text("evidence").split()),
        cautions=" ".join(fields.text("cautions", empty_ok=True).split()),
        rubric=tuple(read_row(row) for row in fields.tables("rubric")),
    )
    fields.done()
    return project


def needs_of(course: Course, project: Project) -> tuple[str, ...]:
    """What to fetch, in words: the titles of materials, and words that are no material as they stand."""
    return tuple(course.materials[need].title if need in course.materials else need for need in project.needs)


def check_projects(course: Course) -> Iterator[Problem]:
    """Check that each project has its day, its title, what it needs, a first logging day, answers, and a rubric."""
    for number, project in course.projects.items():
        where = f"{course.id}/chapters/{number:02}/{PROJECT}"
        for field, message in (*_of_day(course, number, project), *_of_words(project)):
            yield Problem(f"{where}: {field}", message)


def _of_day(course: Course, number: int, project: Project) -> Iterator[tuple[str, str]]:
    """What does not agree with the project's own day and with the one on which it begins."""
    days = {day.number: day for day in course.days}
    day = days.get(project.day)
    if day is None or day.kind != "project" or day.chapter != number:
        yield "day", f"is {project.day}, which is no project day of chapter {number}; name the chapter's tenth day"
        return
    if project.title not in day.title:
        yield "title", f'is "{project.title}" where day {day.number} says "{day.title}"'
    if project.begins > project.day:
        yield "begins", f"is {project.begins}, after the project's own day {project.day}"
    elif project.begins < project.day and not days[project.begins].small_task:
        yield "begins", f"is {project.begins}, but that day has no small_task; write it there"
    for need in project.needs:
        if need in course.materials and need not in (*day.materials, *day.print_outs):
            yield "needs", f'has "{need}", which day {project.day} does not fetch; add it there'


def _of_words(project: Project) -> Iterator[tuple[str, str]]:
    for place, step in enumerate(project.steps):
        following = project.steps[place + 1].kind if place + 1 < len(project.steps) else ""
        if step.kind == "ask" and following != "answer":
            yield "steps", f'ask "{step.text[:40]}" has no answer: after it; write one'
    if not ROWS[0] <= len(project.rubric) <= ROWS[1]:
        yield "rubric", f"has {len(project.rubric)} rows; write {ROWS[0]} to {ROWS[1]}"
