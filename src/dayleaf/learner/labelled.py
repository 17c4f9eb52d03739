"""Habits from answers that only say which error way a miss was: odds for each way, answer by answer.

Where the numbers of an item are known, `habits` does this with every way at once; here a grown-up or another program
has named the way already.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from math import exp, log
from typing import TYPE_CHECKING, Final

from dayleaf.learner.habits import AT_LEAST, HABIT

if TYPE_CHECKING:
    from collections.abc import Hashable, Mapping

FOLLOWS: Final = 0.75
"""How often a child with a habit does as it says (the middle of the rates in `odds`)."""
BY_CHANCE: Final = 0.03
"""How often a miss without a habit looks like one way: a slip rate of 8 %, shared among a few (an assumption)."""
RIGHT: Final = 0.92
"""How often a child without the habit is right: all but the slips of 8 %."""
AGAINST: Final = log((1 - FOLLOWS) / RIGHT)
"""What a right answer adds to the log odds of a way that showed on its skill."""
PRIOR: Final = log(0.025 / 0.975)
"""Log odds of one way before any answer: a known way of the dozen that a skill has (habits.SOME_HABIT / FEWEST)."""
HEAVIEST: Final = 2.0
"""A miss by a habit is no slip: it tells up to so many times as much of the skill (an assumption)."""


@dataclass(frozen=True, slots=True)
class Way:
    """One error way of one child: log odds that it is a habit, its misses, and the skills on which it showed."""

    odds: float = PRIOR
    own: int = 0
    skills: frozenset[Hashable] = frozenset()

    @property
    def p(self) -> float:
        """The probability that it is a habit."""
        return 1 / (1 + exp(-max(-700.0, self.odds)))

    @property
    def is_habit(self) -> bool:
        """From .8 on, and from two misses of its own: never from one."""
        return self.p >= HABIT and self.own >= AT_LEAST


@dataclass(frozen=True, slots=True)
class Labelled:
    """Every way that a child's misses were named after."""

    ways: Mapping[str, Way] = field(default_factory=dict)

    def habit_on(self, skill: Hashable) -> str | None:
        """The likeliest habit that showed on a skill, or None."""
        named = [(way.p, name) for name, way in self.ways.items() if way.is_habit and skill in way.skills]
        return max(named)[1] if named else None

    def weight(self, error: str | None) -> float:
        """How much a miss named so tells of its skill: 1 for a slip, up to 2 for a habit."""
        way = self.ways.get(error) if error is not None else None
        return 1.0 if way is None or way.own < AT_LEAST else 1 + (HEAVIEST - 1) * way.p


def heard(before: Labelled, skill: Hashable, *, right: bool, error: str | None) -> Labelled:
    """The odds after one more answer: the way named gains; where it is right, the ways of its skill lose."""
    named = None if right else error
    ways = {
        name: replace(way, odds=way.odds + AGAINST) if right and skill in way.skills else way
        for name, way in before.ways.items()
    }
    if named is not None:
        old = ways.get(named, Way())
        ways[named] = replace(
            old, odds=old.odds + log(FOLLOWS / BY_CHANCE), own=old.own + 1, skills=old.skills | {skill}
        )
    return Labelled(ways)
