"""Why a way of adding or taking away works: told, rung, and a sum to mend."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.core.seeds import seed_from
from dayleaf.items.choices import ring_one
from dayleaf.items.model import Column, Part, Question
from dayleaf.items.place_steps import adding_places, taking_places
from dayleaf.items.rule import Made, SkillRule

if TYPE_CHECKING:
    from collections.abc import Callable

    from dayleaf.items.model import Prompt, Step
    from dayleaf.items.rule import Maker, Numbers

STEPS_ONLY, ANSWER_ONLY = ErrorWayId("steps-not-reason"), ErrorWayId("answer-only")
_WIDTH = 3


def ten_not_added(a: int, b: int) -> int:
    """The new ten left out: 47 + 28 → 65."""
    return a + b - 10


def ten_not_taken(a: int, b: int) -> int:
    """A ten opened and still counted: 62 − 38 → 34."""
    return a - b + 10


def _steps(a: int, b: int, sign: str) -> tuple[Step, ...]:
    return adding_places(a, b) if sign == "+" else taking_places(a, b)


def _hard(a: int) -> float:
    return 0.3 if a < 100 else 0.7


def _explain(sign: str, codes: tuple[str, ...]) -> Maker:
    def make(numbers: Numbers) -> Made:
        a, b = numbers["a"], numbers["b"]
        code = codes[seed_from("why", a, b) % len(codes)]
        result = a + b if sign == "+" else a - b
        return Made(
            Question(code, {"a": a, "b": b, "result": result}),
            (Part("1", "look", ""),),
            _steps(a, b, sign),
            difficulty=_hard(a),
        )

    return make


def _ring_reason(sign: str, code: str, reason: str, steps_only: str, answer_only: str) -> Maker:
    def make(numbers: Numbers) -> Made:
        a, b = numbers["a"], numbers["b"]
        errors = {STEPS_ONLY: steps_only, ANSWER_ONLY: answer_only}
        return Made(
            Question(code, {"a": a, "b": b}),
            (ring_one(reason, errors, turn=seed_from("reason", a, b)),),
            _steps(a, b, sign),
            errors,
            None,
            _hard(a),
        )

    return make


def _mend(sign: str, slip: Callable[[int, int], int]) -> Maker:
    def make(numbers: Numbers) -> Made:
        a, b = numbers["a"], numbers["b"]
        prompt: Prompt = Column((a, b), sign, shown=slip(a, b))
        result = a + b if sign == "+" else a - b
        return Made(prompt, (Part("1", "digits", str(result), _WIDTH),), _steps(a, b, sign), {}, None, _hard(a))

    return make


_EXPLAIN, _FIX, _CHOOSE = FormatId("explain"), FormatId("fix"), FormatId("choose")

RULES: tuple[SkillRule, ...] = (
    SkillRule(
        SkillId("add-explain-strategy"),
        formats={
            _EXPLAIN: _explain("+", ("why-new-ten", "why-tens-first", "why-friendly-ten")),
            _FIX: _mend("+", ten_not_added),
            _CHOOSE: _ring_reason("+", "what-is-small-one", "made-from-ten-ones", "carry-the-one", "just-know"),
        },
    ),
    SkillRule(
        SkillId("sub-explain-strategy"),
        formats={
            _EXPLAIN: _explain("-", ("why-open-ten", "why-count-up", "why-still-same")),
            _FIX: _mend("-", ten_not_taken),
            _CHOOSE: _ring_reason("-", "why-ten-opened", "ten-only-opened", "cross-out-borrow", "how-you-do-it"),
        },
    ),
)
