"""Coins: their names and values, counted, drawn, and made in several ways."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.items.choices import ring_fixed, ring_one
from dayleaf.items.model import Figure, Gap, Part, Question, Row, Step
from dayleaf.items.rule import Made, SkillRule

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from dayleaf.items.rule import Numbers

VALUES = (1, 5, 10, 25)
"""Cents of a penny, nickel, dime and quarter. Source: US Mint, coin specifications."""

NAMES: Mapping[int, str] = {1: "penny", 5: "nickel", 10: "dime", 25: "quarter"}
BY_SIZE = (10, 1, 5, 25)
"""The same coins from the smallest to the largest (diameters 0.705, 0.750, 0.835, 0.955 in; US Mint)."""

AS_ONE = ErrorWayId("coin-as-one")
BIGGER = ErrorWayId("bigger-coin-worth-more")
ONES_AFTER = ErrorWayId("ones-after-quarter")


def pieces(*, quarters: int = 0, dimes: int = 0, nickels: int = 0, pennies: int = 0) -> tuple[int, ...]:
    """Coins in cents, the one worth most first."""
    return (25,) * quarters + (10,) * dimes + (5,) * nickels + (1,) * pennies


def fewest(cents: int) -> tuple[int, ...]:
    """The fewest coins for an amount in cents, the one worth most first.

    Taking the coin worth most that still fits gives the fewest for these four coins.
    """
    found: list[int] = []
    for value in reversed(VALUES):
        count, cents = divmod(cents, value)
        found += [value] * count
    return tuple(found)


def counting_steps(coins: Iterable[int]) -> tuple[Step, ...]:
    """Coin by coin of one kind, the amount so far after each kind."""
    steps, total = [], 0
    chosen = tuple(coins)
    for value in dict.fromkeys(chosen):
        n = chosen.count(value)
        total += n * value
        steps.append(Step("take-coins", {"n": n, "noun": NAMES[value], "total": total}))
    return tuple(steps)


def coin_as_one(coins: Iterable[int]) -> int:
    """Counts coins, not cents."""
    return len(tuple(coins))


def ones_after_quarter(coins: Iterable[int]) -> int | None:
    """Counts each coin after the first quarter as one: 25, 26, 27."""
    chosen = tuple(coins)
    return 25 + len(chosen) - 1 if 25 in chosen else None


def no_switch(coins: Iterable[int]) -> int:
    """Goes on counting by the first coin's worth."""
    chosen = tuple(coins)
    return chosen[0] * len(chosen)


def _counted(coins: tuple[int, ...], errors: Mapping[ErrorWayId, str], *, difficulty: float) -> Made:
    """Coins in a picture, the amount in cents asked."""
    return Made(
        Row((Gap("1"), "¢")),
        (Part("1", "digits", str(sum(coins)), 3),),
        counting_steps(coins),
        errors,
        Figure("coins", {"coins": coins, "question": 1}),
        difficulty,
    )


# their names and values


def _know(numbers: Numbers) -> Made:
    """What one coin is worth, or which of two is worth more."""
    a, b = VALUES[numbers["a"]], VALUES[numbers["b"]]
    if a == b:
        by_size = VALUES[BY_SIZE.index(a)]
        errors = {BIGGER: str(by_size), AS_ONE: "1"}
        part = ring_fixed(str(a), tuple(str(value) for value in VALUES), errors)
        shown: tuple[int, ...] = (a,)
        prompt = Question("coin-worth")
    else:
        larger = max(a, b, key=BY_SIZE.index)
        errors = {BIGGER: NAMES[larger]}
        part = ring_fixed(NAMES[max(a, b)], (NAMES[a], NAMES[b]), errors)
        shown = (a, b)
        prompt = Question("coin-worth-more")
    steps = tuple(Step("coin-is", {"coin": NAMES[one], "n": one}) for one in shown)
    picture = Figure("coins", {"coins": shown, "show_value": 0, "question": 1})
    return Made(prompt, (part,), steps, errors, picture, 0.2 if a == b else 0.7 if larger != max(a, b) else 0.4)


# coins of one kind


def _like(numbers: Numbers) -> tuple[int, int]:
    return VALUES[numbers["k"]], numbers["n"]


def _count_like(numbers: Numbers) -> Made:
    value, n = _like(numbers)
    coins = (value,) * n
    errors = {AS_ONE: str(coin_as_one(coins))}
    if value == VALUES[1]:
        errors[ErrorWayId("wrong-skip")] = str(10 * n)
    return _counted(coins, errors, difficulty=min(1.0, 0.1 + 0.15 * numbers["k"] + 0.03 * n))


