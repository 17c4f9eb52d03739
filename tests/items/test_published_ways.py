"""The published ways to go astray in column subtraction, against the examples and counts collected in CHECKS D.1.

Sources there: Brown & Burton 1978; Brown & VanLehn 1980; VanLehn 1990. Names and examples from memory, except those
that D.1 marks as read.
"""

from __future__ import annotations

import re
from collections import defaultdict
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.course.load import grade2
from dayleaf.items.domain import domain_of
from dayleaf.items.make import make
from dayleaf.items.parting import parting_items
from dayleaf.items.ways.paper import read, worked
from dayleaf.items.ways.places import openings
from dayleaf.items.ways.published import PUBLISHED
from dayleaf.items.ways.subtraction import OPENING

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from dayleaf.items.model import Item

    Pairs = Iterable[tuple[int, int]]

BY_NUMBER = {habit.number: habit for habit in PUBLISHED.values()}
RIGHT = 0

# CHECKS D.1, column "Example", row by row; for 28 the column left empty closes up.
EXAMPLES = """
1 253-118=145  1 63-29=46  1 42-18=36  2 306-148=162  3 103-45=158  3 1300-522=878  4 803-508=395  4 103-45=58
5 304-75=139  6 304-75=279  7 304-75=209  8 203-98=115  9 62-44=28  9 143-28=125  10 140-21=121  11 140-21=120
12 143-20=120  13 488-229=1159  14 733-216=427  15 32-15=47  16 863-134=749  17 602-364=258  18 316-139=267
19 414-277=237  20 604-235=479  21 313-159=144  22 506-318=198  23 347-9=348  24 535-277=358  25 71-38=32  26 86-29=30
27 42-16=30  28 425-283=22  29 54-29=34  30 178-59=19  31 4369-22=2147  32 143-22=21  33 548-2=436  33 35-2=23
"""


@pytest.mark.parametrize(("number", "top", "bottom", "written"), re.findall(r"(\d+) (\d+)-(\d+)=(\d+)", EXAMPLES))
def test_each_way_writes_what_is_printed_for_it(number: str, top: str, bottom: str, written: str) -> None:
    assert BY_NUMBER[int(number)](int(top), int(bottom)) == int(written)


def test_the_empty_column_of_the_28th_way_stays_empty() -> None:
    assert BY_NUMBER[28].columns(425, 283) == (2, None, 2)


def test_all_33_are_there_in_their_order() -> None:
    assert [habit.number for habit in PUBLISHED.values()] == list(range(1, 34))


@given(st.integers(0, 99_999), st.integers(0, 99_999))
def test_without_a_habit_the_columns_give_the_difference(one: int, other: int) -> None:
    top, bottom = max(one, other), min(one, other)

    assert read(worked(top, bottom)) == top - bottom


def zero_in_the_way(top: int, bottom: int) -> bool:
    """A place to open whose left neighbor is a zero, told from the digits alone."""
    digits = f"0{top}"[::-1]
    return any(digits[place + 1] == "0" for place in openings(top, bottom))


# What sets each group of ways off, from the rules of D.1; where it is absent the answer is right.
TRIGGERS: dict[tuple[int, ...], Callable[[int, int], bool]] = {
    (1, 9, 14, 16, 24, 26, 27, 28, 29): lambda top, bottom: bool(openings(top, bottom)),
    (2, 3, 4, 5, 8, 17, 20, 22): zero_in_the_way,
    (10, 11): lambda top, bottom: "0" in str(top) or bool(openings(top, bottom)),
    (6, 7): lambda top, bottom: "0" in str(top) or bool(openings(top, bottom)),
    (12,): lambda _, bottom: "0" in str(bottom),
    # a 2 that has lent is a 1 when its own turn comes
    (18, 19, 21, 25): lambda top, bottom: bool({"1", "2"} & set(str(top))) and bool(openings(top, bottom)),
    (23,): lambda top, bottom: len(str(bottom)) < len(str(top)) and bool(openings(top, bottom)),
    (30, 31, 33): lambda top, bottom: len(str(bottom)) < len(str(top)),
    (32,): lambda top, bottom: len(str(bottom)) < len(str(top)) and str(top)[0] in "12",
}


