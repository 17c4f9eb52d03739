"""Virtual children whose skills have a stability that grows with well-timed use and a level of understanding.

References:
    [1] Two components of memory, stability and retrievability: Wozniak, Gorzelanczyk, Murakowski 1995 (the idea; the
        numbers are invented). These children are never used to choose a parameter of ours.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from dayleaf.trial.minds import Traits, logistic, mean_below_of

if TYPE_CHECKING:
    from dayleaf.trial.minds import Floats, Numbers, Truths
    from dayleaf.trial.world import World


class Stability:
    """P(knows) = understanding · (1 + days since / (9 · stability))^(−1); both grow, understanding by steps."""

    def __init__(self, world: World, children: int, chance: np.random.Generator) -> None:
        self.world = world
        self.traits = Traits(children, chance)
        n = world.skills
        self.bright = chance.normal(0, 0.6, (children, 1)) + chance.normal(0, 0.4, (1, n))
        self.steady = chance.lognormal(np.log(2.5), 0.45, (children, 1))
        self.insight = np.full((children, n), -2.5)
        self.stable = np.full((children, n), 0.1)
        self.last = np.zeros((children, n))
        for skill in world.prior:
            self.insight[:, skill] = chance.normal(1.8, 0.7, children)
            self.stable[:, skill] = chance.lognormal(np.log(40), 0.5, children)
        self.ready = np.zeros((children, n))
        self.chances(0.0)

    def _held(self, children: Numbers, skills: Numbers, day: float) -> Floats:
        gap = np.maximum(day - self.last[children, skills], 0)
        held: Floats = 1 / (1 + gap / (9 * self.stable[children, skills]))
        return held

    def _known(self, children: Numbers, skills: Numbers, day: float) -> Floats:
        return logistic(self.insight[children, skills]) * self._held(children, skills, day)

    def chances(self, day: float) -> Floats:
        """P(right) of every child and skill on a day."""
        children, skills = np.divmod(np.arange(self.last.size), self.world.skills)
        self.ready = self._known(children, skills, day).reshape(self.last.shape)
        return self.traits.shown(self.ready)

    def chance(self, children: Numbers, skills: Numbers, day: float) -> Floats:
        """P(right) of these pairs on a day."""
        return self.traits.shown_of(children, self._known(children, skills, day))

    def _learn(self, children: Numbers, skills: Numbers, day: float, *, step: Floats, use: Floats) -> None:
        ready = mean_below_of(self.world, self.ready, children, skills)
        top = 3.0 + self.bright[children, skills] - self.insight[children, skills]
        self.insight[children, skills] += step * np.maximum(top, 0) * (0.3 + 0.7 * ready)
        faded = 1 - self._held(children, skills, day)
        stable = np.maximum(self.stable[children, skills], self.steady[children, 0] * 0.6)
        self.stable[children, skills] = stable * (1 + use * (0.03 + 3.5 * faded * stable**-0.15))
        self.last[children, skills] = day
        self.ready[children, skills] = self._known(children, skills, day)

    def teach(self, children: Numbers, skills: Numbers, day: float) -> None:
        """A lesson moves understanding most."""
        many = len(children)
        self._learn(children, skills, day, step=np.full(many, 0.35), use=np.full(many, 0.5))

    def practise(self, children: Numbers, skills: Numbers, day: float, right: Truths) -> None:
        """An answer; a wrong one steadies less."""
        self._learn(children, skills, day, step=np.where(right, 0.09, 0.07), use=np.where(right, 1.0, 0.3))

    def forgetting(self) -> Floats:
        """The inverse of the first stability."""
        return 1 / self.steady[:, 0]

    def slowness(self) -> Floats:
        """The negative of brightness."""
        mean: Floats = -self.bright.mean(axis=1)
        return mean
