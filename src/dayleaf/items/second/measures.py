"""Inches, feet and programs worked again: lengths in fortieths of a millimetre, walks with complex numbers."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.items.model import Question, Row, Word
from dayleaf.items.second.pictured_params import number, numbers, steps_of, word, words

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from dayleaf.items.model import Item

_INCH, _CM = 1016, 400
"""Fortieths of a millimetre; an inch is 25.4 mm exactly (NIST Handbook 44, Appendix C)."""

_IN_INCHES: Mapping[str, int] = {"inches": 1, "feet": 12, "yards": 36}

_LETTERS = "ABCDEFGHIJ"
_NOSE: Mapping[str, complex] = {"up": 1j, "right": 1, "down": -1j, "left": -1}


def measure_answer(item: Item) -> str | None:
    """The answer for items about inches, feet and programs with turns; None for others."""
    if isinstance(item.prompt, Row):
        return _row(item, item.prompt)
    if not isinstance(item.prompt, Question):
        return None
    answer = _QUESTIONS.get(item.prompt.code)
    return answer(item, item.prompt) if answer else None


# lengths


def _fortieths(item: Item) -> int:
    return _INCH * (number(item, "end") - number(item, "start")) + _INCH // 4 * number(item, "quarters")


def _closest(length: int, unit: int) -> int:
    return min(range(60), key=lambda n: abs(n * unit - length))


def _row(item: Item, row: Row) -> str | None:
    codes = [token.code for token in row.tokens if isinstance(token, Word)]
    if item.figure is not None and item.figure.kind == "ruler-in":
        if "equal-parts" in codes:
            return _in_parts(item)
        units = {"inches": _INCH, "cm": _CM}
        return " ".join(str(_closest(_fortieths(item), units[code])) for code in codes)
    if item.figure is None and len(codes) == 2 and set(codes) <= _IN_INCHES.keys():
        told = next(token for token in row.tokens if isinstance(token, int))
        inches = told * _IN_INCHES[codes[0]]
        return str(next(n for n in range(500) if n * _IN_INCHES[codes[1]] == inches))
    return None


def _in_parts(item: Item) -> str:
    """Walk along the ruler from tick to tick; the ticks past the last whole inch are the parts."""
    parts = number(item, "parts")
    ticks = sum(1 for k in range(1, 100) if k * _INCH <= _fortieths(item) * parts)
    inches = 0
    while ticks >= parts:
        inches, ticks = inches + 1, ticks - parts
    return f"{inches} {ticks} {parts}"


def _inches(item: Item, _: Question) -> str:
    return str(_closest(_fortieths(item), _INCH))


def _drawn(_: Item, _question: Question) -> str:
    return ""


def _inches_in_feet(_: Item, question: Question) -> str:
    return str(sum(_IN_INCHES["feet"] for _ in range(int(question.values["n"]))))


_TALL: Mapping[str, range] = {
    # feet between which things of the kind lie; the answer must be the only option inside
    "door": range(6, 9), "bench": range(3, 6), "table": range(4, 7), "bed": range(5, 8), "room": range(9, 16),
    "wall": range(10, 20), "boat-deck": range(15, 26), "window": range(2, 5),
}  # fmt: skip


def _feet(item: Item, question: Question) -> str | None:
    likely = [o.code for o in item.parts[0].options if int(o.code) in _TALL[str(question.values["thing"])]]
    return likely[0] if len(likely) == 1 else None


def _inches_or_feet(_: Item, question: Question) -> str:
    in_the_hand = {"pencil", "spoon", "finger", "leaf", "book", "shoe"}
    return "inches" if question.values["thing"] in in_the_hand else "feet"


def _times_the_inch(item: Item, _: Question) -> str:
    short, long = numbers(item, "lengths")
    return str(min(range(20), key=lambda n: abs(n * short - long)))


def _why(_: Item, _question: Question) -> str | None:
    return "cm-are-smaller" if _CM < _INCH else None


# programs


def _at(square: str) -> complex:
    return complex(_LETTERS.index(square[0]) + 1, int(square[1:]))


def _unrolled(cards: Sequence[str]) -> list[str]:
    """The cards one after another, brackets done as often as they say."""
    done: list[str] = []
    stack: list[tuple[int, list[str]]] = []
    for card in cards:
        if card.startswith("repeat-"):
            stack.append((int(card.removeprefix("repeat-")), done))
            done = []
        elif card == "end":
            times, before = stack.pop()
            done = before + done * times
        else:
            done.append(card)
    return done


def _walk(start: complex, nose: complex, cards: Sequence[str]) -> list[complex]:
    """Every square stood on; a turn to the left multiplies the nose by i."""
    stood = [start]
    for card in _unrolled(cards):
        if card in _NOSE:
            stood.append(stood[-1] + _NOSE[card])
        elif card == "forward":
            stood.append(stood[-1] + nose)
        else:
            nose *= 1j if card == "turn-left" else -1j
    return stood


def _marked(item: Item, place: complex) -> str | None:
    for mark in words(item, "marks"):
        letter, _, square = mark.partition("=")
        if _at(square) == place:
            return letter.lower()
    return None


def _after_turn(item: Item, question: Question) -> str | None:
    values = question.values
    cards = ["forward"] * int(values["n"]) + [str(values["turn"])] + ["forward"] * int(values["m"])
    return _marked(item, _walk(_at(word(item, "start")), _NOSE[word(item, "facing")], cards)[-1])


def _only(found: Sequence[str]) -> str | None:
    return found[0] if len(found) == 1 else None


def _to_gate(item: Item, _: Question) -> str | None:
    goal = _at(words(item, "places")[0])
    nose = _NOSE[word(item, "facing")]
    options = ((o.code, steps_of(o.figure)) for o in item.parts[0].options if o.figure)
    return _only([code for code, cards in options if _walk(_at(word(item, "start")), nose, cards)[-1] == goal])


def _squares(item: Item, _: Question) -> str:
    return str(_unrolled(words(item, "steps")).count("forward"))


def _loop_for(item: Item, question: Question) -> str | None:
    options = ((o.code, steps_of(o.figure)) for o in item.parts[0].options if o.figure)
    n = int(question.values["n"])
    return _only([code for code, cards in options if _unrolled(cards).count("forward") == n])


def _wrong_card(item: Item, _: Question) -> str | None:
    """Try every card at every place: exactly one change makes the walk follow the line."""
    shown = [o.figure.params["steps"] for o in item.parts[0].options if o.figure]
    cards = [str(step[0]) for step in shown if isinstance(step, tuple)]
    line = [_at(square) for square in words(item, "path")]
    found = []
    for new in (o for o in item.parts[1].options if o.figure):
        card = steps_of(new.figure)[0] if new.figure else ""
        for at, place in enumerate(item.parts[0].options):
            if card != cards[at] and _walk(line[0], 1j, [*cards[:at], card, *cards[at + 1 :]]) == line:
                found.append(f"{place.code} {new.code}")
    return _only(found)


def _if_then(item: Item, question: Question) -> str | None:
    even = question.code == "if-even"
    told = [int(value) for value in question.values.values()]
    wanted = tuple("right" if (n in range(0, 20, 2) if even else n in range(7, 20)) else "up" for n in told)
    return _only([o.code for o in item.parts[0].options if o.figure and steps_of(o.figure) == wanted])


def _thing_beside(item: Item, question: Question) -> str | None:
    side = question.code.rpartition("-")[2]
    at = dict(zip(map(_at, words(item, "places")), words(item, "things"), strict=True))
    if question.code.startswith("what-is"):
        here = next(place for place, thing in at.items() if thing == "boat")
        return at.get(here + _NOSE[side])
    nose = _NOSE[word(item, "facing")]
    return at.get(_at(word(item, "start")) + nose * (1j if side == "left" else -1j))


_QUESTIONS: Mapping[str, Callable[[Item, Question], str | None]] = {
    "fix-inches": _inches,
    "guess-then-measure": _inches,
    "draw-line-inches": _drawn,
    "why-more-cm": _why,
    "inches-in-feet": _inches_in_feet,
    "about-how-many-feet": _feet,
    "inches-or-feet": _inches_or_feet,
    "about-how-many-inches": _times_the_inch,
    "where-after-turn": _after_turn,
    "cards-to-gate": _to_gate,
    "squares-in-all": _squares,
    "loop-for": _loop_for,
    "wrong-card": _wrong_card,
    "if-even": _if_then,
    "if-more-than-six": _if_then,
    **dict.fromkeys(("what-is-left", "what-is-right", "what-is-up", "what-is-down"), _thing_beside),
    **dict.fromkeys(("at-its-left", "at-its-right"), _thing_beside),
    **dict.fromkeys(("draw-left", "draw-right", "draw-up", "draw-down"), _drawn),
}
