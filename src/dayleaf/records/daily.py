"""How far a day's lesson went, in one touch, and what that moves: a lesson not taught today comes next time."""

from __future__ import annotations

from typing import TYPE_CHECKING, get_args

from django.db import transaction

from dayleaf.core.errors import BadInput, Problem
from dayleaf.events.model import HowFar
from dayleaf.records import desk, replans, selectors, services
from dayleaf.records.coming import lesson_named

if TYPE_CHECKING:
    from datetime import date

    from dayleaf.records.models import Learner

NOT_TODAY = "not today"


@transaction.atomic
def lesson_said(learner: Learner, lesson: str, how_far: str, *, today: date) -> None:
    """Keep what was said of a lesson today. `not today` moves the plan on by a day; taking it back moves it back.

    Raises:
        BadInput: the word is none of ours.
        NoSuchLesson: the lesson is none of the course's.
    """
    day = lesson_named(lesson)
    word: HowFar | None = next((one for one in get_args(HowFar) if one == how_far), None)
    if word is None:
        raise BadInput([Problem("how far", f"{how_far!r} is not one of {', '.join(get_args(HowFar))}")])
    before = selectors.said_on(learner, today).get(day.id)
    if (before.how_far if before else "not said") == word:
        return
    if before is not None and before.how_far == NOT_TODAY and _moved_today(learner, today):
        replans.year_undo(learner, today=today)
    skills = tuple(dict.fromkeys((*day.new_skills, *day.front_skills)))
    services.day_taught(learner=learner, lesson=day.id, how_far=word, skills=skills, day=today)
    if word == NOT_TODAY:
        replans.day_lost(learner, today=today, reason=_reason(today))
    desk.refresh(learner, today=today)


def _moved_today(learner: Learner, today: date) -> bool:
    version = selectors.plan_version_or_none(learner)
    return version is not None and version.reason == _reason(today)


def _reason(today: date) -> str:
    return f"no lesson on {today}"
