"""Finding a skill by the name typed."""

from __future__ import annotations

from difflib import get_close_matches
from typing import TYPE_CHECKING

from dayleaf.core.errors import DayleafError
from dayleaf.core.ids import SkillId
from dayleaf.course.load import grade2

if TYPE_CHECKING:
    from dayleaf.course.model import Skill


class NoSuchSkill(DayleafError):
    """The course has no skill of that name."""

    def __init__(self, skill: str, near: str | None) -> None:
        hint = f"Did you mean {near}?" if near else "`dayleaf items --list` names them all."
        super().__init__(f"There is no skill called {skill}. {hint}")


def find_skill(name: str) -> Skill:
    """The skill of that name, or NoSuchSkill with the nearest name."""
    skills = grade2().skills
    if name in skills:
        return skills[SkillId(name)]
    raise NoSuchSkill(name, next(iter(get_close_matches(name, skills, n=1)), None))
