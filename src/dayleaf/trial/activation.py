"""Virtual children whose memory is activation: every practice leaves a trace that fades by a power of its age.

References:
    [1] Anderson, Schooler 1991: traces that fade by a power law.
    [2] Pavlik, Anderson 2005: a trace made while activation is high fades more quickly, which gives spacing.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from dayleaf.trial.minds import Traits, beneath_of, logistic, mean_by_pair

if TYPE_CHECKING:
    from dayleaf.trial.minds import Floats, Numbers, Truths
    from dayleaf.trial.world import World

TRACES = 32
"""Traces kept of a skill; the oldest is written over."""
APART = 0.02
"""Days between two items of one sitting."""


class Activation:
    """m = ln Σ (age of trace j)^(−dⱼ) with dⱼ = a + c·e^m at its making; P(knows) = logistic((m − threshold) / s)."""

    def __init__(self, world: World, children: int, chance: np.random.Generator) -> None:
        self.world = world
        self.traits = Traits(children, chance)
        n = world.skills
        self.decay = np.clip(chance.lognormal(np.log(0.2), 0.35, children), 0.08, 0.5)
        self.high = 0.02 * chance.lognormal(0, 0.3, children)
        self.threshold = 0.9 + chance.normal(0, 0.45, (children, 1)) + chance.normal(0, 0.35, (1, n))
        self.threshold = self.threshold + chance.normal(0, 0.3, (children, n))
        self.noise = 0.5
        self.times = np.full((children, n, TRACES), -np.inf)
        self.fades = np.full((children, n, TRACES), 0.5)
        self.sizes = np.zeros((children, n, TRACES))
        self.used = np.zeros((children, n), dtype=np.intp)
        for skill in world.prior:
            self._trace(np.arange(children), np.full(children, skill), -40.0, np.full(children, 6.0))

    def _strength(self, children: Numbers, skills: Numbers, day: float) -> Floats:
        age = np.maximum(day - self.times[children, skills], 0) + APART
        with np.errstate(divide="ignore"):
            total = (self.sizes[children, skills] * age ** -self.fades[children, skills]).sum(axis=-1)
            m: Floats = np.log(total)
        return m

    def _known(self, children: Numbers, skills: Numbers, day: float, below: Floats | None = None) -> Floats:
        if below is None:
            row, child, lower = beneath_of(self.world, children, skills)
            alone = (self._strength(child, lower, day) - self.threshold[child, lower]) / self.noise
            below = mean_by_pair(row, logistic(alone), len(skills))
        m = self._strength(children, skills, day)
        return logistic((m - self.threshold[children, skills] - 1.2 * (0.8 - below)) / self.noise)

    def chances(self, day: float) -> Floats:
        """P(right) of every child and skill on a day."""
        children, skills = np.divmod(np.arange(self.used.size), self.world.skills)
        m = self._strength(children, skills, day).reshape(self.used.shape) - self.threshold
        below = self.world.mean_below(logistic(m / self.noise))
        return self.traits.shown(logistic((m - 1.2 * (0.8 - below)) / self.noise))

    def chance(self, children: Numbers, skills: Numbers, day: float) -> Floats:
        """P(right) of these pairs on a day."""
        return self.traits.shown_of(children, self._known(children, skills, day))

    def _trace(self, children: Numbers, skills: Numbers, day: float, size: Floats) -> None:
        m = np.minimum(self._strength(children, skills, day), 4.0)
        place = self.used[children, skills] % TRACES
        self.fades[children, skills, place] = np.minimum(self.decay[children] + self.high[children] * np.exp(m), 0.9)
        self.times[children, skills, place] = day
        self.sizes[children, skills, place] = size
        self.used[children, skills] += 1

    def teach(self, children: Numbers, skills: Numbers, day: float) -> None:
        """A lesson leaves a trace of one and a half practices."""
        self._trace(children, skills, day, np.full(len(children), 1.5))

    def practise(self, children: Numbers, skills: Numbers, day: float, right: Truths) -> None:
        """A wrong answer, looked over, leaves the smaller trace."""
        self._trace(children, skills, day, np.where(right, 1.0, 0.6))

    def forgetting(self) -> Floats:
        """The decay of a fresh trace."""
        return self.decay

    def slowness(self) -> Floats:
        """The mean threshold."""
        mean: Floats = self.threshold.mean(axis=1)
        return mean
