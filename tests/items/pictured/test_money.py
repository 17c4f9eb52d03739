"""Money: the fewest coins, ways to make an amount, and how a count goes astray."""

from __future__ import annotations

from functools import cache
from itertools import pairwise

import pytest

from dayleaf.figures.money import COIN_MM
from dayleaf.items.pictured.coins import (
    BY_SIZE,
    VALUES,
    coin_as_one,
    fewest,
    no_switch,
    one_smaller,
    ones_after_quarter,
    pieces,
)
from dayleaf.items.pictured.money import stops_up


@cache
def fewest_count(cents: int) -> int:
    """Every first coin tried; no taking of the largest."""
    return 0 if cents == 0 else 1 + min(fewest_count(cents - value) for value in (1, 5, 10, 25) if value <= cents)


def test_no_amount_below_a_dollar_can_be_made_with_fewer_coins() -> None:
    # CHECKS C.2: the fewest coins over 1 to 99 cents are 470 in all, at most 9, at 94 and 99 cents.
    counts = {cents: len(fewest(cents)) for cents in range(1, 100)}

    assert all(sum(fewest(cents)) == cents for cents in counts)
    assert counts == {cents: fewest_count(cents) for cents in counts}
    assert sum(counts.values()) == 470
    assert [cents for cents, count in counts.items() if count == max(counts.values())] == [94, 99]
    assert max(counts.values()) == 9


@pytest.mark.parametrize(("cents", "ways"), [(5, 2), (10, 4), (25, 13), (50, 49), (100, 242)])
def test_an_amount_can_be_made_in_as_many_ways_as_counted_elsewhere(cents: int, ways: int) -> None:
    # CHECKS C.2: unordered ways with cents, nickels, dimes and quarters.
    made = {
        pieces(quarters=q, dimes=d, nickels=n, pennies=cents - 25 * q - 10 * d - 5 * n)
        for q in range(cents // 25 + 1)
        for d in range((cents - 25 * q) // 10 + 1)
        for n in range((cents - 25 * q - 10 * d) // 5 + 1)
    }

    assert len(made) == ways
    assert {sum(coins) for coins in made} == {cents}


def test_the_other_way_shown_in_the_key_is_the_same_amount_in_more_coins() -> None:
    for cents in range(5, 100):
        coins, other = fewest(cents), one_smaller(fewest(cents))
        assert sum(other) == cents
        assert len(other) > len(coins)
        assert set(other) <= set(VALUES)


def test_coins_in_order_of_size_are_those_of_the_mint() -> None:
    # US Mint: dime 0.705, cent 0.750, nickel 0.835, quarter 0.955 in.
    inches = {10: 0.705, 1: 0.750, 5: 0.835, 25: 0.955}

    assert list(BY_SIZE) == sorted(inches, key=lambda value: inches[value])
    assert {value: round(25.4 * wide, 2) for value, wide in inches.items()} == {v: COIN_MM[v] for v in inches}


def test_counts_go_astray_as_parents_report() -> None:
    # CHECKS D.4: three coins are 3 cents; after the quarter 26, 27; a dime counted by fives, or by the coin before.
    assert coin_as_one((25, 10, 5)) == 3
    assert ones_after_quarter((25, 10, 10)) == 27
    assert ones_after_quarter((10, 5)) is None
    assert no_switch((10, 5, 5)) == 30


@pytest.mark.parametrize("paid", [25, 50, 100])
def test_counting_up_goes_from_the_price_to_what_was_paid(paid: int) -> None:
    for price in range(5, paid):
        stops = stops_up(price, paid)
        assert (stops[0], stops[-1]) == (price, paid)
        assert all(one < other for one, other in pairwise(stops))
        assert all(stop % 5 == 0 for stop in stops[1:])
