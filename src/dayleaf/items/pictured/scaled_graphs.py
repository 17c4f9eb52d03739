"""Picture graphs and bar graphs whose picture or step stands for 2, 5 or 10."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.core.seeds import seed_from
from dayleaf.items.model import Figure, Part, Question, Step
from dayleaf.items.pictured.letters import shuffled
from dayleaf.items.rule import Made, SkillRule

if TYPE_CHECKING:
    from dayleaf.items.rule import Numbers

KEY_IGNORED, HALF_AS_ONE = ErrorWayId("key-ignored"), ErrorWayId("half-picture-one")
EACH = (2, 5, 10)
_ICONS = ("dot", "square", "triangle", "ring")
_THINGS = ("apple", "bean", "carrot", "radish", "shell", "stone")
_QUESTIONS = ("graph-how-many", "graph-how-many-more", "graph-how-many-both")


def worth(pictures: int, each: int, *, half: int = 0) -> int:
    """What so many pictures stand for, with half a picture more where `half` is 1; `each` is even then.

    >>> worth(3, 2, half=1)
    7
    """
    return pictures * each + half * each // 2


_WITH_HALF, _BARS = 1, 2
"""The rule's k: pictures, pictures with half a one, bars."""


def _half(numbers: Numbers) -> int:
    return int(numbers["k"] == _WITH_HALF)


def _things(numbers: Numbers) -> tuple[str, ...]:
    return shuffled(_THINGS, "scaled", *numbers.values())[:3]


def _figure(numbers: Numbers, *, empty: bool = False) -> Figure:
    """The two groups that are asked about and a third one, in an order of their own."""
    each = EACH[numbers["e"]]
    rows = list(zip(_things(numbers), (numbers["a"], numbers["b"], 1 + seed_from("third", each) % 6), strict=True))
    turn = seed_from("row", *numbers.values()) % 3
    rows = rows[turn:] + rows[:turn]
    labels = tuple(name for name, _ in rows)
    data = tuple(-1 if empty else count for _, count in rows)
    if numbers["k"] == _BARS:
        top = max(numbers["a"], numbers["b"], 6) + 1
        return Figure("bar-graph", {"labels": labels, "data": data, "each": each, "max": top, "question": 1})
    halves = tuple(int(_half(numbers) and name == _things(numbers)[0]) for name, _ in rows)
    icon = _ICONS[seed_from("icon", *numbers.values()) % len(_ICONS)]
    return Figure(
        "picture-graph",
        {"labels": labels, "data": data, "halves": halves, "icon": icon, "each": each, "question": 1},
    )


def _steps(numbers: Numbers) -> list[Step]:
    each, (first, second, _) = EACH[numbers["e"]], _things(numbers)
    a = worth(numbers["a"], each, half=_half(numbers))
    steps = [Step("one-stands-for", {"n": each})]
    if _half(numbers):
        steps.append(Step("half-stands-for", {"n": each // 2}))
    steps.append(Step("group-has", {"group": first, "value": a}))
    if numbers["q"]:
        b = worth(numbers["b"], each)
        result = a - b if numbers["q"] == 1 else a + b
        steps.append(Step("group-has", {"group": second, "value": b}))
        steps.append(Step("write-take-away" if numbers["q"] == 1 else "write-add", {"a": a, "b": b, "result": result}))
    return steps


def _asked(numbers: Numbers, a: int, b: int) -> int:
    """What the question asks of the two groups."""
    return (a, a - b, a + b)[numbers["q"]]


def _read(numbers: Numbers) -> Made:
    a, b, h, each = numbers["a"], numbers["b"], _half(numbers), EACH[numbers["e"]]
    errors = {KEY_IGNORED: str(_asked(numbers, a + h, b))}
    if h:
        errors[HALF_AS_ONE] = str(_asked(numbers, worth(a + 1, each), worth(b, each)))
    first, second, _ = _things(numbers)
    values = {"group": first} if numbers["q"] == 0 else {"first": first, "second": second}
    return Made(
        Question(_QUESTIONS[numbers["q"]], values),
        (Part("1", "digits", str(_asked(numbers, worth(a, each, half=h), worth(b, each))), 3),),
        tuple(_steps(numbers)),
        errors,
        _figure(numbers),
        min(1.0, 0.2 + 0.2 * numbers["q"] + 0.2 * h + 0.1 * numbers["e"]),
    )


def _make(numbers: Numbers) -> Made:
    """Bars to draw on an empty frame, the numbers told; three groups, one of them known from the frame."""
    each, (first, second, third) = EACH[numbers["e"]], _things(numbers)
    a, b = worth(numbers["a"], each), worth(numbers["b"], each)
    c = worth(1 + seed_from("third", each) % 6, each)
    return Made(
        Question("draw-bars", {"first": first, "a": a, "second": second, "b": b, "third": third, "c": c}),
        (Part("1", "look", ""),),
        (
            Step("one-step-stands-for", {"n": each}),
            *(
                Step("bar-reaches", {"group": group, "value": value, "steps": value // each})
                for group, value in ((first, a), (second, b), (third, c))
            ),
        ),
        {},
        _figure(numbers, empty=True),
        0.4,
    )


def bars_to_draw(numbers: Numbers) -> bool:
    """One set of numbers for each frame."""
    return numbers["k"] == _BARS and numbers["q"] == 0


RULES: tuple[SkillRule, ...] = (
    SkillRule(
        SkillId("graph-scaled"),
        formats={FormatId("graph-read"): _read, FormatId("graph-make"): _make},
        fits={FormatId("graph-make"): bars_to_draw},
    ),
)
