"""Thermometers: a scale whose small marks are worth two degrees, every tenth degree with a number."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.items.choices import ring_one
from dayleaf.items.model import Figure, Gap, Part, Question, Row, Step, Word
from dayleaf.items.rule import Made, Maker, SkillRule

if TYPE_CHECKING:
    from dayleaf.items.rule import Numbers

_STEP, _LABEL = 2, 10
_TOP = {"F": 110, "C": 40}
_SHOWN = 20


def mark_as_one(level: int) -> int:
    """Each small mark above the last number counted as one degree: 26 → 23."""
    return level // _LABEL * _LABEL + level % _LABEL // _STEP


def top_label(level: int) -> int:
    """The number next above the liquid; at a number, that number."""
    return -(-level // _LABEL) * _LABEL


def _scale(numbers: Numbers) -> tuple[int, str]:
    return numbers["n"] * _STEP, "FC"[numbers["k"]]


def _made(numbers: Numbers) -> tuple[str, Made]:
    level, unit = _scale(numbers)
    label, marks = level // _LABEL * _LABEL, level % _LABEL // _STEP
    steps = (
        Step("mark-is-worth", {"step": _STEP}),
        Step("up-from-label", {"label": label, "marks": marks, "value": level})
        if marks
        else Step("level-with-label", {"value": level}),
    )
    errors = {
        ErrorWayId("mark-as-one"): str(mark_as_one(level)),
        ErrorWayId("top-label-read"): str(top_label(level)),
    }
    # two tens of the scale, so that the picture stays small; the liquid stands in the lower or the upper one
    lowest = min(max(0, label - _LABEL * (level % 3 % 2)), _TOP[unit] - _SHOWN)
    figure = Figure(
        "thermometer",
        {
            "lo": lowest,
            "hi": lowest + _SHOWN,
            "step": _STEP,
            "level": level,
            "every": _LABEL // _STEP,
            "unit": unit,
            "question": 1,
        },
    )
    prompt = Row((Gap("1"), Word("degrees")))
    return unit, Made(prompt, (Part("1", "digits", str(level), 3),), steps, errors, figure, 0.2 + 0.15 * marks)


def _read(numbers: Numbers) -> Made:
    return _made(numbers)[1]


def _ring(numbers: Numbers) -> Made:
    unit, made = _made(numbers)
    part = ring_one(made.parts[0].answer, made.errors, turn=numbers["n"])
    return Made(
        Question("read-thermometer", {"unit": unit}), (part,), made.steps, made.errors, made.figure, made.difficulty
    )


def between_labels(numbers: Numbers) -> bool:
    """Whether the liquid stands at a small mark, so that each error way gives an answer of its own."""
    level, _ = _scale(numbers)
    return level % _LABEL != 0


_FORMATS: dict[FormatId, Maker] = {FormatId("scale-read"): _read, FormatId("choose"): _ring}

RULES: tuple[SkillRule, ...] = (
    SkillRule(SkillId("temp-thermometer"), formats=_FORMATS, fits={FormatId("choose"): between_labels}),
)
