"""Virtual children whose skill fades by a power of time and is won back more quickly than it was first learned.

No parameter and no rule of ours was chosen on these children (docs/learner.md).

References:
    [1] Savings: what was forgotten is learned again more quickly (Ebbinghaus 1885).
    [2] Forgetting by a power of time: Wixted, Ebbesen 1991 (the form; the numbers are invented).
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from dayleaf.trial.minds import Traits, beneath_of, logistic, mean_by_pair

if TYPE_CHECKING:
    from dayleaf.trial.minds import Floats, Numbers, Truths
    from dayleaf.trial.world import World


class Savings:
    """P(knows) = logistic(6 (strength · (1 + days)^(−decay) − need)); a trace below never fades and speeds learning."""

    def __init__(self, world: World, children: int, chance: np.random.Generator) -> None:
        self.world = world
        self.traits = Traits(children, chance)
        n = world.skills
        self.decay = np.clip(chance.normal(0.17, 0.05, (children, 1)), 0.06, 0.4)
        self.rate = chance.lognormal(np.log(0.16), 0.3, (children, 1))
        self.need = 0.42 + chance.normal(0, 0.07, (children, 1)) + chance.normal(0, 0.07, (1, n))
        self.strength = np.zeros((children, n))
        self.trace = np.zeros((children, n))
        self.last = np.zeros((children, n))
        for skill in world.prior:
            self.strength[:, skill] = chance.uniform(0.7, 1.2, children)
            self.trace[:, skill] = 0.8

    def _strength(self, children: Numbers, skills: Numbers, day: float) -> Floats:
        gap = np.maximum(day - self.last[children, skills], 0)
        left: Floats = self.strength[children, skills] * (1 + gap) ** (
            -self.decay[children, 0] * (1 - 0.5 * self.trace[children, skills])
        )
        return left

    def _known(self, children: Numbers, skills: Numbers, day: float) -> Floats:
        row, child, lower = beneath_of(self.world, children, skills)
        alone = logistic(6 * (self._strength(child, lower, day) - self.need[child, lower]))
        below = mean_by_pair(row, alone, len(skills))
        own = self._strength(children, skills, day) - self.need[children, skills]
        return logistic(6 * own - 1.5 * (1 - below))

    def chances(self, day: float) -> Floats:
        """P(right) of every child and skill on a day."""
        children, skills = np.divmod(np.arange(self.last.size), self.world.skills)
        return self.traits.shown(self._known(children, skills, day).reshape(self.last.shape))

    def chance(self, children: Numbers, skills: Numbers, day: float) -> Floats:
        """P(right) of these pairs on a day."""
        return self.traits.shown_of(children, self._known(children, skills, day))

    def _learn(self, children: Numbers, skills: Numbers, day: float, amount: Floats) -> None:
        strength = self._strength(children, skills, day)
        quick = self.rate[children, 0] * amount * (1 + 1.5 * self.trace[children, skills])
        self.strength[children, skills] = strength + quick * np.maximum(1.3 - strength, 0)
        self.trace[children, skills] += 0.06 * amount * (1 - self.trace[children, skills])
        self.last[children, skills] = day

    def teach(self, children: Numbers, skills: Numbers, day: float) -> None:
        """A lesson."""
        self._learn(children, skills, day, np.full(len(children), 1.5))

    def practise(self, children: Numbers, skills: Numbers, day: float, right: Truths) -> None:
        """An answer; a wrong one, looked over, gives less."""
        self._learn(children, skills, day, np.where(right, 1.0, 0.6))

    def forgetting(self) -> Floats:
        """The power by which it fades."""
        power: Floats = self.decay[:, 0]
        return power

    def slowness(self) -> Floats:
        """The inverse of the rate of learning."""
        slow: Floats = 1 / self.rate[:, 0]
        return slow
