"""One child's memory seen from a day, all skills at once: chances, how sure they are, and what asking would gain."""

from __future__ import annotations

from dataclasses import dataclass
from math import erfc, log, sqrt
from typing import TYPE_CHECKING, Final

import numpy as np

from dayleaf.learner.mind import GAUSS, NEVER

if TYPE_CHECKING:
    from numpy.typing import NDArray

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

    mind: Mind
    eta: Floats
    variance: Floats
    p: Floats

    def sd(self) -> Floats:
        """The standard deviation of the chance of a right answer, by its slope at the mean."""
        know = self.mind.parameters
        q = logistic(self.eta)
        return (1 - know.guess - know.slip) * q * (1 - q) * np.sqrt(self.variance)

    def firm(self, level: float = LEVEL) -> Floats:
        """P(p ≥ level) = Φ((η − logit((level − g) / (1 − g − s))) / √V)."""
        know = self.mind.parameters
        share = (level - know.guess) / (1 - know.guess - know.slip)
        if not 0 < share < 1:
            return np.full(len(self.eta), 1.0 if share <= 0 else 0.0)
        return normal((self.eta - log(share / (1 - share))) / np.sqrt(self.variance))


def look(mind: Mind, day: float | Floats) -> Outlook:
    """All skills on `day`, or each skill on its own day; a later day is a longer pause. Nothing is changed."""
    days = np.broadcast_to(np.asarray(day, dtype=np.float64), (len(mind.graph.ids),))
    eta, z = _etas(mind, days)
    variance = _offset_variance(mind, days) + _shared(mind, z)
    return Outlook(mind=mind, eta=eta, variance=variance, p=chance(mind, eta, variance))


def gains(mind: Mind, now: Outlook, day: float, *, later: float) -> Floats:
    """The expected gain in the chance of a right answer `later` days on from asking each skill once on `day`."""
    know = mind.parameters
    n = len(mind.graph.ids)
    today = np.full(n, float(day))
    then = today + later
    fades = np.exp(-later / np.array([*know.tau, know.wrong_tau]))
    counts = _counts(mind, today)
    asked_before = _field(mind.asked_then) * (_field(mind.asked_on) == day)
    amount = (asked_before + 1) ** know.repeat
    unasked, z_unasked = _etas(mind, then)
    drift = know.drift * later
    offset_variance = _offset_variance(mind, today)
    spread = now.variance
    wide = np.sqrt(1 + GAUSS * spread)
    q = logistic(now.eta / wide)
    room = 1 - know.guess - know.slip
    d = room * q * (1 - q) / wide
    told = d / (now.p * (1 - now.p))
    shrink = told * d / (1 + spread * told * d)
    z = _pauses(mind, today)
    with_ability = mind.ability_variance - z * mind.shared_variance
    with_pausing = mind.shared_variance - z * mind.pausing_variance
    z_then = np.full(n, np.log1p(later / know.pause))
    spread_then = (
        np.minimum(know.variance_cap, offset_variance * (1 - offset_variance * shrink) + drift)
        + (mind.ability_variance - with_ability**2 * shrink)
        - 2 * z_then * (mind.shared_variance - with_ability * with_pausing * shrink)
        + z_then**2 * (mind.pausing_variance - with_pausing**2 * shrink)
    )
    base = unasked - _practice(mind, counts * fades[:, None])
    base += (z_unasked - z_then) * (know.pause_weight + mind.pausing)
    spread_unasked = np.minimum(know.variance_cap, offset_variance + drift) + _shared(mind, z_unasked)
    gain = -chance(mind, unasked, spread_unasked)
    for right, weight in ((True, now.p), (False, 1 - now.p)):
        r = told * ((1 - now.p) if right else -now.p)
        move = (offset_variance + with_ability - z_then * with_pausing) * r
        after = counts.copy()
        if right:
            after[:3] += amount
        else:
            after[3] += amount
        gain = gain + weight * chance(mind, base + _practice(mind, after * fades[:, None]) + move, spread_then)
    return gain


