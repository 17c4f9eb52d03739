"""Taking away in columns: every published way is looked for, also where a skill's own list is shorter.

Where a description leaves open what a child does there (a 0 or a 1 may be the printed digit or what has become of it;
a column may have to be opened when nothing is left that could lend) the further readings are kept beside the first.

A child brings a habit from one skill into the next, so an answer to any item of the strand that takes one number
from another is compared with all 33 published ways. Two of the course's ways are the same procedure under a name
of their own (`SAME_WAY`); for the odds they are one.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import lru_cache
from types import MappingProxyType
from typing import TYPE_CHECKING, Final

from dayleaf.core.ids import ErrorWayId
from dayleaf.items.ways.paper import lend, read, take, worked
from dayleaf.items.ways.published import PUBLISHED

if TYPE_CHECKING:
    from collections.abc import Mapping

    from dayleaf.core.ids import SkillId
    from dayleaf.items.ways.paper import Lend as Lender
    from dayleaf.items.ways.paper import Paper
    from dayleaf.items.ways.published import Habit

SAME_WAY: Final[Mapping[ErrorWayId, ErrorWayId]] = MappingProxyType(
    {
        ErrorWayId("hundred-not-reduced"): ErrorWayId("ten-not-reduced"),
        ErrorWayId("both-zeros-ten"): ErrorWayId("zero-left-as-ten"),
    }
)
"""Ways that the items room builds from one published procedure under a second name."""

_OPENS_MISSING: Final = ErrorWayId("opens-what-is-missing")
_IN_COLUMNS: Final = ("sub-2digit-", "sub-3digit-", "sub-4digit-", "sub-from-", "add-sub-")
_MOVES_OVER: Final = PUBLISHED[ErrorWayId("move-over-zero")].lender


@dataclass(frozen=True, slots=True)
class ColumnWays:
    """What each way writes for one item, and the further readings of some of them."""

    errors: Mapping[ErrorWayId, str]
    readings: Mapping[ErrorWayId, tuple[str, ...]] = field(default_factory=dict)


def one_name(way: ErrorWayId) -> ErrorWayId:
    """The published name of a way that has two."""
    return SAME_WAY.get(way, way)


def top_and_bottom(skill: SkillId, numbers: Mapping[str, int], *, right: str) -> tuple[int, int] | None:
    """The two numbers of a take-away within the reach of columns; None for any other item."""
    if not right.isdigit() or not skill.startswith(_IN_COLUMNS):
        return None
    a, b = numbers.get("a"), numbers.get("b")
    if b is None and set(numbers) == {"a", "k"}:
        return None
    for top in (a, None if a is None else 10 * a, None if a is None else 100 * a, 1000 if a is None else None):
        if top is not None and b is not None and top - b == int(right) and top > 9 and b >= 0:
            return top, b
    return None


def column_ways(
    skill: SkillId, numbers: Mapping[str, int], *, right: str, known: Mapping[ErrorWayId, str]
) -> ColumnWays:
    """The ways that the item itself names, and for a take-away in columns every published one beside them."""
    pair = top_and_bottom(skill, numbers, right=right)
    if pair is None or not known:
        return ColumnWays(known)
    written, readings = published_answers(*pair)
    named_twice = {SAME_WAY[way] for way in known if way in SAME_WAY}
    others = {way: answer for way, answer in written.items() if way not in known and way not in named_twice}
    return ColumnWays({**known, **others}, readings)


@lru_cache(maxsize=4096)
def published_answers(top: int, bottom: int) -> tuple[Mapping[ErrorWayId, str], Mapping[ErrorWayId, tuple[str, ...]]]:
    """What each published way writes, and the other readings where they differ; 0 <= bottom <= top."""
    written = {}
    readings: dict[ErrorWayId, tuple[str, ...]] = {}
    for way, habit in PUBLISHED.items():
        stuck: list[bool] = []
        columns = worked(top, bottom, column=habit.column, lender=_watched(habit.lender, stuck))
        written[way] = str(read(columns))
        others = [_as_printed(way, top, bottom)] if way in _AS_PRINTED else []
        if any(stuck):
            others.append(_zero_where_stuck(habit, top, bottom))
        if way == _OPENS_MISSING:
            others.append(read(worked(top, bottom, column=_takes_what_is_there)))
        new = tuple(dict.fromkeys(str(one) for one in others if str(one) != written[way]))
        if new:
            readings[way] = new
    return written, readings


def doubtful(top: int, bottom: int) -> frozenset[ErrorWayId]:
    """The published ways about which somebody could argue what they write here; 0 <= bottom <= top."""
    return frozenset(published_answers(top, bottom)[1])


def _watched(lender: Lender, stuck: list[bool]) -> Lender:
    def tries(paper: Paper, place: int) -> bool:
        lends = lender(paper, place)
        if not lends:
            stuck.append(True)
        return lends

    return tries


def _zero_where_stuck(habit: Habit, top: int, bottom: int) -> int:
    """The way where a zero is written in a column that cannot be opened any more."""
    stuck: list[bool] = []

    def column(paper: Paper, place: int, lender: Lender) -> int | None:
        before = len(stuck)
        written = habit.column(paper, place, lender)
        return 0 if len(stuck) > before else written

    return read(worked(top, bottom, column=column, lender=_watched(habit.lender, stuck)))


def _takes_what_is_there(paper: Paper, place: int, lender: Lender) -> int:
    """Only as much is taken from the left as the column lacks, and no more than stands there."""
    missing = paper.bottom[place] - paper.top[place]
    if missing <= 0 or place + 1 == len(paper.top):
        return take(paper, place, lender)
    paper.top[place + 1] = max(0, paper.top[place + 1] - missing)
    return 0


def _as_printed(way: ErrorWayId, top: int, bottom: int) -> int:
    """The way where it looks at the digit printed, not at what has become of it."""
    digits = [int(one) for one in reversed(str(top))]
    kind, lender = _AS_PRINTED[way]

    def column(paper: Paper, place: int, lender: Lender) -> int:
        if kind == "one":
            opens = paper.top[place] < paper.bottom[place] and digits[place] == 1
            written = take(paper, place, lender)
            return written - (paper.top[place] - 10 if opens and paper.top[place] > 9 else 0)
        if digits[place] == 0:
            return paper.bottom[place] if kind == "digit" else 0
        return take(paper, place, lender)

    return read(worked(top, bottom, column=column, lender=lender))


_AS_PRINTED: Final[Mapping[ErrorWayId, tuple[str, Lender]]] = MappingProxyType(
    {
        ErrorWayId("zero-digit-move-over"): ("digit", _MOVES_OVER),
        ErrorWayId("zero-zero-move-over"): ("zero", _MOVES_OVER),
        ErrorWayId("opened-one-is-ten"): ("one", lend),
    }
)
"""Ways told of a digit (a 0, a 1) that may be the printed one or the one that stands there by then. The two plainer
ways with zeros have one reading: taken of the printed zero they would be these (CHECKS D.1: all 33 can be parted)."""
