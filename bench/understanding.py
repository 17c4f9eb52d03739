"""Figures of why answers are wrong and of where a child begins."""

from __future__ import annotations

import random
from typing import TYPE_CHECKING

from timed import Figure, median_ms

from dayleaf.core.ids import SkillId
from dayleaf.course.load import grade2
from dayleaf.items.ways.published import PUBLISHED
from dayleaf.learner.habits import Habits
from dayleaf.learner.placement import place
from dayleaf.learner.states import ground_of_course, number_skills
from dayleaf.learner.written import read, reading

if TYPE_CHECKING:
    from collections.abc import Iterator

TWICE = SkillId("sub-3digit-regroup-twice")


def understanding_figures() -> Iterator[Figure]:
    """One written answer, one placement answer."""
    yield _written()
    yield _placed()


def _written() -> Figure:
    skill = grade2().skills[TWICE]
    found = reading(Habits(), skill)
    habit = PUBLISHED[next(iter(PUBLISHED))]
    asked = []
    for _ in range(12):
        if found.ask is None:
            break
        numbers = found.ask.numbers
        asked.append((numbers, habit(numbers["a"], numbers["b"])))
        found = read(found.state, skill, *asked[-1])

    def all_answers() -> None:
        state = Habits()
        for numbers, answer in asked:
            state = read(state, skill, numbers, answer).state

    def only_compared() -> None:
        for numbers, answer in asked:
            _ = [way for way, go in PUBLISHED.items() if go(numbers["a"], numbers["b"]) == answer]

    return Figure(
        "one written answer: the odds of all ways, the next item chosen",
        median_ms(all_answers) / len(asked),
        "the same answer compared with what each of the 33 ways writes",
        median_ms(only_compared) / len(asked),
        "no odds, no slips, nothing from earlier answers, no next item",
        2,
    )


def _placed() -> Figure:
    course = grade2()
    ground, skills = ground_of_course(course), number_skills(course)
    answers = [(skill, n % 3 > 0) for n, skill in enumerate(sorted(skills)[::6])]
    chance = random.Random(1)
    return Figure(
        f"one placement answer: {len(ground.states):,} states weighed, the next question chosen",
        median_ms(lambda: place(ground, answers, judged=skills)),
        "the next question drawn at random",
        median_ms(lambda: chance.choice(sorted(skills))),
        "knows nothing",
        50,
    )