@pytest.mark.parametrize("numbers", TRIGGERS)
def test_a_way_is_silent_where_its_trigger_is_absent(numbers: tuple[int, ...]) -> None:
    trigger = TRIGGERS[numbers]
    pairs = [(top, bottom) for top in range(100, 1000, 7) for bottom in range(1, top, 11) if not trigger(top, bottom)]
    assert len(pairs) > 500

    for number in numbers:
        loud = [pair for pair in pairs if BY_NUMBER[number](*pair) != pair[0] - pair[1]]
        assert loud == [], number


def classes(items: Pairs) -> list[list[int]]:
    """The ways (0 for right) that give the same answers to all of these."""
    found: defaultdict[tuple[int, ...], list[int]] = defaultdict(list)
    asked = tuple(items)
    found[tuple(top - bottom for top, bottom in asked)].append(RIGHT)
    for number, habit in BY_NUMBER.items():
        found[tuple(habit(top, bottom) for top, bottom in asked)].append(number)
    return list(found.values())


def test_two_digit_tops_leave_21_classes_and_11_ways_that_never_show() -> None:
    # D.1, diagnosis checks.
    found = classes((top, bottom) for top in range(10, 100) for bottom in range(top + 1))

    assert len(found) == 21
    assert len(next(one for one in found if RIGHT in one)) == 12


def test_four_items_with_three_digits_part_all_34() -> None:
    # D.1: 105-66, 700-507, 211-66, 697-10.
    assert len(classes([(105, 66), (700, 507), (211, 66), (697, 10)])) == 34


# D.1: the twenty items recalled from VanLehn's test.
TWENTY = """647-45 885-205 83-44 8305-3 50-23 562-3 742-136 106-70 716-598 1564-887 6591-2697 311-214 1813-215 102-39
9007-6880 4015-607 702-108 2006-42 10012-214 8001-43"""


def test_the_twenty_recalled_items_part_all_34_and_show_the_counted_wrong_answers() -> None:
    items = [(int(top), int(bottom)) for top, bottom in re.findall(r"(\d+)-(\d+)", TWENTY)]
    assert len(items) == 20

    assert len(classes(items)) == 34
    # D.1: 1 and 9 go wrong on 17 of the 20, 32 on 2.
    for number, times in ((1, 17), (9, 17), (32, 2)):
        assert sum(BY_NUMBER[number](*item) != item[0] - item[1] for item in items) == times


def test_the_eight_items_of_the_real_data_leave_3_and_4_together() -> None:
    # D.1 and F.2: 28 signatures.
    eight = [(73, 58), (317, 94), (784, 693), (507, 49), (253, 178), (2245, 418), (156, 68), (3642, 753)]

    found = classes(eight)

    assert len(found) == 28
    assert [3, 4] in found


def test_ways_with_two_homes_agree_on_two_digits() -> None:
    for way in set(OPENING) & set(PUBLISHED):
        for top in range(20, 100):
            for bottom in range(11, top):
                if top // 10 > bottom // 10:
                    assert OPENING[way](top, bottom) == PUBLISHED[way](top, bottom), (way, top, bottom)


MIXED = grade2().skills[SkillId("add-sub-3digit-mixed")]


def subtractions(step: int) -> list[Item]:
    """Items of the mixed skill that take away, evenly from its whole rule."""
    domain = domain_of(MIXED)
    taking = (domain.numbers(place) for place in range(0, len(domain), step) if domain.rows[place][2] == 1)
    return [make(MIXED, FormatId("vert"), numbers) for numbers in taking]


def test_four_items_are_chosen_that_part_all_published_ways() -> None:
    # D.1: four well-chosen three-digit items separate all of them from each other and from the right way.
    parting = parting_items(subtractions(211), most=4)

    ways = {ErrorWayId("trade-wrong-way") if way == "ten-added-to-lender" else way for way in PUBLISHED}
    assert {way for item in parting.items for way in item.errors} == ways
    assert parting.unparted == ()
    assert len(parting.items) == 4
    assert len(classes([(item.numbers["a"], item.numbers["b"]) for item in parting.items])) == 34


def test_pairs_that_no_item_parts_are_named() -> None:
    skill = grade2().skills[SkillId("sub-3digit-regroup-tens")]
    pool = [make(skill, FormatId("vert"), {"a": 564, "b": 128})]

    parting = parting_items(pool, most=6)

    assert (None, ErrorWayId("minus-zero-is-zero")) in parting.unparted
    assert (None, ErrorWayId("smaller-from-larger")) not in parting.unparted
