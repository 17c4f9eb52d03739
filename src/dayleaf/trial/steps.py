"""Virtual children who climb three steps, unknown, half known, known, and slip down them again.

No parameter and no rule of ours was chosen on these children (docs/learner.md).

References:
    [1] Learning by stages with unlike rates of loss: Brainerd, Howe 1980 (the idea; the numbers are invented).
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from dayleaf.trial.minds import Traits, mean_below_of

if TYPE_CHECKING:
    from dayleaf.trial.minds import Floats, Numbers, Truths
    from dayleaf.trial.world import World

RIGHT = np.array([0.05, 0.55, 0.97])


class Steps:
    """P(knows) is the mean over the three steps of .05, .55 and .97; a pause moves chances downwards, step by step.

    Each child has rates of climbing and of loss; each day of practice makes the loss of that skill slower.
    """

    def __init__(self, world: World, children: int, chance: np.random.Generator) -> None:
        self.world = world
        self.traits = Traits(children, chance)
        n = world.skills
        self.climbs = np.clip(chance.normal(0.3, 0.1, (children, 1)) + chance.normal(0, 0.06, (1, n)), 0.05, 0.8)
        self.loses = chance.lognormal(np.log(0.04), 0.45, (children, 1)) * chance.lognormal(0, 0.3, (children, n))
        self.known = np.zeros((children, n, 3))
        self.known[..., 0] = 1.0
        self.used = np.zeros((children, n))
        self.last = np.zeros((children, n))
        for skill in world.prior:
            self.known[:, skill] = (0.05, 0.25, 0.7)
            self.used[:, skill] = 10.0

    def _faded(self, children: Numbers, skills: Numbers, day: float) -> Floats:
        """The three chances on a day: top to middle at the child's rate, middle to bottom at half of it."""
        gap = np.maximum(day - self.last[children, skills], 0)
        rate = self.loses[children, skills] / (1 + 0.35 * self.used[children, skills])
        stays, middle = np.exp(-rate * gap), np.exp(-rate * gap / 2)
        low, mid, top = np.moveaxis(self.known[children, skills], -1, 0)
        moved = top * 2 * (middle - stays)
        return np.stack([low + mid * (1 - middle) + top * (1 - stays) - moved, mid * middle + moved, top * stays], -1)

    def chances(self, day: float) -> Floats:
        """P(right) of every child and skill on a day."""
        children, skills = np.divmod(np.arange(self.last.size), self.world.skills)
        return self.traits.shown((self._faded(children, skills, day) @ RIGHT).reshape(self.last.shape))

    def chance(self, children: Numbers, skills: Numbers, day: float) -> Floats:
        """P(right) of these pairs on a day."""
        return self.traits.shown_of(children, self._faded(children, skills, day) @ RIGHT)

    def _climb(self, children: Numbers, skills: Numbers, day: float, share: Floats, used: float) -> None:
        known = self._faded(children, skills, day)
        ready = mean_below_of(self.world, 1 - self.known[..., 0], children, skills)
        up = np.clip(share * self.climbs[children, skills] * (0.3 + 0.7 * ready), 0, 0.95)
        first, second = known[:, 0] * up, known[:, 1] * 0.8 * up
        known += np.stack([-first, first - second, second], -1)
        self.known[children, skills] = known
        self.used[children, skills] += used * (day > self.last[children, skills])
        self.last[children, skills] = day

    def teach(self, children: Numbers, skills: Numbers, day: float) -> None:
        """A lesson lifts twice as much as an answer looked over."""
        self._climb(children, skills, day, np.full(len(children), 1.6), 1.0)

    def practise(self, children: Numbers, skills: Numbers, day: float, right: Truths) -> None:
        """An answer, looked over, lifts; a right one more."""
        self._climb(children, skills, day, np.where(right, 0.7, 0.45), 1.0)

    def forgetting(self) -> Floats:
        """The mean rate of loss."""
        mean: Floats = self.loses.mean(axis=1)
        return mean

    def slowness(self) -> Floats:
        """The inverse of the mean rate of climbing."""
        mean: Floats = 1 / self.climbs.mean(axis=1)
        return mean
