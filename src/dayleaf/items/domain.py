"""Every set of numbers a rule allows, in a fixed order."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from dayleaf.core.errors import DayleafError
from dayleaf.course.rules import parse_rule

if TYPE_CHECKING:
    from collections.abc import Mapping

    from dayleaf.core.ids import SkillId
    from dayleaf.course.model import Skill


class NoRule(DayleafError):
    """A skill whose file gives no rule for its numbers."""

    def __init__(self, *, skill: SkillId) -> None:
        self.skill = skill
        super().__init__(f"{skill} has no rule for its numbers, so no item can be made for it.")


@dataclass(frozen=True, slots=True)
class Domain:
    """The names of a rule's variables and all their values, smallest first."""

    names: tuple[str, ...]
    rows: tuple[tuple[int, ...], ...]

    def __len__(self) -> int:
        return len(self.rows)

    def numbers(self, index: int) -> dict[str, int]:
        """The numbers at one place of the order."""
        return dict(zip(self.names, self.rows[index], strict=True))

    def holds(self, numbers: Mapping[str, int]) -> bool:
        """Whether exactly these variables with these values are allowed."""
        if set(numbers) != set(self.names):
            return False
        return tuple(numbers[name] for name in self.names) in _members(self)


def domain_of(skill: Skill) -> Domain:
    """All numbers the skill's rule allows, in lexicographic order of its variables.

    Raises:
        NoRule: the skill has no rule.
    """
    if skill.item_rule is None:
        raise NoRule(skill=skill.id)
    return domain_of_rule(skill.item_rule)


@lru_cache(maxsize=512)
def domain_of_rule(text: str) -> Domain:
    """All numbers a rule's text allows."""
    rule = parse_rule(text)
    return Domain(tuple(variable.name for variable in rule.variables), rule.all())


@lru_cache(maxsize=64)
def _members(domain: Domain) -> frozenset[tuple[int, ...]]:
    return frozenset(domain.rows)
