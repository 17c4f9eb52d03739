"""An item said in a language: its line, its sentences, its steps, its options.

`instruction_for`, `instruction_for_many` and `languages_of` are offered here too, so that a page needs one import.
"""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING, Final

from dayleaf.items.model import Column, Gap, Match, Question, Row, Sort, Story
from dayleaf.wording.instructions import instruction_for, instruction_for_many
from dayleaf.wording.languages import check_language, languages_of
from dayleaf.wording.nouns import noun
from dayleaf.wording.numbers import number_name
from dayleaf.wording.stories import story_lines
from dayleaf.wording.tables import NoWords, entry, has, phrase
from dayleaf.wording.template import MINUS, fill

if TYPE_CHECKING:
    from collections.abc import Sequence

    from dayleaf.items.model import Figure, Item, Part, Token

__all__ = [
    "instruction_for",
    "instruction_for_many",
    "languages_of",
    "lines_of",
    "option_words",
    "steps_of",
    "text_of",
    "word_of",
]

GAP: Final = "□"
COMPARE_GAP: Final = "○"
_PRINTED: Final = {"-": MINUS}
_LETTERS: Final = "ABCDEFGHJK"
_NUMBERED: Final = tuple(f"({n})" for n in range(1, 10))
_AS_IT_IS = re.compile(r"[0-9A-Z<>=+×÷:,.$¢ /□−-]+")
_SUM = re.compile(r"(\d+)([-+×÷])(\d+)")
_SENTENCE = re.compile(r"(?<=[.?:]) (?=[A-Z¿])")


def word_of(code: str, lang: str, count: int | None = None) -> str:
    """A word of a row: one of it after 1, many otherwise.

    `number-name` is the name of the count itself, `order-name` that of its place: third, twenty-first. A code that
    begins with `thing-` or `daily-` names one of the things to measure, or what happens at its hour of the day.

    Raises:
        NoWords: the language has none.
    """
    if code == "number-name" and count is not None:
        return number_name(count, lang)
    if code == "order-name" and count is not None:
        return phrase("order", str(count), lang)
    section, _, name = code.partition("-")
    if section in ("thing", "daily") and has(section, name, lang):
        return phrase(section, name, lang)
    if has("word", code, lang) or has("noun", code, lang):
        said = entry("word", code, lang) if has("word", code, lang) else entry("noun", code, lang)
        if isinstance(said, str):
            return said
        return str(said["one" if count == 1 else "many"])
    raise NoWords(code=f"word.{code}", lang=lang)


def option_words(code: str, lang: str, item: Item | None = None) -> str:
    """One option in words; numerals, signs and squares stay as they are, a letter of a picture has no words.

    Raises:
        NotInThisLanguage: the item's skill has no words in this language.
        NoWords: the code has none.
    """
    if item is not None:
        check_language(item.skill, lang)
    return _option(code, lang)


@lru_cache(maxsize=4096)
def _option(code: str, lang: str) -> str:
    if has("option", code, lang):
        return phrase("option", code, lang)
    if len(code) == 1 and code.isalpha():
        return ""
    if _AS_IT_IS.fullmatch(code):
        return _SUM.sub(r"\1 \2 \3", code).replace("-", MINUS)
    if has("noun", code, lang):
        return noun(code, lang).one
    return word_of(code, lang)


def _token(token: Token, item: Item, lang: str) -> str:
    if isinstance(token, int):
        return str(token)
    if isinstance(token, str):
        return _PRINTED.get(token, token)
    if isinstance(token, Gap):
        compared = any(part.kind == "compare" for part in item.parts if part.id == token.part)
        return COMPARE_GAP if compared else GAP
    return word_of(token.code, lang, token.count)


def _row(row: Row, item: Item, lang: str) -> str:
    return " ".join([_token(token, item, lang) for token in row.tokens]).replace(" ,", ",")


