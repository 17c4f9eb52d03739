"""Memory seen from a day, all skills at once: chances and how sure they are.

Works on one child (`Mind`: arrays over skills) and on many (`Cohort`: children in rows, skills in columns) alike.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import erfc, log, sqrt
from typing import TYPE_CHECKING, Final

import numpy as np

from dayleaf.learner.mind import GAUSS, NEVER

if TYPE_CHECKING:
    from array import array

    from numpy.typing import NDArray

    from dayleaf.learner.cohort import Cohort
    from dayleaf.learner.mind import Mind

    Floats = NDArray[np.float64]
    Numbers = NDArray[np.intp]

LEVEL: Final = 0.7
"""Firmness asks for at least this chance of a right answer (DESIGN 9: go on if P(p ≥ .7) ≥ .5)."""


@dataclass(frozen=True, slots=True)
class Outlook:
    """All skills on one day, as arrays in the graph's order.

    `eta` is the mean and `variance` the variance of the logit (before guessing and slips), `p` the chance of a
    right answer to a written item.
    """

    mind: Mind | Cohort
    eta: Floats
    variance: Floats
    p: Floats

    def sd(self) -> Floats:
        """The standard deviation of the chance of a right answer, by its slope at the mean."""
        know = self.mind.parameters
        q = logistic(self.eta)
        return (1 - know.guess - know.slip) * q * (1 - q) * np.sqrt(self.variance)

    def firm(self, level: float = LEVEL) -> Floats:
        """P(p ≥ level) = (1 − l) Φ((η − logit((level − g) / (1 − g − s))) / √V) + l (p − g) / (1 − g − s).

        The second term is the chance that the skill is there at all; l is the share of `lumpy` memory.
        """
        know = self.mind.parameters
        share = (level - know.guess) / (1 - know.guess - know.slip)
        if not 0 < share < 1:
            return np.full(len(self.eta), 1.0 if share <= 0 else 0.0)
        even = normal((self.eta - log(share / (1 - share))) / np.sqrt(self.variance))
        if not know.lumpy:
            return even
        there = (self.p - know.guess) / (1 - know.guess - know.slip)
        return (1 - know.lumpy) * even + know.lumpy * there


def look(mind: Mind | Cohort, day: float | Floats) -> Outlook:
    """All skills on `day`, or each skill on its own day; a later day is a longer pause. Nothing is changed."""
    eta, z = etas_on(mind, day)
    variance = _offset_variance(mind, day) + _shared(mind, z)
    return Outlook(mind=mind, eta=eta, variance=variance, p=chance(mind, eta, variance))


def chance(mind: Mind | Cohort, eta: Floats, variance: Floats) -> Floats:
    """P(right) = g + (1 − g − s) · logistic(η / √(1 + πV/8))."""
    know = mind.parameters
    return know.guess + (1 - know.guess - know.slip) * logistic(eta / np.sqrt(1 + GAUSS * variance))


def logistic(x: Floats) -> Floats:
    """1 / (1 + e^−x)."""
    return 1 / (1 + np.exp(-x))


def normal(x: Floats) -> Floats:
    """The normal distribution function."""
    root = sqrt(0.5)
    return np.array([0.5 * erfc(-root * one) for one in x.ravel().tolist()]).reshape(x.shape)


def last_seen(mind: Mind | Cohort) -> Floats:
    """The last day with a lesson or an answer, by skill; −∞ where there was none."""
    return np.maximum(field(mind.asked_on), field(mind.taught_on))


def field(values: array[float] | Floats) -> Floats:
    """An array of a mind as numpy sees it: the same memory."""
    return values if isinstance(values, np.ndarray) else np.frombuffer(values, dtype=np.float64)


def _gaps(days: float | Floats, last: Floats) -> Floats:
    """Days gone by since `last`; 0 where there was none."""
    gap: Floats = np.maximum(days - np.maximum(last, -1e9), 0)
    gap[last == NEVER] = 0
    return gap


def _pauses(mind: Mind | Cohort, days: float | Floats) -> Floats:
    z: Floats = np.log1p(_gaps(days, last_seen(mind)) / mind.parameters.pause)
    return z


def _shared(mind: Mind | Cohort, z: Floats) -> Floats:
    """The variance that a skill's logit has from the child's ability and pausing."""
    return mind.ability_variance - 2 * z * mind.shared_variance + z**2 * mind.pausing_variance


def _offset_variance(mind: Mind | Cohort, days: float | Floats) -> Floats:
    know = mind.parameters
    gap = _gaps(days, field(mind.stand))
    return np.minimum(know.variance_cap, field(mind.variance) + know.drift * gap)


def counts_on(mind: Mind | Cohort, days: float | Floats, of: Numbers | None = None) -> Floats:
    """The four counts, one a row, faded to `days`; of all skills, or of skill `of[e]` on `days[e]`."""
    know = mind.parameters
    fields = [field(one) for one in (mind.stand, mind.recent, mind.month, mind.term, mind.wrong)]
    if of is not None:
        fields = [one[..., of] for one in fields]
    gap = _gaps(days, fields[0])
    counts = np.empty((4, *gap.shape))
    for place, (one, tau) in enumerate(zip(fields[1:], (*know.tau, know.wrong_tau), strict=True)):
        np.multiply(one, np.exp(gap * (-1 / tau)), out=counts[place])
    return counts


def _practice(mind: Mind | Cohort, counts: Floats) -> Floats:
    know = mind.parameters
    weights = np.array([*know.right, -know.wrong])
    weighed: Floats = np.dot(weights, np.log1p(counts).reshape(4, -1)).reshape(counts.shape[1:])
    return weighed


def etas_on(mind: Mind | Cohort, days: float | Floats) -> tuple[Floats, Floats]:
    """η of every skill on `days`, and z, the logarithm of the pause before it."""
    know, below = mind.parameters, mind.graph.below
    z = _pauses(mind, days)
    own = know.base + mind.graph.levels + field(mind.offset) + _practice(mind, counts_on(mind, days))
    if know.pause_weight:
        own -= know.pause_weight * z
    own += mind.ability
    eta = own - mind.pausing * z
    if not len(below.upper):
        return eta, z
    if np.ndim(days) == 0:
        lower = own[..., below.lower]
    else:  # each skill has its own day, and so has what lies beneath it
        on, of = np.asarray(days)[..., below.upper], below.lower
        lower = know.base + mind.graph.levels[of] + field(mind.offset)[..., of]
        lower += _practice(mind, counts_on(mind, on, of)) + mind.ability
        if know.pause_weight:
            lower -= know.pause_weight * np.log1p(_gaps(on, last_seen(mind)[..., of]) / know.pause)
    some = below.many > 0
    total = np.add.reduceat(logistic(lower), below.first[some], axis=-1)
    eta[..., some] += know.beneath_weight * (total / below.many[some] - know.beneath_level)
    return eta, z
