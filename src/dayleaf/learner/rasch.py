"""Difficulties of items that do not depend on who answered them: the Rasch model by conditional maximum likelihood.

P(right) = 1 / (1 + e^(b − θ)). Given how many items a child has right, which ones depends on the difficulties b alone;
so the totals of the items and the counts of the scores are all that is needed.

References:
    [1] Andersen 1972: conditional maximum likelihood.
    [2] Fischer 1974: the summation algorithm for elementary symmetric functions.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np

from dayleaf.core.errors import DayleafError

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

STEPS: Final = 100
CLOSE: Final = 1e-10


class ScoresDoNotFit(DayleafError):
    """Item totals and score counts that cannot come from the same answers."""

    def __init__(self, *, by_items: int, by_scores: int) -> None:
        super().__init__(f"The items were right {by_items} times, but the scores add up to {by_scores}.")


@dataclass(frozen=True, slots=True)
class Rasch:
    """Difficulties in logits (sum 0), the conditional log-likelihood, and the ability for each score 1 … n − 1."""

    difficulties: tuple[float, ...]
    log_likelihood: float
    abilities: tuple[float, ...]


def fit_rasch(item_totals: Sequence[int], score_counts: Sequence[int]) -> Rasch:
    """Difficulties from how often each item was right and how many children had each score 0 … n.

    Raises:
        ScoresDoNotFit: the two do not add up to the same number of right answers.
    """
    totals = np.array(item_totals, dtype=np.float64)
    counts = np.array(score_counts, dtype=np.float64)
    by_scores = int(counts @ np.arange(len(counts)))
    if int(totals.sum()) != by_scores or len(counts) != len(totals) + 1:
        raise ScoresDoNotFit(by_items=int(totals.sum()), by_scores=by_scores)
    told = totals - counts[-1]  # all right and none right say nothing
    inner = counts[1:-1]
    b = -np.log(totals / (counts.sum() - totals))
    b -= b.mean()
    for _ in range(STEPS):
        chance = _chances_given_score(b)
        gradient = inner @ chance[1:-1] - told
        hessian = _information(b, inner)
        step = np.linalg.lstsq(hessian, gradient, rcond=None)[0]
        b = b + step
        b -= b.mean()
        if np.abs(step).max() < CLOSE:
            break
    gamma = _symmetric(np.exp(-b))
    likelihood = -float(told @ b) - float(inner @ np.log(gamma[1:-1]))
    return Rasch(tuple(b.tolist()), likelihood, tuple(_ability(b, score) for score in range(1, len(b))))


def _symmetric(easiness: Floats) -> Floats:
    """Elementary symmetric functions γ₀ … γₙ by summation."""
    gamma = np.zeros(len(easiness) + 1)
    gamma[0] = 1
    for one in easiness:
        gamma[1:] += one * gamma[:-1].copy()
    return gamma


def _chances_given_score(b: Floats) -> Floats:
    """P(item right | score), scores in rows."""
    easiness = np.exp(-b)
    gamma = _symmetric(easiness)
    chance = np.zeros((len(b) + 1, len(b)))
    for item in range(len(b)):
        others = _symmetric(np.delete(easiness, item))
        chance[1:, item] = easiness[item] * others / gamma[1:]
    return chance


def _information(b: Floats, inner: Floats) -> Floats:
    """Covariances of the items given the score, summed over children."""
    easiness = np.exp(-b)
    gamma = _symmetric(easiness)[1:-1]
    chance = _chances_given_score(b)[1:-1]
    n = len(b)
    found = np.zeros((n, n))
    for one in range(n):
        for other in range(one, n):
            if one == other:
                both = chance[:, one]
            else:
                rest = np.concatenate([[0.0], _symmetric(np.delete(easiness, [one, other]))])[: n - 1]
                both = easiness[one] * easiness[other] * rest / gamma
            found[one, other] = found[other, one] = inner @ (both - chance[:, one] * chance[:, other])
    return found


def _ability(b: Floats, score: int) -> float:
    """The θ at which the expected score is `score` (maximum likelihood)."""
    theta = 0.0
    for _ in range(STEPS):
        chance = 1 / (1 + np.exp(b - theta))
        step = (score - chance.sum()) / (chance * (1 - chance)).sum()
        theta += float(np.clip(step, -1, 1))
        if abs(step) < CLOSE:
            break
    return theta


def information(theta: float, difficulties: Sequence[float], *, slope: float = 1.0) -> float:
    """Σ a² P (1 − P) of these items at an ability, for slope a; its inverse root is the standard error."""
    chance = 1 / (1 + np.exp(-slope * (theta - np.array(difficulties, dtype=np.float64))))
    return float((slope**2 * chance * (1 - chance)).sum())
