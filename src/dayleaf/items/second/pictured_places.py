"""Lengths, maps and programs worked again: ends looked at one by one, paths walked with complex numbers."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.items.model import Question, Row, Word
from dayleaf.items.second.pictured_params import number, numbers, steps_of, word, words

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from dayleaf.items.model import Item

_CARD: Mapping[str, complex] = {"right": 1, "left": -1, "up": 1j, "down": -1j}

_MOST = 1000

_FITTING: Mapping[str, frozenset[str]] = {
    # shorter than a ruler and straight
    "ruler cm": frozenset({"pencil", "book", "leaf", "spoon", "finger"}),
    # many steps long
    "meter-stick m": frozenset({"room", "wall", "yard", "garden-path", "boat-deck"}),
    # round
    "tape cm": frozenset({"tree-round", "head-round", "bucket-round", "jar-round"}),
}

_BEFORE: tuple[tuple[str, str], ...] = (
    # what must be done before what; enough pairs to leave one order
    ("plant-bean.fill-pot", "plant-bean.make-hole"),
    ("plant-bean.make-hole", "plant-bean.drop-bean"),
    ("plant-bean.drop-bean", "plant-bean.cover-bean"),
    ("wash-jar.take-lid-off", "wash-jar.fill-water"),
    ("wash-jar.fill-water", "wash-jar.pour-out"),
    ("wash-jar.pour-out", "wash-jar.dry-jar"),
    ("tie-boat.steer-to-bank", "tie-boat.step-off"),
    ("tie-boat.step-off", "tie-boat.wrap-rope"),
    ("tie-boat.wrap-rope", "tie-boat.make-knot"),
    ("send-letter.write-letter", "send-letter.fold-letter"),
    ("send-letter.fold-letter", "send-letter.into-envelope"),
    ("send-letter.into-envelope", "send-letter.close-envelope"),
    ("boil-egg.pour-water", "boil-egg.heat-water"),
    ("boil-egg.heat-water", "boil-egg.egg-in"),
    ("boil-egg.egg-in", "boil-egg.peel-egg"),
    ("make-soup.pick-carrots", "make-soup.wash-carrots"),
    ("make-soup.wash-carrots", "make-soup.cut-carrots"),
    ("make-soup.cut-carrots", "make-soup.cook-carrots"),
    ("open-lock.boat-in", "open-lock.close-gate"),
    ("open-lock.close-gate", "open-lock.fill-lock"),
    ("open-lock.fill-lock", "open-lock.boat-out"),
    ("build-wall.dig-ground", "build-wall.lay-first-row"),
    ("build-wall.lay-first-row", "build-wall.lay-second-row"),
    ("build-wall.lay-second-row", "build-wall.lay-top-row"),
)


def place_answer(item: Item) -> str | None:
    """The answer for items about lengths, tools, maps, programs and orders; None for others."""
    if isinstance(item.prompt, Row):
        return _row(item, item.prompt)
    if not isinstance(item.prompt, Question):
        return None
    if item.prompt.code in ("clock-draw", "draw-line-cm"):
        return ""
    answer = _QUESTIONS.get(item.prompt.code)
    return answer(item, item.prompt) if answer else None


# rows beside a strip, or with steps to number


def _row(item: Item, row: Row) -> str | None:
    kind = item.figure.kind if item.figure else ""
    if kind == "ruler-cm":
        return _spaces(item)
    if kind == "objects-line":
        return _strips(item, row)
    codes = [token.code for token in row.tokens if isinstance(token, Word)]
    if any("." in code for code in codes):
        earlier = {code: {a for a, b in _BEFORE if b == code} for code in codes}
        rank: dict[str, int] = {}
        while len(rank) < len(codes):
            rank |= {code: len(rank) + 1 for code in codes if code not in rank and earlier[code] <= rank.keys()}
        return " ".join(str(rank[code]) for code in codes)
    return _equation(row)


def _equation(row: Row) -> str | None:
    """The only number that makes a row of two numbers, + or −, and a result true; words of units are passed over."""
    tokens = [token for token in row.tokens if not isinstance(token, Word)]
    if len(tokens) != 5 or tokens[1] not in ("+", "-") or tokens[3] != "=":
        return None

    def holds(x: int) -> bool:
        a, b, result = (token if isinstance(token, int) else x for token in tokens[::2])
        return a == result + b if tokens[1] == "-" else a == result - b

    found = [x for x in range(_MOST) if holds(x)]
    return str(found[0]) if len(found) == 1 else None


def _spaces(item: Item) -> str:
    return str(sum(1 for _ in range(number(item, "start"), number(item, "end"))))


def _strips(item: Item, row: Row) -> str:
    lengths = numbers(item, "lengths")
    if not any(isinstance(token, Word) for token in row.tokens):
        return " ".join(str(sum(other <= length for other in lengths)) for length in lengths)
    in_cm = [length // 10 for length in lengths]
    return " ".join(str(n) for n in (*in_cm, max(in_cm) - min(in_cm)))


# questions about lengths


def _longest(item: Item, _: Question) -> str:
    lengths = numbers(item, "lengths")
    return next(chr(97 + i) for i, length in enumerate(lengths) if all(length >= other for other in lengths))


def _shortest(item: Item, _: Question) -> str:
    lengths = numbers(item, "lengths")
    return next(chr(97 + i) for i, length in enumerate(lengths) if all(length <= other for other in lengths))


def _between_ends(item: Item, _: Question) -> str:
    return _spaces(item)


def _times_the_first(item: Item, _: Question) -> str:
    unit, strip = numbers(item, "lengths")
    return str(sum(1 for _ in range(0, strip, unit)))


def _stop(_: Item, question: Question) -> str:
    mark = int(question.values["start"])
    for _step in range(int(question.values["n"])):
        mark += 1
    return str(mark)


def _tool(_: Item, question: Question) -> str:
    return _fitting(str(question.values["thing"]))[0]


def _unit(_: Item, question: Question) -> str:
    return _fitting(str(question.values["thing"]))[1]


def _cm_or_m(_: Item, question: Question) -> str:
    """Meters for what a child can stand in, on or under; centimeters for what a hand can hold."""
    in_the_hand = {"pencil", "spoon", "finger", "leaf", "book", "shoe"}
    return "cm" if question.values["thing"] in in_the_hand else "m"


def _fitting(thing: str) -> list[str]:
    return next(tool_and_unit.split() for tool_and_unit, things in _FITTING.items() if thing in things)


# maps and programs


def _at(square: str) -> complex:
    return complex("ABCDEFGHIJ".index(square[0]) + 1, int(square[1:]))


def _called(place: complex) -> str:
    return f"{'ABCDEFGHIJ'[round(place.real) - 1]}{round(place.imag)}"


def _places(item: Item) -> dict[str, complex]:
    squares = words(item, "places")
    return {thing: _at(square) for thing, square in zip(words(item, "things"), squares, strict=True)}


def _square_of(item: Item, question: Question) -> str:
    return _called(_places(item)[str(question.values["thing"])])


def _what_is_in(item: Item, question: Question) -> str:
    here = _at(str(question.values["square"]))
    return next(thing for thing, place in _places(item).items() if place == here)


def _arrows_home(item: Item, question: Question) -> str | None:
    goal = _places(item)[str(question.values["thing"])]
    leads = []
    for option in item.parts[0].options:
        if option.figure is not None:
            place = _at(word(item, "start")) + sum(_CARD[card] for card in steps_of(option.figure))
            if place == goal:
                leads.append(option.code)
    return leads[0] if len(leads) == 1 else None


def _moves_to(item: Item, question: Question) -> str:
    way = _places(item)[str(question.values["thing"])] - _at(word(item, "start"))
    return str(round(abs(way.real) + abs(way.imag)))


def _where_stop(item: Item, question: Question) -> str:
    values = question.values
    place = _at(str(values["start"]))
    place += _CARD[str(values["first"])] * int(values["n"]) + _CARD[str(values["second"])] * int(values["m"])
    square = _called(place)
    for mark in words(item, "marks"):
        letter, _, marked = mark.partition("=")
        if marked == square:
            return letter.lower()
    return square


_QUESTIONS: Mapping[str, Callable[[Item, Question], str | None]] = {
    "ring-longest": _longest,
    "ring-shortest": _shortest,
    "how-long-cm": _between_ends,
    "fix-measure": _between_ends,
    "about-how-long-b": _times_the_first,
    "stop-mark": _stop,
    "choose-tool": _tool,
    "choose-unit": _unit,
    "cm-or-m": _cm_or_m,
    "square-of": _square_of,
    "what-is-in": _what_is_in,
    "arrows-home": _arrows_home,
    "moves-to": _moves_to,
    "where-stop": _where_stop,
}
