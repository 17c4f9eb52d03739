"""Ways to choose a back: rotation, oldest first, expanding boxes, ours."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from dayleaf.learner.cohort import Cohort
from dayleaf.learner.outlook import look
from dayleaf.learner.parameters import DEFAULT, Parameters
from dayleaf.learner.worth import worth

if TYPE_CHECKING:
    from dayleaf.trial.minds import Floats, Numbers, Truths
    from dayleaf.trial.world import World

NONE = -1
BOXES = np.array([1, 2, 4, 8, 16, 32, 64])
"""Days until a skill in a box is due: each right answer moves it one box on, a wrong one to the first."""


class Seen:
    """What every policy keeps: which skills a child met, and when it was last asked."""

    def __init__(self, world: World, children: int, seed: int) -> None:
        self.world = world
        self.chance = np.random.default_rng(seed)
        self.met = np.zeros((children, world.skills), dtype=bool)
        self.last = np.full((children, world.skills), -np.inf)

    def taught(self, children: Numbers, skills: Numbers, day: float) -> None:
        """A lesson was taught."""
        self.met[children, skills] = True
        self.last[children, skills] = day

    def answered(self, children: Numbers, skills: Numbers, day: float, *, right: Truths, helped: Truths) -> None:  # noqa: ARG002 (the interface's)
        """An answer of each of these children."""
        self.last[children, skills] = day

    def best(self, children: Numbers, today: Numbers, score: Floats, n: int) -> Numbers:
        """The `n` met skills with the highest score for each child."""
        score = np.where(self.met[children], score, -np.inf)
        some = today >= 0
        score[np.flatnonzero(some), today[some]] = -np.inf
        n = min(n, score.shape[1])
        top = np.argpartition(-score, n - 1, axis=1)[:, :n]
        return np.where(np.take_along_axis(score, top, axis=1) > -np.inf, top, NONE)


class Rotation(Seen):
    """Every skill met in turn; a new one joins at the end of the round. Fronts change nobody's turn."""

    def __init__(self, world: World, children: int, seed: int) -> None:
        super().__init__(world, children, seed)
        self.turn = np.zeros((children, world.skills))
        self.count = 0

    def choose(self, children: Numbers, today: Numbers, day: float, n: int) -> Numbers:  # noqa: ARG002 (the interface's)
        """Those whose last turn lies farthest back."""
        self.count += 1
        score = self.chance.random(self.met[children].shape) - self.turn[children]
        backs = self.best(children, today, score, n)
        rows, places = np.nonzero(backs >= 0)
        self.turn[children[rows], backs[rows, places]] = self.count
        return backs

    def taught(self, children: Numbers, skills: Numbers, day: float) -> None:
        """A new skill joins at the end of the round."""
        new = ~self.met[children, skills]
        self.turn[children[new], skills[new]] = self.count
        super().taught(children, skills, day)


class OldestFirst(Seen):
    """The skills not asked for longest."""

    def choose(self, children: Numbers, today: Numbers, day: float, n: int) -> Numbers:
        """Longest first."""
        score = day - self.last[children] + 0.5 * self.chance.random(self.met[children].shape)
        return self.best(children, today, score, n)


class Boxes(Seen):
    """Expanding boxes: due after 1, 2, 4, … days; the most overdue first."""

    def __init__(self, world: World, children: int, seed: int) -> None:
        super().__init__(world, children, seed)
        self.box = np.zeros((children, world.skills), dtype=np.intp)
        self.moved = np.full((children, world.skills), -np.inf)

    def answered(self, children: Numbers, skills: Numbers, day: float, *, right: Truths, helped: Truths) -> None:
        """One box on for a right answer, once a day; back to the first for a wrong one."""
        fresh = self.moved[children, skills] < day
        on = np.minimum(self.box[children, skills] + (right & fresh), len(BOXES) - 1)
        self.box[children, skills] = np.where(right, on, 0)
        self.moved[children, skills] = day
        super().answered(children, skills, day, right=right, helped=helped)

    def choose(self, children: Numbers, today: Numbers, day: float, n: int) -> Numbers:
        """The most overdue by the share of its waiting time."""
        waited = (day - self.last[children]) / BOXES[self.box[children]]
        return self.best(children, today, waited + 0.01 * self.chance.random(waited.shape), n)


class Ours(Seen):
    """What the app does, for many children at once, with the same model."""

    def __init__(
        self, world: World, children: int, seed: int, *, parameters: Parameters = DEFAULT, random_share: float = 0.1
    ) -> None:
        super().__init__(world, children, seed)
        self.cohort = Cohort(world.graph, children, parameters)
        self.random_share = random_share

    def taught(self, children: Numbers, skills: Numbers, day: float) -> None:
        """A lesson was taught."""
        self.cohort.teach(children, skills, day)
        super().taught(children, skills, day)

    def answered(self, children: Numbers, skills: Numbers, day: float, *, right: Truths, helped: Truths) -> None:
        """An answer of each of these children."""
        self.cohort.answer(children, skills, day, right=right, weight=np.where(helped, 0.5, 1.0))
        super().answered(children, skills, day, right=right, helped=helped)

    def score(self, day: float) -> Floats:
        """What asking is worth, by child and skill."""
        return worth(self.cohort, look(self.cohort, day), day)

    def choose(self, children: Numbers, today: Numbers, day: float, n: int) -> Numbers:
        """The most useful, and a share of places at random."""
        score = self.score(day)[children]
        drawn = self.chance.random(score.shape)
        share = n * self.random_share / max(1, score.shape[1])
        return self.best(children, today, np.where(drawn < share, 1e6 + drawn, score), n)
