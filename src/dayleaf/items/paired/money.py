"""Money to match: coins in words and their worth, two ways to make one amount, bills and coins, signs."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, SkillId
from dayleaf.items.model import Row, Step, Word
from dayleaf.items.paired.partners import MATCH, Sides, matching, rules_for
from dayleaf.items.pictured.bills import BILL_AS_ONE, bill_as_one, money_of
from dayleaf.items.pictured.coins import (
    AS_ONE,
    BIGGER,
    BY_SIZE,
    NAMES,
    ONES_AFTER,
    VALUES,
    counting_steps,
    no_switch,
    ones_after_quarter,
    pieces,
)
from dayleaf.items.rule import SkillRule

if TYPE_CHECKING:
    from collections.abc import Iterable

    from dayleaf.items.model import Token
    from dayleaf.items.rule import Made, Numbers

_DIME, _NICKEL = 10, 5


def _cents(amount: int) -> Row:
    return Row((f"{amount}¢",))


def _coins_told(coins: Iterable[int]) -> Row:
    """Two quarters three pennies, each kind once, as they are counted."""
    told = tuple(coins)
    tokens: list[Token] = []
    for value in dict.fromkeys(told):
        n = told.count(value)
        tokens += [n, Word(NAMES[value], n)]
    return Row(tuple(tokens))


def _last_count(coins: Iterable[int]) -> Step:
    """The last step of counting them, which tells the amount."""
    return counting_steps(coins)[-1]


# coins of one kind


def _alike(numbers: Numbers) -> tuple[int, ...]:
    return (VALUES[numbers["k"]],) * numbers["n"]


LIKE = Sides(
    "k=0..3 n=2..20 | k<2 or (k==2 and n<=10) or (k==3 and n<=4)",
    value=lambda numbers: sum(_alike(numbers)),
    left=lambda numbers: _coins_told(_alike(numbers)),
    right=lambda numbers: _cents(sum(_alike(numbers))),
    step=lambda numbers: _last_count(_alike(numbers)),
    hard=lambda numbers: min(1.0, 0.1 * numbers["k"] + 0.03 * numbers["n"]),
    ways={
        AS_ONE: lambda numbers: numbers["n"],
        ErrorWayId("wrong-skip"): lambda numbers: 10 * numbers["n"] if VALUES[numbers["k"]] == _NICKEL else None,
    },
)
"""6 nickels and 30¢."""


# coins of several kinds


def _mixed(numbers: Numbers) -> tuple[int, ...]:
    return pieces(quarters=numbers["q"], dimes=numbers["d"], nickels=numbers["n"], pennies=numbers["p"])


MIXED = Sides(
    "q=0..3 d=0..7 n=0..7 p=0..7 | 3<=q+d+n+p<=8 and 25*q+10*d+5*n+p<=99 and 2<=min(q,1)+min(d,1)+min(n,1)+min(p,1)<=3",
    value=lambda numbers: sum(_mixed(numbers)),
    left=lambda numbers: _coins_told(_mixed(numbers)),
    right=lambda numbers: _cents(sum(_mixed(numbers))),
    step=lambda numbers: _last_count(_mixed(numbers)),
    hard=lambda numbers: min(1.0, 0.08 * len(_mixed(numbers)) + 0.1 * len(set(_mixed(numbers)))),
    ways={
        ErrorWayId("no-switch"): lambda numbers: no_switch(_mixed(numbers)),
        ONES_AFTER: lambda numbers: ones_after_quarter(_mixed(numbers)),
    },
    part=True,
)
"""1 quarter 2 dimes and 45¢; at most three kinds, which stand in one line."""


# one amount in two ways


def _with_quarters(numbers: Numbers) -> tuple[int, ...]:
    quarters, rest = divmod(numbers["n"], 25)
    return pieces(quarters=quarters, nickels=rest // _NICKEL)


def _with_dimes(numbers: Numbers) -> tuple[int, ...]:
    dimes, rest = divmod(numbers["n"], _DIME)
    return pieces(dimes=dimes, nickels=rest // _NICKEL)


TWO_WAYS = Sides(
    "n=10..99 | n%5==0",
    value=lambda numbers: numbers["n"],
    left=lambda numbers: _coins_told(_with_quarters(numbers)),
    right=lambda numbers: _coins_told(_with_dimes(numbers)),
    step=lambda numbers: _last_count(_with_quarters(numbers)),
    hard=lambda numbers: min(1.0, 0.1 * len(_with_quarters(numbers))),
    ways={},
    part=True,
)
"""1 quarter 1 nickel and 3 dimes: from quarters and nickels to dimes and nickels, which every such amount has."""


# what a coin is worth

IDENTIFY = Sides(
    "a=0..3 b=0..3 | a!=b",
    value=lambda numbers: VALUES[numbers["a"]],
    left=lambda numbers: Row((Word(NAMES[VALUES[numbers["a"]]], 1),)),
    right=lambda numbers: _cents(VALUES[numbers["a"]]),
    step=lambda numbers: Step("coin-is", {"coin": NAMES[VALUES[numbers["a"]]], "n": VALUES[numbers["a"]]}),
    hard=lambda numbers: 0.2 if numbers["a"] in {0, 3} else 0.4,
    ways={
        BIGGER: lambda numbers: VALUES[BY_SIZE.index(VALUES[numbers["a"]])],
        AS_ONE: lambda _: 1,
    },
    near=lambda numbers: [VALUES[numbers["b"]]],
    part=True,
)
"""A dime and 10¢; the printed coins carry their worth, so their names stand here."""


# bills with coins


def _bills_told(numbers: Numbers) -> Row:
    """$10 $5 3 dimes: a bill stands as its amount, as on its face."""
    bills, coins = money_of(numbers)
    return Row((*(f"${bill}" for bill in bills), len(coins), Word(NAMES[coins[0]], len(coins))))


def _in_cents(numbers: Numbers) -> int:
    bills, coins = money_of(numbers)
    return 100 * sum(bills) + sum(coins)


def _each_bill_one(numbers: Numbers) -> int:
    bills, coins = money_of(numbers)
    return 100 * bill_as_one(bills) + sum(coins)


def _dollars_and_cents(numbers: Numbers) -> Row:
    bills, coins = money_of(numbers)
    return Row((f"${sum(bills)}", Word("and-cents"), f"{sum(coins)}¢"))


BILLS = Sides(
    "t=0..5 f=0..1 o=0..4 c=0..3 n=1..6 | t+f+o>=1 and (c<3 or n<=3) "
    "and (f+o<=2 or f+o==3 and t in (0,1,3) or f+o==4 and t==0)",
    value=_in_cents,
    left=_bills_told,
    right=_dollars_and_cents,
    step=lambda numbers: counting_steps(money_of(numbers)[1])[-1],
    hard=lambda numbers: min(1.0, 0.2 + 0.1 * len(money_of(numbers)[0]) + 0.03 * numbers["n"]),
    ways={BILL_AS_ONE: _each_bill_one},
    part=True,
)
"""$10 $5 3 dimes, and $15 and 30¢; at most four bills, which stand in one line."""


# signs


def _signed(numbers: Numbers) -> str:
    return f"${numbers['n']}" if numbers["d"] else f"{numbers['n']}¢"


SIGNS = Sides(
    "n=1..99 d=0..1 |",
    value=lambda numbers: numbers["n"] * (100 if numbers["d"] else 1),
    left=lambda numbers: Row(
        (Word("number-name", numbers["n"]), Word("dollar" if numbers["d"] else "cent", numbers["n"]))
    ),
    right=lambda numbers: Row((_signed(numbers),)),
    step=lambda numbers: Step("with-dollar" if numbers["d"] else "with-cent", {"n": numbers["n"]}),
    hard=lambda numbers: 0.2 if numbers["n"] < 20 else 0.4,
    ways={
        ErrorWayId("cents-after-dollar-lost"): lambda numbers: None if numbers["d"] else 100 * numbers["n"],
    },
    near=lambda numbers: _other_signs(numbers["n"]),
)
"""Five cents and 5¢, five dollars and $5; the skill's own rule has the number only."""


def _other_signs(n: int) -> list[int]:
    """The same digits turned round with either sign, or the next number where they are the same turned round."""
    turned = int(str(n)[::-1])
    other = turned if turned != n else n % 99 + 1
    return [100 * n, other, 100 * other]


def _match_signs(numbers: Numbers) -> Made:
    return matching(SIGNS)({"n": numbers["n"], "d": 0})


SIDES: dict[SkillId, Sides] = {
    SkillId("coins-count-like"): LIKE,
    SkillId("coins-count-mixed"): MIXED,
    SkillId("coins-equivalent-sets"): TWO_WAYS,
    SkillId("coins-identify"): IDENTIFY,
    SkillId("bills-coins-count"): BILLS,
}
"""The two sides of every skill here; a test holds their rules against the skills' files."""

RULES: tuple[SkillRule, ...] = (
    *rules_for(SIDES),
    SkillRule(SkillId("money-symbols"), formats={MATCH: _match_signs}),
)
