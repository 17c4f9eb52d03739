"""Virtual children behave as their own rules say: what must hold of any memory, and of each kind."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING

import numpy as np
import pytest

from dayleaf.course.load import grade2
from dayleaf.learner.mind import Mind
from dayleaf.learner.outlook import look
from dayleaf.trial.activation import Activation
from dayleaf.trial.believed import Believed
from dayleaf.trial.forecast import forecast
from dayleaf.trial.foresight import Foresight
from dayleaf.trial.halflives import Halflives
from dayleaf.trial.paced import Paced
from dayleaf.trial.policies import Boxes, OldestFirst, Ours, Rotation
from dayleaf.trial.savings import Savings
from dayleaf.trial.stability import Stability
from dayleaf.trial.steps import Steps
from dayleaf.trial.timescales import Timescales
from dayleaf.trial.world import made_up_world, world_of
from dayleaf.trial.year import live

if TYPE_CHECKING:
    from collections.abc import Callable

    from dayleaf.trial.minds import Memory, Numbers

KINDS: list[Callable[..., Memory]] = [
    Activation, Timescales, Halflives, Stability, partial(Halflives, lapses=True), Steps, Savings,
]  # fmt: skip
WORLD = made_up_world(4, skills=10, weeks=6)
CHILDREN = 12


def memory_of(kind: Callable[..., Memory], seed: int = 1) -> Memory:
    return kind(WORLD, CHILDREN, np.random.default_rng(seed))


@pytest.mark.parametrize("kind", KINDS)
def test_practice_helps_and_a_pause_takes_away(kind: Callable[..., Memory]) -> None:
    memory = memory_of(kind)
    all_of_them, skill = np.arange(CHILDREN), np.zeros(CHILDREN, dtype=np.intp)
    start = memory.chance(all_of_them, skill, 0.0).mean()
    memory.teach(all_of_them, skill, 0.0)
    for day in range(4):
        for _ in range(3):
            memory.practise(all_of_them, skill, float(day), np.ones(CHILDREN, dtype=bool))

    after, later = (memory.chance(all_of_them, skill, day).mean() for day in (4.0, 300.0))

    assert start < later < after or start < after > later


@pytest.mark.parametrize("kind", KINDS)
def test_chances_are_chances_and_looking_changes_none(kind: Callable[..., Memory]) -> None:
    memory = memory_of(kind)
    everybody = np.arange(CHILDREN)
    memory.teach(everybody, everybody % WORLD.skills, 3.0)

    first, again = memory.chances(5.0).copy(), memory.chances(5.0)

    assert ((first > 0) & (first < 1)).all()
    assert (first == again).all()


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("policy", [Rotation, OldestFirst, Boxes, Ours])
def test_every_policy_asks_as_much_and_only_what_was_met(
    kind: Callable[..., Memory], policy: Callable[..., Rotation]
) -> None:
    chosen: list[Numbers] = []

    class Watched(policy):  # type: ignore[misc,valid-type]  # a policy as it is, overheard
        def choose(self, children: Numbers, today: Numbers, day: float, n: int) -> Numbers:
            backs: Numbers = super().choose(children, today, day, n)
            for row, child in enumerate(children):
                asked = backs[row][backs[row] >= 0]
                assert len(set(asked.tolist())) == len(asked)
                assert today[row] not in asked
                assert self.met[child, asked].all()
                assert len(asked) == min(n, self.met[child].sum() - (today[row] >= 0))
            chosen.append(backs)
            return backs

    year = live(WORLD, memory_of(kind), Watched(WORLD, CHILDREN, 3), children=CHILDREN, seed=5)

    assert len(chosen) == len(WORLD.days)
    assert year.after[0].mean() > year.after[1].mean()
    assert set(year.log.child.tolist()) == set(range(CHILDREN))


@pytest.mark.parametrize("kind", KINDS)
def test_what_is_asked_of_some_is_what_is_seen_of_all(kind: Callable[..., Memory]) -> None:
    memory = memory_of(kind)
    live(WORLD, memory, Rotation(WORLD, CHILDREN, 3), children=CHILDREN, seed=5)
    children, skills = np.divmod(np.arange(CHILDREN * WORLD.skills), WORLD.skills)

    assert memory.chance(children, skills, 80.0) == pytest.approx(memory.chances(80.0).ravel(), abs=1e-12)


def test_foresight_gains_on_rotation_where_knowing_is_all_or_none() -> None:
    world, children = made_up_world(4, skills=24, weeks=8), 24
    seen, turned = (Halflives(world, children, np.random.default_rng(1)) for _ in range(2))
    foresight, rotation = Foresight(world, children, 3, memory=seen), Rotation(world, children, 3)

    sees = live(replace(world, back=3), seen, foresight, children=children, seed=5)
    turns = live(replace(world, back=3), turned, rotation, children=children, seed=5)

    assert sees.after[0].mean() > turns.after[0].mean()


def test_a_forecast_from_a_belief_goes_on_from_there() -> None:
    world = made_up_world(4, skills=10, weeks=9, lessons=10)
    practised, fresh = Mind(world.graph), Mind(world.graph)
    for day in range(-60, 0, 3):
        for skill in range(world.skills):
            practised.answer(skill, float(day), right=True)

    knows, begins = (forecast(world, children=40, seed=2, mind=mind) for mind in (practised, fresh))

    assert np.mean(knows.firm) > np.mean(begins.firm)
    assert np.mean(knows.repeats) < np.mean(begins.repeats)


def test_children_drawn_from_a_belief_are_on_average_as_believed() -> None:
    # the logistic of a Gaussian is taken by MacKay's formula in the belief; 4000 draws know it to about .01
    world = made_up_world(4, skills=10, weeks=9, lessons=10)
    mind = Mind(world.graph)
    for day in range(0, 60, 2):
        mind.answer(day % world.skills, float(day), right=day % 3 > 0)

    drawn = Believed(mind, 4000, np.random.default_rng(1)).chances(65.0).mean(axis=0)

    beneath = np.array([len(one) for one in world.graph.beneath]) == 0
    assert drawn[beneath] == pytest.approx(look(mind, 65.0).p[beneath], abs=0.02)


def test_a_year_is_the_same_by_the_same_seed() -> None:
    def once() -> np.ndarray[tuple[int, ...], np.dtype[np.float64]]:
        year = live(WORLD, memory_of(Halflives), Ours(WORLD, CHILDREN, 3), children=CHILDREN, seed=5)
        return year.after[1]

    assert (once() == once()).all()


def test_at_its_own_pace_every_child_meets_every_skill_and_repeats_no_lesson_more_than_its_rule_allows() -> None:
    ours = Ours(WORLD, CHILDREN, 3)
    paced = Paced(WORLD, CHILDREN, ours)

    live(WORLD, memory_of(Timescales), ours, children=CHILDREN, seed=5, lessons=paced.lessons)

    assert (paced.next >= WORLD.skills - 3).all()
    assert (paced.times[:, : WORLD.skills - 3] >= 1).all()


def test_a_forecast_tells_its_progress_and_says_when_children_are_through() -> None:
    told: list[tuple[int, int]] = []
    world = made_up_world(4, skills=10, weeks=9, lessons=10)

    found = forecast(world, children=9, seed=2, watch=lambda done, total: told.append((done, total)))

    assert told[-1][0] == told[-1][1] == 3 * len(world.days)
    assert len(found.finished) == len(found.firm) == 9
    assert all(0 <= many <= found.skills == 10 for many in found.firm)
    by_half, by_most = found.finished_by(0.5), found.finished_by(1.0)
    assert by_half is not None
    assert by_most is None or by_most >= by_half
    assert sum(day <= by_half for day in found.finished) >= 4


def test_our_own_course_is_a_world_with_its_lessons_in_order() -> None:
    course = grade2()

    world = world_of(course)

    assert world.skills == len(course.skills)
    assert len(world.days) == len(world.lessons)
    taught = [day for day in course.days if day.new_skills or day.front_skills]
    assert len(taught) == len(world.lessons)
    for day, lesson in zip(taught, world.lessons, strict=True):
        assert world.graph.ids[lesson] in {*day.new_skills, *day.front_skills}
