"""What each way to take away wrongly writes, against published and printed examples."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.course.load import grade2
from dayleaf.items.make import make
from dayleaf.items.ways.subtraction import OPENING, TWO_DIGIT, Procedure

SKILLS = grade2().skills

# JOB 1.7, the table of predicted answers, row by row.
JOB_1_7 = {
    (62, 38): (24, 36, 34, 24, 100),
    (71, 47): (24, 36, 34, 24, 118),
    (84, 29): (55, 65, 65, 55, 113),
    (53, 17): (36, 44, 46, 36, 70),
    (90, 36): (54, 66, 64, 66, 126),
    (65, 21): (44, 44, 44, 44, 86),
}
WAYS = ("smaller-from-larger", "ten-not-reduced", "zero-minus-is-digit", "sign-ignored")


@pytest.mark.parametrize(("sum_", "answers"), JOB_1_7.items())
def test_the_table_of_six_items_comes_out_as_printed(sum_: tuple[int, int], answers: tuple[int, ...]) -> None:
    skill = SKILLS[SkillId("sub-2digit-mixed" if sum_ == (65, 21) else "sub-2digit-regroup")]

    item = make(skill, FormatId("vert"), {"a": sum_[0], "b": sum_[1]})

    assert item.answer == str(answers[0])
    assert [item.errors[ErrorWayId(way)] for way in WAYS] == [str(answer) for answer in answers[1:]]


def test_the_two_ways_agree_exactly_where_the_ones_differ_by_five() -> None:
    # JOB 1.7: 179 of the 1,604 possible items.
    pairs = [(a, b) for a in range(21, 99) for b in range(12, 90) if a % 10 < b % 10 and a > b]
    same = [
        (a, b)
        for a, b in pairs
        if OPENING[ErrorWayId("smaller-from-larger")](a, b) == OPENING[ErrorWayId("ten-not-reduced")](a, b)
    ]

    assert len(pairs) == 1604
    assert len(same) == 179
    assert all(b % 10 - a % 10 == 5 for a, b in same)


# CHECKS D.1 (Brown & Burton 1978; VanLehn 1990; examples recalled and reproduced there): those on two-digit tops.
@pytest.mark.parametrize(
    ("way", "top", "bottom", "written"),
    [
        ("smaller-from-larger", 63, 29, 46),
        ("smaller-from-larger", 42, 18, 36),
        ("ten-not-reduced", 62, 44, 28),
        ("sign-ignored", 32, 15, 47),
        ("zero-instead-of-opening", 42, 16, 30),
        ("top-instead-of-opening", 54, 29, 34),
    ],
)
def test_a_published_procedure_gives_its_printed_answer(way: str, top: int, bottom: int, written: int) -> None:
    assert TWO_DIGIT[ErrorWayId(way)](top, bottom) == written


# CHECKS D.1, the rules of three-digit examples read on their last two digits (their tens and ones behave alike).
@pytest.mark.parametrize(
    ("way", "top", "bottom", "written"),
    [
        ("zero-minus-is-digit", 40, 21, 21),  # 140 - 21 = 121
        ("zero-minus-is-zero", 40, 21, 20),  # 140 - 21 = 120
        ("ten-added-to-lender", 63, 34, 49),  # 863 - 134 = 749
    ],
)
def test_a_three_digit_example_read_on_its_last_two_places(way: str, top: int, bottom: int, written: int) -> None:
    assert TWO_DIGIT[ErrorWayId(way)](top, bottom) == written


TOP_AND_BOTTOM = st.tuples(st.integers(10, 99), st.integers(0, 99)).filter(lambda pair: pair[1] <= pair[0])
NEEDS_OPENING = (
    "smaller-from-larger",
    "ten-not-reduced",
    "ten-added-to-lender",
    "zero-instead-of-opening",
    "top-instead-of-opening",
)


@given(TOP_AND_BOTTOM)
def test_a_way_is_silent_where_its_trigger_is_absent(pair: tuple[int, int]) -> None:
    top, bottom = pair
    opening = [TWO_DIGIT[ErrorWayId(way)](top, bottom) for way in NEEDS_OPENING]
    zero = [TWO_DIGIT[ErrorWayId(way)](top, bottom) for way in ("zero-minus-is-digit", "zero-minus-is-zero")]

    if top % 10 >= bottom % 10:
        assert opening == [top - bottom] * len(opening)
    else:
        assert all(written != top - bottom for written in opening[1:])
    if top % 10 != 0:
        assert zero == [top - bottom] * len(zero)


@given(TOP_AND_BOTTOM)
def test_no_way_writes_a_number_below_zero(pair: tuple[int, int]) -> None:
    written: list[int | None] = [go(*pair) for go in TWO_DIGIT.values()]

    assert all(number is None or number >= 0 for number in written)


@given(st.integers(20, 99), st.integers(10, 89))
def test_always_regroups_is_wrong_exactly_where_no_ten_is_opened(top: int, bottom: int) -> None:
    go: Procedure = TWO_DIGIT[ErrorWayId("always-regroups")]

    if bottom < top and top - bottom >= 10:
        assert (go(top, bottom) == top - bottom) == (top % 10 < bottom % 10)
