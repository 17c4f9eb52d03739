"""Virtual children to be placed: what each of them knows, by stories of growth of their own.

The stories are told otherwise than those that `learner.states` draws from: here noise is normal, gaps are single and
of one size, and orders are cut at a random length. Only "by chance" is the same story with another spread.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import exp
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from random import Random

    from dayleaf.core.ids import SkillId

Story = Literal["even", "strands", "gaps", "any order", "by chance", "fading"]
"""even: about as far as some day · strands: each strand to a day of its own · gaps: even, and one skill in twenty is
missing with all that stands on it · any order: a random order that obeys the prerequisites, cut at a random length ·
by chance: each skill is had with the same chance by whoever has what lies beneath it · fading: the chance falls off
slowly with the day that brings the skill. No setting of placement was chosen on "fading"."""

STORIES: tuple[Story, ...] = ("even", "strands", "gaps", "any order", "by chance", "fading")


@dataclass(frozen=True, slots=True)
class Child:
    """What a virtual child knows; `rusty` is part of it."""

    known: frozenset[SkillId]
    rusty: frozenset[SkillId] = frozenset()

    def answers(self, skill: SkillId, chance: Random, *, slip: float = 0.08, guess: float = 0.05) -> bool:
        """Whether one answer is right; every other answer from rust is not (P(right) .6)."""
        if skill not in self.known:
            return chance.random() < guess
        return chance.random() < (0.6 if skill in self.rusty else 1 - slip)


def child_of(
    story: Story,
    links: Mapping[SkillId, Sequence[SkillId]],
    days: Mapping[SkillId, float],
    strands: Mapping[SkillId, str],
    chance: Random,
    *,
    rust: float = 0.0,
) -> Child:
    """A child of this story. `links` name each skill after those beneath it; `days` say when the plan brings it.

    A skill without a day counts as brought six days before the first that stands on it, or after all others.
    """
    known: set[SkillId] = set()
    place = _places(links, days)
    first, last = min(place.values()), max(place.values())
    reached = chance.uniform(first, last)
    if story == "any order":
        known = _cut_order(links, chance)
    else:
        share = chance.uniform(0.6, 0.98)
        own = {strand: chance.gauss(0, 30) for strand in sorted(set(strands.values()))}
        for skill, below in links.items():
            if story == "even":
                has = reached + chance.gauss(0, 6) > place[skill]
            elif story == "strands":
                has = reached + own[strands[skill]] + chance.gauss(0, 10) > place[skill]
            elif story == "gaps":
                has = reached > place[skill] and chance.random() > 0.05
            elif story == "fading":
                has = chance.random() < 1 / (1 + exp((place[skill] - reached) / 15))
            else:
                has = chance.random() < share
            if has and known.issuperset(below):
                known.add(skill)
    return Child(frozenset(known), frozenset(skill for skill in links if skill in known and chance.random() < rust))


def _places(links: Mapping[SkillId, Sequence[SkillId]], days: Mapping[SkillId, float]) -> dict[SkillId, float]:
    place = dict(days)
    for skill, below in reversed(list(links.items())):
        for lower in below:
            if lower not in days and skill in place:
                place[lower] = min(place.get(lower, place[skill]), place[skill] - 6)
    last = max(days.values())
    return {skill: place.get(skill, last + 6) for skill in links}


def _cut_order(links: Mapping[SkillId, Sequence[SkillId]], chance: Random) -> set[SkillId]:
    known: set[SkillId] = set()
    for _ in range(chance.randint(0, len(links))):
        open_to = [skill for skill, below in links.items() if skill not in known and known.issuperset(below)]
        known.add(chance.choice(open_to))
    return known
