"""Where a skill or a day stands in the course's files, for what is said about it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.errors import Problem

if TYPE_CHECKING:
    from dayleaf.course.model import Course, Day, Skill


def in_skill(course: Course, skill: Skill, field: str, message: str) -> Problem:
    """Return a problem with a field of a skill's file."""
    return Problem(f"{course.id}/skills/{skill.strand}/{skill.id}.toml: {field}", message)


def in_day(course: Course, day: Day, field: str, message: str) -> Problem:
    """Return a problem with a field of a day's file."""
    return Problem(f"{course.id}/chapters/{day.chapter:02}/{day.id}.toml: {field}", message)


def in_chapter(course: Course, number: int, field: str, message: str) -> Problem:
    """Return a problem with a field of a chapter's file."""
    return Problem(f"{course.id}/chapters/{number:02}/chapter.toml: {field}", message)
