"""The grade book counts as the family says, in exact numbers; dropping is checked against every way to drop."""

from __future__ import annotations

from datetime import date
from fractions import Fraction
from itertools import combinations, product

import pytest

from dayleaf.records.gradebook import LETTERS, WORDS, Entry, Scale, grade, percent, said, scale_problems


def a_test(n: int, right: int, of: int = 10) -> Entry:
    return Entry(f"t{n}", date(2027, 1, n), f"Test {n}", "test", right, of)


def a_sheet(n: int, right: int, of: int = 10) -> Entry:
    return Entry(f"s{n}", date(2027, 2, n), f"Sheet {n}", "sheet", right, of)


def test_without_a_scale_there_is_no_grade() -> None:
    assert grade(Scale(), [a_test(1, 9)]).said == ""


def test_tests_and_sheets_are_weighed_against_each_other() -> None:
    """By hand: tests .9 and .7 give .8, sheets .5; 3 to 1 is (2.4 + .5) / 4 = .725, which is 73 %, half up."""
    scale = Scale("percent", test=3, sheet=1)

    found = grade(scale, [a_test(1, 9), a_test(2, 7), a_sheet(1, 5)])

    assert found.share == Fraction(29, 40)
    assert found.said == "73 %"


def test_a_kind_without_an_entry_weighs_nothing() -> None:
    assert grade(Scale("percent", test=1, sheet=9), [a_test(1, 8)]).said == "80 %"


def test_dropping_the_lowest_is_the_best_of_all_ways_to_drop_as_many() -> None:
    """Source: every list of up to four results of 0 to 3 of 3, and every subset of each; one entry is always kept."""
    for many, drop in product(range(1, 5), range(6)):
        for rights in product(range(4), repeat=many):
            entries = [a_test(n, right, 3) for n, right in enumerate(rights, start=1)]
            kept = max(1, many - drop)
            best = max(Fraction(sum(some), 3 * kept) for some in combinations(rights, kept))

            found = grade(Scale("percent", drop_test=drop), entries)

            assert found.share == best
            assert len(found.counted) == kept
            assert set(found.counted) | set(found.dropped) == {one.id for one in entries}


def test_an_entry_left_out_does_not_count_and_is_not_among_the_dropped() -> None:
    scale = Scale("percent", drop_test=1, left_out=frozenset({"t1"}))

    found = grade(scale, [a_test(1, 0), a_test(2, 5), a_test(3, 10)])

    assert (found.said, found.counted, found.dropped) == ("100 %", ("t3",), ("t2",))


@pytest.mark.parametrize(
    ("right", "of", "letter"), [(90, 100, "A"), (899, 1000, "B"), (80, 100, "B"), (0, 5, "E"), (5, 5, "A")]
)
def test_a_step_is_reached_by_the_exact_share_and_never_by_a_rounded_one(right: int, of: int, letter: str) -> None:
    assert said(Scale("letters", LETTERS), Fraction(right, of)) == letter


@pytest.mark.parametrize(("share", "shown"), [((1, 200), 1), ((99, 200), 50), ((1, 3), 33), ((2, 3), 67)])
def test_percent_is_rounded_half_up(share: tuple[int, int], shown: int) -> None:
    assert percent(Fraction(*share)) == shown


def test_the_scales_to_start_from_are_whole() -> None:
    assert scale_problems(Scale("letters", LETTERS)) == scale_problems(Scale("words", WORDS)) == []


@pytest.mark.parametrize(
    ("scale", "where"),
    [
        (Scale("letters", ((90, "A"),)), "steps"),
        (Scale("words", ((50, "secure"), (60, "growing"), (0, "beginning"))), "steps"),
        (Scale("letters", ()), "steps"),
        (Scale("percent", test=0, sheet=0), "weights"),
        (Scale("percent", test=101), "weight of tests"),
        (Scale("percent", drop_sheet=-1), "sheets dropped"),
    ],
)
def test_a_scale_that_cannot_be_counted_by_is_refused(scale: Scale, where: str) -> None:
    assert where in [problem.where for problem in scale_problems(scale)]
