"""Fitting to flat logs: the logs are drawn here from the model's own chances, so what they were drawn from is known."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from dayleaf.core.ids import SkillId
from dayleaf.learner.cohort import Cohort
from dayleaf.learner.fitting import Answers, fit_parameters, loss, replay
from dayleaf.learner.graph import graph_of_links
from dayleaf.learner.mind import Mind
from dayleaf.learner.outlook import look
from dayleaf.learner.parameters import DEFAULT, Parameters

GRAPH = graph_of_links({SkillId("one"): (), SkillId("two"): (SkillId("one"),), SkillId("three"): ()})
STEADY = replace(DEFAULT, offset_sd=0.0, ability_sd=0.0, pause_sd=0.0, drift=0.0)
"""Without anything that differs from child to child the next answer is drawn with the chance believed."""


def drawn(parameters: Parameters, *, children: int, turns: int, seed: int) -> Answers:
    chance = np.random.default_rng(seed)
    cohort, everybody = Cohort(GRAPH, children, parameters), np.arange(children)
    columns: list[tuple[np.ndarray[tuple[int, ...], np.dtype[np.generic]], ...]] = []
    for turn in range(turns):
        skill = chance.integers(0, 3, children)
        day = float(3 * turn)
        right = chance.random(children) < look(cohort, day).p[everybody, skill]
        cohort.answer(everybody, skill, day, right=right)
        columns.append((everybody, np.full(children, day), skill, right))
    child, days, skills, rights = (np.concatenate(column) for column in zip(*columns, strict=True))
    many = len(child)
    return Answers(child, days, skills, rights, np.ones(many), np.zeros(many, dtype=bool))


def test_a_replay_of_many_is_what_each_child_alone_gives_in_any_order_of_children() -> None:
    answers = drawn(DEFAULT, children=7, turns=12, seed=1)
    shuffled = np.argsort(answers.child, kind="stable")
    told = Answers(*(getattr(answers, name)[shuffled] for name in Answers.__slots__))

    chances = replay(told, GRAPH)

    for child in range(7):
        mind = Mind(GRAPH)
        for row in np.flatnonzero(told.child == child):
            alone = mind.answer(int(told.skill[row]), float(told.day[row]), right=bool(told.right[row]))
            assert chances[row] == pytest.approx(alone, abs=1e-9)


def test_the_fit_finds_the_numbers_that_the_answers_were_drawn_from() -> None:
    true = replace(STEADY, base=-0.4, wrong=0.6)
    answers = drawn(true, children=400, turns=20, seed=2)
    start = replace(true, base=-1.4)

    found = fit_parameters(answers, GRAPH, start=start, names=("base",), rounds=15)

    # 6,000 answers with q (1 − q) of about .2: the standard error is near .03
    assert found.parameters.base == pytest.approx(-0.4, abs=0.1)
    assert found.held_out == pytest.approx(found.loss, abs=0.02)
    assert found.loss < loss(answers, GRAPH, start)


def test_two_numbers_that_stand_for_each_other_are_fitted_as_well_as_the_true_ones() -> None:
    true = replace(STEADY, base=-0.4, wrong=0.6)
    answers = drawn(true, children=200, turns=20, seed=2)

    found = fit_parameters(
        answers, GRAPH, start=replace(STEADY, base=-1.4), names=("base", "wrong"), hold_out=0.0, rounds=20
    )

    assert found.loss < loss(answers, GRAPH, true) + 0.001
    assert np.isnan(found.held_out)


def test_lessons_count_and_are_asked_nothing() -> None:
    answers = drawn(STEADY, children=3, turns=4, seed=3)
    lessons = replace(answers, lesson=answers.day == 0)

    chances = replay(lessons, GRAPH, STEADY)

    assert np.isnan(chances[lessons.lesson]).all()
    assert not np.isnan(chances[~lessons.lesson]).any()
