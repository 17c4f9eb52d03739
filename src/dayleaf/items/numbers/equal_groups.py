"""Equal groups before and with the sign ×: groups, repeated addition, arrays, sentences, turning."""

from __future__ import annotations

from itertools import accumulate
from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.core.seeds import seed_from
from dayleaf.items.choices import ring_fixed
from dayleaf.items.groups import GroupFact, fact_row, ways_of_fact
from dayleaf.items.model import Figure, Gap, Option, Part, Question, Row, Word
from dayleaf.items.rule import Made, SkillRule
from dayleaf.items.steps import step
from dayleaf.items.two_numbers import GAP, line_of_hops, number_part
from dayleaf.items.ways import groups as ways

if TYPE_CHECKING:
    from dayleaf.items.model import Step, Token
    from dayleaf.items.rule import Numbers

HORIZ, MISSING, ARRAY, DRAW = FormatId("horiz"), FormatId("missing"), FormatId("array"), FormatId("draw")
COUNT, CHOOSE, JUMP, TRUE_OR_NOT = FormatId("count-pic"), FormatId("choose"), FormatId("nl-jump"), FormatId("tf")

PLUS_SIZE = ErrorWayId("groups-plus-size")
UNEQUAL = ErrorWayId("unequal-groups-accepted")
ADDEND_SHORT = ErrorWayId("one-addend-short")
GROUP_COUNT = ErrorWayId("adds-group-count")
MIXED = ErrorWayId("row-column-mixed")
EDGE = ErrorWayId("counts-edge-twice")
ADDS = ErrorWayId("adds-for-times")


def _groups(numbers: Numbers) -> tuple[int, int]:
    return numbers["a"], numbers["b"]


def _hard(a: int, b: int) -> float:
    """More things are more to count; fives and tens are surer (common practice, no source)."""
    return min(1.0, a * b / 50 + 0.05 * a - 0.2 * (b in {1, 2, 5, 10}) + 0.2)


def _steps(a: int, b: int) -> tuple[Step, ...]:
    return step("groups-of-same", a, b), step("count-by", b, a, a * b)


# groups


def _in_all(numbers: Numbers) -> Made:
    a, b = _groups(numbers)
    return Made(
        Question("groups-in-all"),
        (number_part(a * b, 2),),
        _steps(a, b),
        {PLUS_SIZE: str(ways.added(a, b))},
        Figure("set-objects", {"groups": a, "size": b, "question": 1}),
        _hard(a, b),
    )


def _draw_groups(numbers: Numbers) -> Made:
    a, b = _groups(numbers)
    return Made(
        Question("draw-groups", {"groups": a, "size": b}),
        (number_part(a * b, 2),),
        _steps(a, b),
        {PLUS_SIZE: str(ways.added(a, b))},
        None,
        _hard(a, b),
    )


