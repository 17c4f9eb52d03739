"""The year of one child: its months, what can be changed, what happens when life happens, undo, the calendar file."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.http import HttpResponse
from django.shortcuts import redirect
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_POST

from dayleaf.core.errors import BadInput, Problem
from dayleaf.records import cards, feeds, replans, selectors
from dayleaf.records.plans import home_year, kept_year
from dayleaf.web.clock import today_for
from dayleaf.web.page import page
from dayleaf.web.year_asked import asked_in, beside_in
from dayleaf.web.year_shown import shown_refusal, shown_ways, shown_year

if TYPE_CHECKING:
    from django.http import HttpRequest

    from dayleaf.records.models import Household, Learner
    from dayleaf.web.year_asked import Asked


@require_GET
def year(request: HttpRequest, learner: str = "") -> HttpResponse:
    """One child's year, the first child's where none is named."""
    household = selectors.household()
    return _page(request, household, _child(household, learner), {})


@require_POST
def change(request: HttpRequest, learner: str) -> HttpResponse:
    """Change the year as asked, or show what is to be decided first: the ways on, or the ways out of a no."""
    household = selectors.household()
    child = selectors.learner_by_id(household, learner)
    home = home_year(selectors.learners(household), today=today_for(household))
    asked = asked_in(request.POST, home, child)
    shown = _happened(request, home, asked) if asked.happened else _bent(request, home, asked)
    if shown is not None:
        again = [(name, one) for name, each in request.POST.lists() for one in each if name not in NOT_AGAIN]
        return _page(request, household, child, {**shown, "again": again, "reason": asked.reason}, status=200)
    return _done(request, household, child)


@require_POST
def undo(request: HttpRequest, learner: str) -> HttpResponse:
    """Put the plan before this one in force again."""
    household = selectors.household()
    child = selectors.learner_by_id(household, learner)
    replans.year_undo(child, today=today_for(household))
    return _done(request, household, child)


@require_POST
def busy(request: HttpRequest, learner: str) -> HttpResponse:
    """Read the family's own calendar file, or put it away."""
    household = selectors.household()
    child = selectors.learner_by_id(household, learner)
    home = home_year(selectors.learners(household), today=today_for(household))
    file = request.FILES.get("calendar")
    if file is None:
        replans.busy_taken(replans.busy_changed(home, ()), (), name="")
        return _done(request, household, child)
    outcome, times, problems = replans.busy_read(home, file.read())
    if not times:
        raise BadInput(problems or [Problem(_("Calendar"), _("nothing in this file takes time in your year"))])
    if outcome.refusal is not None:
        return _page(request, household, child, {"refusal": shown_refusal(outcome.refusal, home, chosen=False)})
    replans.busy_taken(outcome, times, name=file.name or "calendar.ics")
    return _done(request, household, child)


@require_POST
def beside(request: HttpRequest, learner: str) -> HttpResponse:
    """Plan another course of the child, or end one."""
    household = selectors.household()
    child, today = selectors.learner_by_id(household, learner), today_for(household)
    ended = request.POST.get("ends", "")
    if ended:
        replans.course_ended(child, ended, today=today, reason=_("no more %(course)s") % {"course": ended})
        return _done(request, household, child)
    run = beside_in(request.POST, child, kept_year(child).main.run.calendar, today)
    no = replans.course_beside(child, run, today=today, reason=_("%(course)s beside it") % {"course": run.course})
    if no is not None:
        raise BadInput([Problem(run.course, no.says)])
    return _done(request, household, child)


@require_GET
def calendar(request: HttpRequest, learner: str = "") -> HttpResponse:
    """The plans as a calendar file: of one child, or of all."""
    del request
    household = selectors.household()
    children = (selectors.learner_by_id(household, learner),) if learner else selectors.learners(household)
    answer = HttpResponse(feeds.calendar_of(household, children), content_type="text/calendar; charset=utf-8")
    answer.headers["Content-Disposition"] = 'attachment; filename="dayleaf.ics"'
    return answer


NOT_AGAIN = frozenset({"csrfmiddlewaretoken", "way"})


def _happened(request: HttpRequest, home: Any, asked: Asked) -> dict[str, Any] | None:
    ways = replans.life_ways(home, asked.happened)
    chosen = next((one for one in ways if one.way == request.POST.get("way")), None)
    if chosen is None:
        return {"ways": shown_ways(ways, home)}
    replans.bent_keep(home, chosen, reason=f"{asked.reason}", happened=asked.happened)
    return None


def _bent(request: HttpRequest, home: Any, asked: Asked) -> dict[str, Any] | None:
    assert asked.family is not None, "one of the two"  # noqa: S101 (as asked)
    outcome = replans.outcome_of(home, asked.family, anew=asked.anew)
    if outcome.refusal is not None and request.POST.get("way"):
        outcome = replans.way_taken(home, outcome.refusal, request.POST["way"]) or outcome
    if outcome.bent is None:
        return {"refusal": shown_refusal(outcome.refusal, home)}
    country = request.POST.get("country")
    replans.bent_keep(home, outcome.bent, reason=asked.reason, family=outcome.family, country=country)
    return None


def _done(request: HttpRequest, household: Household, child: Learner) -> HttpResponse:
    cards.cards_prepare(household, today=today_for(household))
    if getattr(request, "htmx", False):
        return _page(request, household, child, {})
    return redirect("year-of", learner=child.id)


def _child(household: Household, learner: str) -> Learner | None:
    if learner:
        return selectors.learner_by_id(household, learner)
    everyone = selectors.learners(household)
    return next((one for one in everyone if selectors.plan_version_or_none(one) is not None), None)


def _page(
    request: HttpRequest, household: Household, child: Learner | None, more: dict[str, Any], *, status: int = 200
) -> HttpResponse:
    country = request.GET.get("country")
    values = {**shown_year(household, child, today=today_for(household), country=country), **more}
    values["address"] = request.build_absolute_uri("/year/calendar.ics")
    template = "_year" if getattr(request, "htmx", False) else "year"
    return page(request, template, values, household=household, here="year", status=status)
