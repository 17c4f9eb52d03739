"""Stories solved by × or ÷: equal groups and arrays, both readings of division, some left over, a share of a set."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.core.seeds import seed_from
from dayleaf.items.choices import ring_one
from dayleaf.items.group_stories import GROUP_EQUATIONS, group_solution, group_story
from dayleaf.items.model import Part, Step
from dayleaf.items.numbers import equal_groups, sharing, times_facts
from dayleaf.items.rule import Fits, Made, Maker, Numbers, SkillRule
from dayleaf.items.stories import UNKNOWN
from dayleaf.items.two_numbers import answers_of
from dayleaf.items.ways import groups as ways

if TYPE_CHECKING:
    from dayleaf.items.groups import GroupFact

Told = tuple[str, Mapping[str, int]]
"""A situation and the numbers it tells."""

WORD1, CHOOSE, DRAW = FormatId("word1"), FormatId("choose"), FormatId("draw")
ADDS = ErrorWayId("adds-the-two")
TIMES = ErrorWayId("times-for-divide")
_MOST_DRAWN = 30


def product_told(a: int, b: int) -> Told:
    """So many groups of b, or rows of b where a row of b can be seen at once."""
    if 2 <= a <= 5 and 2 <= b <= 5 and seed_from("array", a, b) % 2:
        return "array-product", {"rows": a, "columns": b}
    return "groups-product", {"groups": a, "size": b}


def quotient_told(whole: int, part: int) -> Told:
    """Sharing, measuring, or an array of which one side is told; the part is never 1."""
    cells = ("groups-size", "groups-number", "array-columns", "array-rows")
    small = whole // part <= 5 and part <= 5
    cell = cells[seed_from("division", whole, part) % (4 if small else 2)]
    names = {
        "groups-size": "groups",
        "groups-number": "size",
        "array-columns": "rows",
        "array-rows": "columns",
    }
    return cell, {"total": whole, names[cell]: part}


def sentence(cell: str, values: Mapping[str, int]) -> Step:
    """The times or divide sentence that solves a story."""
    a, b = values.values()
    answer = group_solution(cell, values)
    if GROUP_EQUATIONS[cell][2] == UNKNOWN:
        return Step("write-times", {"a": a, "b": b, "result": answer})
    return Step("write-divide", {"a": a, "b": b, "result": answer})


def told(kind: GroupFact) -> Maker:
    """The story of a row: its boxes, steps and ways to go astray are the row's."""

    def make(numbers: Numbers) -> Made:
        a, b = kind.read(numbers)
        cell, values = product_told(a, b) if kind.sign == "×" else quotient_told(a, b)
        return Made(
            group_story(cell, values),
            (Part("1", "digits", str(kind.result(a, b)), kind.width),),
            (sentence(cell, values), *kind.steps(a, b)),
            answers_of(kind.ways, a, b),
            None,
            kind.hard(a, b),
        )

    return make


def _nothing_or_one(numbers: Numbers) -> Made:
    """6 boxes with 0 or 1 in each."""
    few, groups = numbers["a"], numbers["b"]
    kind = times_facts.ZERO_ONE
    values = {"groups": groups, "size": few}
    return Made(
        group_story("groups-product", values),
        (Part("1", "digits", str(groups * few), kind.width),),
        (sentence("groups-product", values), *kind.steps(groups, few)),
        answers_of(kind.ways, groups, few),
        None,
        kind.hard(groups, few),
    )


# a story alone, without a row of its skill


def _story(tell: Callable[[Numbers], Told], *, width: int, go: Mapping[ErrorWayId, Callable[..., int]]) -> Maker:
    """A story; `go` are ways over the two numbers told."""

    def make(numbers: Numbers) -> Made:
        cell, values = tell(numbers)
        a, b = values.values()
        divides = GROUP_EQUATIONS[cell][2] != UNKNOWN
        mine = {way: wrong for way, wrong in go.items() if divides or way != TIMES}
        return Made(
            group_story(cell, values),
            (Part("1", "digits", str(group_solution(cell, values)), width),),
            (_meaning(cell, values), sentence(cell, values)),
            answers_of(mine, a, b),
            None,
            min(1.0, 0.2 + 0.2 * divides + max(a, b) / 200),
        )

    return make


def _meaning(cell: str, values: Mapping[str, int]) -> Step:
    """What the numbers of the story are: groups, shares, rows."""
    answer = group_solution(cell, values)
    a, b = values.values()
    if cell == "groups-product":
        return Step("groups-of-same", {"groups": a, "size": b})
    if cell == "groups-size":
        return Step("deal-out", {"total": a, "groups": b, "each": answer})
    if cell == "groups-number":
        return Step("make-groups", {"total": a, "size": b, "groups": answer})
    rows, columns = {"array-product": (a, b), "array-columns": (b, answer), "array-rows": (answer, b)}[cell]
    return Step("rows-make", {"rows": rows, "columns": columns, "total": rows * columns})


def _product(numbers: Numbers) -> Told:
    """Equal groups or rows, as k says; the factor that is 2, 5 or 10 is the number in each."""
    names = ("groups", "size") if numbers["k"] == 0 else ("rows", "columns")
    return f"{'groups' if numbers['k'] == 0 else 'array'}-product", {
        names[0]: numbers["b"],
        names[1]: numbers["a"],
    }


def _times_or_divide(numbers: Numbers) -> Told:
    """Sharing, measuring or the product, as k says."""
    a, b = numbers["a"], numbers["b"]
    return (
        ("groups-size", {"total": a * b, "groups": a}),
        ("groups-number", {"total": a * b, "size": a}),
        ("groups-product", {"groups": b, "size": a}),
    )[numbers["k"]]


