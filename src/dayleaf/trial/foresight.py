"""A way to choose a back that sees what every child knows, how its memory works, and the turns still to come."""

from __future__ import annotations

from copy import deepcopy
from typing import TYPE_CHECKING

import numpy as np

from dayleaf.trial.policies import Seen
from dayleaf.trial.year import AFTER

if TYPE_CHECKING:
    from dayleaf.trial.minds import Floats, Memory, Numbers
    from dayleaf.trial.world import World

LIVES = 2
"""Lives that are lived on for each choice, with asking now and without, by the same chances."""
SPREAD = 0.5
"""The gain counts by so much more the longer a skill has waited: 0 and 1 did less well in most memories."""


class Foresight(Seen):
    """Asks what truly gains most at the year's end if every skill has its turns in rotation from here on.

    The gain is measured on copies of the children, 1 and 60 days after the year. What chance has not drawn yet is
    drawn anew in each copy, so the truth is seen, but no luck. A strong way for the others to be measured by; it is no
    upper bound, since it improves on rotation by one choice at a time.
    """

    def __init__(self, world: World, children: int, seed: int, *, memory: Memory) -> None:
        super().__init__(world, children, seed)
        self.memory = memory
        self.end = float(world.days[-1])

    def choose(self, children: Numbers, today: Numbers, day: float, n: int) -> Numbers:
        """By the true gain."""
        every = max(2.0, self.met.sum(axis=1).mean() / n * 7 / 5)
        turns = np.arange(day + every, self.end + 0.5, every)
        gain = np.zeros(self.met.shape)
        for seed in self.chance.integers(1 << 30, size=LIVES).tolist():
            gain += self._lived(seed, day, turns, now=True) - self._lived(seed, day, turns, now=False)
        waited = np.clip(day - self.last, 0, 60) ** SPREAD
        scores = np.maximum(gain, 1e-9) * waited + 1e-7 * self.chance.random(gain.shape)
        return self.best(children, today, scores[children], n)

    def _lived(self, seed: int, day: float, turns: Floats, *, now: bool) -> Floats:
        """P(right) after the year where every skill met is asked at these turns, and today or not."""
        chance = np.random.default_rng(seed)
        memory = deepcopy(self.memory)
        redraw = getattr(memory, "redraw", None)
        if redraw is not None:
            redraw(day, chance)
        children, skills = np.nonzero(self.met)
        first = chance.random(len(children))
        if now:
            memory.practise(children, skills, day, first < memory.chance(children, skills, day))
        for turn in turns.tolist():
            right = chance.random(len(children)) < memory.chance(children, skills, turn)
            memory.practise(children, skills, turn, right)
        mean: Floats = np.mean([memory.chances(self.end + days) for days in AFTER], axis=0)
        return mean
