"""What a line of an outline says, in words that our own skills are told in too.

An outline in other people's words says *borrowing* where another says *regrouping*, *to 1,000* or *three-digit*,
*by 5s* or *fives*. `words_of` makes one list of plain words of all these; the table of words that mean the same, and
further wordings of every skill, lie in `content/trade_words.toml` (common practice, no source).
"""

from __future__ import annotations

import re
import tomllib
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING, Final

from dayleaf.core.ids import SkillId
from dayleaf.course.load import CONTENT

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

_NUMBERS: Final = (
    *("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"),
    *("eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen", "twenty"),
)
_PLURALS: Final = {"twos": 2, "threes": 3, "fours": 4, "fives": 5, "sixes": 6, "sevens": 7, "eights": 8, "nines": 9}
_SIGNS: Final = {"+": "add", "−": "subtract", "×": "multiply", "÷": "divide"}
_BUCKETS: Final = ((5, "r5"), (12, "r10"), (20, "r20"), (120, "r100"), (1000, "r1000"), (10_000, "r10000"))
_ROUND: Final = frozenset({50, 90, 99, 100, 110, 120, 150, 200, 500, 900, 999, 1000, 9999, 10_000, 100_000})
"""Numbers that say how far the numbers of a lesson go; others are examples."""
_STAYS: Final = frozenset({"always", "minus", "plus", "less", "class", "cents", "guess", "is", "has", "was", "glass"})
_SUM: Final = re.compile(r"(\d+)\s*([+−×÷-])\s*(\d+)")
_WORD: Final = re.compile(r"[a-zA-Z]+\d*|\d+[a-z]+|\d+/\d+|\d+|[<>=□?¢$]")


@dataclass(frozen=True, slots=True)
class TradeWords:
    """The table: `same` gives each wording its plain word, `phrases` further wordings of each skill.

    `empty` words name no skill.
    """

    same: Mapping[str, str]
    phrases: Mapping[SkillId, tuple[str, ...]]
    pattern: re.Pattern[str]
    empty: frozenset[str]


@cache
def trade_words() -> TradeWords:
    """The table of `content/trade_words.toml`, read once."""
    data = tomllib.loads((CONTENT / "trade_words.toml").read_text(encoding="utf-8"))
    same = {wording: plain for plain, wordings in data["same"].items() for wording in wordings}
    longest_first = sorted(same, key=len, reverse=True)
    pattern = re.compile(r"(?<![\w])(?:" + "|".join(map(re.escape, longest_first)) + r")(?![\w])")
    phrases = {SkillId(name): tuple(rows) for name, rows in data["skills"].items()}
    return TradeWords(same, phrases, pattern, frozenset(data["says_nothing"].split()))


@cache
def words_of(text: str) -> tuple[str, ...]:
    """The plain words of a line, in order: what means the same becomes the same, numbers say how large they are.

    >>> words_of("Subtracting two-digit numbers with borrowing")
    ('subtract', '2digit', 'trade')
    >>> words_of("Count by 5s to 1,000")
    ('skipcount', 'by5', 'r1000')
    """
    table = trade_words()
    line = _with_numbers(_plain(text))
    extra = tuple(_of_sums(line))
    line = _SUM.sub(" ", line)
    line = re.sub(r"[+−×÷]", lambda found: f" {_SIGNS[found.group()]} ", line)
    line = table.pattern.sub(lambda found: f" {table.same[found.group()]} ", line)
    words = [word for word in _WORD.findall(line) if word not in table.empty]
    if {"hundreds", "hundred"} & set(words) and {"add", "subtract", "trade"} & set(words):
        words.append("3digit")
    return (*(_stem(word) for word in _sized(words)), *extra)


def _plain(text: str) -> str:
    line = text.casefold().replace("’", "'").replace("–", "-").replace("—", " - ").replace("½", "1/2")
    line = line.replace("⅓", "1/3").replace("¼", "1/4").replace("¾", "3/4").replace("⅔", "2/3")
    line = re.sub(r"(?<=\d),(?=\d{3}\b)", "", line)
    line = re.sub(r"(?<=\d)\s+x\s+(?=\d)", " × ", line)
    line = re.sub(r"_{2,}|\bn\b(?=\s*=)", " □ ", line)
    return line.replace("<", " less than ").replace(">", " greater than ")