def _which_groups(numbers: Numbers) -> Made:
    """The groups asked for beside as many groups with as many things in all, some moved from ring to ring."""
    a, b = _groups(numbers)
    moved = seed_from("moved", a, b) % a
    other, few = (moved + 1) % a, max(1, b // 3)
    sizes = tuple(b + few * ((group == moved) - (group == other)) for group in range(a))
    equal = Figure("set-objects", {"groups": a, "size": b, "question": 1})
    unequal = Figure("set-objects", {"groups": a, "size": b, "sizes": sizes, "question": 1})
    first = seed_from("which", a, b) % 2 == 0
    right, wrong = ("A", "B") if first else ("B", "A")
    options = (Option(right, None, equal), Option(wrong, UNEQUAL, unequal))
    return Made(
        Question("which-groups", {"groups": a, "size": b}),
        (Part("1", "choice", right, options=options if first else options[::-1]),),
        (step("groups-of-same", a, b),),
        {UNEQUAL: wrong},
        None,
        _hard(a, b),
    )


# repeated addition


def _addends(a: int, b: int) -> list[Token]:
    tokens: list[Token] = [b]
    for _ in range(a - 1):
        tokens += ["+", b]
    return tokens


def _added(numbers: Numbers) -> Made:
    """3 + 3 + 3 + 3 = [ ]."""
    a, b = _groups(numbers)
    return Made(
        Row((*_addends(a, b), "=", GAP)),
        (number_part(a * b, 2),),
        _steps(a, b),
        {ADDEND_SHORT: str(ways.one_addend_short(a, b)), GROUP_COUNT: str(ways.added(a, b))},
        None,
        _hard(a, b),
    )


def _addend_missing(numbers: Numbers) -> Made:
    """3 + 3 + 3 + [ ] = 12, all the same."""
    a, b = _groups(numbers)
    return Made(Row((*_addends(a, b)[:-1], GAP, "=", a * b)), (number_part(b, 2),), _steps(a, b), {}, None, _hard(a, b))


def _jumped(numbers: Numbers) -> Made:
    made = _added(numbers)
    a, b = _groups(numbers)
    stops = (0, *accumulate([b] * a))
    figure = line_of_hops(stops, tuple(f"+{b}" for _ in range(a)))
    return Made(made.prompt, made.parts, made.steps, made.errors, figure, made.difficulty)


# arrays


def _dots(a: int, b: int) -> Figure:
    return Figure("array-dots", {"r": a, "c": b, "question": 1})


def rows_of(a: int, b: int, figure: Figure) -> Made:
    """[ ] rows of [ ] = [ ] beside an array of a rows and b columns."""
    return Made(
        Row((GAP, Word("rows-of"), Gap("2"), "=", Gap("3"))),
        (number_part(a, 1), number_part(b, 1, "2"), number_part(a * b, 2, "3")),
        (step("rows-make", a, b, a * b),),
        {},
        figure,
        _hard(a, b),
    )


def _array(numbers: Numbers) -> Made:
    a, b = _groups(numbers)
    made = rows_of(a, b, _dots(a, b))
    errors = {MIXED: f"{b} {a} {a * b}", EDGE: f"{a} {b} {ways.added(a, b)}"}
    return Made(made.prompt, made.parts, made.steps, errors, made.figure, made.difficulty)


def _draw_array(numbers: Numbers) -> Made:
    """The total of the turned array is right, too: mixing rows and columns shows in the drawing only."""
    a, b = _groups(numbers)
    return Made(
        Question("draw-array", {"rows": a, "columns": b}),
        (number_part(a * b, 2),),
        (step("rows-make", a, b, a * b),),
        {MIXED: str(a * b), EDGE: str(ways.added(a, b))},
        None,
        _hard(a, b),
    )


def _array_added(numbers: Numbers) -> Made:
    """4 + 4 + 4 = [ ] beside three rows of four."""
    a, b = _groups(numbers)
    return Made(
        Row((*_addends(a, b), "=", GAP)),
        (number_part(a * b, 2),),
        (step("rows-make", a, b, a * b),),
        {MIXED: str(a * b), EDGE: str(ways.added(a, b))},
        _dots(a, b),
        _hard(a, b),
    )


# sentences


SENTENCE = GroupFact(
    "×",
    _groups,
    {ADDS: ways.added},
    lambda a, b: (*_steps(a, b), step("times-is", a, b, a * b)),
    _hard,
    2,
)


def _array_sentence(numbers: Numbers) -> Made:
    """[ ] × [ ] = [ ] beside three rows of four; the instruction asks for the rows first."""
    a, b = _groups(numbers)
    return Made(
        Row((GAP, "×", Gap("2"), "=", Gap("3"))),
        (number_part(a, 1), number_part(b, 2, "2"), number_part(a * b, 2, "3")),
        (step("rows-make", a, b, a * b), step("times-is", a, b, a * b)),
        {ADDS: f"{a} {b} {ways.added(a, b)}"},
        _dots(a, b),
        _hard(a, b),
    )


# turning


def _turned_missing(numbers: Numbers) -> Made:
    """3 × 5 = 5 × [ ] or 3 × 5 = [ ] × 3."""
    a, b = _groups(numbers)
    first = (a + b) % 2 == 0
    right: tuple[Token, ...] = (GAP, "×", a) if first else (b, "×", GAP)
    return Made(
        Row((a, "×", b, "=", *right)),
        (number_part(b if first else a, 2),),
        (step("turn-the-array", a * b),),
        {},
        None,
        _hard(a, b),
    )


def _turned_array(numbers: Numbers) -> Made:
    """3 × 5 = 15, 5 × 3 = [ ] beside three rows of five."""
    a, b = _groups(numbers)
    return Made(
        Row((a, "×", b, "=", a * b, ",", b, "×", a, "=", GAP)),
        (number_part(a * b, 2),),
        (step("turn-the-array", a * b),),
        {},
        _dots(a, b),
        _hard(a, b),
    )


def _turned_true(numbers: Numbers) -> Made:
    """3 × 5 = 5 × 3, or with one row more on the right: true or not?"""
    a, b = _groups(numbers)
    more = seed_from("turned", a, b) % 2
    errors = {ErrorWayId("turn-changes-total"): "not-true"}
    return Made(
        Row((a, "×", b, "=", b + more, "×", a)),
        (ring_fixed("not-true" if more else "true", ("true", "not-true"), errors),),
        (step("turn-the-array", a * b),),
        errors,
        None,
        _hard(a, b),
    )


RULES: tuple[SkillRule, ...] = (
    SkillRule(
        SkillId("mul-equal-groups"),
        formats={COUNT: _in_all, DRAW: _draw_groups, CHOOSE: _which_groups},
        fits={CHOOSE: lambda numbers: numbers["b"] > 1},
    ),
    SkillRule(SkillId("mul-repeated-addition"), formats={HORIZ: _added, MISSING: _addend_missing, JUMP: _jumped}),
    SkillRule(
        SkillId("mul-arrays"),
        formats={ARRAY: _array, DRAW: _draw_array, HORIZ: _array_added},
        fits={HORIZ: lambda numbers: numbers["a"] > 1},
    ),
    SkillRule(
        SkillId("mul-sentence"),
        formats={HORIZ: fact_row(SENTENCE), ARRAY: _array_sentence},
        ways=ways_of_fact(SENTENCE),
    ),
    SkillRule(
        SkillId("mul-turnaround"),
        formats={MISSING: _turned_missing, ARRAY: _turned_array, TRUE_OR_NOT: _turned_true},
    ),
)
