"""Skills and error ways as they are named to people."""

from __future__ import annotations

from dayleaf.core.ids import ErrorWayId, SkillId
from dayleaf.course.load import grade2
from dayleaf.wording.tables import NoWords
from dayleaf.wording.ways import way_phrase


def skill_words(skill: str) -> str:
    """The skill's title, or its id where the course has no such skill."""
    known = grade2().skills.get(SkillId(skill))
    return known.title if known else skill.replace("-", " ")


def lesson_words(lesson: str) -> str:
    """The lesson's title, or its id where the course has no such day."""
    return next((day.title for day in grade2().days if day.id == lesson), lesson)


def habit_words(way: str) -> str:
    """The error way as a phrase, or its id in words."""
    try:
        return way_phrase(ErrorWayId(way), "en")
    except NoWords:
        return way.replace("-", " ")
