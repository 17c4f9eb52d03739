"""Questions of the number skills answered from their values and the picture's parameters."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.items.model import Question

if TYPE_CHECKING:
    from collections.abc import Callable

    from dayleaf.items.model import Item


def question_answer(item: Item) -> str | None:
    """The answer of a question this module knows; None for any other item."""
    if not isinstance(item.prompt, Question):
        return None
    solve = _SOLVERS.get(item.prompt.code)
    return solve(item) if solve else None


def _told(item: Item, name: str) -> int:
    """A number of the question."""
    if not isinstance(item.prompt, Question):
        raise TypeError(item.key)
    return int(item.prompt.values[name])


def _drawn(item: Item, name: str, default: int = 0) -> int:
    """A number of the picture."""
    value = item.figure.params.get(name, default) if item.figure else default
    if not isinstance(value, int):
        raise TypeError(item.key)
    return value


def _list(item: Item, name: str) -> tuple[int, ...]:
    """Numbers of the picture."""
    value = item.figure.params.get(name, ()) if item.figure else ()
    if not isinstance(value, tuple):
        raise TypeError(item.key)
    return tuple(int(one) for one in value)


def _options(item: Item) -> tuple[str, ...]:
    return tuple(option.code for option in item.parts[0].options)


def _nearest_ten(n: int) -> int:
    """The multiple of ten at the smallest distance, the larger of two equally near."""
    return min(range(0, 210, 10), key=lambda ten: (abs(ten - n), -ten))


def _about_sum(item: Item) -> str:
    return str(_nearest_ten(_told(item, "a")) + _nearest_ten(_told(item, "b")))


def _bar(item: Item) -> str | None:
    hidden = item.figure.params["hidden"] if item.figure else ()
    known = {
        name: _drawn(item, name) for name in ("whole", "a", "b") if isinstance(hidden, tuple) and name not in hidden
    }
    if "whole" not in known:
        return str(known["a"] + known["b"])
    part = known.get("a", known.get("b", 0))
    return next((str(n) for n in range(known["whole"] + 1) if part + n == known["whole"]), None)


def _turned(item: Item) -> str | None:
    one, other, left = (_told(item, name) for name in ("first", "second", "left"))
    pairs = [pair for pair in ((one, other), (other, one)) if pair[1] + left == pair[0]]
    return f"{pairs[0][0]} {pairs[0][1]}" if len(pairs) == 1 else None


def _chart_gap(item: Item) -> str | None:
    """The empty cell counted from the first cell of its row."""
    cells, blanks = _list(item, "cells"), _list(item, "blanks")
    place = [cells.index(blank) for blank in blanks]
    return str(cells[0] + place[0]) if len(place) == 1 and cells == tuple(range(cells[0], cells[-1] + 1)) else None


def _hops(item: Item) -> str:
    at = _told(item, "start")
    for _ in range(_told(item, "hops")):
        at += _told(item, "by")
    return str(at)


def _cards(item: Item) -> str:
    """Steps on a chart of ten columns that begins with 1."""
    row, column = divmod(_told(item, "n") - 1, 10)
    steps = item.figure.params["steps"] if item.figure else ()
    for card in steps if isinstance(steps, tuple) else ():
        row += {"down": 1, "up": -1}.get(str(card), 0)
        column += {"right": 1, "left": -1}.get(str(card), 0)
    return str(10 * row + column + 1)


def _parity(item: Item) -> str:
    dots = _drawn(item, "n")
    while dots > 1:
        dots -= 2
    return "odd" if dots else "even"


def _which_row(item: Item) -> str:
    """Counters are paired off; the row with some left has more."""
    first, second = _drawn(item, "n"), _drawn(item, "m")
    while first and second:
        first, second = first - 1, second - 1
    return "A" if first else "B" if second else "same"


def _blocks(item: Item) -> tuple[int, int]:
    return (_drawn(item, "tens") or _drawn(item, "t")), (_drawn(item, "ones") or _drawn(item, "o"))


def _in_all(item: Item) -> str:
    tens, ones = _blocks(item)
    return str(len("x" * 10 * tens + "x" * ones))


def _places(item: Item) -> str:
    return " ".join(str(_told(item, "n")))


def _digit_worth(item: Item) -> str | None:
    digits = str(_told(item, "n"))
    places = [place for place, digit in enumerate(digits) if digit == str(_told(item, "digit"))]
    if len(places) != 1:
        return None
    return digits[places[0]] + "0" * (len(digits) - 1 - places[0])


def _renamed(by: int) -> Callable[[Item], str | None]:
    """Tens and ones after one ten has been opened (-1) or made (+1), the number unchanged."""

    def solve(item: Item) -> str | None:
        tens, ones = _told(item, "tens"), _told(item, "ones")
        number = int(f"{tens}0") + ones
        return next((f"{tens + by} {n}" for n in range(30) if 10 * (tens + by) + n == number), None)

    return solve


def _sorted(item: Item) -> list[int]:
    if not isinstance(item.prompt, Question):
        raise TypeError(item.key)
    return sorted(int(value) for value in item.prompt.values.values())


def _point(item: Item) -> str:
    return "ABCD"[_list(item, "points").index(_told(item, "n"))]


def _arrow(item: Item) -> str | None:
    """The option nearest to where the arrow stands."""
    at = _drawn(item, "arrow", -1)
    return min(_options(item), key=lambda code: abs(int(code) - at))


def _about_how_many(item: Item) -> str:
    return str(_nearest_ten(sum([_drawn(item, "size")] * _drawn(item, "groups")) + _drawn(item, "extra")))


def _jump(item: Item) -> str | None:
    """The option that starts where the jump starts and comes out where it lands."""
    start, end = _list(item, "jumps")
    fitting = []
    for code in _options(item):
        sign = "+" if "+" in code else "-"
        first, second = (int(number) for number in code.split(sign))
        if first == start and (first + second if sign == "+" else first - second) == end:
            fitting.append(code)
    return fitting[0] if len(fitting) == 1 else None


_SOLVERS: dict[str, Callable[[Item], str | None]] = {
    "about-sum": _about_sum,
    "fill-bar": _bar,
    "fix-turned-take-away": _turned,
    "chart-gap": _chart_gap,
    "hop-on": _hops,
    "ten-more": lambda item: str(len("x" * 10 + "x" * _told(item, "n"))),
    "ten-less": lambda item: str(len(("x" * _told(item, "n"))[10:])),
    "follow-cards-on-chart": _cards,
    "even-or-odd": _parity,
    "draw-pairs": lambda _item: "",
    "which-row-more": _which_row,
    "how-many-in-all": _in_all,
    "how-many-tens-ones": lambda item: " ".join(str(n) for n in _blocks(item)),
    "tens-and-ones-of": _places,
    "value-of-digit": _digit_worth,
    "digit-worth": _digit_worth,
    "open-one-ten": _renamed(-1),
    "trade-ten-ones": _renamed(1),
    "larger-of": lambda item: str(_sorted(item)[-1]),
    "largest-of": lambda item: str(_sorted(item)[-1]),
    "order-from-smallest": lambda item: " ".join(str(n) for n in _sorted(item)),
    "mark-on-line": lambda _item: "",
    "which-point": _point,
    "about-which-number": _arrow,
    "round-to-ten": lambda item: str(_nearest_ten(_told(item, "n"))),
    "nearest-ten-on-line": lambda item: str(_nearest_ten(_told(item, "n"))),
    "about-how-many": _about_how_many,
    "which-jump": _jump,
}
