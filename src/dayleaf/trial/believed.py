"""Virtual children of whom everything is drawn from what is believed of one real child."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from dayleaf.learner.cohort import PAIRS, TRAITS, Cohort
from dayleaf.learner.mind import ABILITY, PAUSING
from dayleaf.learner.outlook import chance, look
from dayleaf.trial.minds import Traits

if TYPE_CHECKING:
    from dayleaf.learner.mind import Mind
    from dayleaf.trial.minds import Floats, Numbers, Truths


class Believed:
    """The model of `learner` itself, with numbers that each virtual child has for good.

    The child's own numbers and each skill's offset are drawn from their means and covariances in `mind` and then keep
    their values: only practice and pauses move the chances. What the belief is unsure of differs between the children.
    """

    def __init__(self, mind: Mind, children: int, chance: np.random.Generator) -> None:
        self.traits = Traits(children, chance)
        cohort = Cohort.like(mind, children)
        cohort.parameters = replace(mind.parameters, drift=0.0)
        held = np.zeros((TRAITS, TRAITS))
        for place, (i, j) in enumerate(PAIRS):
            held[i, j] = held[j, i] = mind.spread[place]
        cohort.traits[:] = chance.multivariate_normal(np.array(mind.traits), held, children, method="eigh").T
        cohort.offset += chance.normal(0, 1, cohort.offset.shape) * np.sqrt(cohort.variance)
        cohort.variance[:] = 0.0
        cohort.spread[:] = 0.0
        self.cohort = cohort

    def chances(self, day: float) -> Floats:
        """P(right) of every child and skill on a day."""
        return look(self.cohort, day).p

    def chance(self, children: Numbers, skills: Numbers, day: float) -> Floats:
        """P(right) of these pairs on a day."""
        return chance(self.cohort.parameters, *self.cohort.seen(children, skills, day))

    def teach(self, children: Numbers, skills: Numbers, day: float) -> None:
        """A lesson."""
        self.cohort.teach(children, skills, day)

    def practise(self, children: Numbers, skills: Numbers, day: float, right: Truths) -> None:
        """An answer: it is counted, and since everything is known of such a child nothing else is learned from it."""
        self.cohort.answer(children, skills, day, right=right)

    def forgetting(self) -> Floats:
        """What a pause takes from each child."""
        takes: Floats = self.cohort.traits[PAUSING]
        return takes

    def slowness(self) -> Floats:
        """The negative of ability."""
        slow: Floats = -self.cohort.traits[ABILITY]
        return slow
