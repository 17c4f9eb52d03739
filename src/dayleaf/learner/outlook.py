"""Memory seen from a day, all skills at once: chances and how sure they are.

Works on one child (`Mind`: arrays over skills) and on many (`Cohort`: children in rows, skills in columns) alike.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import erfc, log, sqrt
from typing import TYPE_CHECKING, Final

import numpy as np

from dayleaf.learner.mind import GAUSS, NEVER
from dayleaf.learner.parameters import USUAL_PRACTICE

if TYPE_CHECKING:
    from array import array

    from numpy.typing import NDArray

    from dayleaf.learner.cohort import Cohort
    from dayleaf.learner.mind import Mind
    from dayleaf.learner.parameters import Parameters

    Floats = NDArray[np.float64]
    Numbers = NDArray[np.intp]
    Features = tuple[Floats, Floats, Floats, Floats]

HUSHED: Final = 100.0
"""Products of surprises without an echo that stand in before there are many (docs/learner.md, like the two below)."""
EVENS: Final = 20.0
"""Where skills are more alike than the model says, the logit is stated surer by this power of e times the echo."""
SEEN_PAUSE: Final = 14.0
"""Days of a pause that a school year shows often; what is wholly there or gone is taken to fade on evenly after."""
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
        """P(p ≥ level) of every skill, see `firmness`."""
        return firmness(self.mind.parameters, self.eta, self.variance, self.p, echo=echo(self.mind), level=level)


def firmness(
    know: Parameters, eta: Floats, variance: Floats, p: Floats, *, echo: Floats, level: float = LEVEL
) -> Floats:
    """P(p ≥ level) = (1 − l) Φ((η − logit((level − g) / (1 − g − s))) / √V') + l (p − g) / (1 − g − s).

    The second term is the chance that the skill is there at all; l is how lumpy the child's memory is, from the
    `echo` of its surprises. V' is the variance, less where surprises take turns: such skills are more alike.
    """
    share = (level - know.guess) / (1 - know.guess - know.slip)
    if not 0 < share < 1:
        return np.full(eta.shape, 1.0 if share <= 0 else 0.0)
    if not know.lumpy:
        return normal((eta - log(share / (1 - share))) / np.sqrt(variance))
    width = np.sqrt(variance * np.exp(EVENS * np.minimum(echo, 0)))
    even = normal((eta - log(share / (1 - share))) / width)
    lumps = np.clip(know.lumpy * echo, 0, 1)
    there = (p - know.guess) / (1 - know.guess - know.slip)
    firm: Floats = (1 - lumps) * even + lumps * there
    return firm


def echo(mind: Mind | Cohort) -> Floats:
    """By how much a skill's surprises repeat: the mean product of one with the next of the same skill.

    Drawn towards 0 as by `HUSHED` products of 0. Positive where skills are there or gone, more than the model says;
    negative where a child's skills are more alike than the model says.
    """
    return _column(mind.echo / (mind.echoes + HUSHED))


def lumpiness(mind: Mind | Cohort) -> Floats:
    """How far a child has skills wholly or not at all, 0 to 1."""
    lumps: Floats = np.clip(mind.parameters.lumpy * echo(mind), 0, 1)
    return lumps


def look(mind: Mind | Cohort, day: float | Floats) -> Outlook:
    """All skills on `day`, or each skill on its own day; a later day is a longer pause. Nothing is changed."""
    eta, x = etas_on(mind, day)
    variance = _offset_variance(mind, day) + _shared(mind, x)
    return Outlook(mind=mind, eta=eta, variance=variance, p=chance(mind.parameters, eta, variance))


def chance(know: Parameters, eta: Floats, variance: Floats) -> Floats:
    """P(right) = g + (1 − g − s) · logistic(η / √(1 + πV/8))."""
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


def _column(values: float | Floats) -> Floats:
    """A child's number as it stands beside its skills: alone, or as a column of many children's."""
    column: Floats = np.asarray(values, dtype=np.float64)[..., None]
    return column


def _features(mind: Mind | Cohort, days: float | Floats, of: Numbers | None = None) -> tuple[Features, Floats]:
    """What each of a child's own numbers after ability is multiplied by, and the days gone by."""
    last, many, asked = last_seen(mind), field(mind.days), field(mind.asked)
    if of is not None:
        last, many, asked = last[..., of], many[..., of], asked[..., of]
    gap = _gaps(days, last)
    z = np.log1p(gap / mind.parameters.pause)
    return (-z, z * np.log1p(many), (last >= days).astype(np.float64), np.log1p(asked) - USUAL_PRACTICE), gap


def _shared(mind: Mind | Cohort, x: Features) -> Floats:
    """The variance that a skill's logit has from the child's own numbers."""
    spread = [_column(one) for one in mind.spread]
    full: tuple[Floats, ...] = (np.ones(x[0].shape), *x)
    total: Floats = np.zeros(x[0].shape)
    place = 0
    for i, one in enumerate(full):
        row = spread[place] * one
        for other in full[i + 1 :]:
            place += 1
            row = row + 2 * spread[place] * other
        place += 1
        total = total + row * one
    return total


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


def _own(mind: Mind | Cohort, days: float | Floats, of: Numbers | None = None) -> tuple[Floats, Features]:
    """What a skill has of itself and of what is usual, before the child's own numbers; and their features."""
    know = mind.parameters
    levels, offset = mind.graph.levels, field(mind.offset)
    if of is not None:
        levels, offset = levels[of], offset[..., of]
    x, gap = _features(mind, days, of)
    own = know.base + levels + offset + _practice(mind, counts_on(mind, days, of)) - know.fading * gap
    for usual, feature in zip(know.usual, x, strict=True):
        if usual:
            own += usual * feature
    if know.lumpy_fading:
        own -= know.lumpy_fading * lumpiness(mind) * np.maximum(gap - SEEN_PAUSE, 0)
    return own, x


def etas_on(mind: Mind | Cohort, days: float | Floats) -> tuple[Floats, Features]:
    """η of every skill on `days`, and what the child's own numbers are multiplied by."""
    know, below = mind.parameters, mind.graph.below
    ability, *others = (_column(one) for one in mind.traits)
    own, x = _own(mind, days)
    own += ability
    eta = own.copy()
    for trait, feature in zip(others, x, strict=True):
        eta += trait * feature
    if not len(below.upper):
        return eta, x
    if np.ndim(days) == 0:
        lower = own[..., below.lower]
    else:  # each skill has its own day, and so has what lies beneath it
        lower = _own(mind, np.asarray(days)[..., below.upper], below.lower)[0] + ability
    some = below.many > 0
    total = np.add.reduceat(logistic(lower), below.first[some], axis=-1)
    eta[..., some] += know.beneath_weight * (total / below.many[some] - know.beneath_level)
    return eta, x
