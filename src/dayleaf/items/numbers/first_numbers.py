"""The first numbers: counting things, numerals to 20, adding and taking away within 5."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.items.model import Figure, Question, Row, Word
from dayleaf.items.rule import Made, SkillRule
from dayleaf.items.steps import step
from dayleaf.items.two_numbers import GAP, number_part
from dayleaf.items.ways.place_value import digits_swapped

if TYPE_CHECKING:
    from dayleaf.items.rule import Numbers

COUNT, WORDS, HORIZ = FormatId("count-pic"), FormatId("words"), FormatId("horiz")

MISCOUNT = ErrorWayId("skip-or-double-count")
TEEN_SWAPPED = ErrorWayId("teen-digits-swapped")
SIGN_IGNORED = ErrorWayId("sign-ignored")


def _teen_slip(n: int) -> dict[ErrorWayId, str]:
    """Sixteen is written with the six first: 61."""
    swapped = digits_swapped(n) if 13 <= n <= 19 else None
    return {} if swapped is None else {TEEN_SWAPPED: str(swapped)}


def _from_words(numbers: Numbers) -> Made:
    n = numbers["n"]
    return Made(
        Row((Word("number-name", n), "=", GAP)),
        (number_part(n, 2),),
        (step("numeral-is", n),),
        _teen_slip(n),
        None,
        min(1.0, n / 40 + 0.4 * (n > 12)),
    )


def _frame(numbers: Numbers) -> Made:
    """Counters in ten-frames: how many?"""
    n = numbers["n"]
    return Made(
        Question("how-many-in-all"),
        (number_part(n, 2),),
        (step("numeral-is", n),),
        _teen_slip(n),
        Figure("ten-frame", {"a": n, "question": 1}),
        n / 20,
    )


def _things(numbers: Numbers) -> Made:
    """Counters in a line, a ring or, up to ten, scattered: how many? One is missed, or counted twice."""
    n = numbers["n"]
    layouts = ("line", "ring", "scatter") if n <= 10 else ("line", "ring")
    layout = layouts[n % len(layouts)] if n > 2 else "line"
    return Made(
        Question("how-many-in-all"),
        (number_part(n, 2),),
        (step("numeral-is", n),),
        {MISCOUNT: str(n + 1 if n % 2 else n - 1)},
        Figure("counters", {"n": n, "layout": layout, "seed": n, "question": 1}),
        n / 20,
    )


def _sum(numbers: Numbers, *, picture: bool) -> Made:
    """3 + 2 = [ ] or 4 - 1 = [ ], with counters put together or crossed out."""
    a, b = numbers["a"], numbers["b"]
    minus = numbers["k"] == 1
    other = a + b if minus else a - b
    counters = {"a": a, "crossed": b} if minus else {"a": a, "b": b}
    right = a - b if minus else a + b
    return Made(
        Row((a, "-" if minus else "+", b, "=", GAP)),
        (number_part(right, 2),),
        (step("count-back", a, b, right) if minus else step("count-on", a, b, right),),
        {SIGN_IGNORED: str(other)} if other >= 0 else {},
        Figure("ten-frame", {**counters, "frames": 1}) if picture else None,
        min(1.0, 0.1 * max(a, b) + 0.2 * minus),
    )


RULES: tuple[SkillRule, ...] = (
    SkillRule(SkillId("count-objects-20"), formats={COUNT: _things}),
    SkillRule(SkillId("numerals-0-20"), formats={WORDS: _from_words, COUNT: _frame}),
    SkillRule(
        SkillId("add-sub-within-5"),
        formats={
            HORIZ: lambda numbers: _sum(numbers, picture=False),
            COUNT: lambda numbers: _sum(numbers, picture=True),
        },
        half=lambda numbers: numbers["k"] == 1,
    ),
)
