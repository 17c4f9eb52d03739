"""Programs with repeats walked again with complex numbers; every single card is tried where one is wrong."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.items.model import Question
from dayleaf.items.second.pictured_params import steps_of, word, words

if TYPE_CHECKING:
    from collections.abc import Sequence

    from dayleaf.items.model import Item

_LETTERS = "ABCDEFGHIJ"
_NOSE = {"up": 1j, "right": 1 + 0j, "down": -1j, "left": -1 + 0j}
_TURN = {"turn-left": 1j, "turn-right": -1j}


def loop_answer(item: Item) -> str | None:
    """The answer of an item about a part that is done again; None for others."""
    if not isinstance(item.prompt, Question):
        return None
    if item.prompt.code == "cards-for-path":
        fitting = [
            option.code
            for option in item.parts[0].options
            if option.figure is not None and _walk(item, _flat(steps_of(option.figure))) == _path(item)
        ]
        return fitting[0] if len(fitting) == 1 else None
    if item.prompt.code == "stairs-end":
        return _stairs(item, item.prompt)
    return _mended(item, item.prompt) if item.prompt.code == "wrong-card-again" else None


def _at(square: str) -> complex:
    return complex(_LETTERS.index(square[0]) + 1, int(square[1:]))


def _path(item: Item) -> list[complex]:
    return [_at(square) for square in words(item, "path")]


def _flat(cards: Sequence[str]) -> list[str]:
    """The innermost part is written out as often as it says, until none is left."""
    flat = list(cards)
    while "end" in flat:
        end = flat.index("end")
        start = max(i for i in range(end) if flat[i].startswith("repeat-"))
        times = int(flat[start].split("-")[1])
        flat[start : end + 1] = flat[start + 1 : end] * times
    return flat


def _walk(item: Item, cards: Sequence[str]) -> list[complex]:
    place, nose = _at(word(item, "start")), _NOSE[word(item, "facing")]
    walked = [place]
    for card in cards:
        if card == "forward":
            place += nose
            walked.append(place)
        else:
            nose *= _TURN[card]
    return walked


def _stairs(item: Item, question: Question) -> str | None:
    told = question.values
    turn = str(told["turn"])
    back = next(card for card in _TURN if card != turn)
    stair = ["forward"] * int(told["a"]) + [turn] + ["forward"] * int(told["b"]) + [back]
    stop = _walk(item, stair * int(told["times"]))[-1]
    marked = {_at(mark.split("=")[1]): mark.split("=")[0].lower() for mark in words(item, "marks")}
    return marked.get(stop)


def _mended(item: Item, question: Question) -> str | None:
    cards = str(question.values["cards"]).split()
    found = []
    for place, option in enumerate(item.parts[0].options):
        for new in item.parts[1].options:
            card = steps_of(new.figure)[0] if new.figure else ""
            mended = [*cards[:place], card, *cards[place + 1 :]]
            if card != cards[place] and _walk(item, mended * int(question.values["times"])) == _path(item):
                found.append(f"{option.code} {new.code}")
    return found[0] if len(found) == 1 else None
