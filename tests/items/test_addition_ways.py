"""What each way to add, count or read wrongly writes, against printed examples."""

from __future__ import annotations

import re
from collections import Counter
from itertools import product
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dayleaf.core.ids import ErrorWayId
from dayleaf.course.load import grade2
from dayleaf.items.built import rule_of
from dayleaf.items.domain import domain_of
from dayleaf.items.numbers import RULES
from dayleaf.items.ways import addition, facts, large_numbers, place_value, places
from dayleaf.items.ways.published import PUBLISHED
from dayleaf.items.written import read_written

if TYPE_CHECKING:
    from collections.abc import Callable

    from dayleaf.core.ids import SkillId

SKILLS = grade2().skills


# CHECKS D.2 (examples computed there, general literature on error patterns).
@pytest.mark.parametrize(
    ("go", "a", "b", "written"),
    [
        (addition.ten_forgotten, 38, 27, 55),
        (addition.writes_both_digits, 38, 27, 515),
        (addition.ten_written_one_carried, 38, 27, 101),
        (addition.always_regroups, 32, 45, 87),
        (addition.digits_all_added, 38, 27, 20),
        (addition.digit_added_to_tens_too, 46, 3, 79),
        (addition.adds_from_the_left, 76, 85, 512),
        (facts.one_less, 8, 5, 12),
    ],
)
def test_a_printed_example_comes_out(go: Callable[[int, int], int | None], a: int, b: int, written: int) -> None:
    assert go(a, b) == written


# CHECKS D.3: digit swap 36/63; concatenation when writing heard numbers (two-digit twins of 20035).
def test_a_number_is_written_as_heard_or_turned_round() -> None:
    assert place_value.digits_swapped(36) == 63
    assert place_value.written_as_heard(35) == 305
    assert place_value.written_as_heard(106) == 1006
    assert place_value.written_as_heard(40) is None


@given(st.integers(10, 99), st.integers(10, 99))
def test_a_way_about_the_new_ten_is_silent_without_one(a: int, b: int) -> None:
    ways = (addition.ten_forgotten, addition.writes_both_digits, addition.ten_written_one_carried)

    if a % 10 + b % 10 < 10:
        assert [go(a, b) for go in ways] == [a + b] * 3
    else:
        assert all(go(a, b) != a + b for go in ways[:2])
        assert addition.always_regroups(a, b) == a + b


EXAMPLE = re.compile(r"([\d+\-□=]+) ?→ ?(\d+)")
PRINTED = [
    (skill_id, way.id, asked, written)
    for skill_id in (rule.skill for rule in RULES)
    for way in SKILLS[skill_id].error_ways
    for asked, written in EXAMPLE.findall(way.text)
    if {"+", "-"} & set(asked) and asked not in {"8-15", "3-7"}  # a sum the child writes, not one that is asked
    if skill_id not in {"add-4digit-regroup", "sub-4digit-regroup"}  # too many sums to be typed; checked below
]


@pytest.mark.parametrize(("skill_id", "way", "asked", "written"), PRINTED)
def test_the_skill_files_own_example_is_what_the_way_writes(
    skill_id: SkillId, way: str, asked: str, written: str
) -> None:
    # The examples in the skill files were written by hand and checked to be wrong answers.
    line = f"{asked}: {written}" if "□" in asked else f"{asked}={written}"

    item, answer = read_written(SKILLS[skill_id], line)

    assert answer == written
    assert {str(name): wrong for name, wrong in item.errors.items()}[way] == written


# The skill files' own examples with four digits.
@pytest.mark.parametrize(
    ("go", "a", "b", "written"),
    [
        (places.second_trade_forgotten, 2758, 1467, 3225),
        (places.aligned_left, 2758, 46, 7358),
        (PUBLISHED[ErrorWayId("smaller-from-larger")], 5214, 2678, 3464),
        (PUBLISHED[ErrorWayId("zero-left-as-ten")], 5003, 2678, 2435),
        (large_numbers.changed_one_place_higher, 2340, 100, 3340),
        (large_numbers.stuck_at_the_turn, 2960, 100, 21060),
        (places.always_trades, 32, 45, 87),  # CHECKS D.2
        (places.aligned_left, 352, 4, 752),  # CHECKS D.2
        (places.writes_both_digits, 38, 27, 515),  # CHECKS D.2
    ],
)
def test_an_example_with_more_digits_comes_out(
    go: Callable[[int, int], int | None], a: int, b: int, written: int
) -> None:
    assert go(a, b) == written


# CHECKS D.3: two hundred thirty-five written 200305 or 2035, zero dropped 407, and the skill files' examples.
def test_a_larger_number_is_written_as_heard_or_without_its_zero() -> None:
    assert large_numbers.as_heard(235) == 200305
    assert large_numbers.hundred_half_written(235) == 2035
    assert large_numbers.zero_dropped(407) == 47
    assert large_numbers.as_heard(3040) == 300040
    assert large_numbers.as_heard(405) == 4005
    assert large_numbers.as_heard(515) == 50015
    assert large_numbers.zero_dropped(2005) == 205
    assert large_numbers.rounded_twice(348) == 400
    assert large_numbers.by_the_ones(319) == 400
    assert large_numbers.by_first_digit(987, 1203) == ">"
    assert large_numbers.by_last_digit(329, 341) == ">"


# CHECKS H.4: three-digit sums up to 1000 by carries, three-digit differences by borrows, borrows across a zero.
def test_trades_and_openings_are_as_many_as_counted_elsewhere() -> None:
    sums = Counter(len(places.trades(a, b)) for a in range(100, 901) for b in range(100, 1001 - a))
    differences = Counter(len(places.openings(a, b)) for a in range(100, 1000) for b in range(100, a + 1))

    assert [sums[n] for n in range(4)] == [108_900, 142_209, 69_372, 720]
    assert [differences[n] for n in range(3)] == [136_125, 180_225, 89_100]


def test_there_are_many_such_examples() -> None:
    assert len(PRINTED) > 60


ONLY_IN_TALK = {
    ("even-odd-pairs", "odd-means-big-or-strange"),
    ("even-equal-addends", "half-of-odd"),
    ("compare-sets-10", "bigger-things-more"),
    ("estimate-count-by-tens", "wild-guess"),
    ("fact-family-within-20", "four-facts-for-doubles"),
    ("choose-operation-sign", "compare-start-only"),
    ("skip-count-100s-to-1000", "after-900"),
    ("fact-family-within-10", "not-one-family"),
    ("numerals-0-20", "digit-mirror"),
    ("pv-5digit", "comma-misplaced"),
    ("div-fair-share", "unequal-deal"),
    ("div-sentence", "order-turned"),
}
"""Ways without one predictable answer to a printed item: a guess, or something said or drawn."""


@pytest.mark.parametrize("skill_id", [rule.skill for rule in RULES])
def test_every_wrong_answer_way_of_the_file_shows_in_some_item(skill_id: SkillId) -> None:
    skill = SKILLS[skill_id]
    domain = domain_of(skill)
    rule = rule_of(skill.id)
    wanted = {way.id for way in skill.error_ways if way.shows_as == "wrong answer"}
    wanted -= {way for way in wanted if (skill_id, way) in ONLY_IN_TALK}
    for (format_id, maker), place in product(rule.formats.items(), range(len(domain))):
        numbers = domain.numbers(place)
        if not wanted:
            break
        if format_id not in rule.fits or rule.fits[format_id](numbers):
            wanted -= set(maker(numbers).errors)

    assert wanted == set()
