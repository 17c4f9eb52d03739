"""Performance factors: the logit of a right answer rises with the right and the wrong answers so far.

Here as a referee: our own model is measured against it, fitted on the same children.

References:
    [1] Pavlik, Cen, Koedinger 2009 (values in CHECKS D.6).
"""

from __future__ import annotations

from dataclasses import dataclass
from math import exp
from typing import TYPE_CHECKING, Final

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]
    Numbers = NDArray[np.intp]
    Truths = NDArray[np.bool_]

RIDGE: Final = 1.0
"""A weak pull to 0, which keeps a skill with few answers within reason."""
ROUNDS: Final = 25


@dataclass(frozen=True, slots=True)
class Factors:
    """logit P(right) = start + rights · (right answers so far) + wrongs · (wrong ones); one entry a skill."""

    start: Floats
    rights: Floats
    wrongs: Floats

    def chances(self, skill: Numbers, rights: Floats, wrongs: Floats) -> Floats:
        """P(right) of flat answers with their counts so far."""
        logit = self.start[skill] + self.rights[skill] * rights + self.wrongs[skill] * wrongs
        chance: Floats = 1 / (1 + np.exp(-logit))
        return chance


def factor_chance(*, start: float, rights: float, wrongs: float, right: int, wrong: int) -> float:
    """P(right) of one skill after so many right and wrong answers."""
    return 1 / (1 + exp(-(start + rights * right + wrongs * wrong)))


def fit_factors(skill: Numbers, rights: Floats, wrongs: Floats, right: Truths, *, skills: int) -> Factors:
    """Parameters of each skill by Newton's method on flat answers: skill, counts before, right or not."""
    inputs = np.stack([np.ones(len(skill)), rights, wrongs], axis=1)
    found = np.zeros((skills, 3))
    products = (inputs[:, :, None] * inputs[:, None, :]).reshape(len(skill), 9)
    for _ in range(ROUNDS):
        p = 1 / (1 + np.exp(-(inputs * found[skill]).sum(axis=1)))
        slope = np.stack([np.bincount(skill, (right - p) * inputs[:, one], skills) for one in range(3)], axis=1)
        bend = np.stack([np.bincount(skill, p * (1 - p) * products[:, one], skills) for one in range(9)], axis=1)
        hessian = bend.reshape(skills, 3, 3) + RIDGE * np.eye(3)
        step = np.linalg.solve(hessian, (slope - RIDGE * found)[..., None])[..., 0]
        found += np.clip(step, -1, 1)
        if np.abs(step).max() < 1e-8:
            break
    return Factors(found[:, 0].copy(), found[:, 1].copy(), found[:, 2].copy())


def counts_before(child: Numbers, skill: Numbers, right: Truths) -> tuple[Floats, Floats]:
    """How many right and wrong answers each child gave to the skill before each answer; answers in order of time."""
    key = child.astype(np.int64) * (int(skill.max(initial=0)) + 1) + skill
    order = np.argsort(key, kind="stable")
    sorted_right = right[order].astype(np.float64)
    begins = np.flatnonzero(np.diff(key[order], prepend=-1))
    group = np.cumsum(np.isin(np.arange(len(key)), begins)) - 1
    rights = np.cumsum(sorted_right) - sorted_right
    rights -= rights[begins][group]
    turns = np.arange(len(key)) - begins[group]
    before_right, before_wrong = np.empty(len(key)), np.empty(len(key))
    before_right[order], before_wrong[order] = rights, turns - rights
    return before_right, before_wrong