def _which_sentence(numbers: Numbers) -> Made:
    """The story with sentences to ring: ×, ÷ or +."""
    cell, values = _times_or_divide(numbers)
    a, b = values.values()
    divides = GROUP_EQUATIONS[cell][2] != UNKNOWN
    errors = {ADDS: f"{a}+{b}"}
    if divides:
        errors[TIMES] = f"{a}×{b}"
    return Made(
        group_story(cell, values),
        (ring_one(f"{a}{'÷' if divides else '×'}{b}", errors, turn=seed_from("sentence", cell, a, b)),),
        (Step("total-known" if divides else "total-asked"), sentence(cell, values)),
        errors,
        None,
        0.3 + 0.3 * divides,
    )


def _one_sentence_fits(numbers: Numbers) -> bool:
    """2 + 2 is as right as 2 × 2, so such a story has no single sentence to ring."""
    return not (numbers["k"] == 2 and numbers["a"] == numbers["b"] == 2)


def _shared(numbers: Numbers) -> Told:
    whole, part = numbers["a"] * numbers["b"], numbers["a"]
    return "groups-size", {"total": whole, "groups": part}


def _grouped(numbers: Numbers) -> Told:
    whole, part = numbers["a"] * numbers["b"], numbers["a"]
    return "groups-number", {"total": whole, "size": part}


def _left_over(numbers: Numbers) -> Made:
    """13 shared by 4: how many for each where n + k is even, else how many left over."""
    n, k = numbers["n"], numbers["k"]
    each, left = divmod(n, k)
    asks_each = (n + k) % 2 == 0
    errors = {sharing.TOO_MANY: str(each - 1 if asks_each else left + k)}
    if not asks_each:
        errors[sharing.INTO_ONE] = "0"
    last = (
        Step("write-divide", {"a": n - left, "b": k, "result": each})
        if asks_each
        else Step("some-left", {"total": n, "used": n - left, "left": left})
    )
    return Made(
        group_story("left-each" if asks_each else "left-over", {"total": n, "groups": k}),
        (Part("1", "digits", str(each if asks_each else left), 2),),
        (Step("deal-out", {"total": n - left, "groups": k, "each": each}), last),
        errors,
        None,
        min(1.0, n / 30 + 0.1),
    )


def _told_below(tell: Callable[[Numbers], Told], most: int) -> Fits:
    """Whether the things of the story can be drawn one by one."""

    def fits(numbers: Numbers) -> bool:
        cell, values = tell(numbers)
        return max(*values.values(), group_solution(cell, values)) <= most

    return fits


def _two_or_more(numbers: Numbers) -> bool:
    return numbers["a"] > 1


_FACTS: Mapping[str, GroupFact] = {
    "mul-by-2": times_facts.BY_TWO,
    "mul-by-3": times_facts.BY_THREE,
    "mul-by-4": times_facts.BY_FOUR,
    "mul-by-5": times_facts.BY_FIVE,
    "mul-by-10": times_facts.BY_TEN,
    "mul-multiples-of-10": times_facts.TIMES_TENS,
    "div-by-2": sharing.BY_TWO,
    "div-by-5": sharing.BY_FIVE,
    "div-by-10": sharing.BY_TEN,
    "div-by-3-4": sharing.BY_THREE_FOUR,
}

RULES: tuple[SkillRule, ...] = (
    *(
        SkillRule(SkillId(skill), formats={WORD1: told(kind)}, fits={WORD1: _two_or_more})
        for skill, kind in _FACTS.items()
    ),
    SkillRule(
        SkillId("mul-sentence"),
        formats={WORD1: told(equal_groups.SENTENCE)},
        fits={WORD1: lambda numbers: numbers["a"] > 1 and numbers["b"] > 1},
    ),
    SkillRule(SkillId("mul-by-0-1"), formats={WORD1: _nothing_or_one}, fits={WORD1: lambda numbers: numbers["b"] > 1}),
    SkillRule(
        SkillId("div-sentence"),
        formats={WORD1: told(sharing.SENTENCE)},
        fits={WORD1: lambda numbers: numbers["b"] > 1},
    ),
    SkillRule(
        SkillId("mul-word"),
        formats={
            WORD1: _story(_product, width=3, go={ADDS: ways.added}),
            DRAW: _story(_product, width=3, go={ADDS: ways.added}),
        },
        fits={DRAW: _told_below(_product, _MOST_DRAWN)},
    ),
    SkillRule(
        SkillId("div-fair-share"),
        formats={WORD1: _story(_shared, width=2, go=sharing.SHARE_WAYS)},
        fits={WORD1: lambda numbers: numbers["b"] > 1},
    ),
    SkillRule(
        SkillId("div-grouping"),
        formats={WORD1: _story(_grouped, width=2, go=sharing.GROUPING_WAYS)},
        fits={WORD1: lambda numbers: numbers["b"] > 1},
    ),
    SkillRule(SkillId("div-leftovers"), formats={WORD1: _left_over}),
    SkillRule(
        SkillId("div-word"),
        formats={
            WORD1: _story(_times_or_divide, width=3, go={ADDS: ways.added, TIMES: ways.multiplied}),
            CHOOSE: _which_sentence,
            DRAW: _story(_times_or_divide, width=3, go={ADDS: ways.added, TIMES: ways.multiplied}),
        },
        fits={CHOOSE: _one_sentence_fits, DRAW: _told_below(_times_or_divide, _MOST_DRAWN)},
    ),
)
