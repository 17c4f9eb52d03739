"""Bills and coins counted: dollars for the one, cents for the other, never one number."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.core.seeds import seed_from
from dayleaf.items.choices import ring_one
from dayleaf.items.model import Figure, Gap, Part, Question, Row, Step, Word
from dayleaf.items.pictured.coins import NAMES, VALUES
from dayleaf.items.rule import Made, SkillRule

if TYPE_CHECKING:
    from collections.abc import Iterable

    from dayleaf.items.rule import Numbers

BILL_AS_ONE, ONE_NUMBER = ErrorWayId("bill-as-one"), ErrorWayId("dollars-and-cents-added")
_TENS: tuple[tuple[int, ...], ...] = ((), (10,), (10, 10), (20,), (20, 10), (20, 20))
"""The tens and twenties of the rule's t."""


def money_of(numbers: Numbers) -> tuple[tuple[int, ...], tuple[int, ...]]:
    """The bills in dollars, the one worth most first, and the coins in cents."""
    bills = (*_TENS[numbers["t"]], *(5,) * numbers["f"], *(1,) * numbers["o"])
    return bills, (VALUES[numbers["c"]],) * numbers["n"]


def bill_as_one(bills: Iterable[int]) -> int:
    """Every bill counted as one dollar."""
    return len(tuple(bills))


def one_number(dollars: int, cents: int) -> int:
    """Dollars and cents added as if they were of one kind: $3 and 25¢ → 28."""
    return dollars + cents


def _steps(numbers: Numbers) -> tuple[Step, ...]:
    bills, coins = money_of(numbers)
    total, steps = 0, []
    for bill in dict.fromkeys(bills):
        n = bills.count(bill)
        total += n * bill
        steps.append(Step("take-bills", {"n": n, "value": bill, "total": total}))
    coin = Step("take-coins", {"n": len(coins), "noun": NAMES[coins[0]], "total": sum(coins)})
    return (*steps, coin)


def _hard(numbers: Numbers) -> float:
    bills, coins = money_of(numbers)
    return min(1.0, 0.15 * len(set(bills)) + 0.05 * len(bills) + 0.03 * len(coins))


def _count(numbers: Numbers) -> Made:
    bills, coins = money_of(numbers)
    dollars, cents = sum(bills), sum(coins)
    return Made(
        Row((Gap("1"), Word("dollar", 2), Gap("2"), Word("cent", 2))),
        (Part("1", "digits", str(dollars), 2), Part("2", "digits", str(cents), 3)),
        _steps(numbers),
        {BILL_AS_ONE: f"{bill_as_one(bills)} {cents}"},
        Figure("bills", {"bills": bills, "coins": coins, "question": 1}),
        _hard(numbers),
    )


def _told(numbers: Numbers) -> Made:
    """Told without a picture; the amounts to choose from are those of the two ways."""
    bills, coins = money_of(numbers)
    dollars, cents = sum(bills), sum(coins)
    errors = {
        ONE_NUMBER: f"{one_number(dollars, cents)}¢",
        BILL_AS_ONE: f"${bill_as_one(bills)}+{cents}¢",
    }
    kinds = list(dict.fromkeys(bills))
    values: dict[str, int | str] = {"a": bills.count(kinds[0]), "first": kinds[0]}
    code = "bills-one-kind"
    if len(kinds) == 2:
        code, values = "bills-two-kinds", {**values, "b": bills.count(kinds[1]), "second": kinds[1]}
    person = ("child", "brother", "gran", "mother", "father")[seed_from("purse", *numbers.values()) % 5]
    return Made(
        Question(code, {"p": person, **values, "n": len(coins), "noun": NAMES[coins[0]]}),
        (ring_one(f"${dollars}+{cents}¢", errors, turn=seed_from("bills", *numbers.values())),),
        _steps(numbers),
        errors,
        None,
        _hard(numbers),
    )


def two_kinds(numbers: Numbers) -> bool:
    """A story tells bills of one kind or of two."""
    return len(set(money_of(numbers)[0])) <= 2


def on_two_lines(numbers: Numbers) -> bool:
    """Bills and coins are drawn large: four bills fill two lines."""
    return len(money_of(numbers)[0]) <= 4


_COUNT, _WORD1 = FormatId("coin-count"), FormatId("word1")

RULES: tuple[SkillRule, ...] = (
    SkillRule(
        SkillId("bills-coins-count"),
        formats={_COUNT: _count, _WORD1: _told},
        fits={_COUNT: on_two_lines, _WORD1: two_kinds},
    ),
)
