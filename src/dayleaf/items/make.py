"""One item, complete, from a skill, a format and numbers."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.items.built import NotBuilt, rule_of
from dayleaf.items.model import Item

if TYPE_CHECKING:
    from collections.abc import Mapping

    from dayleaf.core.ids import FormatId
    from dayleaf.course.model import Skill


def make(skill: Skill, format: FormatId, numbers: Mapping[str, int]) -> Item:  # noqa: A002 -- the trade's word
    """The item that asks these numbers in this format.

    The numbers are trusted: `domain.domain_of(skill).holds(numbers)` says whether the rule allows them.

    Raises:
        NotBuilt: the skill or the format cannot be made yet.
    """
    maker = rule_of(skill.id).formats.get(format)
    if maker is None:
        raise NotBuilt(skill=skill.id, format=format)
    made = maker(numbers)
    return Item(
        skill.id, format, numbers, made.prompt, made.parts, made.steps, made.errors, made.figure, made.difficulty
    )