def _draw_like(numbers: Numbers) -> Made:
    value, n = _like(numbers)
    return Made(
        Question("draw-coins-of-kind", {"n": n * value, "coin": NAMES[value]}),
        (Part("1", "look", ""),),
        counting_steps((value,) * n),
        difficulty=min(1.0, 0.1 + 0.15 * numbers["k"] + 0.03 * n),
    )


def fits_two_lines(numbers: Numbers) -> bool:
    """Coins are drawn at true size: twelve fill two lines of a side."""
    return numbers["n"] <= 12


# quarters


def _quarter_errors(n: int) -> dict[ErrorWayId, str]:
    coins = (25,) * n
    return {AS_ONE: str(coin_as_one(coins)), ONES_AFTER: str(ones_after_quarter(coins))}


def _count_quarters(numbers: Numbers) -> Made:
    n = numbers["n"]
    return _counted((25,) * n, _quarter_errors(n), difficulty=0.2 * n)


def _ring_quarters(numbers: Numbers) -> Made:
    n = numbers["n"]
    return Made(
        Question("cents-of-coins", {"n": n, "noun": NAMES[25]}),
        (ring_one(str(25 * n), _quarter_errors(n), turn=n),),
        counting_steps((25,) * n),
        _quarter_errors(n),
        None,
        0.2 * n,
    )


# mixed coins


def _mixed(numbers: Numbers) -> tuple[int, ...]:
    return pieces(quarters=numbers["q"], dimes=numbers["d"], nickels=numbers["n"], pennies=numbers["p"])


def _count_mixed(numbers: Numbers) -> Made:
    coins = _mixed(numbers)
    errors = {ErrorWayId("no-switch"): str(no_switch(coins))}
    if (slip := ones_after_quarter(coins)) is not None:
        errors[ONES_AFTER] = str(slip)
    return _counted(coins, errors, difficulty=_how_hard(coins))


def _draw_mixed(numbers: Numbers) -> Made:
    coins = _mixed(numbers)
    return Made(
        Question("draw-coins", {"n": sum(coins)}),
        (Part("1", "look", ""),),
        counting_steps(coins),
        difficulty=_how_hard(coins),
    )


def _how_hard(coins: tuple[int, ...]) -> float:
    """By the kinds of coins, which ask for a change of counting each, and by how many there are."""
    return min(1.0, 0.2 * (len(set(coins)) - 1) + 0.05 * len(coins))


def is_fewest(numbers: Numbers) -> bool:
    """Whether these are the fewest coins: one set of numbers for an amount."""
    coins = _mixed(numbers)
    return coins == fewest(sum(coins))


# one amount in several ways


def one_smaller(coins: tuple[int, ...]) -> tuple[int, ...]:
    """The same amount with the last coin that can be traded given in smaller ones."""
    trade = {25: (10, 10, 5), 10: (5, 5), 5: (1,) * 5}
    place = max(i for i, coin in enumerate(coins) if coin in trade)
    return tuple(sorted((*coins[:place], *trade[coins[place]], *coins[place + 1 :]), reverse=True))


def _ways(numbers: Numbers) -> Made:
    """Two ways, or, for every third amount, the way with the fewest coins."""
    n = numbers["n"]
    coins = fewest(n)
    if n % 3 == 0:
        prompt, steps = Question("draw-fewest-coins", {"n": n}), counting_steps(coins)
    else:
        prompt = Question("draw-two-ways", {"n": n})
        steps = (*counting_steps(coins), Step("or-else"), *counting_steps(one_smaller(coins)))
    return Made(prompt, (Part("1", "look", ""),), steps, difficulty=min(1.0, 0.1 * len(coins)))


_COUNT, _DRAW, _CHOOSE = FormatId("coin-count"), FormatId("coin-draw"), FormatId("choose")

RULES: tuple[SkillRule, ...] = (
    SkillRule(SkillId("coins-identify"), formats={_CHOOSE: _know}),
    SkillRule(
        SkillId("coins-count-like"),
        formats={_COUNT: _count_like, _DRAW: _draw_like},
        fits={_COUNT: fits_two_lines},
    ),
    SkillRule(SkillId("coins-quarters-count"), formats={_COUNT: _count_quarters, _CHOOSE: _ring_quarters}),
    SkillRule(
        SkillId("coins-count-mixed"),
        formats={_COUNT: _count_mixed, _DRAW: _draw_mixed},
        fits={_DRAW: is_fewest},
    ),
    SkillRule(SkillId("coins-equivalent-sets"), formats={_DRAW: _ways}),
)
