"""Two engines, one model: what is believed of many children at once is what is believed of each alone."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.stats import norm  # type: ignore[import-untyped]  # it brings no types

from dayleaf.core.ids import SkillId
from dayleaf.learner.cohort import Cohort
from dayleaf.learner.graph import graph_of_links
from dayleaf.learner.mind import OF_A_CHILD, OF_A_SKILL, Mind
from dayleaf.learner.outlook import firmness, look, lumpiness
from dayleaf.learner.parameters import DEFAULT, DESIGN_9, Parameters
from dayleaf.learner.worth import worth

SKILLS = [SkillId(f"s{number}") for number in range(12)]
GRAPH = graph_of_links(
    {skill: tuple(SKILLS[max(0, place - place % 4) : place]) for place, skill in enumerate(SKILLS)},
    brought={SKILLS[0]},
)


@pytest.mark.parametrize("parameters", [DEFAULT, DESIGN_9])
@pytest.mark.parametrize("seed", range(3))
def test_both_engines_believe_the_same_to_nine_digits(seed: int, parameters: Parameters) -> None:
    chance = np.random.default_rng(seed)
    children = 6
    cohort, minds = Cohort(GRAPH, children, parameters), [Mind(GRAPH, parameters) for _ in range(children)]
    day = 0.0
    for _ in range(150):
        day += int(chance.integers(0, 9))
        here = np.flatnonzero(chance.random(children) < 0.8)
        skills = chance.integers(0, len(SKILLS), len(here))
        if chance.random() < 0.2:
            cohort.teach(here, skills, day, credit=0.5)
            for child, taught in zip(here.tolist(), skills.tolist(), strict=True):
                minds[child].teach(taught, day, credit=0.5)
            continue
        right, weight = chance.random(len(here)) < 0.7, chance.choice([0.5, 1.0], len(here))
        believed = cohort.answer(here, skills, day, right=right, weight=weight, guess=0.2)

        for place, (child, skill) in enumerate(zip(here.tolist(), skills.tolist(), strict=True)):
            one = minds[child].answer(skill, day, right=bool(right[place]), weight=float(weight[place]), guess=0.2)
            assert believed[place] == pytest.approx(one, abs=1e-9)

    later = day + 40
    many = look(cohort, later)
    scores = worth(cohort, many, later)
    for row, mind in enumerate(minds):
        alone = look(mind, later)
        for name in ("p", "eta", "variance"):
            assert getattr(many, name)[row] == pytest.approx(getattr(alone, name), abs=1e-9)
        assert many.firm()[row] == pytest.approx(alone.firm(), abs=1e-9)
        assert scores[row] == pytest.approx(worth(mind, alone, later), abs=1e-9)
        for name in OF_A_CHILD:
            assert getattr(cohort, name)[..., row] == pytest.approx(getattr(mind, name), abs=1e-9)
        for name in OF_A_SKILL:
            if name not in {"stand", "recent", "month", "term", "wrong", "variance"}:  # they stand for other days
                assert getattr(cohort, name)[row] == pytest.approx(getattr(mind, name), abs=1e-9)


def test_looking_changes_nothing_and_each_skill_may_have_its_own_day() -> None:
    mind = Mind(GRAPH)
    for day in range(9):
        mind.answer(day, float(day), right=day % 3 > 0)
    before = mind.copy()

    one_day, own_days = look(mind, 30.0), look(mind, np.full(len(SKILLS), 30.0))

    assert mind == before
    assert own_days.p == pytest.approx(one_day.p, abs=1e-12)


def test_firmness_falls_as_the_level_asked_for_rises_and_stays_a_chance() -> None:
    mind = Mind(GRAPH)
    for day in range(9):
        mind.answer(day, float(day), right=day % 3 > 0)

    firm = np.array([look(mind, 12.0).firm(level) for level in (0.01, 0.3, 0.6, 0.9, 0.99)])

    assert (np.diff(firm, axis=0) <= 1e-12).all()
    assert ((firm >= 0) & (firm <= 1)).all()


def test_firmness_is_the_normal_share_above_the_level_or_where_skills_are_there_or_gone_the_chance_of_there() -> None:
    # referee: scipy's normal distribution; g .05 and s .04 as in DESIGN 9
    eta, variance = np.array([-1.0, 0.4, 2.0]), np.array([0.3, 0.8, 1.5])
    p = np.array([0.3, 0.6, 0.85])
    margin = np.log((0.7 - 0.05) / (0.96 - 0.7))

    even, gone = (firmness(DEFAULT, eta, variance, p, echo=np.array([echo]), level=0.7) for echo in (0.0, 1.0))

    assert even == pytest.approx(norm.sf(margin, loc=eta, scale=np.sqrt(variance)), abs=1e-12)
    assert gone == pytest.approx((p - 0.05) / 0.91, abs=1e-12)


def test_surprises_that_repeat_make_a_memory_lumpy_and_surprises_that_take_turns_do_not() -> None:
    def after(rights: list[bool]) -> float:
        mind = Mind(GRAPH)
        for day, right in enumerate(rights):
            mind.answer(1, float(day), right=right)
        return float(lumpiness(mind)[0])

    assert after([True] * 10 + [False] * 10 + [True] * 10 + [False] * 10) > 0.5
    assert after([True, False] * 20) == 0.0
