"""Before measuring: guess with a known length, choose a tool and a unit."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.core.seeds import seed_from
from dayleaf.items.choices import ring_fixed
from dayleaf.items.model import Figure, Option, Part, Question, Step
from dayleaf.items.rule import Made, SkillRule

if TYPE_CHECKING:
    from dayleaf.items.rule import Numbers


def far_off(n: int) -> tuple[int, int]:
    """Two guesses made without a known length: both too long, both too short, or one of each."""
    return ((2 * n, 4 * n), (n // 2, n // 4), (3 * n, n // 3))[seed_from("guess", n) % 3]


def _guess(numbers: Numbers) -> Made:
    n = numbers["n"]
    way = ErrorWayId("no-benchmark")
    first, second = far_off(n)
    options = (Option(str(n)), Option(str(first), way), Option(str(second), way))
    turn = seed_from("guess-order", n) % 3
    return Made(
        Question("about-how-long-b"),
        (Part("1", "choice", str(n), options=(*options[turn:], *options[:turn])),),
        (Step("known-length", {"n": n}),),
        {way: str(first)},
        Figure("objects-line", {"lengths": (10, 10 * n), "names": ("1 cm", "?"), "question": 1}),
        0.3 + 0.03 * n,
    )


# tools and units

TO_MEASURE: tuple[tuple[str, str, str], ...] = (
    ("pencil", "ruler", "cm"),
    ("book", "ruler", "cm"),
    ("leaf", "ruler", "cm"),
    ("spoon", "ruler", "cm"),
    ("finger", "ruler", "cm"),
    ("room", "meter-stick", "m"),
    ("garden-path", "meter-stick", "m"),
    ("wall", "meter-stick", "m"),
    ("boat-deck", "meter-stick", "m"),
    ("yard", "meter-stick", "m"),
    ("tree-round", "tape", "cm"),
    ("head-round", "tape", "cm"),
    ("bucket-round", "tape", "cm"),
    ("jar-round", "tape", "cm"),
)
"""What is measured, with the tool that fits best and the unit (common practice, no source)."""

TOOLS = ("ruler", "meter-stick", "tape")
_WHY = {"ruler": "small-needs-cm", "meter-stick": "long-needs-m", "tape": "round-needs-tape"}


def _tool_or_unit(numbers: Numbers) -> Made:
    thing, tool, unit = TO_MEASURE[numbers["k"]]
    one_tool, unsure = ErrorWayId("one-tool-for-all"), ErrorWayId("unit-size-unsure")
    if numbers["q"] == 0:
        code, right = "choose-tool", tool
        errors = {one_tool: "ruler"}
        if tool == "ruler":
            errors[unsure] = "meter-stick"
        options = tuple(
            Option(name, next((way for way, wrong in errors.items() if wrong == name != right), None)) for name in TOOLS
        )
    else:
        code, right = "choose-unit", unit
        errors = {unsure: "m" if unit == "cm" else "cm"}
        options = tuple(Option(name, None if name == right else unsure) for name in ("cm", "m"))
    return Made(
        Question(code, {"thing": thing}),
        (Part("1", "choice", right, options=options),),
        (Step(_WHY[tool]),),
        errors,
        None,
        0.3 if tool == "ruler" else 0.6,
    )


ABOUT: tuple[tuple[str, int, str], ...] = (
    ("door", 2, "m"),
    ("room", 4, "m"),
    ("wall", 5, "m"),
    ("table", 1, "m"),
    ("boat", 12, "m"),
    ("yard", 10, "m"),
    ("garden-path", 20, "m"),
    ("finger", 6, "cm"),
    ("leaf", 8, "cm"),
    ("pencil", 15, "cm"),
    ("spoon", 16, "cm"),
    ("shoe", 20, "cm"),
    ("book", 20, "cm"),
)
"""Things with about how long they are, in the unit that fits (common practice, no source)."""


def _centimeters_or_meters(numbers: Numbers) -> Made:
    thing, n, unit = ABOUT[numbers["k"]]
    errors = {ErrorWayId("unit-size-unsure"): "m" if unit == "cm" else "cm"}
    return Made(
        Question("cm-or-m", {"thing": thing, "n": n}),
        (ring_fixed(unit, ("cm", "m"), errors),),
        (Step("long-needs-m" if unit == "m" else "small-needs-cm"),),
        errors,
        None,
        0.4,
    )


RULES: tuple[SkillRule, ...] = (
    SkillRule(SkillId("estimate-length-metric"), formats={FormatId("estimate"): _guess}),
    SkillRule(SkillId("choose-length-tool-unit"), formats={FormatId("choose"): _tool_or_unit}),
    SkillRule(SkillId("measure-length-meter"), formats={FormatId("choose"): _centimeters_or_meters}),
)
