"""A project's page for the table: what it needs, how it goes, what to keep, and what to look for."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import LessonId
from dayleaf.course.projects import needs_of
from dayleaf.packets.rubrics import project_table
from dayleaf.sheets.model import GuideLine, GuideSection, GuideSheet
from dayleaf.sheets.typeset import typeset_guide

if TYPE_CHECKING:
    from dayleaf.course.model import Course, Project
    from dayleaf.sheets.model import Look


def print_project(course: Course, project: Project, look: Look) -> bytes:
    """The project's page, at most two sides.

    Raises:
        PageTooFull: it does not fit on two sides.
        UnprintableText: a text has signs that our typefaces lack.
    """
    return typeset_guide(project_sheet(course, project), look)


def project_sheet(course: Course, project: Project) -> GuideSheet:
    """The page before it is set."""
    day = course.days[project.day - 1]
    facts = [("Needs", ", ".join(needs_of(course, project)))]
    if project.begins < project.day:
        lead = project.day - project.begins
        facts.append(("Begins", f"on day {project.begins}, {lead} course days before: see that day's small task"))
    if project.cautions:
        facts.append(("Mind", project.cautions))
    steps = tuple(GuideLine(step.kind, step.text) for step in project.steps)
    keep = GuideSection("To keep", None, (GuideLine("", project.evidence),))
    return GuideSheet(
        lesson=LessonId(day.id),
        title=project.title,
        under_title=f"Project · day {project.day} · {course.chapters[day.chapter - 1].title}",
        facts=tuple(facts),
        sections=(GuideSection("How it goes", None, steps), keep),
        short="",
        bare="",
        answers=(),
        tables=(project_table(project.rubric),),
    )
