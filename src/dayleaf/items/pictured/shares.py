"""Shares of one whole: equal parts, names of parts, fractions written, compared, and found again in a set."""

from __future__ import annotations

from random import Random
from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.core.seeds import seed_from
from dayleaf.items.choices import ring_fixed, ring_one
from dayleaf.items.group_stories import group_story
from dayleaf.items.model import Figure, Gap, Option, Part, Question, Row, Step, Word
from dayleaf.items.rule import Made, SkillRule

if TYPE_CHECKING:
    from dayleaf.items.model import Token
    from dayleaf.items.rule import Fits, Numbers

SHADE, CHOOSE, DRAW, NAME = FormatId("shade"), FormatId("choose"), FormatId("draw"), FormatId("frac-name")
MISSING, COMPARE, ORDER, WORD1 = FormatId("missing"), FormatId("cmp"), FormatId("order"), FormatId("word1")

SHAPES = ("circle", "rectangle", "strip")
BIGGER = ErrorWayId("more-shares-bigger")
PART_TO_PART = ErrorWayId("part-to-part")
SAME_SHAPE = ErrorWayId("same-shape-needed")


def _shape(numbers: Numbers, *, n: int, k: int, equal: int = 1) -> Figure:
    """The shape that s names, in n parts, k of them hatched; which ones follows from the numbers."""
    shape = SHAPES[numbers.get("s", 0)]
    seed = seed_from("hatched", shape, n, k) % 1000 + 1
    return Figure("fraction-shapes", {"shape": shape, "n": n, "k": k, "equal": equal, "seed": seed, "question": 1})


def _digits(*answers: int, width: int = 1) -> tuple[Part, ...]:
    return tuple(Part(str(i), "digits", str(answer), width) for i, answer in enumerate(answers, start=1))


def _hatched(numbers: Numbers) -> Made:
    """How many parts are hatched, and how many equal parts are there in all?"""
    n = numbers["n"]
    k = numbers.get("k", 1)
    return Made(
        Question("hatched-and-all"),
        _digits(k, n),
        (Step("parts-hatched", {"k": k, "n": n}),),
        {},
        _shape(numbers, n=n, k=k),
        0.1 * n + 0.1 * k,
    )


def _whole_hatched(numbers: Numbers) -> Made:
    n = numbers["n"]
    return _hatched({"n": n, "k": n})


def _which_shares(numbers: Numbers) -> Made:
    """Two pictures with the right number of parts, of one of which the parts are equal."""
    n = numbers["n"]
    unequal = ErrorWayId("unequal-is-half")
    first = seed_from("which-shares", n, numbers["s"]) % 2 == 0
    right, wrong = ("a", "b") if first else ("b", "a")
    options = (
        Option(right, None, _shape(numbers, n=n, k=0)),
        Option(wrong, unequal, _shape(numbers, n=n, k=0, equal=0)),
    )
    return Made(
        Question("which-shares", {"n": n, "shape": SHAPES[numbers["s"]]}),
        (Part("1", "choice", right, options=options if first else options[::-1]),),
        (Step("equal-parts", {"n": n}),),
        {unequal: wrong},
        None,
        0.1 * n,
    )


def _cut(numbers: Numbers) -> Made:
    """Lines to draw on a shape without a cut: judged by eye."""
    n = numbers["n"]
    return Made(
        Question("cut-into", {"n": n}),
        (Part("1", "look", ""),),
        (Step("equal-parts", {"n": n}),),
        {},
        _shape(numbers, n=1, k=0),
        0.1 * n + 0.3 * (n == 3),
    )


def _cuts(numbers: Numbers) -> Made:
    """How many cuts a strip needs; on the other shapes the cuts are drawn."""
    n = numbers["n"]
    if SHAPES[numbers["s"]] != "strip":
        return _cut(numbers)
    return Made(
        Question("cuts-for", {"n": n}),
        _digits(n - 1),
        (Step("cuts-and-parts", {"cuts": n - 1, "n": n}),),
        {ErrorWayId("cut-count-for-parts"): str(n)},
        _shape(numbers, n=1, k=0),
        0.2 * n,
    )


def _equal_or_not(numbers: Numbers) -> Made:
    n, equal = numbers["n"], numbers["e"]
    errors = {ErrorWayId("unequal-is-fair"): "yes"}
    return Made(
        Question("parts-equal"),
        (ring_fixed("yes" if equal else "no", ("yes", "no"), errors),),
        (Step("lay-one-on-other"),),
        errors,
        _shape(numbers, n=n, k=0, equal=equal),
        0.2 + 0.1 * n,
    )


# written as a fraction


