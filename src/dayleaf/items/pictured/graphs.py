"""Tallies, tables, picture graphs and bar graphs: read one group, or compare two."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.core.seeds import seed_from
from dayleaf.items.model import Figure, Gap, Part, Question, Row, Step, Word
from dayleaf.items.rule import Made, Maker, Numbers, SkillRule

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from dayleaf.items.model import Token

_HARVEST = ("carrot", "bean", "radish", "pumpkin", "apple", "egg")
_FOUND = ("shell", "stone", "stick", "button", "seed", "feather")
_ICONS = ("dot", "square", "triangle", "ring")

GRAPH_READ, COUNT_PIC, TABLE = FormatId("graph-read"), FormatId("count-pic"), FormatId("table")


def groups_for(data: Sequence[int]) -> tuple[str, ...]:
    """What the groups of a graph are, one noun a number; it follows from the numbers."""
    pick = seed_from("groups", *data)
    nouns = _HARVEST if pick % 2 else _FOUND
    start = pick // 2 % len(nouns)
    return tuple(nouns[(start + i) % len(nouns)] for i in range(len(data)))


def _data(numbers: Numbers) -> tuple[int, ...]:
    return tuple(numbers[name] for name in "abcd" if name in numbers)


# tallies


def by_ones(n: int) -> int:
    """Each bundle counted as one."""
    return n // 5 + n % 5


def tally_steps(n: int) -> tuple[Step, ...]:
    """Count the bundles by fives, then the marks left over."""
    fives, marks = divmod(n, 5)
    return (
        *((Step("count-fives", {"fives": fives, "value": 5 * fives}),) if fives else ()),
        *((Step("count-on-marks", {"marks": marks, "total": n}),) if marks else ()),
    )


def _one_tally(numbers: Numbers) -> Made:
    n = numbers["n"]
    return Made(
        Question("tally-how-many"),
        (Part("1", "digits", str(n), 2),),
        tally_steps(n),
        {ErrorWayId("tally-by-ones"): str(by_ones(n))},
        Figure("tally", {"counts": (n,), "question": 1}),
        min(1.0, 0.2 + 0.03 * n),
    )


def _tally_sheet(numbers: Numbers) -> Made:
    """Three tallies under each other; the other two counts follow from the first."""
    n = numbers["n"]
    counts = (n, (n * 7 + 3) % 25 + 1, (n * 11 + 8) % 25 + 1)
    labels = groups_for(counts)
    errors = {ErrorWayId("tally-by-ones"): " ".join(str(by_ones(count)) for count in counts)}
    return _numbers_beside(labels, counts, errors, 0.6)


def _sorted_heap(numbers: Numbers) -> Made:
    """Three kinds of things, a mark kept for each: their numbers are written down."""
    data = _data(numbers)
    return _numbers_beside(groups_for(data), data, {}, 0.4)


def _numbers_beside(
    labels: Sequence[str], counts: tuple[int, ...], errors: dict[ErrorWayId, str], difficulty: float
) -> Made:
    tokens: list[Token] = []
    for i, label in enumerate(labels):
        tokens += [Word(label, 2), Gap(str(i + 1))]
    return Made(
        Row(tuple(tokens)),
        tuple(Part(str(i + 1), "digits", str(count), 2) for i, count in enumerate(counts)),
        tuple(step for count in counts for step in tally_steps(count)),
        errors,
        Figure("tally", {"counts": counts, "labels": tuple(labels), "question": 1}),
        difficulty,
    )


# one group of a graph: the first number of the rule is the one asked for, wherever it stands in the picture


def as_drawn(labels: Sequence[str], data: Sequence[int]) -> dict[str, tuple[str, ...] | tuple[int, ...]]:
    """Labels and numbers in an order that follows from the numbers, so that a place says nothing."""
    order = sorted(range(len(data)), key=lambda i: seed_from("place", *data, i))
    return {"labels": tuple(labels[i] for i in order), "data": tuple(data[i] for i in order)}


def _read_pictures(numbers: Numbers) -> Made:
    data = _data(numbers)
    labels, value = groups_for(data), data[0]
    icon = _ICONS[seed_from("icon", *data) % len(_ICONS)]
    return Made(
        Question("graph-how-many", {"group": labels[0]}),
        (Part("1", "digits", str(value), 2),),
        (Step("count-pictures", {"group": labels[0], "value": value}),),
        {},
        Figure("picture-graph", {**as_drawn(labels, data), "icon": icon, "question": 1}),
        0.2 + 0.05 * value,
    )


def _read_bars(numbers: Numbers) -> Made:
    data = _data(numbers)
    labels, value = groups_for(data), data[0]
    return Made(
        Question("graph-how-many", {"group": labels[0]}),
        (Part("1", "digits", str(value), 2),),
        (Step("read-bar", {"group": labels[0], "value": value}),),
        {
            ErrorWayId("bar-one-off"): str(value + 1),
            ErrorWayId("reads-across-wrong"): str((value + 1) // 2),
        },
        Figure("bar-graph", {**as_drawn(labels, data), "question": 1}),
        0.2 + 0.05 * value,
    )


# two groups of a graph: the first two numbers of the rule

_QUESTIONS = ("graph-how-many-more", "graph-how-many-fewer", "graph-how-many-both")


def compared(question: str, figure: Callable[[Sequence[str], Sequence[int]], Figure]) -> Maker:
    """How many more or fewer in one group than in the other, or how many in both.

    The rule's k, where it has one, chooses among these three.
    """

    def make(numbers: Numbers) -> Made:
        data = _data(numbers)
        labels = groups_for(data)
        bigger, smaller = (0, 1) if data[0] > data[1] else (1, 0)
        code = _QUESTIONS[numbers["k"]] if "k" in numbers else question
        a, b = data[bigger], data[smaller]
        both = code == "graph-how-many-both"
        answer = a + b if both else a - b
        first, second = (smaller, bigger) if code == "graph-how-many-fewer" else (bigger, smaller)
        errors = {ErrorWayId("total-for-difference"): str(a + b)}
        if "k" in numbers:
            errors[ErrorWayId("reads-one-bar")] = str(data[first])
        sentence = Step("write-add" if both else "write-take-away", {"a": a, "b": b, "result": answer})
        return Made(
            Question(code, {"first": labels[first], "second": labels[second]}),
            (Part("1", "digits", str(answer), 2),),
            (Step("read-two", {"first": labels[bigger], "a": a, "second": labels[smaller], "b": b}), sentence),
            errors,
            figure(labels, data),
            min(1.0, 0.3 + 0.03 * (a + b)),
        )

    return make


def _pictures_or_bars(labels: Sequence[str], data: Sequence[int]) -> Figure:
    kind = "bar-graph" if seed_from("kind", *data) % 2 else "picture-graph"
    return Figure(kind, {**as_drawn(labels, data), "question": 1})


def _number_table(labels: Sequence[str], data: Sequence[int]) -> Figure:
    drawn = as_drawn(labels, data)
    return Figure("tally", {"counts": drawn["data"], "labels": drawn["labels"], "question": 1})


RULES: tuple[SkillRule, ...] = (
    SkillRule(
        SkillId("data-tally-table"),
        formats={TABLE: _tally_sheet, COUNT_PIC: _one_tally},
    ),
    SkillRule(
        SkillId("data-sort-three-categories"),
        formats={TABLE: _sorted_heap, GRAPH_READ: compared("table-how-many-more", _number_table)},
    ),
    SkillRule(SkillId("picture-graph-single-unit"), formats={GRAPH_READ: _read_pictures}),
    SkillRule(SkillId("bar-graph-single-unit"), formats={GRAPH_READ: _read_bars}),
    SkillRule(SkillId("graph-compare-questions"), formats={GRAPH_READ: compared("", _pictures_or_bars)}),
)
