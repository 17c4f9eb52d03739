"""What counts as a digit, what is asked about, and how common digits turned round are taken to be."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from dayleaf.reading.digits import decide
from dayleaf.reading.digits.classes import BLANK, CLASSES, NO_DIGIT, TURNABLE
from dayleaf.reading.digits.deciding import SURE, SURE_TURNED, TURNED_ODDS, TURNED_RANGE, turned_odds


def said(**shares: float) -> np.ndarray:
    """A row of probabilities: d5 is a five, r5 a five turned round, blank and none; the rest goes to no digit."""
    row = np.zeros(CLASSES)
    for name, share in shares.items():
        if name == "blank":
            row[BLANK] = share
        elif name[0] == "d":
            row[int(name[1])] = share
        else:
            row[10 + TURNABLE.index(int(name[1]))] = share
    row[NO_DIGIT] = 1 - sum(shares.values())
    return row


def test_a_plain_digit_is_sure() -> None:
    (reading,) = decide(np.array([said(d7=0.999)]))

    assert (reading.reading, reading.state, reading.reversed) == ("7", "sure", False)
    assert reading.certainty >= SURE


@pytest.mark.parametrize(("one", "other"), [("d1", "d7"), ("d4", "d9"), ("d0", "d6"), ("d2", "r5"), ("d6", "r2")])
def test_two_digits_alike_are_asked_about(one: str, other: str) -> None:
    (reading,) = decide(np.array([said(**{one: 0.55, other: 0.44})]))

    assert reading.state == "ask"
    assert reading.reading in {one[1], other[1]}


def test_a_digit_turned_round_counts_as_its_digit_and_is_noted() -> None:
    (reading,) = decide(np.array([said(r3=0.9999)]))

    assert (reading.reading, reading.state, reading.reversed) == ("3", "sure", True)
    assert reading.certainty >= SURE_TURNED


def test_a_digit_that_stands_both_ways_is_sure_of_its_value() -> None:
    (reading,) = decide(np.array([said(d4=0.6, r4=0.3995)]))

    assert (reading.reading, reading.state) == ("4", "sure")


def test_nothing_written_is_blank_and_what_is_no_digit_is_asked_about() -> None:
    blank, scribble = decide(np.array([said(blank=0.99), said(d8=0.2)]))

    assert (blank.reading, blank.state) == ("", "blank")
    assert scribble.state == "ask"


@given(st.lists(st.lists(st.floats(0.001, 1), min_size=CLASSES, max_size=CLASSES), min_size=1, max_size=8))
def test_sure_means_certain_whatever_the_network_says(rows: list[list[float]]) -> None:
    shares = np.array(rows) / np.sum(rows, axis=1, keepdims=True)

    for reading in decide(shares):
        assert 0 <= reading.certainty <= 1
        assert reading.state != "sure" or reading.certainty >= (SURE_TURNED if reading.reversed else SURE)
        assert (reading.reading == "") == (reading.state == "blank")


def test_a_page_of_plain_digits_makes_turned_ones_rarer_and_a_page_of_turned_ones_commoner() -> None:
    plain = np.array([said(d5=0.999)] * 200)
    turned = np.array([said(r5=0.999)] * 200)

    assert TURNED_RANGE[0] <= turned_odds(plain) < TURNED_ODDS < turned_odds(turned) <= TURNED_RANGE[1]


def test_one_digit_is_weighed_by_bayes_rule() -> None:
    # by hand: odds of a turned five against a two, 0.5 : 0.5, times the odds w, so P(2) = 1 / (1 + w)
    row = np.array([said(d2=0.5, r5=0.5)])
    odds = turned_odds(row)

    (reading,) = decide(row)

    assert reading.reading == "2"
    assert reading.certainty == pytest.approx(1 / (1 + odds), abs=1e-4)
    assert odds == pytest.approx(TURNED_ODDS, rel=0.1)


def test_an_empty_page_has_no_readings() -> None:
    assert decide(np.zeros((0, CLASSES))) == ()
