"""Hundreds and thousands: models, digits and their worth, expanded form, names, number words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.items.choices import ring_one
from dayleaf.items.model import Figure, Gap, Question, Row, Word
from dayleaf.items.rule import Made, SkillRule
from dayleaf.items.steps import step
from dayleaf.items.two_numbers import GAP, number_part
from dayleaf.items.ways.large_numbers import (
    as_heard,
    digit_sum,
    digits,
    hundred_half_written,
    one_place_off,
    parts,
    zero_dropped,
)

if TYPE_CHECKING:
    from dayleaf.items.model import Part, Step, Token
    from dayleaf.items.rule import Maker, Numbers

COUNT, CHART, CHOOSE, WORDS = FormatId("count-pic"), FormatId("pvchart"), FormatId("choose"), FormatId("words")
EXPANDED, MISSING = FormatId("expanded"), FormatId("missing")

ZERO_DROPPED = ErrorWayId("zero-dropped")
FACE_VALUE = ErrorWayId("face-value")
PLACE_OFF = ErrorWayId("place-off-by-one")
DIGITS_ADDED = ErrorWayId("digits-added")

_PIECES = ("th", "h", "t", "o")


def _hard(n: int) -> float:
    """Zeros and long numbers are harder (common practice, no source)."""
    return min(1.0, 0.1 + n / 20_000 + 0.25 * str(n).count("0") + 0.03 * max(digits(n)))


def _blocks(n: int) -> Figure:
    shown = dict(zip(_PIECES[-len(str(n)) :], digits(n), strict=True))
    return Figure("base-ten", {**shown, "question": 1})


def _read_places(n: int) -> tuple[Step, ...]:
    steps = tuple(step("digit-is-worth", part // 10**place, part) for part, place in _places(n) if part)
    return (*steps, step("together-are", n))


def _places(n: int) -> list[tuple[int, int]]:
    """Each digit's worth with its place, 0 for ones."""
    return list(zip(parts(n), range(len(str(n)) - 1, -1, -1), strict=True))


def short(width: int, ways: dict[str, int | None]) -> dict[ErrorWayId, str]:
    """The answers that are given and have room in so many boxes."""
    return {ErrorWayId(way): str(wrong) for way, wrong in ways.items() if wrong is not None and wrong < 10**width}


def _count_blocks(numbers: Numbers) -> Made:
    n = numbers["n"]
    errors = {
        "count-blocks-as-ones": digit_sum(n),
        "zero-dropped": zero_dropped(n),
        "write-as-heard": as_heard(n) if "0" in str(n) else None,
    }
    return Made(
        Question("how-many-in-all"),
        (number_part(n, len(str(n)) + 1),),
        _read_places(n),
        short(len(str(n)) + 1, errors),
        _blocks(n),
        _hard(n),
    )


def _digit_parts(n: int) -> tuple[Part, ...]:
    return tuple(number_part(digit, 1, str(place)) for place, digit in enumerate(digits(n), start=1))


def _write_places(numbers: Numbers) -> Made:
    """405 into the place chart; one who leaves the zero out is a place too far right."""
    n = numbers["n"]
    size = len(str(n))
    dropped = zero_dropped(n)
    errors = {} if dropped is None else {ZERO_DROPPED: " ".join(f"0{dropped}"[-size:])}
    return Made(
        Question("places-of", {"n": n}),
        _digit_parts(n),
        _read_places(n),
        errors,
        Figure("pv-mat", {"digits": (-1,) * size, "show": "empty"}),
        _hard(n),
    )


def _mixed_places(numbers: Numbers) -> Made:
    """5 ones, 3 hundreds, 2 tens: into the place chart, where the order told is not the order of the places."""
    n = numbers["n"]
    hundreds, tens, ones = digits(n)
    return Made(
        Question("places-told", {"ones": ones, "hundreds": hundreds, "tens": tens}),
        _digit_parts(n),
        _read_places(n),
        {ErrorWayId("order-of-picture"): f"{ones} {hundreds} {tens}"},
        Figure("pv-mat", {"digits": (-1, -1, -1), "show": "empty"}),
        _hard(n),
    )


