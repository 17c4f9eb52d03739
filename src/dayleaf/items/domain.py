"""Every set of numbers a rule allows, in a fixed order, and samples of them without a list of all."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import lru_cache
from typing import TYPE_CHECKING

from dayleaf.core.errors import DayleafError
from dayleaf.course.rules import parse_rule

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping
    from random import Random

    from dayleaf.core.ids import SkillId
    from dayleaf.course.model import Skill
    from dayleaf.course.rules import Rule

LISTED = 40_000
"""Rules whose ranges give at most so many combinations are listed; the others are tried at random places."""


class NoRule(DayleafError):
    """A skill whose file gives no rule for its numbers."""

    def __init__(self, *, skill: SkillId) -> None:
        self.skill = skill
        super().__init__(f"{skill} has no rule for its numbers, so no item can be made for it.")


@dataclass(frozen=True, slots=True)
class Domain:
    """The numbers that a rule allows. Two domains of the same rule are equal.

    `rows`, `len` and `numbers` go by a list of all, which a wide rule takes about a second to make; `shuffled` and
    `holds` do without.
    """

    rule: Rule = field(repr=False)
    names: tuple[str, ...]

    @property
    def rows(self) -> tuple[tuple[int, ...], ...]:
        """The values of all the sets, smallest first."""
        return _rows(self.rule)

    def __len__(self) -> int:
        return len(_rows(self.rule))

    def numbers(self, index: int) -> dict[str, int]:
        """The numbers at one place of the order."""
        return dict(zip(self.names, _rows(self.rule)[index], strict=True))

    def holds(self, numbers: Mapping[str, int]) -> bool:
        """Whether exactly these variables with these values are allowed."""
        return self.rule.holds(numbers)

    def shuffled(self, rng: Random, *, about: int) -> Iterator[dict[str, int]]:
        """Every set of numbers once, in random order; work and memory go with how many are taken.

        `about` says how many the caller reckons to take. Each order of each choice is equally likely: a wide rule
        is tried at random places of its ranges, and a place that its condition refuses is passed over.
        """
        places = self._listed(rng, about) if self.rule.combinations <= LISTED else self.rule.tried(self._tried(rng))
        for row in places:
            yield dict(zip(self.names, row, strict=True))

    def _listed(self, rng: Random, about: int) -> Iterator[tuple[int, ...]]:
        rows = _rows(self.rule)
        used: set[int] = set()
        for chunk in (about, len(rows)):
            for place in rng.sample(range(len(rows)), min(chunk, len(rows))):
                if place not in used:
                    used.add(place)
                    yield rows[place]

    def _tried(self, rng: Random) -> Iterator[int]:
        """Random places of the ranges, none twice; once half have been tried, those left over in random order."""
        total = self.rule.combinations
        used: set[int] = set()
        while 2 * len(used) < total:
            place = int(rng.random() * total)
            if place not in used:
                used.add(place)
                yield place
        left = [place for place in range(total) if place not in used]
        rng.shuffle(left)
        yield from left


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
    return Domain(rule, rule.names)


@lru_cache(maxsize=512)
def _rows(rule: Rule) -> tuple[tuple[int, ...], ...]:
    return rule.all()
