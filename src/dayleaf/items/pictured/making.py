"""Graphs and plots made from numbers that are told, and questions about numbers told without a graph."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import FormatId, SkillId
from dayleaf.core.seeds import seed_from
from dayleaf.items.model import Figure, Part, Question, Step
from dayleaf.items.pictured import graphs
from dayleaf.items.pictured.aloud import rule_with
from dayleaf.items.pictured.graphs import as_drawn, groups_for
from dayleaf.items.pictured.line_plots import BY_UNIT, in_unit, plotted
from dayleaf.items.rule import Made, SkillRule

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from dayleaf.items.rule import Maker, Numbers

MAKE, WORD1 = FormatId("graph-make"), FormatId("word1")
_LOOK = (Part("1", "look", ""),)
_HIGHEST = 11
_NAMES = (("first", "a"), ("second", "b"), ("third", "c"), ("fourth", "d"))
_UNITS = ("cm", "inches")
_QUARTERS = ("", " 1/4", " 1/2", " 3/4")
_STICKS = 6


def _told(labels: Sequence[str], data: Sequence[int]) -> dict[str, int | str]:
    values: dict[str, int | str] = {}
    for (name, number), label, count in zip(_NAMES, labels, data, strict=True):
        values |= {name: label, number: count}
    return values


def _graph(kind: str) -> Maker:
    """An empty frame for four numbers: bars still to be drawn, or rows with room for pictures."""

    def make(numbers: Numbers) -> Made:
        data = tuple(numbers[name] for name in "abcd")
        labels = groups_for(data)
        drawn = as_drawn(labels, data)["labels"]
        empty: dict[str, tuple[int, ...] | int] = {"data": (-1,) * 4, "max": _HIGHEST}
        if kind == "picture-graph":
            empty = {"data": (0,) * 4, "room": max(data) + 1}
        return Made(
            Question("draw-graph", _told(labels, data)),
            _LOOK,
            tuple(Step("bar-for", {"group": label, "value": n}) for label, n in zip(labels, data, strict=True)),
            {},
            Figure(kind, {"labels": drawn, **empty, "question": 1}),
            0.5,
        )

    return make


def _plot(numbers: Numbers) -> Made:
    """The measured sticks of a line plot, out of order, to be marked over their lengths."""
    lo, counts = plotted(numbers)
    unit = _UNITS[numbers["u"]]
    sticks = [lo + k for k, count in enumerate(counts) for _ in range(count)]
    mixed = sorted(enumerate(sticks), key=lambda stick: seed_from("stick", *numbers.values(), *stick))
    return Made(
        Question("draw-plot", {"lengths": ", ".join(str(length) for _, length in mixed), "unit": unit}),
        _LOOK,
        _marks((str(lo + k), count) for k, count in enumerate(counts)),
        {},
        Figure("line-plot", {"lo": lo, "data": (0,) * len(counts), "room": max(counts), "unit": unit, "question": 1}),
        0.5,
    )


def _marks(counts: Iterable[tuple[str, int]]) -> tuple[Step, ...]:
    return tuple(Step("marks-for-sticks", {"n": length, "count": count}) for length, count in counts if count)


def quarters_said(quarters: int) -> str:
    """A length in quarter inches as a ruler says it: 13 → 3 1/4, 14 → 3 1/2.

    >>> quarters_said(13), quarters_said(2), quarters_said(8)
    ('3 1/4', '1/2', '2')
    """
    whole, left = divmod(quarters, 4)
    return f"{whole or ''}{_QUARTERS[left]}".strip()


def _quarter_plot(numbers: Numbers) -> Made:
    """Six sticks measured in quarters of an inch, the one of the rule among them."""
    t = numbers["t"]
    lo = max(1, t - 3)
    sticks = [t, *(lo + seed_from("quarter", t, k) % 7 for k in range(_STICKS - 1))]
    sticks.sort(key=lambda length: seed_from("order", t, length))
    data = tuple(sticks.count(lo + k) for k in range(7))
    return Made(
        Question("draw-plot", {"lengths": ", ".join(quarters_said(length) for length in sticks), "unit": "inches"}),
        _LOOK,
        _marks((quarters_said(lo + k), count) for k, count in enumerate(data)),
        {},
        Figure(
            "line-plot",
            {"lo": lo, "data": (0,) * 7, "room": max(data), "parts": 4, "unit": "inches", "question": 1},
        ),
        0.7,
    )


def _compared(numbers: Numbers) -> Made:
    """The question of a graph, the four numbers told and not drawn."""
    made = rule_with(graphs.RULES, "graph-compare-questions", "graph-read").formats[FormatId("graph-read")](numbers)
    data = tuple(numbers[name] for name in "abcd")
    labels = groups_for(data)
    code = made.prompt.code.removeprefix("graph-") if isinstance(made.prompt, Question) else ""
    told = made.prompt.values if isinstance(made.prompt, Question) else {}
    turned = told["first"] == labels[1]
    order = (1, 0, 2, 3) if turned else (0, 1, 2, 3)
    values = _told([labels[i] for i in order], [data[i] for i in order])
    return Made(Question(f"told-{code}", values), made.parts, made.steps, made.errors, None, made.difficulty)


def once(numbers: Numbers) -> bool:
    """One plot for each stick and unit."""
    return numbers["q"] == 0


RULES: tuple[SkillRule, ...] = (
    SkillRule(SkillId("bar-graph-single-unit"), formats={MAKE: _graph("bar-graph")}),
    SkillRule(SkillId("picture-graph-single-unit"), formats={MAKE: _graph("picture-graph")}),
    *(
        SkillRule(SkillId(skill), formats={MAKE: in_unit(u, _plot)}, fits={MAKE: once})
        for u, skill in enumerate(BY_UNIT)
    ),
    SkillRule(SkillId("ruler-half-quarter-inch"), formats={MAKE: _quarter_plot}),
    SkillRule(SkillId("graph-compare-questions"), formats={WORD1: _compared}),
)
