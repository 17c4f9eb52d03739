"""Stories with grams, kilograms and liters in one unit, with all four signs, told or begun at a scale."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.core.seeds import seed_from
from dayleaf.items.model import Figure, Part, Question, Step
from dayleaf.items.pictured.weights import by_ones
from dayleaf.items.rule import Made, SkillRule

if TYPE_CHECKING:
    from dayleaf.items.rule import Numbers

MISREAD = ErrorWayId("scale-misread")
UNITS = ("g", "kg", "L")
_WHAT = (("flour", "sugar", "salt"), ("apples-kg", "beans-kg", "potatoes-kg"), ("water", "milk", "soup"))
"""What is weighed or poured, by unit."""

_STEP, _EVERY, _TOP = 2, 5, 20
"""A scale whose marks are worth 2, every fifth with its number, twenty marks high."""

_CODES = ("mass-both", "mass-left", "mass-groups", "mass-shared")


def _sizes(numbers: Numbers) -> tuple[int, int]:
    """Grams come in tens; kilograms and liters as they are. Groups are never in tens."""
    a, b, k = numbers["a"], numbers["b"], numbers["k"]
    tens = 10 if numbers["u"] == 0 else 1
    return a * tens, b * (tens if k < 2 else 1)


def _who(numbers: Numbers) -> dict[str, int | str]:
    pick = seed_from("weighed", *numbers.values())
    people = ("child", "brother", "gran", "mother", "father")
    return {"p": people[pick % 5], "what": _WHAT[numbers["u"]][pick // 5 % 3], "unit": UNITS[numbers["u"]]}


def _told(numbers: Numbers) -> Made:
    """k: two amounts together, an amount taken, equal amounts, an amount shared."""
    k = numbers["k"]
    a, b = _sizes(numbers)
    result = (a + b, a - b, a * b, a)[k]
    total = a * b
    step = (
        Step("write-add", {"a": a, "b": b, "result": result}),
        Step("write-take-away", {"a": a, "b": b, "result": result}),
        Step("write-times", {"a": b, "b": a, "result": result}),
        Step("write-divide", {"a": total, "b": b, "result": result}),
    )[k]
    told = {"total": total, "groups": b} if k == 3 else {"groups": b, "size": a} if k == 2 else {"a": a, "b": b}
    return Made(
        Question(_CODES[k], {**_who(numbers), **told}),
        (Part("1", "digits", str(result), 3),),
        (step, Step("answer-with-unit", {"value": result, "unit": UNITS[numbers["u"]]})),
        {},
        None,
        (0.2, 0.3, 0.4, 0.5)[k] + a / 200,
    )


def _from_scale(numbers: Numbers) -> Made:
    """The first amount is read from a pitcher or a scale; then some is put in or taken out."""
    marks, b, k, unit = numbers["a"], numbers["b"] * _STEP, numbers["k"], UNITS[numbers["u"]]
    sign = -1 if k else 1
    value = marks * _STEP
    misread = by_ones(marks, _STEP) + sign * b
    result = value + sign * b
    errors = {MISREAD: str(misread)} if misread >= 0 else {}
    return Made(
        Question("scale-then-less" if k else "scale-then-more", {**_who(numbers), "b": b}),
        (Part("1", "digits", str(result), 3),),
        (
            Step("mark-is-worth", {"step": _STEP}),
            Step("scale-shows", {"value": value}),
            Step("write-take-away" if k else "write-add", {"a": value, "b": b, "result": result}),
            Step("answer-with-unit", {"value": result, "unit": unit}),
        ),
        errors,
        _scale(marks, unit),
        0.4 + 0.1 * (marks % _EVERY > 0) + 0.1 * k,
    )


def _scale(marks: int, unit: str) -> Figure:
    top = _TOP * _STEP
    if unit == "L":
        params = {"max": top, "step": _STEP, "level": marks * _STEP, "every": _EVERY}
        return Figure("jug", {**params, "unit": unit, "question": 1})
    labels = tuple(range(0, top + 1, _EVERY * _STEP))
    return Figure(
        "number-line",
        {
            "lo": 0, "hi": top, "step": _STEP, "big": _EVERY * _STEP, "labels": labels, "arrow": marks * _STEP,
            "question": 1,
        },
    )  # fmt: skip


def one_change(numbers: Numbers) -> bool:
    """More or less, within the scale."""
    return numbers["k"] < 2 and numbers["a"] <= _TOP and numbers["b"] <= 10


RULES: tuple[SkillRule, ...] = (
    SkillRule(
        SkillId("mass-capacity-word"),
        formats={FormatId("word1"): _told, FormatId("scale-read"): _from_scale},
        fits={FormatId("scale-read"): one_change},
    ),
)
