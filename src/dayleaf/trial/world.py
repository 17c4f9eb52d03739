"""The course and the calendar in which virtual children live: skills, lessons in order, days of learning."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from dayleaf.core.ids import SkillId
from dayleaf.learner.graph import graph_of, graph_of_links

if TYPE_CHECKING:
    from collections.abc import Container

    from numpy.typing import NDArray

    from dayleaf.core.ids import LessonId
    from dayleaf.course.model import Course
    from dayleaf.learner.graph import Graph

    Floats = NDArray[np.float64]
    Numbers = NDArray[np.intp]
    Truths = NDArray[np.bool_]

WEEK = 7


@dataclass(frozen=True, slots=True)
class World:
    """One year of one course. `lessons` are skills by number in the order taught; `days` the days of learning.

    A day has one lesson of `front` items and a back of `back` items. `prior` are skills that children bring along.
    """

    graph: Graph
    lessons: tuple[int, ...]
    days: tuple[int, ...]
    front: int = 6
    back: int = 6
    prior: frozenset[int] = frozenset()

    @property
    def skills(self) -> int:
        """How many skills there are."""
        return len(self.graph.ids)

    def mean_below(self, chances: Floats) -> Floats:
        """The mean of `chances` (children by skills) over what lies beneath each skill; 1 where nothing does."""
        below = self.graph.below
        mean = np.ones_like(chances)
        some = below.many > 0
        if some.any():
            total = np.add.reduceat(chances[:, below.lower], below.first[some], axis=1)
            mean[:, some] = total / below.many[some]
        return mean


def made_up_world(seed: int, *, skills: int = 60, weeks: int = 36, days_a_week: int = 5, lessons: int = 0) -> World:
    """A course drawn by seed: each skill rests on none to three of the twelve before it; lessons evenly spread.

    Half of the lessons are second days of a skill taught the day before (`lessons` 0: as many as there are days).
    """
    chance = np.random.default_rng(seed)
    ids = [SkillId(f"skill-{number:03d}") for number in range(skills)]
    links = {}
    for number, skill in enumerate(ids):
        near = ids[max(0, number - 12) : number]
        many = min(len(near), int(chance.choice(4, p=(0.15, 0.4, 0.3, 0.15))))
        links[skill] = tuple(near[place] for place in sorted(chance.choice(len(near), many, replace=False)))
    days = tuple(WEEK * week + day for week in range(weeks) for day in range(days_a_week))
    total = lessons or len(days)
    order = tuple(int(place) for place in np.sort(np.arange(total) * skills // total))
    return World(graph=graph_of_links(links), lessons=order, days=days)


def world_of(
    course: Course, days: tuple[int, ...] | None = None, *, lessons: Container[LessonId] | None = None
) -> World:
    """The course as a world: each lesson day teaches its first new skill (or the first on its front).

    `lessons` keeps only those; `days` left out are weekdays in a row.
    """
    graph = graph_of(course)
    kept = (day for day in course.days if lessons is None or day.id in lessons)
    taught = [(*day.new_skills, *day.front_skills)[:1] for day in kept]
    numbers = tuple(graph.number[skills[0]] for skills in taught if skills)
    return World(
        graph=graph,
        lessons=numbers,
        days=days or tuple(WEEK * (place // 5) + place % 5 for place in range(len(numbers))),
        prior=frozenset(number for number, level in enumerate(graph.level) if level > 0),
    )
