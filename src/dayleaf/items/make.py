"""One item, complete, from a skill, a format and numbers."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from dayleaf.course.rules import parse_rule
from dayleaf.items.built import NotBuilt, rule_of
from dayleaf.items.model import Item

if TYPE_CHECKING:
    from collections.abc import Mapping

    from dayleaf.core.ids import FormatId, SkillId
    from dayleaf.course.model import Skill

FEW = 2_000
"""Items of a rule whose ranges give at most so many sets of numbers are remembered once made."""

REMEMBERED = 8_192
"""How many items are remembered, those made or asked for last; about 20 MB."""


def make(skill: Skill, format: FormatId, numbers: Mapping[str, int]) -> Item:  # noqa: A002 -- the trade's word
    """The item that asks these numbers in this format.

    The numbers are trusted: `domain.domain_of(skill).holds(numbers)` says whether the rule allows them.

    Raises:
        NotBuilt: the skill or the format cannot be made yet.
    """
    text = skill.item_rule
    if text is not None and _has_few(text):
        return _remembered(skill.id, format, tuple(numbers.items()))
    return _made(skill.id, format, numbers)


def _made(skill_id: SkillId, format_id: FormatId, numbers: Mapping[str, int]) -> Item:
    maker = rule_of(skill_id).formats.get(format_id)
    if maker is None:
        raise NotBuilt(skill=skill_id, format=format_id)
    made = maker(numbers)
    return Item(
        skill_id, format_id, numbers, made.prompt, made.parts, made.steps, made.errors, made.figure, made.difficulty
    )


@lru_cache(maxsize=REMEMBERED)
def _remembered(skill_id: SkillId, format_id: FormatId, numbers: tuple[tuple[str, int], ...]) -> Item:
    """The same numbers always give the same item, and a rule of few sets gives the same ones again and again."""
    return _made(skill_id, format_id, dict(numbers))


@lru_cache(maxsize=1024)
def _has_few(rule: str) -> bool:
    return parse_rule(rule).combinations <= FEW