def _asked_digit(n: int) -> tuple[int, int]:
    """A digit that is neither zero nor the ones, and what it is worth."""
    worth = [(part // 10**place, part) for part, place in _places(n) if part and place]
    return worth[n % len(worth)]


def _ring_value(numbers: Numbers) -> Made:
    """What is the 4 in 462 worth: 400, 4 or 40?"""
    n = numbers["n"]
    digit, value = _asked_digit(n)
    errors = {FACE_VALUE: str(digit), PLACE_OFF: str(one_place_off(value))}
    return Made(
        Question("value-of-digit", {"digit": digit, "n": n}),
        (ring_one(str(value), errors, turn=n),),
        (step("digit-is-worth", digit, value),),
        errors,
        None,
        _hard(n),
    )


def _write_value(numbers: Numbers) -> Made:
    """The 4 in 462 is worth [ ]."""
    n = numbers["n"]
    digit, value = _asked_digit(n)
    size = len(str(n))
    return Made(
        Question("digit-worth", {"digit": digit, "n": n}),
        (number_part(value, size),),
        (step("digit-is-worth", digit, value),),
        short(size, {"face-value": digit, "place-off-by-one": one_place_off(value)}),
        None,
        _hard(n),
    )


def _expand(numbers: Numbers) -> Made:
    """364 = [ ] + [ ] + [ ], largest first; with four digits the ones are given: 1523 = [ ] + [ ] + [ ] + 3."""
    n = numbers["n"]
    size = len(str(n))
    asked = parts(n)[:3]
    tokens: list[Token] = [n, "="]
    for place in range(3):
        tokens += [Gap(str(place + 1)), "+"]
    tokens = [*tokens, n % 10] if size == 4 else tokens[:-1]
    boxes = tuple(number_part(part, size - place, str(place + 1)) for place, part in enumerate(asked))
    way = DIGITS_ADDED if size == 3 else FACE_VALUE
    return Made(Row(tuple(tokens)), boxes, _read_places(n), {way: " ".join(str(n)[:3])}, None, _hard(n))


def _join(numbers: Numbers) -> Made:
    """40 + 700 + 2 = [ ]: the parts in an order that follows from the number; parts of zero are left out."""
    n = numbers["n"]
    told = [part for part in parts(n) if part]
    turn = n % len(told)
    told = told[turn:] + told[:turn]
    tokens: list[Token] = []
    for part in told:
        tokens += [part, "+"]
    width = len(str(n)) + 1
    errors = {
        "digits-added": digit_sum(n),
        "glued-parts": int("".join(str(part) for part in told)) if len(told) > 1 else None,
    }
    kept = short(width, errors)
    return Made(Row((*tokens[:-1], "=", GAP)), (number_part(n, width),), _read_places(n), kept, None, _hard(n))


def _named(word: str, worth: int) -> Maker:
    """13 tens = [ ], or 13 hundreds = [ ]."""

    def make(numbers: Numbers) -> Made:
        n = numbers["n"]
        way = "14-tens-as-14" if worth == 10 else "12-hundreds-as-12"
        return Made(
            Row((n, Word(word, n), "=", GAP)),
            (number_part(n * worth, 3 if worth == 10 else 4),),
            (step(f"ten-{word}-are", 10 * worth), step("together-are", n * worth)),
            {ErrorWayId(way): str(n)},
            None,
            min(1.0, 0.2 + (n - 10) / 20),
        )

    return make


def _how_many(word: str) -> Maker:
    """How many tens (or hundreds) is it in all, with a big square (or cube) that is ten of them?"""
    big, small = ("h", "t") if word == "tens" else ("th", "h")
    way = ErrorWayId("hundred-as-ten" if word == "tens" else "thousand-as-hundred")

    def make(numbers: Numbers) -> Made:
        n = numbers["n"]
        whole, rest = divmod(n, 10)
        return Made(
            Question(f"how-many-{word}"),
            (number_part(n, 2),),
            (step(f"ten-{word}-are", 100 if word == "tens" else 1000), step("together-are", n)),
            {way: str(whole + rest)},
            Figure("base-ten", {big: whole, small: rest, "question": 1}),
            min(1.0, 0.2 + (n - 10) / 20),
        )

    return make


def _other_names(numbers: Numbers) -> Made:
    """247 = [ ] tens 7 ones, or 2 hundreds fewer one: 247 = 1 hundred [ ] tens 7 ones."""
    n = numbers["n"]
    hundreds, tens, ones = digits(n)
    tail: tuple[Token, ...] = (GAP, Word("tens"), ones, Word("ones", ones))
    if hundreds == 1 or n % 2:
        left, answer = 0, n // 10
        row: tuple[Token, ...] = (n, "=", *tail)
    else:
        left, answer = hundreds - 1, 10 + tens
        row = (n, "=", left, Word("hundreds", left), *tail)
    return Made(
        Row(row),
        (number_part(answer, 2),),
        (step("hundreds-as-tens", hundreds - left, 10 * (hundreds - left)), step("tens-with", tens, answer)),
        {
            ErrorWayId("tens-digit-for-tens"): str(tens),
            ErrorWayId("hundred-traded-for-one"): str(tens + hundreds - left),
        },
        None,
        min(1.0, 0.2 + 0.08 * (hundreds - left) + 0.2 * (tens == 0)),
    )


def _from_words(width: int) -> Maker:
    """A number's name; the numeral is wanted, in boxes enough for what is heard."""

    def make(numbers: Numbers) -> Made:
        n = numbers["n"]
        errors = {
            "write-as-heard": as_heard(n),
            "zero-dropped": zero_dropped(n),
            "hundred-half-written": hundred_half_written(n),
        }
        return Made(
            Row((Word("number-name", n), "=", GAP)),
            (number_part(n, width),),
            _read_places(n),
            short(width, errors),
            None,
            _hard(n),
        )

    return make


def _ring_named(numbers: Numbers) -> Made:
    """Which is four hundred five: 405, 45 or 4005?"""
    n = numbers["n"]
    errors = short(5, {"zero-dropped": zero_dropped(n), "write-as-heard": as_heard(n) if n % 100 else None})
    return Made(
        Question("which-is-named", {"n": n}),
        (ring_one(str(n), errors, turn=n // 10),),
        _read_places(n),
        errors,
        None,
        _hard(n),
    )


RULES: tuple[SkillRule, ...] = (
    SkillRule(SkillId("pv-10-tens-is-100"), formats={MISSING: _named("tens", 10), COUNT: _how_many("tens")}),
    SkillRule(
        SkillId("pv-10-hundreds-is-1000"), formats={MISSING: _named("hundreds", 100), COUNT: _how_many("hundreds")}
    ),
    SkillRule(SkillId("pv-3digit-model"), formats={COUNT: _count_blocks, CHART: _mixed_places}),
    SkillRule(
        SkillId("pv-3digit-digit-value"), formats={CHOOSE: _ring_value, CHART: _write_places, MISSING: _write_value}
    ),
    SkillRule(SkillId("pv-3digit-expanded"), formats={EXPANDED: _expand, MISSING: _join}),
    SkillRule(SkillId("pv-3digit-regroup-names"), formats={MISSING: _other_names}),
    SkillRule(
        SkillId("pv-3digit-zero-placeholder"),
        formats={CHART: _write_places, WORDS: _from_words(5), COUNT: _count_blocks, CHOOSE: _ring_named},
    ),
    SkillRule(
        SkillId("number-words-to-1000"),
        formats={WORDS: _from_words(5)},
    ),
    SkillRule(SkillId("pv-5digit"), formats={WORDS: _from_words(6), EXPANDED: _join}),
    SkillRule(
        SkillId("pv-4digit-model"),
        formats={COUNT: _count_blocks, CHART: _write_places, WORDS: _from_words(5)},
        fits={COUNT: lambda numbers: numbers["n"] < 4000},  # a picture has room for three thousand cubes
    ),
    SkillRule(
        SkillId("pv-4digit-value-expanded"),
        formats={EXPANDED: _expand, CHOOSE: _ring_value, MISSING: _join},
    ),
)
