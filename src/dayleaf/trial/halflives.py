"""Virtual children who learn a skill all at once or not at all, and forget it by a half-life that grows with use.

References:
    [1] All-or-none learning: Bower 1961.
    [2] A half-life that grows with each success: Settles, Meeder 2016 (the form, not its numbers).
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from dayleaf.trial.minds import Traits, mean_below_of

if TYPE_CHECKING:
    from dayleaf.trial.minds import Floats, Numbers, Truths
    from dayleaf.trial.world import World


class Halflives:
    """P(knows) = learned · 2^(−days since practice / half-life).

    With `lapses`, knowing is itself all or none: between two practices the skill is lost or it is not.
    """

    def __init__(self, world: World, children: int, chance: np.random.Generator, *, lapses: bool = False) -> None:
        self.world = world
        self.chance_ = chance
        self.lapses = lapses
        self.traits = Traits(children, chance)
        n = world.skills
        self.quick = np.clip(chance.normal(0.4, 0.12, (children, 1)) + chance.normal(0, 0.1, (1, n)), 0.08, 0.9)
        self.first = chance.lognormal(np.log(14), 0.45, (children, 1)) * chance.lognormal(0, 0.35, (children, n))
        self.growth = np.clip(chance.normal(1.3, 0.35, (children, 1)), 0.4, 2.5)
        self.half = self.first.copy()
        self.learned = np.zeros((children, n), dtype=bool)
        self.last = np.zeros((children, n))
        self.lost_at = np.full((children, n), np.inf)
        for skill in world.prior:
            self.learned[:, skill] = chance.random(children) < 0.9
            self.half[:, skill] = chance.lognormal(np.log(120), 0.6, children)
        self._draw_loss(*np.divmod(np.arange(children * n), n))

    def _draw_loss(self, children: Numbers, skills: Numbers) -> None:
        until = self.chance_.exponential(1, len(children)) / np.log(2) * self.half[children, skills]
        self.lost_at[children, skills] = self.last[children, skills] + until

    def redraw(self, day: float, chance: np.random.Generator) -> None:
        """Let chance decide anew what is lost after `day`: what is held then is lost at the same rate as ever."""
        self.chance_ = chance
        held = self.lost_at > day
        until = day + chance.exponential(1, self.lost_at.shape) / np.log(2) * self.half
        self.lost_at = np.where(held, until, self.lost_at)

    def _held(self, children: Numbers, skills: Numbers, day: float) -> Floats:
        if self.lapses:
            return (day < self.lost_at[children, skills]).astype(np.float64)
        gap = np.maximum(day - self.last[children, skills], 0)
        return np.exp2(-gap / self.half[children, skills])

    def _known(self, children: Numbers, skills: Numbers, day: float) -> Floats:
        return self.learned[children, skills] * self._held(children, skills, day)

    def chances(self, day: float) -> Floats:
        """P(right) of every child and skill on a day."""
        children, skills = np.divmod(np.arange(self.last.size), self.world.skills)
        return self.traits.shown(self._known(children, skills, day).reshape(self.last.shape))

    def chance(self, children: Numbers, skills: Numbers, day: float) -> Floats:
        """P(right) of these pairs on a day."""
        return self.traits.shown_of(children, self._known(children, skills, day))

    def _learn(self, children: Numbers, skills: Numbers, chance: Floats, day: float) -> None:
        """Learn at once with `chance`, less where what lies beneath is not learned."""
        ready = mean_below_of(self.world, self.learned.astype(np.float64), children, skills)
        now = ~self.learned[children, skills] & (self.chance_.random(len(children)) < chance * (0.2 + 0.8 * ready))
        self.learned[children, skills] |= now
        self.last[children[now], skills[now]] = day
        self._draw_loss(children[now], skills[now])

    def teach(self, children: Numbers, skills: Numbers, day: float) -> None:
        """A lesson: learned at once or not; what was learned before is fresh again."""
        self.last[children, skills] = np.where(self.learned[children, skills], day, self.last[children, skills])
        self._draw_loss(children, skills)
        self._learn(children, skills, 1.5 * self.quick[children, skills], day)

    def practise(self, children: Numbers, skills: Numbers, day: float, right: Truths) -> None:
        """A right answer lengthens the half-life, most after a long pause; a wrong one may renew."""
        had = self.learned[children, skills]
        held = self._held(children, skills, day)
        gap = np.maximum(day - self.last[children, skills], 0)
        faded = 1 - np.exp2(-gap / self.half[children, skills])
        grows = right & had & (held > 0)
        self.half[children, skills] *= np.where(grows, 1 + self.growth[children, 0] * faded + 0.01, 1.0)
        renewed = grows | (had & ~right & (self.chance_.random(len(children)) < 0.6))
        dull = had & ~right
        low = np.maximum(self.half[children, skills] * 0.85, self.first[children, skills] * 0.7)
        self.half[children, skills] = np.where(dull, low, self.half[children, skills])
        self.last[children[renewed], skills[renewed]] = day
        self._draw_loss(children[renewed], skills[renewed])
        self._learn(children, skills, 0.35 * self.quick[children, skills], day)

    def forgetting(self) -> Floats:
        """The inverse of the mean first half-life."""
        mean: Floats = 1 / self.first.mean(axis=1)
        return mean

    def slowness(self) -> Floats:
        """The inverse of the mean chance of learning at a lesson."""
        mean: Floats = 1 / self.quick.mean(axis=1)
        return mean
