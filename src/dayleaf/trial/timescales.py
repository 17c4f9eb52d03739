"""Virtual children whose memory has many time scales, and who keep wrong procedures.

References:
    [1] Staddon, Chelaru, Higa 2002; Mozer et al. 2009: a cascade of leaky stores, in which only what is not yet
        held by the quicker ones is learned by the slower.
    [2] Persistent wrong procedures that come back: VanLehn 1990 (CHECKS D.1).
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from dayleaf.trial.minds import Traits, beneath_of, logistic, mean_by_pair

if TYPE_CHECKING:
    from dayleaf.trial.minds import Floats, Numbers, Truths
    from dayleaf.trial.world import World

TIMES = np.array([0.7, 3.0, 14.0, 60.0, 300.0])
UPTAKE = np.array([0.6, 0.4, 0.22, 0.12, 0.06])
WEIGHT = np.array([0.1, 0.15, 0.2, 0.25, 0.3])
HABITS = 0.2
"""Share of skills for which a child picks up a wrong procedure at the lesson."""
APPLIED = 0.75


class Timescales:
    """Five leaky stores a skill; P(knows) = logistic(9 (Σ w x − threshold)), less where a wrong procedure is used."""

    def __init__(self, world: World, children: int, chance: np.random.Generator) -> None:
        self.world = world
        self.traits = Traits(children, chance)
        n = world.skills
        self.rate = chance.lognormal(0, 0.35, children)
        self.lasting = chance.lognormal(0, 0.35, children)
        self.threshold = 0.21 + chance.normal(0, 0.05, (children, n)) + chance.normal(0, 0.04, (1, n))
        self.stores = np.zeros((children, n, len(TIMES)))
        self.stand = np.zeros((children, n))
        self.wrongly = np.zeros((children, n))
        self.inclined = chance.random((children, n)) < HABITS
        self.met = np.zeros((children, n), dtype=bool)
        for skill in world.prior:
            self.stores[:, skill] = chance.uniform(0.3, 0.9, (children, 1)) * np.array([0, 0, 0.3, 0.7, 0.9])

    def _faded(self, children: Numbers, skills: Numbers, day: float) -> Floats:
        gap = np.maximum(day - self.stand[children, skills], 0)
        fades = np.exp(-gap[:, None] / (TIMES * self.lasting[children][:, None]))
        faded: Floats = self.stores[children, skills] * fades
        return faded

    def _known(self, children: Numbers, skills: Numbers, day: float, below: Floats | None = None) -> Floats:
        held = self._faded(children, skills, day) @ WEIGHT
        if below is None:
            row, child, lower = beneath_of(self.world, children, skills)
            below = mean_by_pair(row, self._known(child, lower, day, np.full(len(row), 0.8)), len(skills))
        known = logistic(9 * (held - self.threshold[children, skills] - 0.3 * (0.8 - below)))
        return known * (1 - APPLIED * self.wrongly[children, skills])

    def chances(self, day: float) -> Floats:
        """P(right) of every child and skill on a day."""
        children, skills = np.divmod(np.arange(self.stand.size), self.world.skills)
        alone = self._known(children, skills, day, np.full(len(skills), 0.8)).reshape(self.stand.shape)
        below = self.world.mean_below(alone).ravel()
        return self.traits.shown(self._known(children, skills, day, below).reshape(self.stand.shape))

    def chance(self, children: Numbers, skills: Numbers, day: float) -> Floats:
        """P(right) of these pairs on a day."""
        return self.traits.shown_of(children, self._known(children, skills, day))

    def _learn(self, children: Numbers, skills: Numbers, day: float, amount: Floats) -> None:
        stores = self._faded(children, skills, day)
        missing = np.maximum(1 - np.cumsum(stores, axis=1) / np.arange(1, len(TIMES) + 1), 0)
        share = (self.rate[children] * amount)[:, None] * UPTAKE * missing
        self.stores[children, skills] = stores + np.minimum(share, 1) * (1 - stores)
        self.stand[children, skills] = day

    def teach(self, children: Numbers, skills: Numbers, day: float) -> None:
        """A lesson; the first one may leave a wrong procedure, a later one mends some of it."""
        first = ~self.met[children, skills]
        new = first & self.inclined[children, skills]
        self.wrongly[children, skills] = np.where(new, 0.9, self.wrongly[children, skills] * 0.6)
        self.met[children, skills] = True
        self._learn(children, skills, day, np.full(len(children), 1.5))

    def practise(self, children: Numbers, skills: Numbers, day: float, right: Truths) -> None:
        """An answer; a wrong one, looked over, mends a little of a wrong procedure."""
        self.wrongly[children, skills] *= np.where(right, 0.985, 0.93)
        self._learn(children, skills, day, np.where(right, 1.0, 0.5))

    def forgetting(self) -> Floats:
        """The inverse of how long the stores last."""
        return 1 / self.lasting

    def slowness(self) -> Floats:
        """The inverse of the rate of learning."""
        return 1 / self.rate
