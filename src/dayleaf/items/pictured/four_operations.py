"""Stories of two steps in which equal groups and more or less come together."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.core.seeds import seed_from
from dayleaf.items.model import Figure, Part, Question, Step
from dayleaf.items.rule import Made, SkillRule

if TYPE_CHECKING:
    from dayleaf.items.rule import Numbers

STOPS, AS_TOLD = ErrorWayId("stops-after-one"), ErrorWayId("wrong-order")
_PEOPLE = ("child", "brother", "gran", "lock-keeper", "mother", "father")
_NOUNS = ("apple", "bean", "button", "carrot", "seed", "shell", "stick", "stone")
_CODES = ("has-then-groups", "wants-from-groups", "finds-then-shared", "gives-then-shared")
_GROUPS_MORE, _GROUPS_LESS, _SHARED_MORE = range(3)


def _first_step(numbers: Numbers) -> int:
    """What the hidden question asks: all in the groups, one share, or what is left to share."""
    return numbers["b"] if numbers["k"] == _SHARED_MORE else numbers["a"] * numbers["b"]


def _result(numbers: Numbers) -> int:
    a, b, c, k = (numbers[name] for name in "abck")
    return (a * b + c, a * b - c, b + c, b)[k]


def in_the_order_told(numbers: Numbers) -> int | None:
    """The right signs on the numbers as they come: c × a and b more; None where that is the order of the steps."""
    a, b, c, k = (numbers[name] for name in "abck")
    if k == _GROUPS_MORE:
        return c * a + b
    return c * a - b if k == _GROUPS_LESS and c * a >= b else None


def _values(numbers: Numbers) -> dict[str, int | str]:
    """Every story tells its numbers in the order in which they stand here."""
    a, b, c, k = (numbers[name] for name in "abck")
    pick = seed_from("four-operations", a, b, c, k)
    who: dict[str, int | str] = {"p": _PEOPLE[pick % len(_PEOPLE)], "noun": _NOUNS[pick // 8 % len(_NOUNS)]}
    if k < _SHARED_MORE:
        return {**who, "c": c, "a": a, "b": b}
    return {**who, "c": c, "total": a * b, "a": a} if k == _SHARED_MORE else {**who, "total": a * b + c, "c": c, "a": a}


def _steps(numbers: Numbers) -> tuple[Step, ...]:
    a, b, c, k = (numbers[name] for name in "abck")
    times = Step("write-times", {"a": a, "b": b, "result": a * b})
    share = Step("write-divide", {"a": a * b, "b": a, "result": b})
    steps = (
        (times, Step("write-add", {"a": a * b, "b": c, "result": a * b + c})),
        (times, Step("write-take-away", {"a": a * b, "b": c, "result": a * b - c})),
        (share, Step("write-add", {"a": b, "b": c, "result": b + c})),
        (Step("write-take-away", {"a": a * b + c, "b": c, "result": a * b}), share),
    )[k]
    return (Step(f"hidden-{_CODES[k]}"), *steps)


def _told(numbers: Numbers) -> Made:
    errors = {STOPS: str(_first_step(numbers))}
    if (other := in_the_order_told(numbers)) is not None:
        errors[AS_TOLD] = str(other)
    return Made(
        Question(_CODES[numbers["k"]], _values(numbers)),
        (Part("1", "digits", str(_result(numbers)), 3),),
        _steps(numbers),
        errors,
        None,
        (0.3, 0.5, 0.6, 0.7)[numbers["k"]] + 0.02 * numbers["a"],
    )


def _with_a_bar(numbers: Numbers) -> Made:
    """The bar of the story, with two boxes: the hidden question first, then what is asked."""
    made = _told(numbers)
    a, c, k = (numbers[name] for name in "ack")
    first, result = _first_step(numbers), _result(numbers)
    parts = {
        _GROUPS_MORE: {"whole": result, "a": first, "b": c},
        _GROUPS_LESS: {"whole": first, "a": c, "b": result},
        _SHARED_MORE: {"whole": result, "a": first, "b": c},
    }[k]
    hidden = {_GROUPS_MORE: ("whole", "a"), _GROUPS_LESS: ("whole", "b"), _SHARED_MORE: ("whole", "a")}[k]
    errors = {way: f"{first} {wrong}" for way, wrong in made.errors.items()}
    if AS_TOLD in errors:
        errors[AS_TOLD] = f"{c * a} {made.errors[AS_TOLD]}"
    return Made(
        made.prompt,
        (Part("1", "digits", str(first), 3), Part("2", "digits", str(result), 3)),
        made.steps,
        errors,
        Figure("bar-model", {"kind": "parts", **parts, "hidden": hidden}),
        made.difficulty,
    )


def has_a_bar(numbers: Numbers) -> bool:
    """Three parts that are the groups, or one share of them, and what comes or goes."""
    return numbers["k"] <= _SHARED_MORE


RULES: tuple[SkillRule, ...] = (
    SkillRule(
        SkillId("word-two-step-four-operations"),
        formats={FormatId("word2"): _told, FormatId("bar-fill"): _with_a_bar},
        fits={FormatId("bar-fill"): has_a_bar},
    ),
)
