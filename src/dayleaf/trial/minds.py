"""What every virtual child has, whatever its memory: slips, guesses, missed days, help."""

from __future__ import annotations

from typing import TYPE_CHECKING, Protocol

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from dayleaf.trial.world import World

    Floats = NDArray[np.float64]
    Numbers = NDArray[np.intp]
    Truths = NDArray[np.bool_]


class Memory(Protocol):
    """A way to learn and forget, of many children at once. Rows are children, columns skills.

    `children` and `skills` are arrays of equal length that name each pair at most once.
    """

    def chances(self, day: float) -> Floats:
        """P(right) of every child and skill on a day."""

    def chance(self, children: Numbers, skills: Numbers, day: float) -> Floats:
        """P(right) of these pairs on a day."""

    def teach(self, children: Numbers, skills: Numbers, day: float) -> None:
        """A lesson."""

    def practise(self, children: Numbers, skills: Numbers, day: float, right: Truths) -> None:
        """An answer, looked over afterwards."""

    def forgetting(self) -> Floats:
        """How quickly each child forgets, in an order of the memory's own: larger is quicker."""

    def slowness(self) -> Floats:
        """How slowly each child learns: larger is slower."""


class Traits:
    """Slips, guesses, missed days and help of each child, drawn by seed."""

    def __init__(self, children: int, chance: np.random.Generator) -> None:
        self.slip = chance.uniform(0.02, 0.08, (children, 1))
        self.guess = chance.uniform(0.02, 0.08, (children, 1))
        self.missed = chance.uniform(0.0, 0.1, children)
        self.helped = chance.uniform(0.0, 0.1, children)

    def shown(self, known: Floats) -> Floats:
        """P(right) where the chance of knowing is `known`, children in rows."""
        return self.guess + (1 - self.guess - self.slip) * known

    def shown_of(self, children: Numbers, known: Floats) -> Floats:
        """The same for pairs."""
        guess, slip = self.guess[children, 0], self.slip[children, 0]
        shown: Floats = guess + (1 - guess - slip) * known
        return shown


def logistic(x: Floats) -> Floats:
    """1 / (1 + e^−x)."""
    chance: Floats = 1 / (1 + np.exp(-np.clip(x, -40, 40)))
    return chance


def beneath_of(world: World, children: Numbers, skills: Numbers) -> tuple[Numbers, Numbers, Numbers]:
    """What lies beneath these pairs: the pair's place, its child and the lower skill, one entry a link."""
    below = world.graph.below
    many = below.many[skills]
    row = np.repeat(np.arange(len(skills)), many)
    within = np.arange(len(row)) - np.repeat(np.cumsum(many) - many, many)
    return row, children[row], below.lower[below.first[skills][row] + within]


def mean_by_pair(row: Numbers, levels: Floats, pairs: int) -> Floats:
    """The mean of `levels` over the entries of each pair; 1 where it has none."""
    many = np.bincount(row, minlength=pairs)
    total = np.bincount(row, weights=levels, minlength=pairs)
    mean: Floats = np.where(many > 0, total / np.maximum(many, 1), 1.0)
    return mean


def mean_below_of(world: World, levels: Floats, children: Numbers, skills: Numbers) -> Floats:
    """The mean of `levels` over what lies beneath each skill of these pairs; 1 where nothing does."""
    row, child, lower = beneath_of(world, children, skills)
    return mean_by_pair(row, levels[child, lower], len(skills))