def _digits(value: int, row: int, hidden: frozenset[tuple[int, int]]) -> str:
    """A number with a gap for each hidden digit; a hidden place before its first digit is a gap too."""
    places = len(str(value))
    places = max([places, *(place + 1 for at, place in hidden if at == row)])
    text = str(value).rjust(places)
    return "".join(GAP if (row, places - 1 - k) in hidden else sign for k, sign in enumerate(text)).strip()


def _column(column: Column, lang: str) -> str:
    sign = MINUS if column.sign == "-" else column.sign
    if column.hidden:
        hidden = frozenset(column.hidden)
        left = f" {sign} ".join(_digits(value, row, hidden) for row, value in enumerate(column.rows))
        return f"{left} = {GAP if column.shown is None else _digits(column.shown, len(column.rows), hidden)}"
    left = f" {sign} ".join(map(str, column.rows))
    equation = f"{left} = {GAP}"
    if column.shown is None:
        return equation
    return fill(phrase("sentence", "not-right", lang), {"equation": equation, "shown": column.shown}, lang)


def lines_of(item: Item, lang: str) -> tuple[str, ...]:
    """What the child reads, one sentence a line; a row or column is one line.

    Raises:
        NotInThisLanguage: the skill has no words in this language.
        NoWords: a code has none.
    """
    check_language(item.skill, lang)
    prompt = item.prompt
    if isinstance(prompt, Row):
        return (_row(prompt, item, lang),)
    if isinstance(prompt, Column):
        return (_column(prompt, lang),)
    if isinstance(prompt, Story):
        return story_lines(prompt, lang)
    if isinstance(prompt, Match):
        return _things(prompt.left, _LETTERS, item, lang), _things(prompt.right, _NUMBERED, item, lang)
    if isinstance(prompt, Sort):
        groups = "  ".join(option_words(group, lang, item) for group in prompt.groups)
        return _things(prompt.things, _LETTERS, item, lang), groups
    return tuple(_SENTENCE.split(_question(prompt, lang)))


def _things(things: Sequence[Row | Figure], marks: Sequence[str], item: Item, lang: str) -> str:
    said = (_row(one, item, lang) if isinstance(one, Row) else phrase("figure", one.kind, lang) for one in things)
    return "  ".join(f"{mark} {words}" for mark, words in zip(marks, said, strict=False))


def _question(question: Question, lang: str) -> str:
    return fill(phrase("question", question.code, lang), question.values, lang)


def _options(part: Part, lang: str, item: Item) -> str:
    said = []
    for letter, option in zip(_LETTERS, part.options, strict=False):
        words = "" if option.figure is not None else option_words(option.code, lang, item)
        said.append(f"{letter} {words}".strip())
    return "  ".join(said)


def text_of(item: Item, lang: str) -> str:
    """The whole item in one plain line, a box for each gap and the options after their letters.

    Things to match or to sort stand after their letters; partners after their numbers, groups last.

    Raises:
        NotInThisLanguage: the skill has no words in this language.
        NoWords: a code has none.
    """
    prompt = item.prompt
    if isinstance(prompt, Match | Sort):
        return "  ".join(lines_of(item, lang))
    if isinstance(prompt, Question):
        check_language(item.skill, lang)
        said = _question(prompt, lang)
    else:
        said = " ".join(lines_of(item, lang))
    options = "  ".join([_options(part, lang, item) for part in item.parts if part.options])
    return f"{said}  {options}" if options else said


@lru_cache(maxsize=16384)
def _step(code: str, values: tuple[tuple[str, int | str], ...], lang: str) -> str:
    """One step; remembered, because most steps speak of single digits and come again and again."""
    told = dict(values)
    if "asked" in told:  # the number that is asked for is not told by its own step
        told[str(told["asked"])] = phrase("sentence", "draw-answer", lang)
    return fill(phrase("step", code, lang), told, lang)


def steps_of(item: Item, lang: str) -> tuple[str, ...]:
    """The steps of the key, one sentence or two each.

    Raises:
        NotInThisLanguage: the skill has no words in this language.
        NoWords: a step has none.
    """
    check_language(item.skill, lang)
    return tuple(_step(step.code, tuple(step.values.items()), lang) for step in item.steps)
