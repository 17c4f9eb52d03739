"""One child's memory of a whole course, answer by answer: the quick engine for one more answer and for a year.

The model is a logistic one with fading counts of right and wrong answers (performance factors analysis with
several time constants [1]), a Gaussian offset a skill, and five Gaussian numbers a child: how much is known at
all, what a pause takes, how much less it takes after many days of practice, what having just done such an item adds,
and what sheer practice adds. The Gaussians are updated answer by answer (an extended Kalman filter [2]); the
mean of a logistic under a Gaussian is taken as logistic(x / √(1 + πV/8)) [3].

References:
    [1] Pavlik, Cen, Koedinger 2009, performance factors analysis (CHECKS D.6).
    [2] DESIGN 9 of this project, which also gives the starting constants.
    [3] MacKay 1992.
"""

from __future__ import annotations

from array import array
from math import exp, inf, log1p, pi, sqrt
from typing import TYPE_CHECKING, Final

from dayleaf.learner.parameters import DEFAULT, USUAL_PRACTICE, Parameters

if TYPE_CHECKING:
    from dayleaf.learner.graph import Graph

NEVER: Final = -inf
GAUSS: Final = pi / 8
MOST_FADES: Final = 5000
"""So many lengths of a pause are kept worked out."""
OF_A_SKILL: Final = (
    *("stand", "recent", "month", "term", "wrong", "offset", "variance"),
    *("taught_on", "asked_on", "asked_then", "right_then", "asked", "right", "days", "surprise"),
)
OF_A_CHILD: Final = ("traits", "spread", "echo", "echoes")
ABILITY, PAUSING, STEADYING, WARMING, PRACTISING = range(5)
"""The places of a child's own numbers in `traits`."""
_NEVER_AT_FIRST: Final = frozenset({"stand", "taught_on", "asked_on"})


