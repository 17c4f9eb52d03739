"""The plan as a list: which lesson on which date, week by week."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby
from typing import TYPE_CHECKING, Any

from django.views.decorators.http import require_GET

from dayleaf.records import selectors
from dayleaf.records.beliefs import year_plan
from dayleaf.records.coming import lesson_named
from dayleaf.web.clock import today_for, weekday_and_date
from dayleaf.web.page import page

if TYPE_CHECKING:
    from datetime import date

    from django.http import HttpRequest, HttpResponse

    from dayleaf.plan.year import Placed
    from dayleaf.records.models import Learner


@dataclass(frozen=True, slots=True)
class Line:
    """One lesson of a week, as the page shows it."""

    date: str
    title: str
    kind: str
    past: bool
    today: bool
    done: bool


@dataclass(frozen=True, slots=True)
class Week:
    """The lessons of one week."""

    title: str
    lines: tuple[Line, ...]


@require_GET
def plan(request: HttpRequest, learner: str = "") -> HttpResponse:
    """One child's plan, the first child's where none is named."""
    household = selectors.household()
    everyone = selectors.learners(household)
    planned = [one for one in everyone if selectors.plan_version_or_none(one) is not None]
    chosen = selectors.learner_by_id(household, learner) if learner else (planned[0] if planned else None)
    values: dict[str, Any] = {"children": [{"id": one.id, "name": one.name} for one in planned]}
    if chosen is not None:
        values |= _weeks(chosen, today_for(household))
    return page(request, "plan", values, household=household, here="plan")


def _weeks(learner: Learner, today: date) -> dict[str, Any]:
    placed = year_plan(learner).placed
    taught = {lesson for (lesson, _day), said in selectors.taught_of(learner).items() if said.how_far == "done"}
    weeks = [
        Week(f"Week {number}", tuple(_line(one, today, done=one.lesson in taught) for one in group))
        for number, (_week, group) in enumerate(groupby(placed, key=lambda one: one.day.isocalendar()[:2]), start=1)
    ]
    ahead = next((n for n, week in enumerate(weeks) if any(not line.past for line in week.lines)), len(weeks))
    return {
        "name": learner.name,
        "learner": learner.id,
        "past": weeks[:ahead],
        "weeks": weeks[ahead:],
        "last": weekday_and_date(placed[-1].day) if placed else "",
        "year": placed[-1].day.year if placed else "",
    }


def _line(one: Placed, today: date, *, done: bool) -> Line:
    day = lesson_named(one.lesson)
    return Line(
        date=f"{one.day:%a} {one.day.day} {one.day:%b}",
        title=day.title,
        kind="" if day.kind == "lesson" else day.kind.replace("-", " "),
        past=one.day < today,
        today=one.day == today,
        done=done,
    )
