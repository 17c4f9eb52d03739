"""The lesson that comes and what comes back with it, kept between writes so that a page only reads."""

from __future__ import annotations

from dataclasses import dataclass
from difflib import get_close_matches
from typing import TYPE_CHECKING, Any

from dayleaf.core.errors import DayleafError
from dayleaf.core.ids import LessonId, SkillId
from dayleaf.course.load import grade2
from dayleaf.items.built import is_built
from dayleaf.learner.belief import MODEL_VERSION
from dayleaf.learner.review import Back
from dayleaf.plan.lessons import taught_by
from dayleaf.records import selectors, services
from dayleaf.records.backs import backs_for
from dayleaf.records.beliefs import year_plan
from dayleaf.records.courses import course_with
from dayleaf.records.paper import backs_that_fit
from dayleaf.records.seen import newest_marks, seen_in

if TYPE_CHECKING:
    from datetime import date

    from dayleaf.course.model import Day
    from dayleaf.records.models import Learner


class NoSuchLesson(DayleafError):
    """The course has no lesson of that name."""

    def __init__(self, name: str, near: str | None) -> None:
        hint = f"did you mean {near}" if near else "lessons are called day-001 to day-180"
        super().__init__(f"There is no lesson called {name}; {hint}.")


@dataclass(frozen=True, slots=True)
class Ahead:
    """A lesson, the day it is planned for, and what comes back with it.

    `choices` are the skills its back was chosen from, in order: the packet made from them shows `backs`.
    """

    day: Day
    on: date
    backs: tuple[Back, ...]
    choices: tuple[Back, ...]


def lesson_named(name: str) -> Day:
    """The day called so, of our course or the household's own, or given again; a bare number is that day of ours.

    Raises:
        NoSuchLesson: no course has it.
    """
    wanted = f"day-{int(name):03d}" if name.isascii() and name.isdigit() else taught_by(LessonId(name))
    course = grade2() if wanted.startswith("day-") else course_with(selectors.household(), wanted)
    days = {day.id: day for day in course.days}
    found = days.get(LessonId(wanted))
    if found is None:
        raise NoSuchLesson(name, next(iter(get_close_matches(name, days, n=1)), None))
    return found


def coming_lesson(learner: Learner, *, after: date) -> Day | None:
    """The next lesson planned after a day; None at the end of the plan."""
    following = year_plan(learner).next_days(after, 1)
    return lesson_named(following[0].lesson) if following else None


def look_ahead(learner: Learner, lesson: Day, *, today: date) -> Ahead:
    """What comes back with a lesson, by all that is known today; worked out only where it was not kept."""
    on = _planned(learner, lesson, today=today)
    kept: Any = selectors.cached(learner, _kind(lesson), MODEL_VERSION)
    if kept is not None:
        return _ahead(lesson, on, kept)
    course = course_with(learner.household, lesson.id)
    choices = _with_remedy(learner, lesson, backs_for(learner, course, lesson, day=on, upto=today))
    backs = backs_that_fit(learner, lesson, choices)
    services.cache_keep(
        learner=learner,
        kind=_kind(lesson),
        model_version=MODEL_VERSION,
        payload=[[back.skill, back.why, back in backs] for back in choices],
    )
    return Ahead(lesson, on, backs, choices)


def ahead_kept(learner: Learner, lesson: Day, *, today: date) -> Ahead | None:
    """The same for a page that only reads: None where it was not worked out since the last event."""
    kept: Any = selectors.cached(learner, _kind(lesson), MODEL_VERSION)
    return None if kept is None else _ahead(lesson, _planned(learner, lesson, today=today), kept)


def backs_last_chosen(learner: Learner, lesson: Day) -> tuple[Back, ...]:
    """What was chosen last for a lesson, up to date or not: of a printed lesson, why its paper is as it is."""
    data, _last = selectors.cached_once(learner, _kind(lesson), MODEL_VERSION)
    return _read(data) if data is not None else ()


def _ahead(lesson: Day, on: date, kept: Any) -> Ahead:
    return Ahead(lesson, on, _read(kept), tuple(Back(SkillId(skill), why) for skill, why, _printed in kept))


def _with_remedy(learner: Learner, lesson: Day, backs: tuple[Back, ...]) -> tuple[Back, ...]:
    """The backs with the skill first where a habit seen in the newest marks begins, if it can be printed.

    Where that skill is the lesson's own, the first one that it rests on comes instead.
    """
    seen = seen_in(learner, newest_marks(learner))
    likeliest = seen.error or next(iter(seen.rivals), None)
    way = grade2().error_ways.get(likeliest) if likeliest else None
    begins = way.goes_to if way else None
    if begins is None:
        return backs
    beneath = (begins, *grade2().skills[begins].prereqs)
    skill = next((one for one in beneath if is_built(one) and one not in lesson.front_skills), None)
    if skill is None:
        return backs
    others = tuple(back for back in backs if back.skill != skill)
    why = "where the habit begins" if seen.error else "where such answers may begin"
    return (Back(skill, why), *others[: max(len(backs) - 1, 0)])


def _read(data: Any) -> tuple[Back, ...]:
    return tuple(Back(SkillId(skill), why) for skill, why, printed in data if printed)


def _kind(lesson: Day) -> str:
    return f"backs of {lesson.id}"


def _planned(learner: Learner, lesson: Day, *, today: date) -> date:
    """The planned day of a lesson, or today for one that is past, left out or not planned."""
    placed = {one.lesson: one.day for one in year_plan(learner).placed}
    return max(placed.get(lesson.id, today), today)
