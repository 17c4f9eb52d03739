"""Meaning of a course: what `dayleaf check` and the tests run. Shape was checked when it was read."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.course.front import check_front
from dayleaf.course.guide_check import check_guides
from dayleaf.course.places import in_skill
from dayleaf.course.projects import check_projects
from dayleaf.course.sequence import check_sequence
from dayleaf.course.skill_map import check_skills
from dayleaf.course.stories import check_stories

if TYPE_CHECKING:
    from collections.abc import Collection, Iterator, Mapping

    from dayleaf.core.errors import Problem
    from dayleaf.core.ids import FormatId, SkillId
    from dayleaf.course.model import Course


def check_course(course: Course, *, built: Mapping[SkillId, Collection[FormatId]] | None = None) -> tuple[Problem, ...]:
    """Return every problem of meaning, skills first, then days and their guides.

    `built` says which formats can be made of which skills today; if it is given, each must be known to
    the course.
    """
    return (
        *check_skills(course),
        *check_sequence(course),
        *check_guides(course),
        *check_stories(course),
        *check_front(course),
        *check_projects(course),
        *_check_built(course, built or {}),
    )


def _check_built(course: Course, built: Mapping[SkillId, Collection[FormatId]]) -> Iterator[Problem]:
    for skill_id, formats in built.items():
        skill = course.skills.get(skill_id)
        if skill is None:
            continue  # built for another course
        for form in formats:
            if form not in skill.formats:
                yield in_skill(course, skill, "formats", f'can be made as "{form}" but does not list it; add it')
