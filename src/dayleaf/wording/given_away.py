"""Whether the words of a picture say the answer outright.

Who cannot see a picture is told what is in it and then does the same work: count, measure, compare, read off. So the
words hold the data, and often a number of the data is the answer of one question among several (the bar of the pears
stands at 7; how many pears?). That is no secret told. The words give the answer away when nothing is left to do:

1. the answer stands in them, as a numeral or in words,
2. it does so in every item that asks this question, always at the same place (the second number, the last word, after
   two words that stand there once …), so that the place alone tells it and the question need not be read, and
3. it is not printed in the picture or in the question as well, where everyone reads it (a hand that points to the 4
   of a clock; 5 - 0 beside five counters).

The second is seen only over several items with different answers; with fewer nothing is decided.
"""

from __future__ import annotations

import re
from collections import defaultdict
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

FEWEST: Final = 8
"""So many different texts are needed before a place that they share counts."""

_WORD: Final = re.compile(r"[\w$¢°]+")
_NUMERAL: Final = re.compile(r"\d+")

Place = tuple[str, str | int]
"""Where something stands: by which count, and the count or the words before it."""


@dataclass(frozen=True, slots=True)
class Told:
    """A picture told for one question: the words, every way to say the answer, and what is printed beside it.

    `question` is the same for items that ask the same of other data; `item` is the key by which one is named.
    """

    item: str
    question: str
    said: str
    answers: tuple[str, ...]
    printed: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class GivenAway:
    """A question whose pictures say the answer, one item of it, and the place where it stands."""

    question: str
    item: str
    said: str
    place: Place


def given_away(told: Iterable[Told]) -> tuple[GivenAway, ...]:
    """Every question whose answer can be taken from the pictures' words without any work.

    Texts of the same shape (alike but for their numbers) are also looked at by themselves, so that one kind of
    picture among several is found.
    """
    groups: dict[tuple[str, str], dict[tuple[str, tuple[str, ...]], Told]] = defaultdict(dict)
    for one in told:
        if any(answer in one.printed for answer in one.answers):
            continue
        for shape in ("", _NUMERAL.sub("#", one.said)):
            groups[one.question, shape].setdefault((one.said, one.answers), one)
    found: dict[str, GivenAway] = {}
    for (question, _), alike in groups.items():
        members = tuple(alike.values())
        if question not in found and (place := _common_place(members)) is not None:
            found[question] = GivenAway(question, members[0].item, members[0].said, place)
    return tuple(found.values())


def _common_place(members: Sequence[Told]) -> Place | None:
    if len(members) < FEWEST or len({one.answers for one in members}) < 2:
        return None
    common: set[Place] | None = None
    for one in members:
        here = set(_places(one))
        common = here if common is None else common & here
        if not common:
            return None
    return min(common or (), key=str, default=None)


def _places(told: Told) -> Iterator[Place]:
    """Everywhere the answer stands."""
    words = _WORD.findall(told.said.lower())
    numerals = [at for at, word in enumerate(words) if word.isdigit()]
    for answer in told.answers:
        wanted = _WORD.findall(answer.lower())
        for at in range(len(words) - len(wanted) + 1) if wanted else ():
            if words[at : at + len(wanted)] != wanted:
                continue
            yield "word", at
            yield "word from the end", len(words) - at
            before = words[max(0, at - 2) : at]
            if sum(words[k : k + len(before)] == before for k in range(len(words))) == 1:
                yield "after", " ".join(before)
            if at in numerals:
                yield "number", numerals.index(at)
                yield "number from the end", len(numerals) - numerals.index(at)
