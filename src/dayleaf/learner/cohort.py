"""Many children's memories at once: the same model as `mind`, for the bulk of many logs and for trial runs."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

import numpy as np

from dayleaf.learner.mind import GAUSS, NEVER, first_spread
from dayleaf.learner.parameters import DEFAULT, USUAL_PRACTICE, Parameters

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from dayleaf.learner.graph import Graph
    from dayleaf.learner.mind import Mind

    Floats = NDArray[np.float64]
    Numbers = NDArray[np.intp]
    Truths = NDArray[np.bool_]

COLUMNS: Final = (
    *("stand", "recent", "month", "term", "wrong", "offset", "variance", "asked_on", "taught_on"),
    *("asked_then", "right_then", "asked", "right", "days", "surprise"),
)
STAND, OFFSET, VARIANCE, ASKED_ON, TAUGHT_ON, ASKED_THEN, RIGHT_THEN, ASKED, RIGHT = 0, 5, 6, 7, 8, 9, 10, 11, 12
DAYS, SURPRISE = 13, 14
COUNTS: Final = slice(1, 5)
RIGHTS: Final = slice(1, 4)
WRONG: Final = 4
TRAITS: Final = 5
PAIRS: Final = tuple((i, j) for i in range(TRAITS) for j in range(i, TRAITS))
SQUARE: Final = [PAIRS.index((min(i, j), max(i, j))) for i in range(TRAITS) for j in range(TRAITS)]
"""Where each entry of the full matrix of covariances stands in its upper triangle."""


class Cohort:
    """Children in rows, skills in columns; every name means what it means in `Mind`.

    A step takes at most one answer of each child. What is kept of one child's skill lies together in memory, so
    that an answer touches few places.
    """

    stand: Floats
    recent: Floats
    month: Floats
    term: Floats
    wrong: Floats
    offset: Floats
    variance: Floats
    asked_on: Floats
    taught_on: Floats
    asked_then: Floats
    right_then: Floats
    asked: Floats
    right: Floats
    days: Floats
    surprise: Floats

    def __init__(self, graph: Graph, children: int, parameters: Parameters = DEFAULT) -> None:
        self.graph = graph
        self.parameters = parameters
        n = len(graph.ids)
        self._rows = np.zeros((children * n, len(COLUMNS)))
        self._rows[:, [STAND, ASKED_ON, TAUGHT_ON]] = NEVER
        self._rows[:, VARIANCE] = parameters.offset_sd**2
        for place, name in enumerate(COLUMNS):
            setattr(self, name, self._rows[:, place].reshape(children, n))
        self.traits = np.zeros((TRAITS, children))
        self.spread = np.repeat(np.array(first_spread(parameters))[:, None], children, axis=1)
        self.echo, self.echoes = np.zeros(children), np.zeros(children)
        self._fade_rates = -1 / np.array([*parameters.tau, parameters.wrong_tau])
        self._weights = np.array([*parameters.right, -parameters.wrong])
        self._usual = np.array([0.0, *parameters.usual])

    @classmethod
    def like(cls, mind: Mind, children: int) -> Cohort:
        """So many children of whom the same is believed."""
        cohort = cls(mind.graph, children, mind.parameters)
        for name in COLUMNS:
            getattr(cohort, name)[:] = getattr(mind, name)
        cohort.traits[:] = np.array(mind.traits)[:, None]
        cohort.spread[:] = np.array(mind.spread)[:, None]
        cohort.echo[:], cohort.echoes[:] = mind.echo, mind.echoes
        return cohort

    def teach(self, children: Numbers, skills: Numbers, day: float | Floats, *, credit: float = 1.0) -> None:
        """A lesson for each of `children` (each at most once) on its entry of `skills`."""
        at = children * len(self.graph.ids) + skills
        rows = self._columns(at)
        self._stand_on(rows, day)
        rows[RIGHTS] += self.parameters.lesson * credit
        rows[TAUGHT_ON] = day
        self._rows[at] = rows.T

    def answer(
        self,
        children: Numbers,
        skills: Numbers,
        day: float | Floats,
        *,
        right: Truths,
        weight: float | Floats = 1.0,
        guess: float | Floats | None = None,
    ) -> Floats:
        """One answer of each of `children` (each at most once); returns the chances believed before."""
        know = self.parameters
        days = np.broadcast_to(np.asarray(day, dtype=np.float64), skills.shape)
        at = children * len(self.graph.ids) + skills
        below, above, lower = self._beneath(children, skills)
        rows, beneath = self._columns(at), self._columns(below)
        self._stand_on(rows, days)
        self._stand_on(beneath, days[above])
        eta, x = self._eta(children, skills, days, rows=rows, beneath=beneath, above=above, lower=lower)
        p = self._learn(children, rows, eta, x, right=right, weight=weight, guess=guess)
        self._heard(children, rows, p, right=right, alone=np.broadcast_to(weight, right.shape) == 1)
        again = rows[ASKED_ON] == days
        rows[ASKED_THEN] = rows[ASKED_THEN] * again + 1
        rows[RIGHT_THEN] = rows[RIGHT_THEN] * again + right
        rows[ASKED_ON] = days
        rows[ASKED] += 1
        rows[RIGHT] += right
        rows[DAYS] += ~again
        amount = weight * rows[ASKED_THEN] ** know.repeat
        credit = amount * right
        rows[RIGHTS] += credit
        rows[WRONG] += amount - credit
        beneath[RIGHTS] += know.beneath * credit[above]
        self._rows[at] = rows.T
        self._rows[below] = beneath.T
        return p

    def _columns(self, at: Numbers) -> Floats:
        """What is kept at these places, one field a row."""
        columns: Floats = np.ascontiguousarray(self._rows.take(at, axis=0).T)
        return columns

    def seen(self, children: Numbers, skills: Numbers, day: float | Floats) -> tuple[Floats, Floats]:
        """The mean and the variance of the logit of these pairs on a day; nothing is changed."""
        days = np.broadcast_to(np.asarray(day, dtype=np.float64), skills.shape)
        below, above, lower = self._beneath(children, skills)
        at = children * len(self.graph.ids) + skills
        rows, beneath = self._columns(at), self._columns(below)
        self._stand_on(rows, days)
        self._stand_on(beneath, days[above])
        eta, x = self._eta(children, skills, days, rows=rows, beneath=beneath, above=above, lower=lower)
        _of_traits, spread = _with_eta(self.spread[:, children], rows[VARIANCE], x)
        return eta, spread

    def _eta(
        self,
        children: Numbers,
        skills: Numbers,
        days: Floats,
        *,
        rows: Floats,
        beneath: Floats,
        above: Numbers,
        lower: Numbers,
    ) -> tuple[Floats, Floats]:
        """η of rows that stand on their days, and what the child's own numbers are multiplied by."""
        know = self.parameters
        gap = self._gap(rows, days)
        x = self._features(rows, gap, days)
        traits = self.traits[:, children]
        eta = self._own(rows, skills, x, gap) + (traits * x).sum(axis=0)
        under = days[above]
        gap = self._gap(beneath, under)
        own = self._own(beneath, lower, self._features(beneath, gap, under), gap)
        known = 1 / (1 + np.exp(-own - traits[0, above]))
        many = self.graph.below.many[skills]
        mean = np.bincount(above, weights=known, minlength=len(skills)) / np.maximum(many, 1)
        eta += know.beneath_weight * np.where(many > 0, mean - know.beneath_level, 0.0)
        return eta, x

    def _beneath(self, children: Numbers, skills: Numbers) -> tuple[Numbers, Numbers, Numbers]:
        """What lies beneath each skill: its place in memory, the row of the answer above it, and its number."""
        flat = self.graph.below
        counts = flat.many[skills]
        above = np.repeat(np.arange(len(skills)), counts)
        first = np.repeat(flat.first[skills] - np.cumsum(counts) + counts, counts)
        lower = flat.lower[first + np.arange(len(above))]
        return children[above] * len(self.graph.ids) + lower, above, lower

    def _stand_on(self, rows: Floats, days: float | Floats) -> None:
        """Fade the counts of these rows to their days and let the variance grow; earlier days change nothing."""
        know = self.parameters
        stand = rows[STAND]
        gap = np.maximum(days - np.maximum(stand, -1e9), 0)
        gap[stand == NEVER] = 0
        rows[COUNTS] *= np.exp(np.multiply.outer(self._fade_rates, gap))
        rows[VARIANCE] = np.minimum(know.variance_cap, rows[VARIANCE] + know.drift * gap)
        rows[STAND] = np.maximum(stand, days)

    def _own(self, rows: Floats, skills: Numbers, x: Floats, gap: Floats) -> Floats:
        know = self.parameters
        own: Floats = self._weights @ np.log1p(rows[COUNTS])
        own += know.base + self.graph.levels[skills] + rows[OFFSET] - know.fading * gap
        own += self._usual @ x
        return own

    def _gap(self, rows: Floats, days: Floats) -> Floats:
        last = np.maximum(rows[ASKED_ON], rows[TAUGHT_ON])
        gap: Floats = np.maximum(days - np.maximum(last, -1e9), 0)
        gap[last == NEVER] = 0
        return gap

    def _features(self, rows: Floats, gap: Floats, days: Floats) -> Floats:
        """What each of a child's own numbers is multiplied by."""
        x = np.ones((TRAITS, rows.shape[1]))
        z = np.log1p(gap / self.parameters.pause)
        x[1] = -z
        x[2] = z * np.log1p(rows[DAYS])
        x[3] = np.maximum(rows[ASKED_ON], rows[TAUGHT_ON]) >= days
        x[4] = np.log1p(rows[ASKED]) - USUAL_PRACTICE
        return x

    def _heard(self, children: Numbers, rows: Floats, p: Floats, *, right: Truths, alone: Truths) -> None:
        surprise = np.where(right, 1.0, -1.0) * np.sqrt(np.where(right, (1 - p) / p, p / (1 - p)))
        before = rows[SURPRISE]
        self.echo[children] += surprise * before * alone
        self.echoes[children] += alone & (before != 0)
        rows[SURPRISE] = np.where(alone, surprise, before)

    def _learn(
        self,
        children: Numbers,
        rows: Floats,
        eta: Floats,
        x: Floats,
        *,
        right: Truths,
        weight: float | Floats,
        guess: float | Floats | None,
    ) -> Floats:
        """The Gaussian step of `Mind`, for many."""
        know = self.parameters
        g = know.guess if guess is None else guess
        held = self.spread[:, children]
        with_offset = rows[VARIANCE].copy()
        of_traits, spread = _with_eta(held, with_offset, x)
        wide = np.sqrt(1 + GAUSS * spread)
        q = 1 / (1 + np.exp(-eta / wide))
        room = 1 - g - know.slip
        p: Floats = g + room * q
        d = room * q * (1 - q) / wide
        told = weight * d / (p * (1 - p))
        r = told * (right - p)
        shrink = told * d / (1 + spread * told * d)
        rows[OFFSET] += with_offset * r
        rows[VARIANCE] = with_offset * (1 - with_offset * shrink)
        self.traits[:, children] += of_traits * r
        lost = of_traits * shrink
        for place, (i, j) in enumerate(PAIRS):
            held[place] -= of_traits[j] * lost[i]
        self.spread[:, children] = held
        return p


def _with_eta(held: Floats, with_offset: Floats, x: Floats) -> tuple[Floats, Floats]:
    """The covariances of a child's own numbers with η, and the variance of η."""
    of_traits: Floats = np.einsum("ijn,jn->in", held[SQUARE].reshape(TRAITS, TRAITS, -1), x)
    return of_traits, with_offset + (of_traits * x).sum(axis=0)