def chance(mind: Mind, eta: Floats, variance: Floats) -> Floats:
    """P(right) = g + (1 − g − s) · logistic(η / √(1 + πV/8))."""
    know = mind.parameters
    return know.guess + (1 - know.guess - know.slip) * logistic(eta / np.sqrt(1 + GAUSS * variance))


def logistic(x: Floats) -> Floats:
    """1 / (1 + e^−x)."""
    return 1 / (1 + np.exp(-x))


def normal(x: Floats) -> Floats:
    """The normal distribution function."""
    root = sqrt(0.5)
    return np.array([0.5 * erfc(-root * one) for one in x.tolist()])


def last_seen(mind: Mind) -> Floats:
    """The last day with a lesson or an answer, by skill; −∞ where there was none."""
    return np.maximum(_field(mind.asked_on), _field(mind.taught_on))


def _field(values: object) -> Floats:
    """An array of the mind as numpy sees it; the same memory."""
    return np.frombuffer(values, dtype=np.float64)  # type: ignore[call-overload, no-any-return]  # arrays are buffers


def _pauses(mind: Mind, days: Floats) -> Floats:
    last = last_seen(mind)
    gap = np.where(last == NEVER, 0.0, days - np.where(last == NEVER, days, last))
    return np.log1p(np.maximum(gap, 0) / mind.parameters.pause)


def _shared(mind: Mind, z: Floats) -> Floats:
    """The variance that a skill's logit has from the child's ability and pausing."""
    return mind.ability_variance - 2 * z * mind.shared_variance + z**2 * mind.pausing_variance


def _offset_variance(mind: Mind, days: Floats) -> Floats:
    know = mind.parameters
    stand = _field(mind.stand)
    gap = np.maximum(np.where(stand == NEVER, 0.0, days - np.where(stand == NEVER, days, stand)), 0)
    return np.minimum(know.variance_cap, _field(mind.variance) + know.drift * gap)


def _counts(mind: Mind, days: Floats, of: Numbers | None = None) -> Floats:
    """The four counts, one a row, faded to `days`; of all skills, or of skill `of[e]` on `days[e]`."""
    know = mind.parameters
    rows: Floats = np.stack([_field(mind.recent), _field(mind.month), _field(mind.term), _field(mind.wrong)])
    stand = _field(mind.stand)
    if of is not None:
        rows, stand = rows[:, of], stand[of]
    gap = np.maximum(days - np.where(stand == NEVER, days, stand), 0)
    fades: Floats = np.exp(-gap / np.array([*know.tau, know.wrong_tau])[:, None])
    return rows * fades


def _practice(mind: Mind, counts: Floats) -> Floats:
    know = mind.parameters
    weights = np.array([*know.right, -know.wrong])
    return weights @ np.log1p(counts)


def _etas(mind: Mind, days: Floats) -> tuple[Floats, Floats]:
    know, below = mind.parameters, mind.graph.below
    z = _pauses(mind, days)
    start = know.base + mind.graph.levels + _field(mind.offset)
    eta = start + _practice(mind, _counts(mind, days)) - (know.pause_weight + mind.pausing) * z + mind.ability
    if len(below.upper):
        on = days[below.upper]
        own = start[below.lower] + _practice(mind, _counts(mind, on, below.lower)) + mind.ability
        if know.pause_weight:
            last = last_seen(mind)[below.lower]
            gap = np.maximum(on - np.where(last == NEVER, on, last), 0)
            own -= know.pause_weight * np.log1p(gap / know.pause)
        total = np.bincount(below.upper, weights=logistic(own), minlength=len(eta))
        some = below.count > 0
        mean = np.divide(total, below.count, out=np.full(len(eta), know.beneath_level), where=some)
        eta += know.beneath_weight * (mean - know.beneath_level)
    return eta, z
