"""A question asked of people: chosen, put to everybody once, its answers tallied on a sheet. Acted out."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import FormatId, SkillId
from dayleaf.items.model import Figure, Part, Question, Step
from dayleaf.items.rule import Made, SkillRule

if TYPE_CHECKING:
    from collections.abc import Mapping

    from dayleaf.items.rule import Numbers

TOPICS: Mapping[str, tuple[str, ...]] = {
    # what is asked, and the answers to choose from
    "best-fruit": ("apple", "pear", "plum"),
    "best-soup": ("carrot", "bean", "pumpkin", "radish"),
    "best-time": ("morning", "noon", "evening"),
    "best-place": ("deck", "garden", "kitchen", "bank"),
    "best-weather": ("sun", "rain", "wind", "snow"),
    "best-work": ("digging", "cooking", "painting"),
    "best-game": ("ball-game", "board-game", "hiding-game"),
    "next-trip": ("bridge", "lock", "town", "woods"),
}


def _ask(numbers: Numbers) -> Made:
    topic = tuple(TOPICS)[numbers["t"] - 1]
    answers = TOPICS[topic]
    return Made(
        Question("ask-people", {"n": numbers["n"], "topic": topic}),
        (Part("1", "look", ""),),
        (Step("each-person-once"), Step("marks-as-people", {"n": numbers["n"]})),
        {},
        Figure("tally", {"counts": (0,) * len(answers), "labels": answers, "question": 1}),
        numbers["n"] / 25,
    )


def _plan(numbers: Numbers) -> Made:
    topic = tuple(TOPICS)[numbers["t"] - 1]
    return Made(
        Question("plan-survey", {"topic": topic, "n": numbers["n"]}),
        (Part("1", "look", ""),),
        (Step("one-clear-question"), Step("each-person-once")),
        {},
        None,
        0.5,
    )


RULES: tuple[SkillRule, ...] = (
    SkillRule(SkillId("survey-collect"), formats={FormatId("oral"): _ask, FormatId("explain"): _plan}),
)