def _name(numbers: Numbers) -> Made:
    """[ ] / [ ] beside a shape with some parts hatched."""
    n = numbers["n"]
    k = numbers.get("k", 1)
    errors = {PART_TO_PART: f"{k} {n - k}"}
    if k == 1:
        errors[ErrorWayId("upside-down")] = f"{n} {k}"
    return Made(
        Row((Gap("1"), "/", Gap("2"))),
        _digits(k, n),
        (Step("parts-hatched", {"k": k, "n": n}), Step("top-and-bottom", {"k": k, "n": n})),
        errors,
        _shape(numbers, n=n, k=k),
        0.1 * n + 0.1 * k,
    )


def _choose_name(numbers: Numbers) -> Made:
    n = numbers["n"]
    errors = {PART_TO_PART: f"1/{n - 1}", ErrorWayId("upside-down"): f"{n}/1"}
    return Made(
        Question("which-fraction"),
        (ring_one(f"1/{n}", errors, turn=seed_from("fraction", n, numbers["s"])),),
        (Step("top-and-bottom", {"k": 1, "n": n}),),
        errors,
        _shape(numbers, n=n, k=1),
        0.1 * n,
    )


def _make_whole(numbers: Numbers) -> Made:
    n = numbers["n"]
    return Made(
        Question("parts-make-whole", {"n": n}),
        _digits(n),
        (Step("whole-is", {"n": n}),),
        {ErrorWayId("whole-is-one-part"): "1"},
        _shape(numbers, n=n, k=0),
        0.1 * n,
    )


# compared


def _compared(numbers: Numbers) -> Made:
    """1 / 3 ( ) 1 / 4 of the same whole."""
    a, b = numbers["a"], numbers["b"]
    right, wrong = (">", "<") if a < b else ("<", ">")
    return Made(
        Row((1, "/", a, Gap("1"), 1, "/", b)),
        (Part("1", "compare", right),),
        (Step("more-parts-smaller", {"few": min(a, b), "many": max(a, b)}),),
        {BIGGER: wrong},
        None,
        0.2 + 0.1 * (a + b),
    )


def _larger(numbers: Numbers) -> Made:
    a, b = numbers["a"], numbers["b"]
    errors = {BIGGER: f"1/{max(a, b)}"}
    options = tuple(Option(f"1/{n}", BIGGER if n > min(a, b) else None) for n in (a, b))
    return Made(
        Question("larger-share", {"a": f"1/{a}", "b": f"1/{b}"}),
        (Part("1", "choice", f"1/{min(a, b)}", options=options),),
        (Step("more-parts-smaller", {"few": min(a, b), "many": max(a, b)}),),
        errors,
        None,
        0.2 + 0.1 * (a + b),
    )


def _ordered(numbers: Numbers) -> Made:
    """1 for the smallest of 1/2, 1/3, 1/4, and so on; the third one follows from the two of the rule."""
    a, b = numbers["a"], numbers["b"]
    shares = (a, b, 9 - a - b)
    tokens: list[Token] = []
    for i, n in enumerate(shares, start=1):
        tokens += [Gap(str(i)), Word(f"one-of-{n}")]
    return Made(
        Row(tuple(tokens)),
        _digits(*(5 - n for n in shares)),
        (Step("more-parts-smaller", {"few": 2, "many": 4}),),
        {BIGGER: " ".join(str(n - 1) for n in shares)},
        None,
        0.7,
    )


# the same share in another shape

SHEETS = ((2, 4), (4, 4), (2, 6), (4, 3), (4, 5), (4, 6))
"""Rows and columns of sheets of squares that can be halved and cut in fourths."""


def _some_squares(rows: int, columns: int, count: int, seed: int) -> tuple[int, ...]:
    """So many squares that hang together, grown at random from one corner."""
    rng = Random(seed)
    chosen = [(0, 0)]
    while len(chosen) < count:
        beside = {(y + dy, x + dx) for y, x in chosen for dy, dx in ((0, 1), (1, 0), (0, -1), (-1, 0))}
        free = sorted((y, x) for y, x in beside if 0 <= y < rows and 0 <= x < columns and (y, x) not in chosen)
        chosen.append(rng.choice(free))
    return tuple(sorted(y * columns + x for y, x in chosen))


def _is_share(numbers: Numbers) -> Made:
    """A patch of squares is hatched: is it half (a fourth) of the sheet? With e = 0 it is one square too many."""
    n, p, equal = numbers["n"], numbers["p"], numbers["e"]
    rows, columns = SHEETS[p]
    share = rows * columns // n
    count = share if equal else share + 1
    cells = _some_squares(rows, columns, count, seed_from("patch", n, p, equal))
    errors = {SAME_SHAPE: "no"}
    return Made(
        Question("is-share", {"n": n}),
        (ring_fixed("yes" if equal else "no", ("yes", "no"), errors),),
        (Step("count-squares-of", {"k": count, "n": rows * columns}),),
        errors,
        Figure("area-grid", {"r": rows, "c": columns, "cells": cells, "question": 1}),
        0.2 + 0.02 * rows * columns,
    )


