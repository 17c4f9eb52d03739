"""Many habits of taking away at once: what their columns have in common is worked out once.

After the ones a habit only sees what is left of the digits. There are far fewer such remainders than sums, so each
habit keeps what it wrote for them; a new sum then costs one column a habit, and not all of them.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId
from dayleaf.items.ways.paper import Paper, needs_met, take
from dayleaf.items.ways.subtraction import Procedure

if TYPE_CHECKING:
    from collections.abc import Iterator

    from dayleaf.items.ways.published import Habit

    Rest = tuple[tuple[int, ...], tuple[int, ...], int, int]
    """What later columns see: the upper digits left, the lower ones, the lower number's first digit, places opened."""

KEPT = 20_000
"""How many remainders each habit keeps; three-digit numbers have about half as many."""


class Together(Mapping[ErrorWayId, Procedure]):
    """Ways by id, habits and others, each what it writes where that has room in `width` boxes.

    `answers` gives all at once and equals what the ways give one by one.
    """

    def __init__(
        self, habits: Mapping[ErrorWayId, Habit], *, width: int, others: Mapping[ErrorWayId, Procedure] | None = None
    ) -> None:
        self._others = within(width, others or {})
        self._ways = {**within(width, habits), **self._others}
        self._width = width
        self._kept: list[tuple[ErrorWayId, Habit, dict[Rest, str]]] = [(way, one, {}) for way, one in habits.items()]

    def __getitem__(self, way: ErrorWayId) -> Procedure:
        return self._ways[way]

    def __iter__(self) -> Iterator[ErrorWayId]:
        return iter(self._ways)

    def __len__(self) -> int:
        return len(self._ways)

    def answers(self, top: int, bottom: int) -> dict[ErrorWayId, str]:
        """What each habit writes, where it has room; 0 <= bottom <= top."""
        upper, own = _digits(top), _digits(bottom)
        filled, first = len(own), own[-1]
        lower = own + (0,) * (len(upper) - filled)
        untouched: Rest = (upper[1:], lower[1:], first, 0)
        ones = upper[0] - lower[0]
        met = needs_met(upper, lower, filled)
        right = str(top - bottom)
        found: dict[ErrorWayId, str] = {}
        for way, habit, kept in self._kept:
            if habit.needs not in met:
                found[way] = right
                continue
            if ones >= 0 and habit.column is take:  # nothing to open: the rest is as it was
                paper, rest, here = None, untouched, str(ones)
            else:
                paper = Paper([*upper], [*lower], filled)
                written = habit.column(paper, 0, habit.lender)
                rest = (tuple(paper.top[1:]), tuple(paper.bottom[1:]), first, paper.opened)
                here = "" if written is None else str(written)
            left = kept.get(rest)
            if left is None:
                left = _left_columns(habit, paper or Paper([*upper], [*lower], filled))
                if len(kept) == KEPT:
                    kept.clear()
                kept[rest] = left
            answer = (left + here).lstrip("0") or "0"
            if len(answer) <= self._width:
                found[way] = answer
        for way, go in self._others.items():
            wrong = go(top, bottom)
            if wrong is not None:
                found[way] = str(wrong)
        return found


def _left_columns(habit: Habit, paper: Paper) -> str:
    """What the habit writes under the columns left of the ones."""
    columns = [habit.column(paper, place, habit.lender) for place in range(1, len(paper.top))]
    return "".join(str(one) for one in reversed(columns) if one is not None)


def within(width: int, ways: Mapping[ErrorWayId, Procedure]) -> dict[ErrorWayId, Procedure]:
    """The ways where what they write has room in so many boxes; silent where it is longer."""

    def short(go: Procedure) -> Procedure:
        def written(a: int, b: int) -> int | None:
            wrong = go(a, b)
            return wrong if wrong is None or wrong < most else None

        return written

    most = 10**width
    return {way: short(go) for way, go in ways.items()}


@lru_cache(maxsize=16_384)
def _digits(n: int) -> tuple[int, ...]:
    """The digits of a number, ones first."""
    return tuple(map(int, reversed(str(n))))
