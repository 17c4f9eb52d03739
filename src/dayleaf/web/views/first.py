"""The first visit: three questions, then today's pages can be printed."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import TYPE_CHECKING, Any

from django.conf import settings
from django.db import transaction
from django.shortcuts import redirect
from django.utils import timezone
from django.views.decorators.http import require_http_methods

from dayleaf.core.errors import BadInput, Problem
from dayleaf.core.ids import CourseId, LearnerId
from dayleaf.plan.calendar import WEEKDAYS, LearningCalendar
from dayleaf.plan.lessons import our_courses
from dayleaf.plan.run import CourseRun
from dayleaf.records import cards, people
from dayleaf.records.naming import zone_problems
from dayleaf.records.replans import year_begin
from dayleaf.web.clock import today_for
from dayleaf.web.page import household_or_none, page

if TYPE_CHECKING:
    from django.http import HttpRequest, HttpResponse, QueryDict

    from dayleaf.plan.priced_ways import Refusal

CHILDREN = 4
MINUTES = 60
"""Minutes a learning day has for mathematics: the upper end of 30 to 60 (common practice, no source)."""
AMERICAS = "America/"
OURS = CourseId("grade2")
FIRST_CHOICE = frozenset({0, 1, 2, 3, 4})


@require_http_methods(["GET", "POST"])
def first_visit(request: HttpRequest) -> HttpResponse:
    """Who learns, on which days, from when."""
    if household_or_none() is not None:
        return redirect("today")
    if request.method == "POST":
        try:
            _begin(request.POST)
        except BadInput as bad:
            return page(request, "first", _asked(request.POST, bad), household=None, status=422)
        return redirect("today")
    return page(request, "first", _asked(None, None), household=None)


@transaction.atomic
def _begin(answers: QueryDict) -> None:
    """Make the household, its children and their plans, or nothing. Raises `BadInput` with all problems."""
    problems: list[Problem] = []
    names = [name.strip() for name in answers.getlist("name") if name.strip()]
    if not names:
        problems.append(Problem("Who learns", "write at least one name; a nickname is enough"))
    weekdays = sorted({int(day) for day in answers.getlist("weekday") if day in {"0", "1", "2", "3", "4", "5", "6"}})
    if not weekdays:
        problems.append(Problem("Which days", "choose at least one weekday"))
    start = _date(answers.get("start", ""))
    if start is None:
        problems.append(Problem("From when", "write a date such as 2027-01-12"))
    zone = answers.get("time_zone") or "UTC"
    if zone_problems("time zone", zone):
        zone = "UTC"
    if problems or start is None:
        raise BadInput(problems)
    household = people.household_create(
        name="Our household", time_zone=zone, paper="letter" if zone.startswith(AMERICAS) else "a4"
    )
    children = [people.learner_add(household=household, name=name) for name in names]
    run = CourseRun(
        learner=LearnerId(""),
        course=OURS,
        lessons=our_courses()[OURS],
        calendar=LearningCalendar(start=start, minutes=dict.fromkeys(weekdays, MINUTES)),
    )
    today = today_for(household)
    no: Refusal | None = None
    for shorter in (False, True):
        run = replace(run, may_join=shorter, may_leave_out=shorter)
        runs = {child: replace(run, learner=LearnerId(child.id)) for child in children}
        no = year_begin(runs, today=today)
        if no is None:
            break
    if no is not None:
        raise BadInput([Problem("Which days", f"{no.says} Choose one weekday more.")])
    cards.cards_prepare(household, today=today_for(household))


def _asked(answers: QueryDict | None, bad: BadInput | None) -> dict[str, Any]:
    """The questions with the answers given so far."""
    names = answers.getlist("name") if answers else []
    chosen = {int(day) for day in answers.getlist("weekday") if day.isdigit()} if answers else FIRST_CHOICE
    start = answers.get("start", "") if answers else _first_day().isoformat()
    return {
        "names": [names[n] if n < len(names) else "" for n in range(CHILDREN)],
        "weekdays": [{"n": n, "name": name[:3], "on": n in chosen} for n, name in enumerate(WEEKDAYS)],
        "start": start,
        "problems": bad.problems if bad else (),
    }


def _date(text: str) -> date | None:
    try:
        return date.fromisoformat(text)
    except ValueError:
        return None


def _first_day() -> date:
    """The day that the question offers: today, before the household can say where it lives."""
    fixed: date | None = getattr(settings, "TODAY", None)
    return fixed or timezone.localdate()
