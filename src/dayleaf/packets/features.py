"""What makes two items equally hard to the eye and to the hand, so that two forms of a test can be held to the same.

References:
    [1] CHECKS H.7 of this project: the same multiset of (skill, carries or borrows, zero pattern, situation), no
        shared item. JOB 1.11 adds formats, digit patterns, word count and error-separating numbers.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from itertools import combinations
from typing import TYPE_CHECKING, Final, Literal, get_args

from dayleaf.items.model import Column, Gap, Match, Question, Row, Sort, Story
from dayleaf.wording.say import text_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from dayleaf.course.model import Skill
    from dayleaf.items.model import Item

Band = Literal["sure", "middle", "hard"]
BANDS: Final[tuple[Band, ...]] = get_args(Band)
"""Thirds of an item's difficulty within its skill, which runs from 0 to 1."""
LANG: Final = "en"
"""Words are counted in the language that every skill has."""

_NUMERAL = re.compile(r"\d+")
_WORD = re.compile(r"[^\W\d_]+")


@dataclass(frozen=True, slots=True)
class Features:
    """What an item shares with its partner on every other form of the test.

    `asked` is how and about what situation it is asked; `digits` the digit pattern of every rule variable, `read` of
    every numeral that is read (each digit as `d`, each zero as `0`), `answer` that of the answer (the kind of part
    where it is no number); `trades` how many tens, hundreds … are made or opened, None where nothing is added or taken
    away; `words` how many words are read; `parts` how many pairs of hypotheses about the child the item tells apart;
    `ways` how many error ways give an answer, a wrong one, a different wrong one; `band` how hard it is for its skill.
    """

    skill: str
    format: str
    asked: str
    digits: tuple[str, ...]
    read: tuple[str, ...]
    answer: tuple[str, ...]
    trades: int | None
    words: int
    parts: int
    ways: tuple[int, int, int]
    band: Band


def features_of(skill: Skill, item: Item) -> Features:
    """The features of an item of this skill."""
    text = text_of(item, LANG)
    return Features(
        skill=item.skill,
        format=item.format,
        asked=_asked(item),
        digits=tuple(f"{name}:{pattern(value)}" for name, value in sorted(item.numbers.items())),
        read=tuple(sorted(pattern(one) for one in _NUMERAL.findall(text))),
        answer=tuple(pattern(part.answer) if part.kind == "digits" else part.kind for part in item.parts),
        trades=trades_of(item),
        words=len(_WORD.findall(text)),
        parts=pairs_parted(skill, item),
        ways=ways_of(item),
        band=BANDS[min(2, int(3 * item.difficulty))],
    )


def pattern(number: int | str) -> str:
    """A number's digits as `d`, its zeros as `0`: 507 is `d0d`."""
    return "".join("0" if sign == "0" else "d" if sign.isdigit() else sign for sign in str(number))


def pairs_parted(skill: Skill, item: Item) -> int:
    """How many pairs among the right procedure and the skill's own wrong ways get different answers here."""
    own = [way.id for way in skill.error_ways if way.shows_as == "wrong answer" and way.id in item.errors]
    answers = [item.answer, *(item.errors[way] for way in own)]
    return sum(one != other for one, other in combinations(answers, 2))


def ways_of(item: Item) -> tuple[int, int, int]:
    """How many error ways give an answer here, how many of them a wrong one, and how many different wrong ones."""
    wrong = [answer for answer in item.errors.values() if answer != item.answer]
    return len(item.errors), len(wrong), len(set(wrong))


def trades_of(item: Item) -> int | None:
    """How many trades the item's sum or difference needs; None where there is none to be found."""
    found = _sum_of(item)
    if found is None:
        return None
    sign, numbers = found
    return carries(numbers) if sign == "+" else borrows(numbers[0], numbers[1])


def carries(addends: Iterable[int]) -> int:
    """How many places of a sum hand something on to the next place."""
    left, carry, count = list(addends), 0, 0
    while any(left):
        carry = (sum(number % 10 for number in left) + carry) // 10
        count += carry > 0
        left = [number // 10 for number in left]
    return count


def borrows(whole: int, part: int) -> int:
    """How many places of a difference borrow, with the running borrow: 100 - 1 has two."""
    borrow, count = 0, 0
    while whole or part:
        borrow = whole % 10 - borrow < part % 10
        count += borrow
        whole, part = whole // 10, part // 10
    return count


def _asked(item: Item) -> str:
    prompt = item.prompt
    picture = item.figure.kind if item.figure is not None else ""
    options = "/".join(str(len(part.options)) for part in item.parts)
    if isinstance(prompt, Question):
        return f"{prompt.code} {picture} {options}"
    if isinstance(prompt, Story):
        return f"{prompt.cell} {prompt.unit or ''} {picture}"
    if isinstance(prompt, Column):
        return f"column {prompt.sign} {len(prompt.hidden)} {prompt.shown is not None}"
    if isinstance(prompt, Match):
        return f"match {len(prompt.left)}"
    if isinstance(prompt, Sort):
        return f"sort {len(prompt.things)}"
    shape = "".join("_" if isinstance(one, Gap) else one if isinstance(one, str) else "." for one in prompt.tokens)
    return f"{shape} {picture} {options}"


def _sum_of(item: Item) -> tuple[str, list[int]] | None:
    """The sign and the numbers of the one sum or difference in an item, gaps filled in."""
    prompt = item.prompt
    if isinstance(prompt, Column):
        return (prompt.sign, list(prompt.rows)) if prompt.sign in ("+", "-") else None
    if isinstance(prompt, Row):
        return _sum_in_row(prompt, item)
    told = [value for value in (prompt.values.values() if isinstance(prompt, Story | Question) else ())
            if isinstance(value, int)]  # fmt: skip
    answer = item.parts[0].answer if item.parts else ""
    if not isinstance(prompt, Story) or len(told) != 2 or not answer.isdigit():
        return None
    low, high = sorted(told)
    if low + high == int(answer):
        return "+", [low, high]
    return ("-", [high, low]) if high - low == int(answer) else None


def _sum_in_row(row: Row, item: Item) -> tuple[str, list[int]] | None:
    answers = {part.id: part.answer for part in item.parts}
    filled: list[int | str] = []
    for token in row.tokens:
        if isinstance(token, Gap):
            answer = answers.get(token.part, "")
            filled.append(int(answer) if answer.isdigit() else answer)
        elif isinstance(token, int | str):
            filled.append(token)
    signs = [one for one in filled if one in ("+", "-")]
    if not signs or len(set(signs)) > 1 or (signs[0] == "-" and len(signs) > 1):
        return None
    return _around(filled, str(signs[0]))


def _around(filled: Sequence[int | str], sign: str) -> tuple[str, list[int]] | None:
    """The numbers that stand beside the signs, in their order."""
    beside: dict[int, int] = {}
    for place, one in enumerate(filled):
        if one != sign:
            continue
        for at in (place - 1, place + 1):
            number = filled[at] if 0 <= at < len(filled) else None
            if not isinstance(number, int):
                return None
            beside[at] = number
    numbers = [beside[at] for at in sorted(beside)]
    return (sign, numbers) if sign == "+" or numbers[0] >= numbers[1] else None
