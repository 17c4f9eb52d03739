"""Which earlier skills come back for a child on a day: the same answer for the page, the print and the marks."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.seeds import seed_from
from dayleaf.items.built import is_built
from dayleaf.learner.review import choose_back, needed_soon
from dayleaf.packets.pages import BACK_CHOICES
from dayleaf.records.beliefs import beliefs_now, year_plan

if TYPE_CHECKING:
    from datetime import date

    from dayleaf.core.ids import SkillId
    from dayleaf.course.model import Course, Day
    from dayleaf.learner.belief import Beliefs
    from dayleaf.learner.review import Back
    from dayleaf.plan.run import RunPlan
    from dayleaf.records.models import Learner

DAYS_AHEAD = 5
"""How far ahead a coming lesson pulls the skills beneath it back (DESIGN 9)."""


def backs_for(
    learner: Learner, course: Course, lesson: Day, *, day: date, upto: date | None = None
) -> tuple[Back, ...]:
    """What comes back on `day` with `lesson`, by what is known up to the day `upto` (left out: `day`).

    Raises:
        NoPlan: the child has no plan.
    """
    beliefs = beliefs_now(learner, course, upto=upto or day)
    return backs_from(beliefs, learner, course, lesson, plan=year_plan(learner), day=day)


def backs_from(
    beliefs: Beliefs, learner: Learner, course: Course, lesson: Day, *, plan: RunPlan, day: date
) -> tuple[Back, ...]:
    """The same from beliefs at hand, so that two states of belief can be compared."""
    lessons = {one.id: one for one in course.days}
    coming = [(placed.day, lessons[placed.lesson]) for placed in plan.next_days(day, DAYS_AHEAD)]
    return choose_back(
        beliefs,
        candidates=met_before(course, lesson),
        today_skills=frozenset((*lesson.front_skills, *lesson.new_skills)),
        soon=needed_soon(course, coming),
        day=day,
        n=BACK_CHOICES,
        seed=seed_from(learner.household_id, learner.id, lesson.id, "back"),
        default=lesson.back_skills,
    )


def met_before(course: Course, lesson: Day) -> tuple[SkillId, ...]:
    """The skills met on the days before `lesson` whose items can be made today, in the order of meeting."""
    met: dict[SkillId, None] = {}
    for day in course.days[: lesson.number - 1]:
        met.update(dict.fromkeys((*day.refresh_skills, *day.new_skills, *day.front_skills)))
    met.update(dict.fromkeys(lesson.back_skills))
    return tuple(skill for skill in met if is_built(skill))