def _with_numbers(line: str) -> str:
    """Number words as digits, *2-digit* and *two-digit numbers* as one word, *by fives* and *5s* as `by5`."""
    line = re.sub(r"\bsingle[- ]digit", "1digit", line)
    for value, name in enumerate(_NUMBERS[:6]):
        line = re.sub(rf"\b(?:{name}|{value})[- ]digits?\b", f"{value}digit", line)
    line = re.sub(r"\b(?:to|within|through|up to|past|over|under|of)\s+(?:a|one) (hundred|thousand)\b", r"to \1", line)
    line = line.replace("to hundred", "to 100").replace("to thousand", "to 1000")
    line = re.sub(r"\b(by|in|times|multiply|multiplying)\s+tens?\b", r"\1 by10", line)
    line = re.sub(r"\b(by|in)\s+hundreds\b", r"\1 by100", line)
    for name, value in _PLURALS.items():
        line = re.sub(rf"\b{name}\b", f"by{value}", line)
    return re.sub(r"\b(\d+)'?s\b", r"by\1", line)


def _of_sums(line: str) -> Iterator[str]:
    """What sums written in digits tell: their operation, their digits, whether a trade is needed, where the gap is."""
    gap = re.search(r"□|\?\s*=|=\s*\?", line)
    if gap and re.search(r"[+−×÷-]", line) and re.search(r"\d", line):
        yield "missing"
    sums = [(int(found[1]), found[2].replace("-", "−"), int(found[3])) for found in _SUM.finditer(line)]
    sums = [(a, sign, b) for a, sign, b in sums if sign != "−" or a >= b]
    signs = {sign for _, sign, _ in sums}
    if len(signs) > 1:
        yield "factfamily"
    elif len(sums) > 1 and re.search(r"\d\s*=\s*\d+\s*[+−×÷-]", line):
        yield "balance"
    elif sums:
        yield from dict.fromkeys(_of_sum(*sums[0]))


def _of_sum(first: int, sign: str, second: int) -> Iterator[str]:
    """One sum's words; forty and seven is a number told by its parts."""
    if sign == "+" and first % 10 == 0 and 0 < second < 10 and first > 10:
        yield "expanded"
        return
    yield _SIGNS[sign]
    yield from (f"{len(str(value))}digit" for value in sorted({first, second}, reverse=True))
    ones = (first % 10, second % 10)
    if (sign == "+" and sum(ones) > 9) or (sign == "−" and ones[0] < ones[1]):
        yield "trade"


def _sized(words: list[str]) -> Iterator[str]:
    """Numbers by what they say here: after *to*-words a range, after an operation the number itself."""
    for place, word in enumerate(words):
        before = words[place - 1] if place else ""
        if word.isdecimal():
            value = int(word)
            if value > 20 and value not in _ROUND:
                yield f"{len(word)}digit"
                yield from ("zero",) * ("0" in word.rstrip("0"))
            elif value > 12 or before in {"fact", "compare", "order", "round", "count"}:
                yield next((name for most, name in _BUCKETS if value <= most), "r100000")
            if value <= 12:
                yield f"n{value}"
                if before in {"multiply", "divide", "skipcount"} or (words[place + 1 : place + 2] == ["multiply"]):
                    yield f"by{value}"
        elif word in _NUMBERS:
            value = _NUMBERS.index(word)
            yield f"n{value}"
            if before in {"multiply", "divide", "skipcount"}:
                yield f"by{value}"
        else:
            yield word


def _stem(word: str) -> str:
    """The word without a plain ending of English: *fractions* and *fraction*, *rounding* and *round*."""
    if word in _STAYS or len(word) < 5 or word[-1].isdecimal():
        return word
    for ending, instead in (("ies", "y"), ("ing", ""), ("ed", ""), ("es", "e"), ("s", "")):
        if word.endswith(ending) and len(word) - len(ending) > 2 and not word.endswith("ss"):
            return word[: -len(ending)] + instead
    return word
