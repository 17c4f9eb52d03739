"""Line plots of measured lengths: how many of one length, which length comes most, and the measuring itself."""

from __future__ import annotations

from itertools import permutations
from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.items.model import Figure, Gap, Part, Question, Row, Step, Word
from dayleaf.items.rule import Made, SkillRule

if TYPE_CHECKING:
    from dayleaf.items.rule import Fits, Maker, Numbers

GRAPH_READ, MEASURE = FormatId("graph-read"), FormatId("measure")
_UNITS = ("cm", "inches")
BY_UNIT = ("line-plot-length", "line-plot-inches")
"""One skill a unit: inches are held back until they have been taught."""
_LOWEST = (3, 1)
_LONGEST = (15, 6)
_STRIDE = 37
"""No divisor in common with the 120 orders of five columns, so that no order comes twice."""


def plotted(numbers: Numbers) -> tuple[int, tuple[int, ...]]:
    """The first length of the line and how many sticks have each length; one length comes most, one not at all."""
    s, u = numbers["s"], numbers["u"]
    counts = (0, 1, 2, 3, 4 + s % 2)
    order = tuple(permutations(counts))
    return _LOWEST[u] + s % 4, order[_STRIDE * (s + 1) % len(order)]


def in_unit(u: int, make: Maker) -> Maker:
    """The maker for lengths in one of the two units, which the skill's own numbers do not name."""
    return lambda numbers: make({**numbers, "u": u})


def _read(numbers: Numbers) -> Made:
    lo, counts = plotted(numbers)
    unit = _UNITS[numbers["u"]]
    most = counts.index(max(counts))
    asked = (most + 1 + numbers["s"] % 4) % len(counts)
    if numbers["q"] == 0:
        length, count = lo + asked, counts[asked]
        question, answer, wrong = Question("sticks-this-long", {"n": length, "unit": unit}), count, length
    else:
        length, count = lo + most, counts[most]
        question, answer, wrong = Question("most-often", {"unit": unit}), length, count
    return Made(
        question,
        (Part("1", "digits", str(answer), 2),),
        (Step("marks-over", {"n": length, "count": count}),),
        {ErrorWayId("x-value-mixed"): str(wrong)},
        Figure("line-plot", {"lo": lo, "data": counts, "unit": unit, "question": 1}),
        0.3 + 0.2 * numbers["q"],
    )


def _length(numbers: Numbers) -> int:
    return _LOWEST[numbers["u"]] + numbers["s"]


def _measure(numbers: Numbers) -> Made:
    """One stick for the plot, over a ruler."""
    n, u = _length(numbers), numbers["u"]
    kind, length = (("ruler-cm", max(10, n + 1)), ("ruler-in", 6))[u]
    return Made(
        Row((Gap("1"), Word(_UNITS[u]))),
        (Part("1", "digits", str(n), 2),),
        (Step("zero-at-end", {"n": n}),),
        {},
        Figure(kind, {"length": length, "end": n, "object": "rope", "question": 1}),
        0.2 + 0.02 * n,
    )


def _on_the_ruler(u: int) -> Fits:
    return lambda numbers: numbers["q"] == 0 and _LOWEST[u] + numbers["s"] <= _LONGEST[u]


RULES: tuple[SkillRule, ...] = tuple(
    SkillRule(
        SkillId(skill),
        formats={GRAPH_READ: in_unit(u, _read), MEASURE: in_unit(u, _measure)},
        fits={MEASURE: _on_the_ruler(u)},
    )
    for u, skill in enumerate(BY_UNIT)
)
