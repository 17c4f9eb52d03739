"""Many habits at once write what they write one by one; what a habit needs is really needed.

The single procedures are held against the published examples in `test_published_ways`.
"""

from __future__ import annotations

from random import Random

import pytest

from dayleaf.core.ids import ErrorWayId
from dayleaf.items.numbers.taking_hundreds import published
from dayleaf.items.ways import places
from dayleaf.items.ways.paper import needs_met
from dayleaf.items.ways.published import PUBLISHED
from dayleaf.items.ways.together import Together, within

ADDED = ErrorWayId("added")


def pairs(most: int, count: int) -> list[tuple[int, int]]:
    """Tops up to `most`, rich in zeros and ones, with bottoms of any length."""
    chance = Random(most)
    found: list[tuple[int, int]] = []
    while len(found) < count:
        top = int("".join(chance.choice("0011234567899") for _ in str(most)))
        bottom = chance.randrange(10 ** chance.randint(1, len(str(most))))
        if bottom <= top <= most:
            found.append((top, bottom))
    return found


@pytest.mark.parametrize("most", [99, 999, 9999])
def test_all_at_once_is_each_by_itself(most: int) -> None:
    together = Together(PUBLISHED, width=4, others={ADDED: places.added_instead})

    for top, bottom in pairs(most, 1500):
        alone = {way: habit(top, bottom) for way, habit in PUBLISHED.items()} | {ADDED: top + bottom}
        assert together.answers(top, bottom) == {way: str(one) for way, one in alone.items() if one < 10**4}
        assert {way: go(top, bottom) for way, go in together.items()} == {
            way: one if one < 10**4 else None for way, one in alone.items()
        }


@pytest.mark.parametrize("most", [99, 999, 9999])
def test_a_habit_without_what_it_needs_is_silent(most: int) -> None:
    silent = dict.fromkeys(PUBLISHED, 0)

    for top, bottom in pairs(most, 1500):
        upper, lower = [*map(int, str(top)[::-1])], [*map(int, str(bottom)[::-1])]
        met = needs_met(upper, lower + [0] * (len(upper) - len(lower)), len(lower))
        for way, habit in PUBLISHED.items():
            if habit.needs not in met:
                silent[way] += 1
                assert habit(top, bottom) == top - bottom, (way, top, bottom)

    assert all(silent[way] for way, habit in PUBLISHED.items() if habit.needs)


def test_an_answer_too_long_for_the_boxes_is_left_out() -> None:
    assert ErrorWayId("opens-every-place") not in Together(PUBLISHED, width=3).answers(488, 229)
    assert within(3, PUBLISHED)[ErrorWayId("opens-every-place")](488, 229) is None
    assert published().answers(488, 229)[ErrorWayId("opens-every-place")] == "1159"  # D.1, number 13
