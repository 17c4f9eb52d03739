"""Things to match and to sort, solved by working out every thing and looking which ones agree."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.items.model import Figure, Match, Word
from dayleaf.items.second.sorts import sorted_answer
from dayleaf.items.second.worths import worth_of

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from dayleaf.items.model import Item, Row, Token

LARGEST = 200
"""No quotient of these skills is larger."""


def matched_answer(item: Item) -> str | None:
    """The answer of a match or a sort of numbers; None for anything else, or where a partner is not plain."""
    prompt = item.prompt
    if isinstance(prompt, Match):
        return _partners(prompt, _number_of) or _partners(prompt, worth_of)
    return sorted_answer(item)


def _partners(match: Match, worth: Callable[[Row | Figure, Sequence[Row | Figure]], object]) -> str | None:
    """The numbers of the partners by what `worth` takes the things for; None unless each thing has exactly one."""
    across = [worth(thing, match.left) for thing in match.right]
    left = [worth(thing, match.right) for thing in match.left]
    if None in across or len(set(across)) < len(across) or set(left) != set(across):
        return None
    return " ".join(str(across.index(one) + 1) for one in left)


def _number_of(thing: Row | Figure, _: Sequence[Row | Figure]) -> int | None:
    return _worth(thing)


def _worth(thing: Row | Figure) -> int | None:
    """The number a thing stands for: blocks are counted, a digit in a number is worth its place."""
    if isinstance(thing, Figure):
        params = thing.params
        return sum([10] * int(str(params["t"])) + [1] * int(str(params["o"]))) if thing.kind == "base-ten" else None
    tokens = thing.tokens
    if "=" in tokens:
        return _filled_times(tokens) if "×" in tokens else _filled(tokens)
    if len(tokens) == 3 and tokens[1] == Word("in"):
        return _worth_of_digit(str(tokens[0]), str(tokens[2]))
    if len(tokens) == 3 and tokens[1] in ("×", "÷"):
        return _groups(int(str(tokens[0])), str(tokens[1]), int(str(tokens[2])))
    return _sum(tokens)


def _worth_of_digit(digit: str, number: str) -> int | None:
    if number.count(digit) != 1:
        return None
    return int(digit + "0" * (len(number) - 1 - number.index(digit)))


def _groups(first: int, sign: str, second: int) -> int | None:
    """As many groups as the first number says; or how often the second can be taken until nothing is left."""
    if sign == "×":
        return sum([second] * first)
    return next((n for n in range(LARGEST) if sum([second] * n) == first), None)


def _filled_times(tokens: Sequence[Token]) -> int | None:
    """The number of groups for the box in 5 × □ = 30, by adding one group after another."""
    match tokens:
        case (int(size), "×", "□", "=", int(whole)):
            return next((n for n in range(LARGEST) if sum([size] * n) == whole), None)
    return None


def _filled(tokens: Sequence[Token]) -> int | None:
    """The number for the box: numbers in it move the sides apart by equal steps; the last try proves it."""
    start, step = _apart(tokens, 0), _apart(tokens, 1) - _apart(tokens, 0)
    n = -start // step if step else -1
    return n if n >= 0 and _apart(tokens, n) == 0 else None


def _apart(tokens: Sequence[Token], n: int) -> int:
    filled: list[Token] = [n if one == "□" else one for one in tokens]
    middle = filled.index("=")
    left, right = _sum(filled[:middle]), _sum(filled[middle + 1 :])
    return 1 if left is None or right is None else left - right


def _sum(tokens: Sequence[Token]) -> int | None:
    """A chain of numbers with + and -, or tens and ones side by side."""
    total, sign, last = 0, 1, 0
    for one in tokens:
        if isinstance(one, int):
            last = one
            total += sign * one
        elif isinstance(one, Word) and one.code == "tens":
            total += 9 * sign * last
        elif isinstance(one, Word) and one.code == "number-name" and one.count is not None:
            total += sign * one.count
        elif one in ("+", "-"):
            sign = 1 if one == "+" else -1
        elif not (isinstance(one, Word) and one.code == "ones"):
            return None
    return total
