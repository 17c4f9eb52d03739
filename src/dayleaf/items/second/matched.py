"""Things to match and to sort, solved by working out every thing and looking which ones agree."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from dayleaf.items.model import Figure, Match, Question, Row, Sort, Word
from dayleaf.items.second.pictured import pictured_answer

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from dayleaf.items.model import Item, Token

LARGEST = 200
"""No number of these skills is larger."""

_GROUPED: Mapping[str, Callable[[int], bool]] = {"even": lambda n: n % 2 == 0, "odd": lambda n: n % 2 == 1}


def matched_answer(item: Item) -> str | None:
    """The answer of a match or a sort of numbers; None for anything else, or where a partner is not plain."""
    prompt = item.prompt
    if isinstance(prompt, Match):
        across = [_worth(thing) for thing in prompt.right]
        if None in across or len(set(across)) < len(across):
            return None
        found = [across.index(worth) if (worth := _worth(thing)) in across else None for thing in prompt.left]
        return None if None in found else " ".join(str(place + 1) for place in found if place is not None)
    return _sorted(item, prompt) if isinstance(prompt, Sort) else None


def _sorted(item: Item, sort: Sort) -> str | None:
    """Numbers are looked at by their value; each picture is asked about by itself."""
    found: list[str | None] = []
    for thing in sort.things:
        if isinstance(thing, Figure):
            question = "fold-matches" if "lines" in thing.params else "name-shape"
            said = pictured_answer(replace(item, prompt=Question(question), figure=thing))
            found.append(said if said in sort.groups else "none-of-these")
        else:
            n = _worth(thing)
            found.append(next((name for name, fits in _GROUPED.items() if n is not None and fits(n)), None))
    return None if None in found else " ".join(str(group) for group in found)


def _worth(thing: Row | Figure) -> int | None:
    """The number a thing stands for: blocks are counted, a digit in a number is worth its place."""
    if isinstance(thing, Figure):
        params = thing.params
        return sum([10] * int(str(params["t"])) + [1] * int(str(params["o"]))) if thing.kind == "base-ten" else None
    tokens = thing.tokens
    if "=" in tokens:
        return _filled(tokens)
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
