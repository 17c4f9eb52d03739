"""Which habit a child has, if any: odds over no habit and every known error way, kept answer by answer.

A way is followed through all skills by its id. It may begin late and it may be mended: between two answers on which
it has a say it starts with probability .001 and ends with probability .002 (assumptions without a source), so that
old answers fade where newer ones say otherwise. One `Habits` value holds all that is needed of a child's answers;
nothing is ever changed in place.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from math import exp, log
from typing import TYPE_CHECKING, Final

from dayleaf.learner.columns import SAME_WAY, one_name
from dayleaf.learner.odds import (
    FOLLOWED,
    FOLLOWED_WEIGHTS,
    SLIP_WEIGHTS,
    SLIPS,
    Rates,
    neighbors,
    unknown_habit,
    with_habit,
    without_habit,
)
from dayleaf.learner.replies import NOT_KEYED
from dayleaf.marking.answer import same_answer

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from dayleaf.core.ids import ErrorWayId
    from dayleaf.learner.replies import Reply

NO_HABIT, SOME_HABIT, UNKNOWN = 0.6, 0.3, 0.1
"""Prior weights: no habit, one of the known ways, one that is in no list. In a collected study 13 % of children
had a systematic error in subtraction (CHECKS D.1); those who are looked at closer have one more often."""
FEWEST: Final = 12
"""The known ways share their prior among at least so many, so that a short list is no proof."""
BEGINS, ENDS = 0.001, 0.002
HABIT: Final = 0.8
"""A habit is named only from this probability on (DESIGN 9)."""
AT_LEAST: Final = 2
"""A habit is named only when so many wrong answers are its own: never from one (CHECKS D.1)."""
ALIKE: Final = 1 / 3
"""Ways at least this likely beside the likeliest explain the answers about as well."""
REMEMBERED: Final = 48
"""So many newest items are not asked again."""

_LEAST: Final = 1e-200
"""Smaller numbers are kept at this, so that a year of answers neither vanishes nor runs over."""
_NEW: Final[Rates] = (1.0,) * (len(SLIPS) * len(FOLLOWED))
_NOT_MENDED: Final[Rates] = (0.0,) * len(_NEW)


@dataclass(frozen=True, slots=True)
class Followed:
    """One way's odds against no habit, for each pair of rates: still followed, and followed once but mended.

    Both are to be multiplied by exp(`scale`). `says` counts the answers on which the way has a say, `own` the wrong
    ones that are the way's.
    """

    on: Rates = _NEW
    mended: Rates = _NOT_MENDED
    scale: float = 0.0
    says: int = 0
    own: int = 0


@dataclass(frozen=True, slots=True)
class Strand:
    """What the answers of one strand say when no habit, or an unknown one, stands behind them; up to a factor."""

    none: Rates = SLIP_WEIGHTS
    unknown: float = 1.0
    ways: frozenset[ErrorWayId] = frozenset()


@dataclass(frozen=True, slots=True)
class Habits:
    """All that is kept of one child's answers. `asked` are the keys of the newest items."""

    strands: Mapping[str, Strand] = field(default_factory=dict)
    ways: Mapping[ErrorWayId, Followed] = field(default_factory=dict)
    asked: tuple[str, ...] = ()


def heard(habits: Habits, reply: Reply, *, strand: str) -> Habits:
    """The state after one more answer to an item of this strand.

    An answer that nobody typed says only that it was wrong, which tells no way from another: it changes no odds.
    """
    asked = (*habits.asked, reply.key)[-REMEMBERED:]
    if reply.written == NOT_KEYED or not reply.errors:
        return replace(habits, asked=asked)
    before = habits.strands.get(strand, Strand())
    by_others = neighbors(reply)
    none = without_habit(reply, by_others=by_others)
    ways = dict(habits.ways)
    chances: dict[str, Rates] = {}
    touched = set()
    for named, answer in reply.errors.items():
        way = one_name(named)
        touched.add(way)
        if same_answer(answer, reply.right) and named not in reply.readings:
            continue
        known = answer if named not in reply.readings else named
        if known not in chances:
            chances[known] = with_habit(reply, named, none, by_others=by_others)
        own = not reply.is_right and reply.fits(named)
        ways[way] = _followed(ways.get(way, _FRESH), chances[known], own=own)
    products = tuple(a * b for a, b in zip(before.none, none, strict=True))
    most = max(products)
    after = Strand(
        none=tuple(max(one / most, _LEAST) for one in products),
        unknown=min(before.unknown * unknown_habit(reply, by_others=by_others) / most, 1 / _LEAST),
        ways=before.ways if touched <= before.ways else before.ways | touched,
    )
    return Habits(strands={**habits.strands, strand: after}, ways=ways, asked=asked)


