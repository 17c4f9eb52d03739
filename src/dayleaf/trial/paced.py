"""Lessons at each child's own pace: repeat what is not firm, use what is left over for what is least sure."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from dayleaf.learner.outlook import look
from dayleaf.learner.pacing import FIRM, LEVEL, MOST_BEHIND, MOST_REPEATS, RETEACH_AFTER, RETEACH_BELOW

if TYPE_CHECKING:
    from dayleaf.trial.minds import Floats, Numbers
    from dayleaf.trial.policies import Ours
    from dayleaf.trial.world import World


class Paced:
    """The rules of `learner.pacing` for many children at once, on top of what `Ours` believes.

    The course's skills stand in order, evenly spread over the year's days. A child repeats a skill, at most twice and
    never more than three lessons late; a day that is left over teaches again the lowest chance below .55 not taught for
    nine days, or gives its front to what is worth most.
    """

    def __init__(self, world: World, children: int, ours: Ours) -> None:
        self.world, self.ours = world, ours
        self.order = np.array(list(dict.fromkeys(world.lessons)))
        self.next = np.zeros(children, dtype=np.intp)
        self.times = np.zeros((children, world.skills), dtype=np.intp)
        self.taught_on = np.full((children, world.skills), -np.inf)

    def lessons(self, children: Numbers, number: int, day: float) -> Numbers:
        """What is taught to each child on the day of that number."""
        due = np.minimum(int((number + 1) * len(self.order) / len(self.world.days)) + 1, len(self.order))
        now = look(self.ours.cohort, day)
        firm, p = now.firm(LEVEL)[children], now.p[children]
        rows = np.arange(len(children))
        place = self.next[children]
        current = self.order[np.maximum(place - 1, 0)]
        repeats = self.times[children, current]
        again = (place > 0) & (firm[rows, current] < FIRM) & (repeats <= MOST_REPEATS) & (due - place < MOST_BEHIND)
        fresh = ~again & (place < due)
        chosen = np.where(again, current, self.order[np.minimum(place, len(self.order) - 1)])
        spare = ~again & ~fresh
        if spare.any():
            chosen[spare] = self._spare(children[spare], p[spare], day)
        self.next[children[fresh]] += 1
        self.times[children, chosen] += 1
        self.taught_on[children, chosen] = day
        return chosen

    def _spare(self, children: Numbers, p: Floats, day: float) -> Numbers:
        taught = np.isfinite(self.taught_on[children])
        waits = taught & (day - self.taught_on[children] >= RETEACH_AFTER) & (p < RETEACH_BELOW)
        lowest = np.where(waits, p, np.inf)
        worth = np.where(taught, self.ours.score(day)[children], -np.inf)
        chosen: Numbers = np.where(waits.any(axis=1), lowest.argmin(axis=1), worth.argmax(axis=1))
        return chosen
