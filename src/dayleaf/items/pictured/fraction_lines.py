"""Fractions between 0 and 1, or 0 and 2, on a line that shows the whole numbers only."""

from __future__ import annotations

from math import gcd
from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.core.seeds import seed_from
from dayleaf.items.model import Figure, Gap, Option, Part, Question, Row, Step
from dayleaf.items.rule import Made, SkillRule

if TYPE_CHECKING:
    from dayleaf.items.rule import Numbers

MARKS, WHOLE_LINE = ErrorWayId("marks-for-parts"), ErrorWayId("whole-line-as-unit")
_LENGTH, _APART = 146.0, 7.0
"""Millimetres of a number line between its ends, and what two lettered points need between them."""


def counted_marks(k: int, n: int) -> tuple[int, int]:
    """The marks from 0 to 1 counted as parts: four parts have five marks, so 3/4 is called 3/5."""
    return k, n + 1


def of_the_whole_line(k: int, n: int, *, ones: int) -> tuple[int, int]:
    """The whole line taken for 1: on a line to 2, the mark 3/4 is called 3/8."""
    return k, n * ones


def _name_mark(numbers: Numbers) -> Made:
    """An arrow at a mark; how it is called."""
    n, k, w = numbers["n"], numbers["k"], numbers["w"]
    wrong = {MARKS: counted_marks(k, n)}
    if w > 1:
        wrong[WHOLE_LINE] = of_the_whole_line(k, n, ones=w)
    return Made(
        Row((Gap("1"), "/", Gap("2"))),
        (Part("1", "digits", str(k), 2), Part("2", "digits", str(n), 2)),
        (Step("parts-of-one", {"n": n}), Step("marks-from-zero", {"k": k})),
        {way: f"{top} {bottom}" for way, (top, bottom) in wrong.items()},
        Figure(
            "number-line",
            {
                "lo": 0, "hi": n * w, "big": n, "parts": n, "labels": tuple(range(0, n * w + 1, n)),
                "arrow": k, "question": 1,
            },
        ),
        min(1.0, 0.1 * n + 0.2 * (w > 1)),
    )  # fmt: skip


def _places(numbers: Numbers) -> dict[int, ErrorWayId | None]:
    """Where the fraction is, and where the ways look for it, in n(n + 1)-ths of one; none too near another."""
    n, k, w = numbers["n"], numbers["k"], numbers["w"]
    one = n * (n + 1)
    found: dict[int, ErrorWayId | None] = {k * (n + 1): None}
    wrong = {MARKS: k * n}
    if w > 1:
        wrong[WHOLE_LINE] = w * k * (n + 1)
    for way, at in wrong.items():
        if at <= w * one and all(abs(at - other) * _LENGTH / (w * one) >= _APART for other in found):
            found[at] = way
    return found


def _ring_point(numbers: Numbers) -> Made:
    n, k, w = numbers["n"], numbers["k"], numbers["w"]
    one = n * (n + 1)
    found = _places(numbers)
    order = sorted(found, key=lambda at: seed_from("point", n, k, w, at))
    letter = {at: "ABC"[i] for i, at in enumerate(order)}
    right = letter[k * (n + 1)]
    return Made(
        Question("point-at-fraction", {"k": k, "n": n}),
        (Part("1", "choice", right, options=tuple(Option(letter[at], found[at]) for at in order)),),
        (Step("parts-of-one", {"n": n}), Step("marks-from-zero", {"k": k})),
        {way: letter[at] for at, way in found.items() if way is not None},
        Figure(
            "number-line",
            {
                "lo": 0, "hi": w * one, "step": one, "big": one, "parts": one,
                "labels": tuple(range(0, w * one + 1, one)), "points": tuple(order), "question": 1,
            },
        ),
        min(1.0, 0.1 * n + 0.2 * (w > 1)),
    )  # fmt: skip


def has_one_name(numbers: Numbers) -> bool:
    """A mark at a half may be called 1/2 or 4/8: only fractions in their smallest numbers are asked for by name."""
    return gcd(numbers["k"], numbers["n"]) == 1


def points_apart(numbers: Numbers) -> bool:
    """There is another place to choose, far enough away."""
    return len(_places(numbers)) > 1


RULES: tuple[SkillRule, ...] = (
    SkillRule(
        SkillId("frac-numberline"),
        formats={FormatId("nl-mark"): _name_mark, FormatId("choose"): _ring_point},
        fits={FormatId("nl-mark"): has_one_name, FormatId("choose"): points_apart},
    ),
)