def heard_all(replies: Iterable[tuple[str, Reply]]) -> Habits:
    """The state after these answers, each with its strand, in order."""
    habits = Habits()
    for strand, reply in replies:
        habits = heard(habits, reply, strand=strand)
    return habits


@dataclass(frozen=True, slots=True)
class Odds:
    """Probabilities: of no habit (a mended one is none), of one in no list, of each way still followed."""

    none: float
    unknown: float
    ways: Mapping[ErrorWayId, float]
    own: Mapping[ErrorWayId, int]

    @property
    def leading(self) -> ErrorWayId | None:
        """The likeliest way; None where no way was ever possible."""
        return max(self.ways, key=lambda way: self.ways[way], default=None)


def odds_in(habits: Habits, strand: str) -> Odds:
    """The odds among the ways that may show in this strand, each with its evidence from every strand."""
    here = habits.strands.get(strand, Strand())
    prior = SOME_HABIT / max(FEWEST, len(here.ways))
    logs: dict[ErrorWayId, float] = {}
    mended: list[float] = []
    for way in sorted(here.ways):
        followed = habits.ways.get(way, _FRESH)
        logs[way] = _log(prior * _mean(here.none, followed.on)) + followed.scale
        if followed.says > 1:
            mended.append(_log(prior * _mean(here.none, followed.mended)) + followed.scale)
    none, unknown = log(NO_HABIT * sum(here.none)), _log(UNKNOWN * here.unknown)
    most = max(none, unknown, *logs.values(), *mended)
    weights = {way: exp(one - most) for way, one in logs.items()}
    without = exp(none - most) + sum(exp(one - most) for one in mended)
    total = sum(weights.values()) + without + exp(unknown - most)
    return Odds(
        none=without / total,
        unknown=exp(unknown - most) / total,
        ways={way: weight / total for way, weight in weights.items()},
        own={way: habits.ways[way].own if way in habits.ways else 0 for way in here.ways},
    )


@dataclass(frozen=True, slots=True)
class Named:
    """What may be said: a habit, or a class of look-alikes without a single one, or nothing yet.

    `p` is the probability of the habit, of the class together, or of the likeliest way.
    """

    habit: ErrorWayId | None
    p: float
    klass: tuple[ErrorWayId, ...]


def named(odds: Odds) -> Named:
    """The habit from .8 on and from two wrong answers of its own; else the look-alikes that reach .8 together.

    A class holds every way at least a third as likely as the likeliest, under all its names.
    """
    leading = odds.leading
    if leading is None:
        return Named(None, 0.0, ())
    p = odds.ways[leading]
    alike = sorted((way for way in odds.ways if odds.ways[way] >= ALIKE * p), key=lambda way: -odds.ways[way])
    together = sum(odds.ways[way] for way in alike)
    if odds.own[leading] < AT_LEAST or together < HABIT:
        return Named(None, p, ())
    names = tuple(name for way in alike for name in (way, *(one for one, same in SAME_WAY.items() if same == way)))
    return Named(leading, p, names) if p >= HABIT else Named(None, together, names)


_FRESH: Final = Followed()


def _followed(before: Followed, chance: Rates, *, own: bool) -> Followed:
    begins, ends = (BEGINS * exp(-before.scale), ENDS) if before.says else (0.0, 0.0)
    on = tuple(((1 - ends) * one + begins) * ratio for one, ratio in zip(before.on, chance, strict=True))
    mended = tuple(gone + ends * one for gone, one in zip(before.mended, before.on, strict=True))
    most = max(*on, *mended)
    return Followed(
        on=tuple(one / most for one in on),
        mended=tuple(one / most for one in mended),
        scale=before.scale + log(most),
        says=before.says + 1,
        own=before.own + own,
    )


def _mean(none: Rates, rates: Rates) -> float:
    """The sum over slip rates of `none` times the mean over following rates; `none` holds the slip rates' weights."""
    often, mostly, half = FOLLOWED_WEIGHTS
    firsts = range(0, len(rates), len(FOLLOWED))
    return sum(
        here * (often * rates[first] + mostly * rates[first + 1] + half * rates[first + 2])
        for here, first in zip(none, firsts, strict=True)
    )


def _log(value: float) -> float:
    return log(value) if value > 0 else float("-inf")
