"""One child's memory of a whole course, answer by answer: the quick engine for one more answer and for a year.

The model is a logistic one with fading counts of right and wrong answers (performance factors analysis with
several time constants [1]), a Gaussian offset a skill, and two Gaussian numbers a child: how much is known at
all, and how much a pause takes. The Gaussians are updated answer by answer (an extended Kalman filter [2]); the
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

from dayleaf.learner.parameters import DEFAULT, Parameters

if TYPE_CHECKING:
    from dayleaf.learner.graph import Graph

NEVER: Final = -inf
GAUSS: Final = pi / 8
MOST_FADES: Final = 5000
"""So many lengths of a pause are kept worked out."""
OF_A_SKILL: Final = (
    *("stand", "recent", "month", "term", "wrong", "offset", "variance"),
    *("taught_on", "asked_on", "asked_then", "right_then", "asked", "right"),
)
OF_A_CHILD: Final = ("ability", "pausing", "ability_variance", "shared_variance", "pausing_variance")
_NEVER_AT_FIRST: Final = frozenset({"stand", "taught_on", "asked_on"})


class Mind:
    """What is kept of one child, skill by skill in arrays; days are numbers of any origin.

    Of a skill: `stand` is the day for which `recent`, `month`, `term` (fading counts of right answers), `wrong`
    and `variance` (of `offset`, logits²) stand; `taught_on` the last lesson; `asked_on` the last day with an
    answer, with `asked_then` answers on it of which `right_then` were right; `asked` and `right` count all.
    Of the child: `ability` (logits) and `pausing` (what a pause takes beyond the usual), with their variances.

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

    def __init__(self, graph: Graph, parameters: Parameters = DEFAULT) -> None:
        self.graph = graph
        self.parameters = parameters
        n = len(graph.ids)
        for name in OF_A_SKILL:
            setattr(self, name, array("d", [NEVER if name in _NEVER_AT_FIRST else 0.0]) * n)
        self.variance = array("d", [parameters.offset_sd**2]) * n
        self.ability = self.pausing = self.shared_variance = 0.0
        self.ability_variance = parameters.ability_sd**2
        self.pausing_variance = parameters.pause_sd**2
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
        if self.asked_on[skill] == day:
            k = self.asked_then[skill] + 1
            self.right_then[skill] += right
        else:
            k = 1.0
            self.right_then[skill] = right
            self.asked_on[skill] = day
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
        """The part of η that depends neither on ability nor on other skills; the counts then stand on `day`.

        b0 + u + m + Σ cᵢ ln(1+Cᵢ) − f ln(1+F) − the usual pause.
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
        )
        if know.pause_weight:
            own -= know.pause_weight * self._pause(skill, day)
        self._own_day[skill] = day
        self._own[skill] = own
        return own

    def _pause(self, skill: int, day: float) -> float:
        """ln(1 + days since the last lesson or answer / `pause`); 0 where there was none."""
        asked, taught = self.asked_on[skill], self.taught_on[skill]
        last = max(taught, asked)
        return 0.0 if last == NEVER or day <= last else log1p((day - last) / self.parameters.pause)

    def _learn(self, skill: int, day: float, *, right: bool, weight: float, guess: float | None) -> float:
        """Move the offset, the ability and the pausing by one Gaussian step; returns the chance before it.

        r = (y − p) d / (p (1 − p)), w = d² / (p (1 − p)) with d the slope of p; each mean moves by its covariance
        with η times r, each covariance falls by the product of the two times w / (1 + V w).
        """
        know = self.parameters
        ability = self.ability
        z = self._pause(skill, day)
        eta = self._own_today(skill, day) + ability - self.pausing * z
        beneath = self.graph.beneath[skill]
        if beneath:
            total = 0.0
            for below in beneath:
                total += 1 / (1 + exp(-self._own_today(below, day) - ability))
            eta += know.beneath_weight * (total / len(beneath) - know.beneath_level)
        g = know.guess if guess is None else guess
        with_offset = self.variance[skill]
        with_ability = self.ability_variance - z * self.shared_variance
        with_pausing = self.shared_variance - z * self.pausing_variance
        spread = with_offset + with_ability - z * with_pausing
        wide = sqrt(1 + GAUSS * spread)
        q = 1 / (1 + exp(-eta / wide))
        room = 1 - g - know.slip
        p = g + room * q
        d = room * q * (1 - q) / wide
        told = weight * d / (p * (1 - p))
        r = told * (1 - p if right else -p)
        w = told * d
        shrink = w / (1 + spread * w)
        self.offset[skill] += with_offset * r
        self.variance[skill] = with_offset * (1 - with_offset * shrink)
        self.ability = ability + with_ability * r
        self.pausing += with_pausing * r
        self.ability_variance -= with_ability * with_ability * shrink
        self.shared_variance -= with_ability * with_pausing * shrink
        self.pausing_variance -= with_pausing * with_pausing * shrink
        return p