class Mind:
    """What is kept of one child, skill by skill in arrays; days are numbers of any origin.

    Of a skill: `stand` is the day for which `recent`, `month`, `term` (fading counts of right answers), `wrong`
    and `variance` (of `offset`, logits²) stand; `taught_on` the last lesson; `asked_on` the last day with an
    answer, with `asked_then` answers on it of which `right_then` were right; `asked` and `right` count all, `days` the
    days with an answer; `surprise` is how far the last answer alone was from what was believed, in standard deviations.
    Of the child: `traits`, how far its five numbers are from the usual, with their covariances in `spread` (the
    upper triangle, row by row); `echo`, the sum of products of a skill's surprises one after another, and `echoes`,
    how many there were.

    Changed in place by `teach`, `answer` and `look`; whoever shares one takes a `copy` first.
    """

    __slots__ = ("_fades", "_own", "_own_day", "graph", "parameters", *OF_A_CHILD, *OF_A_SKILL)

    recent: array[float]
    month: array[float]
    term: array[float]
    wrong: array[float]
    stand: array[float]
    offset: array[float]
    variance: array[float]
    taught_on: array[float]
    asked_on: array[float]
    asked_then: array[float]
    right_then: array[float]
    asked: array[float]
    right: array[float]
    days: array[float]
    surprise: array[float]

    def __init__(self, graph: Graph, parameters: Parameters = DEFAULT) -> None:
        self.graph = graph
        self.parameters = parameters
        n = len(graph.ids)
        for name in OF_A_SKILL:
            setattr(self, name, array("d", [NEVER if name in _NEVER_AT_FIRST else 0.0]) * n)
        self.variance = array("d", [parameters.offset_sd**2]) * n
        self.traits: tuple[float, ...] = (0.0,) * len(parameters.spreads)
        self.spread: tuple[float, ...] = first_spread(parameters)
        self.echo = self.echoes = 0.0
        self._fades: dict[float, tuple[float, float, float, float]] = {}
        self._own = array("d", [0.0]) * n
        self._own_day = array("d", [NEVER]) * n

    def copy(self) -> Mind:
        """Another mind with the same contents."""
        other = Mind.__new__(Mind)
        other.graph, other.parameters = self.graph, self.parameters
        for name in (*OF_A_SKILL, "_own", "_own_day"):
            setattr(other, name, getattr(self, name)[:])
        for name in ("_fades", *OF_A_CHILD):
            setattr(other, name, getattr(self, name))
        return other

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, Mind):
            return NotImplemented
        return self.graph == other.graph and all(
            getattr(self, name) == getattr(other, name) for name in (*OF_A_CHILD, *OF_A_SKILL)
        )

    __hash__ = None  # type: ignore[assignment]  # it changes in place

    def teach(self, skill: int, day: float, *, credit: float = 1.0) -> None:
        """A lesson: it adds to the counts of right answers. Half a lesson has half the credit."""
        self._stand_on(skill, day)
        self._count(skill, self.parameters.lesson * credit)
        self.taught_on[skill] = day

    def answer(self, skill: int, day: float, *, right: bool, weight: float = 1.0, guess: float | None = None) -> float:
        """One answer; returns the chance of a right one that was believed before it.

        `weight` below 1 takes the answer for a part of one (help); `guess` is the chance of a right answer by
        guessing where it is not the usual one.
        """
        p = self._learn(skill, day, right=right, weight=weight, guess=guess)
        if weight == 1:
            self._heard(skill, p, right=right)
        if self.asked_on[skill] == day:
            k = self.asked_then[skill] + 1
            self.right_then[skill] += right
        else:
            k = 1.0
            self.right_then[skill] = right
            self.asked_on[skill] = day
            self.days[skill] += 1
        self.asked_then[skill] = k
        self.asked[skill] += 1
        amount = weight if k == 1 else weight * k**self.parameters.repeat
        if right:
            self.right[skill] += 1
            self._count(skill, amount)
            amount *= self.parameters.beneath
            for below in self.graph.beneath[skill]:
                if self._own_day[below] != day:
                    self._stand_on(below, day)
                self._count(below, amount)
        else:
            self.wrong[skill] += amount
            self._own_day[skill] = NEVER
        return p

    def _heard(self, skill: int, p: float, *, right: bool) -> None:
        """Keep how far an answer was from what was believed, and whether it was so the last time."""
        surprise = sqrt((1 - p) / p) if right else -sqrt(p / (1 - p))
        before = self.surprise[skill]
        if before:
            self.echo += surprise * before
            self.echoes += 1
        self.surprise[skill] = surprise

    def look(self, skill: int, day: float, *, right: bool, weight: float) -> None:
        """A page only looked over: a part of an answer, counted in no total."""
        self._learn(skill, day, right=right, weight=weight, guess=None)
        if right:
            self._count(skill, weight)
        else:
            self.wrong[skill] += weight
            self._own_day[skill] = NEVER

    def _count(self, skill: int, amount: float) -> None:
        """Add to the counts of right answers; they must stand for today."""
        self.recent[skill] += amount
        self.month[skill] += amount
        self.term[skill] += amount
        self._own_day[skill] = NEVER

    def _stand_on(self, skill: int, day: float) -> None:
        """Fade the counts to `day` and let the variance grow; earlier days change nothing."""
        gap = day - self.stand[skill]
        if gap <= 0:
            return
        if gap < inf:
            fade = self._fades.get(gap)
            if fade is None:
                fade = self._fade(gap)
            self.recent[skill] *= fade[0]
            self.month[skill] *= fade[1]
            self.term[skill] *= fade[2]
            self.wrong[skill] *= fade[3]
            variance = self.variance[skill] + self.parameters.drift * gap
            self.variance[skill] = min(self.parameters.variance_cap, variance)
        self.stand[skill] = day

    def _fade(self, gap: float) -> tuple[float, float, float, float]:
        know = self.parameters
        t1, t2, t3 = know.tau
        fade = exp(-gap / t1), exp(-gap / t2), exp(-gap / t3), exp(-gap / know.wrong_tau)
        if len(self._fades) < MOST_FADES:
            self._fades[gap] = fade
        return fade

    def _own_today(self, skill: int, day: float) -> float:
        """The part of η that depends neither on the child's own numbers nor on other skills, its counts on `day`.

        b0 + u + m + Σ cᵢ ln(1+Cᵢ) − f ln(1+F), and what a pause, practice and having just been asked usually do.
        """
        if self._own_day[skill] == day:
            return self._own[skill]
        know = self.parameters
        if self.stand[skill] < day:
            self._stand_on(skill, day)
        w1, w2, w3 = know.right
        own = (
            know.base
            + self.graph.level[skill]
            + self.offset[skill]
            + w1 * log1p(self.recent[skill])
            + w2 * log1p(self.month[skill])
            + w3 * log1p(self.term[skill])
            - know.wrong * log1p(self.wrong[skill])
            + know.practice * (log1p(self.asked[skill]) - USUAL_PRACTICE)
        )
        asked, taught = self.asked_on[skill], self.taught_on[skill]
        gap = day - max(taught, asked)
        if gap <= 0:
            own += know.warm
        elif gap < inf:
            z = log1p(gap / know.pause)
            own -= know.fading * gap + know.pause_weight * z - know.steady * z * log1p(self.days[skill])
        self._own_day[skill] = day
        self._own[skill] = own
        return own

    def _learn(self, skill: int, day: float, *, right: bool, weight: float, guess: float | None) -> float:
        """Move the offset and the child's own numbers by one Gaussian step; returns the chance before it.

        r = (y − p) d / (p (1 − p)), w = d² / (p (1 − p)) with d the slope of p; each mean moves by its covariance
        with η times r, each covariance falls by the product of the two times w / (1 + V w).
        """
        know = self.parameters
        t0, t1, t2, t3, t4 = self.traits
        asked, taught = self.asked_on[skill], self.taught_on[skill]
        gap = day - max(taught, asked)
        x1 = x2 = x3 = 0.0
        if gap <= 0:
            x3 = 1.0
        elif gap < inf:
            x1 = -log1p(gap / know.pause)
            x2 = -x1 * log1p(self.days[skill])
        x4 = log1p(self.asked[skill]) - USUAL_PRACTICE
        eta = self._own_today(skill, day) + t0 + t1 * x1 + t2 * x2 + t3 * x3 + t4 * x4
        beneath = self.graph.beneath[skill]
        if beneath:
            total = 0.0
            for below in beneath:
                total += 1 / (1 + exp(-self._own_today(below, day) - t0))
            eta += know.beneath_weight * (total / len(beneath) - know.beneath_level)
        g = know.guess if guess is None else guess
        with_offset = self.variance[skill]
        s00, s01, s02, s03, s04, s11, s12, s13, s14, s22, s23, s24, s33, s34, s44 = self.spread
        g0 = s00 + s01 * x1 + s02 * x2 + s03 * x3 + s04 * x4
        g1 = s01 + s11 * x1 + s12 * x2 + s13 * x3 + s14 * x4
        g2 = s02 + s12 * x1 + s22 * x2 + s23 * x3 + s24 * x4
        g3 = s03 + s13 * x1 + s23 * x2 + s33 * x3 + s34 * x4
        g4 = s04 + s14 * x1 + s24 * x2 + s34 * x3 + s44 * x4
        spread = with_offset + g0 + g1 * x1 + g2 * x2 + g3 * x3 + g4 * x4
        wide = sqrt(1 + GAUSS * spread)
        q = 1 / (1 + exp(-eta / wide))
        room = 1 - g - know.slip
        p = g + room * q
        d = room * q * (1 - q) / wide
        told = weight * d / (p * (1 - p))
        r = told * (1 - p if right else -p)
        w = told * d
        k = w / (1 + spread * w)
        self.offset[skill] += with_offset * r
        self.variance[skill] = with_offset * (1 - with_offset * k)
        self.traits = (t0 + g0 * r, t1 + g1 * r, t2 + g2 * r, t3 + g3 * r, t4 + g4 * r)
        k0, k1, k2, k3 = g0 * k, g1 * k, g2 * k, g3 * k
        self.spread = (
            s00 - g0 * k0, s01 - g1 * k0, s02 - g2 * k0, s03 - g3 * k0, s04 - g4 * k0,
            s11 - g1 * k1, s12 - g2 * k1, s13 - g3 * k1, s14 - g4 * k1,
            s22 - g2 * k2, s23 - g3 * k2, s24 - g4 * k2, s33 - g3 * k3, s34 - g4 * k3, s44 - g4 * g4 * k,
        )  # fmt: skip
        return p


def first_spread(parameters: Parameters) -> tuple[float, ...]:
    """The covariances at first: what children differ by, one number apart from the other."""
    sds = parameters.spreads
    return tuple(sds[i] ** 2 if i == j else 0.0 for i in range(len(sds)) for j in range(i, len(sds)))