def _hatch_share(numbers: Numbers) -> Made:
    rows, columns = SHEETS[numbers["p"]]
    return Made(
        Question("hatch-share", {"n": numbers["n"]}),
        (Part("1", "look", ""),),
        (Step("share-has-squares", {"k": rows * columns // numbers["n"], "n": rows * columns}),),
        {},
        Figure("area-grid", {"r": rows, "c": columns, "question": 1}),
        0.2 + 0.02 * rows * columns,
    )


# equal fractions


def _as_much(numbers: Numbers) -> Made:
    """1 / 2 = [ ] / 4."""
    k, b, m = numbers["k"], numbers["b"], numbers["m"]
    return Made(
        Row((k, "/", b, "=", Gap("1"), "/", b * m)),
        _digits(k * m),
        (Step("each-part-cut", {"m": m, "k": k, "result": k * m}),),
        {ErrorWayId("adds-same"): str(k + b * m - b)},
        None,
        0.1 * b * m,
    )


def _as_much_hatched(numbers: Numbers) -> Made:
    k, b, m = numbers["k"], numbers["b"], numbers["m"]
    return Made(
        Question("parts-as-much", {"k": k, "b": b, "n": b * m}),
        _digits(k * m),
        (Step("each-part-cut", {"m": m, "k": k, "result": k * m}),),
        {ErrorWayId("adds-same"): str(k + b * m - b)},
        Figure("fraction-shapes", {"shape": "strip", "n": b * m, "k": 0, "question": 1}),
        0.1 * b * m,
    )


# a share of a set

_CELLS = {2: "share-half", 3: "share-third", 4: "share-fourth"}
_ANSWER_IS_BOTTOM = ErrorWayId("denominator-as-answer")


def _of_set_told(numbers: Numbers) -> Made:
    k, n = numbers["k"], numbers["n"]
    return Made(
        group_story(_CELLS[k], {"total": k * n}),
        _digits(n, width=2),
        (Step("write-divide", {"a": k * n, "b": k, "result": n}),),
        {_ANSWER_IS_BOTTOM: str(k)},
        None,
        0.1 * k + 0.02 * k * n,
    )


def _of_set_drawn(numbers: Numbers) -> Made:
    k, n = numbers["k"], numbers["n"]
    return Made(
        Question("ring-share", {"n": k}),
        _digits(n, width=2),
        (Step("equal-groups-one", {"groups": k, "each": n}),),
        {_ANSWER_IS_BOTTOM: str(k)},
        Figure("set-objects", {"groups": k, "size": n, "rings": 0, "question": 1}),
        0.1 * k + 0.02 * k * n,
    )


def _one_part(numbers: Numbers) -> bool:
    return numbers["k"] == 1


def _true_share(numbers: Numbers) -> bool:
    return numbers["e"] == 1


_FIRST: Fits = _one_part

RULES: tuple[SkillRule, ...] = (
    SkillRule(
        SkillId("share-halves-fourths"),
        formats={SHADE: _hatched, CHOOSE: _which_shares, DRAW: _cut},
        fits={CHOOSE: _FIRST, DRAW: _FIRST},
    ),
    SkillRule(SkillId("frac-equal-parts"), formats={CHOOSE: _equal_or_not, DRAW: _cut}, fits={DRAW: _true_share}),
    SkillRule(SkillId("frac-halves-thirds-fourths"), formats={SHADE: _hatched, DRAW: _cuts}, fits={DRAW: _FIRST}),
    SkillRule(
        SkillId("frac-same-share-different-shape"),
        formats={DRAW: _hatch_share, CHOOSE: _is_share},
        fits={DRAW: _true_share},
    ),
    SkillRule(SkillId("frac-unit-notation"), formats={NAME: _name, SHADE: _hatched, CHOOSE: _choose_name}),
    SkillRule(SkillId("frac-whole-as-parts"), formats={MISSING: _make_whole, SHADE: _whole_hatched}),
    SkillRule(SkillId("frac-nonunit"), formats={NAME: _name, SHADE: _hatched}),
    SkillRule(SkillId("frac-compare-unit"), formats={COMPARE: _compared, CHOOSE: _larger, ORDER: _ordered}),
    SkillRule(SkillId("frac-equivalent"), formats={SHADE: _as_much_hatched, MISSING: _as_much}),
    SkillRule(SkillId("frac-of-set"), formats={WORD1: _of_set_told, DRAW: _of_set_drawn}),
)
