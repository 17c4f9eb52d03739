"""Money worked out again: coins counted cent by cent, stories read by their words' codes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.items.model import Question, Row, Word
from dayleaf.items.second.pictured_params import numbers

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from dayleaf.items.model import Figure, Item, Token

_CENTS: Mapping[str, int] = {"cent": 1, "penny": 1, "nickel": 5, "dime": 10, "quarter": 25, "dollar": 100}


def money_answer(item: Item) -> str | None:
    """The answer of an item about coins, prices or signs; None for others."""
    if isinstance(item.prompt, Row):
        bills = item.figure is not None and item.figure.kind == "bills"
        return None if bills else _row(item, item.prompt.tokens)
    if isinstance(item.prompt, Question):
        if item.prompt.code in _DRAWN:
            return ""
        answer = _QUESTIONS.get(item.prompt.code)
        return answer(item, item.prompt) if answer else None
    return None


def _cents(values: tuple[int, ...]) -> int:
    return sum(1 for value in values for _ in range(value))


def _row(item: Item, tokens: tuple[Token, ...]) -> str | None:
    if item.figure is not None and item.figure.kind == "coins":
        return str(_cents(numbers(item, "coins")))
    if "¢" in tokens and "-" in tokens:
        paid, price = (token for token in tokens if isinstance(token, int))
        return str(sum(1 for _ in range(price, paid)))
    words = [token for token in tokens if isinstance(token, Word)]
    known = [word.code for word in words if word.code in _CENTS]
    if not known or any(word.code not in _CENTS and word.code != "number-name" for word in words):
        return None
    if words[0].code == "number-name":
        return str(words[0].count)
    counts = [token for token in tokens if isinstance(token, int)]
    if len(counts) == 2:
        left, right = (n * _CENTS[word.code] for n, word in zip(counts, words, strict=True))
        return "<=>"[1 + (left > right) - (left < right)]
    whole, piece = _CENTS[words[0].code], _CENTS[words[1].code]
    found = [n for n in range(1, 501) if n * piece == counts[0] * whole]
    return str(found[0]) if len(found) == 1 else None


def _worth(item: Item, _: Question) -> str:
    return str(_cents(numbers(item, "coins")))


def _worth_more(item: Item, _: Question) -> str:
    most = max(numbers(item, "coins"))
    return next(name for name, cents in _CENTS.items() if cents == most and name != "cent")


def _of_coins(_: Item, question: Question) -> str:
    return str(_CENTS[str(question.values["noun"])] * int(question.values["n"]))


def _as_cents(_: Item, question: Question) -> str:
    return f"{question.values['n']}¢"


def _more_money(item: Item, _: Question) -> str | None:
    def worth(figure: Figure | None) -> int:
        coins = figure.params["coins"] if figure else ()
        return sum(int(coin) for coin in coins) if isinstance(coins, tuple) else 0

    sets = {option.code: worth(option.figure) for option in item.parts[0].options}
    first, second = sets.values()
    return None if first == second else max(sets, key=lambda code: sets[code])


def _for_dollars(_: Item, question: Question) -> str:
    left, count = 100 * int(question.values["n"]), 0
    while left > 0:
        left -= _CENTS[str(question.values["coin"])]
        count += 1
    return str(count)


def _change(_: Item, question: Question) -> str:
    return str(sum(1 for _cent in range(int(question.values["price"]), int(question.values["paid"]))))


def _left(_: Item, question: Question) -> str:
    return str(sum(1 for _one in range(int(question.values["b"]), int(question.values["a"]))))


def _both(_: Item, question: Question) -> str:
    return str(len([*range(int(question.values["a"])), *range(int(question.values["b"]))]))


_DRAWN = frozenset(
    {
        "draw-coins",
        "draw-coins-of-kind",
        "draw-fewest-coins",
        "draw-two-ways",
        "draw-dollars",
        "draw-change",
    }
)

_QUESTIONS: Mapping[str, Callable[[Item, Question], str | None]] = {
    "coin-worth": _worth,
    "coin-worth-more": _worth_more,
    "cents-of-coins": _of_coins,
    "which-is-cents": _as_cents,
    "fix-cents": _as_cents,
    "which-set-more": _more_money,
    "how-many-for-dollars": _for_dollars,
    "change-story": _change,
    "money-left-cents": _left,
    "money-left-dollars": _left,
    "money-more-cents": _left,
    "money-more-dollars": _left,
    "money-both-cents": _both,
    "money-both-dollars": _both,
}
