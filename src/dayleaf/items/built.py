"""What can be made today."""

from __future__ import annotations

from functools import cache
from types import MappingProxyType
from typing import TYPE_CHECKING

from dayleaf.core.errors import DayleafError
from dayleaf.items.numbers import RULES as NUMBERS
from dayleaf.items.paired import RULES as PAIRED
from dayleaf.items.pictured import RULES as PICTURED
from dayleaf.items.rule import SkillRule

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from dayleaf.core.ids import FormatId, SkillId


class NotBuilt(DayleafError):
    """A skill, or one format of it, that the engine cannot make yet."""

    def __init__(self, *, skill: SkillId, format: FormatId | None = None) -> None:  # noqa: A002 -- the trade's word
        self.skill = skill
        self.format = format
        what = f"{skill} as {format}" if format else str(skill)
        super().__init__(f"{what} is not built yet, so nothing can be printed for it.")


class BuiltTwice(DayleafError):
    """Two rules build the same format of one skill."""

    def __init__(self, *, skill: SkillId, format: FormatId) -> None:  # noqa: A002 -- the trade's word
        self.skill = skill
        self.format = format
        super().__init__(f"{skill} as {format} is built by two rules; keep one.")


def joined(rules: Iterable[SkillRule]) -> Mapping[SkillId, SkillRule]:
    """One rule a skill: formats, ways and limits of all rules that name it.

    Raises:
        BuiltTwice: a format of a skill is in two rules.
    """
    found: dict[SkillId, SkillRule] = {}
    for rule in rules:
        known = found.get(rule.skill)
        if known is None:
            found[rule.skill] = rule
            continue
        for format_id in rule.formats:
            if format_id in known.formats:
                raise BuiltTwice(skill=rule.skill, format=format_id)
        found[rule.skill] = SkillRule(
            rule.skill,
            formats={**known.formats, **rule.formats},
            ways={**known.ways, **rule.ways},
            fits={**known.fits, **rule.fits},
            half=known.half or rule.half,
        )
    return MappingProxyType(found)


@cache
def rules() -> Mapping[SkillId, SkillRule]:
    """Every rule, by skill."""
    return joined((*NUMBERS, *PICTURED, *PAIRED))


def rule_of(skill_id: SkillId) -> SkillRule:
    """The rule of one skill.

    Raises:
        NotBuilt: there is none.
    """
    rule = rules().get(skill_id)
    if rule is None:
        raise NotBuilt(skill=skill_id)
    return rule


def formats_built(skill_id: SkillId) -> tuple[FormatId, ...]:
    """The formats that can be printed, in the skill's order; empty for a skill that is not built."""
    rule = rules().get(skill_id)
    return tuple(rule.formats) if rule else ()


def is_built(skill_id: SkillId) -> bool:
    """Whether at least one format can be printed."""
    return skill_id in rules()
