"""What a child is believed to know, kept between writes: a cache of the log, equal to reading the log afresh."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.learner.belief import MODEL_VERSION, EventsReachBack, fold, resume
from dayleaf.learner.codec import StaleBeliefs, beliefs_from_data, beliefs_to_data
from dayleaf.records import selectors, services
from dayleaf.records.plans import kept_year, kept_year_or_none

if TYPE_CHECKING:
    from datetime import date

    from dayleaf.core.ids import SkillId
    from dayleaf.course.model import Course
    from dayleaf.learner.belief import Beliefs
    from dayleaf.plan.run import RunPlan
    from dayleaf.records.models import Learner

KIND = "beliefs"


def beliefs_kept(learner: Learner, course: Course) -> Beliefs | None:
    """The beliefs after the child's last event, if they were kept; never reads the log."""
    data = selectors.cached(learner, KIND, MODEL_VERSION)
    if data is None:
        return None
    try:
        return beliefs_from_data(data, course)
    except StaleBeliefs:
        return None


def beliefs_now(learner: Learner, course: Course, *, upto: date) -> Beliefs:
    """The beliefs with everything up to the day `upto`, kept for the pages; reads the whole log only if it must."""
    kept = beliefs_kept(learner, course)
    if kept is not None and kept.upto == upto:
        return kept
    beliefs = _read_on(learner, course, upto) or fold(
        selectors.events_of(learner), course, upto=upto, brought=brought_by(learner, course)
    )
    services.cache_keep(
        learner=learner,
        kind=KIND,
        model_version=MODEL_VERSION,
        payload=beliefs_to_data(beliefs),
    )
    return beliefs


def _read_on(learner: Learner, course: Course, upto: date) -> Beliefs | None:
    """What was kept before with the later events added; None where they change something that was read already."""
    data, last = selectors.cached_once(learner, KIND, MODEL_VERSION)
    if last is None:
        return None
    try:
        before = beliefs_from_data(data, course)
        if before.upto > upto or before.brought != brought_by(learner, course):
            return None
        if selectors.was_dated_ahead(learner, last, of=before.upto):
            return None
        return resume(before, selectors.events_since(learner, last), upto=upto)
    except (StaleBeliefs, EventsReachBack):
        return None


def year_plan(learner: Learner) -> RunPlan:
    """The plan in force of the course with pages. Raises `NoPlan`."""
    return kept_year(learner).main


def brought_by(learner: Learner, course: Course) -> frozenset[SkillId]:
    """Skills of the lessons before the first one planned: the child is taken to bring them along."""
    year = kept_year_or_none(learner)
    if year is None:
        return frozenset()
    planned = {placed.lesson for placed in year.main.placed}
    first = next((place for place, day in enumerate(course.days) if day.id in planned), 0)
    return frozenset(skill for day in course.days[:first] for skill in (*day.new_skills, *day.refresh_skills))
