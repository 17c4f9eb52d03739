"""The week: every child's days, one list of what to get ready, and one print run."""

from __future__ import annotations

from datetime import date, timedelta
from itertools import groupby
from typing import TYPE_CHECKING, Any, Final

from django.http import Http404, HttpResponse
from django.shortcuts import redirect
from django.urls import reverse
from django.utils.translation import gettext, ngettext
from django.views.decorators.http import require_GET, require_POST

from dayleaf.core.errors import BadInput, Problem
from dayleaf.core.ids import LearnerId
from dayleaf.course.load import grade2
from dayleaf.packets.week import need_line, week_sheet
from dayleaf.records import getting_ready, selectors
from dayleaf.records.print_run import RunPart, run_files
from dayleaf.records.weeks import learner_of, mornings_of, week_of
from dayleaf.sheets.model import Look
from dayleaf.sheets.weeks import typeset_week
from dayleaf.web import week_printing
from dayleaf.web.clock import today_for
from dayleaf.web.page import page
from dayleaf.wording.page import page_word

if TYPE_CHECKING:
    from django.http import HttpRequest

    from dayleaf.plan.week import Need, PrintLine, Week
    from dayleaf.records.models import Household, Learner

GROUPS: Final = ("buy", "cut", "print", "fetch", "have")
PAPERS: Final = ("pages", "guides", "keys")
WHOLE: Final = "whole"
"""The name of the button that prints the later days too."""


@require_GET
def week(request: HttpRequest) -> HttpResponse:
    """The week that holds the day asked for, or the one that comes."""
    household = selectors.household()
    values = _values(household, _day(request.GET.get("from")))
    return page(request, "week", values, household=household, here="week")


@require_POST
def ready(request: HttpRequest) -> HttpResponse:
    """Keep what is ticked on the prep list."""
    household = selectors.household()
    on = _day(request.POST.get("week")) or today_for(household)
    what, says = request.POST.get("what", ""), request.POST.get("ready", "")
    if not what or says not in {"yes", "no"}:
        raise BadInput([Problem("ready", "name a thing of the list, and yes or no")])
    getting_ready.ready_set(household, week=on, what=what, ready=says == "yes")
    return _again(request, household, on, "_ready")


@require_POST
def print_run(request: HttpRequest) -> HttpResponse:
    """Begin the print run of a week: the days that are firm, or the whole week."""
    household = selectors.household()
    today, on = today_for(household), _day(request.POST.get("week"))
    learners = selectors.learners(household)
    found = week_of(learners, today=today, on=on)
    wanted = {line.day for line in found.run if line.firm or WHOLE in request.POST}
    lessons = [one for one in found.lessons if one.day in wanted and one.day >= today]
    if lessons:
        week_printing.print_soon(household.id, lessons, first=found.first, today=today)
    return _again(request, household, found.first, "_run")


@require_GET
def sheet(request: HttpRequest) -> HttpResponse:
    """The week sheet as a page of paper."""
    household = selectors.household()
    learners = selectors.learners(household)
    found = week_of(learners, today=today_for(household), on=_day(request.GET.get("from")))
    made = week_sheet(
        found,
        course=grade2(),
        names=_names(learners),
        mornings=mornings_of(household, learners, found),
        little_one=household.younger_child,
    )
    look = Look("a4" if household.paper == "a4" else "letter")
    return _pdf(typeset_week(made, look), f"week {found.first}.pdf")


@require_GET
def paper(request: HttpRequest, first: str, paper: str) -> HttpResponse:
    """What is printed of a week, bound in the order of use."""
    del request
    household, on = selectors.household(), _day(first)
    if on is None or paper not in PAPERS:
        raise Http404
    learners, today = selectors.learners(household), today_for(household)
    found = week_of(learners, today=today, on=on)
    there = {(line.learner, line.lesson) for line in found.run if line.printed}
    parts = []
    for one in found.lessons:
        if one.day >= today and (one.learner, one.lesson.id) in there:
            learner = learner_of(learners, one)
            parts.append(RunPart(learner, one.day, one.lesson, selectors.print_of(learner, one.lesson.id)))
    if not parts:
        raise Http404
    return _pdf(getattr(run_files(parts), paper), f"{paper} {found.first}.pdf")


def _pdf(content: bytes, name: str) -> HttpResponse:
    response = HttpResponse(content, content_type="application/pdf")
    response.headers["Content-Disposition"] = f'inline; filename="{name}"'
    response.headers["Cache-Control"] = "private, no-store"
    return response


def _again(request: HttpRequest, household: Household, on: date, part: str) -> HttpResponse:
    if getattr(request, "htmx", False):
        return page(request, part, _values(household, on), household=household)
    return redirect(f"{reverse('week')}?from={on.isoformat()}#{part.removeprefix('_')}")


def _day(text: str | None) -> date | None:
    try:
        return date.fromisoformat(text) if text else None
    except ValueError:
        raise BadInput([Problem("day", "write a date such as 2027-01-12")]) from None


def _names(learners: tuple[Learner, ...]) -> dict[LearnerId, str]:
    return {LearnerId(learner.id): learner.name for learner in learners}


def _values(household: Household, on: date | None) -> dict[str, Any]:
    today, learners = today_for(household), selectors.learners(household)
    found = week_of(learners, today=today, on=on)
    names = _names(learners)
    said = week_sheet(found, course=grade2(), names=names, mornings={}, little_one=household.younger_child)
    run = week_printing.run_of(household.id, first=found.first)
    return {
        "title": said.title,
        "under": said.under,
        "first": found.first.isoformat(),
        "before": (found.first - timedelta(days=7)).isoformat(),
        "after": (found.first + timedelta(days=7)).isoformat(),
        "days": _days(found, names, today),
        "groups": _groups(found, names, household),
        "facts": [(label, text) for label, text in said.facts if label != page_word("week-run", said.lang)],
        "run": run,
        "printed": [line for line in found.run if line.printed],
        "firm": _told([line for line in found.run if line.firm and not line.printed]),
        "later": _told([line for line in found.run if not line.firm and not line.printed]),
        "papers": [(name, title) for name, title in zip(PAPERS, _papers(), strict=True)],
    }


def _papers() -> tuple[str, ...]:
    return gettext("the pages"), gettext("the guides"), gettext("the keys")


def _told(lines: list[PrintLine]) -> dict[str, Any] | None:
    """Which days and how many sheets; None where there are none."""
    if not lines:
        return None
    n = sum(line.sheets for line in lines)
    days = list(dict.fromkeys(f"{line.day:%A}" for line in lines))
    listed = " and ".join([", ".join(days[:-1]), days[-1]] if len(days) > 1 else days)
    return {"days": listed, "sheets": ngettext("%(n)d sheet", "%(n)d sheets", n) % {"n": n}}


def _days(found: Week, names: dict[LearnerId, str], today: date) -> list[dict[str, Any]]:
    days = []
    printed = {(line.learner, line.lesson) for line in found.run if line.printed}
    for day, group in groupby(found.lessons, key=lambda one: one.day):
        lessons = list(group)
        days.append(
            {
                "weekday": f"{day:%A}",
                "date": f"{day.day} {day:%B}",
                "today": day == today,
                "past": day < today,
                "with_you": sum(one.lesson.parent_minutes for one in lessons),
                "lessons": [
                    {
                        "name": names[one.learner],
                        "title": one.lesson.title,
                        "number": one.lesson.number,
                        "with_you": one.lesson.parent_minutes,
                        "alone": one.lesson.child_minutes,
                        "printed": (one.learner, one.lesson.id) in printed,
                    }
                    for one in lessons
                ],
            }
        )
    return days


def _groups(found: Week, names: dict[LearnerId, str], household: Household) -> list[dict[str, Any]]:
    """The prep list in its five parts; what was bought or cut for an earlier lesson stands last."""
    titles = {
        "buy": gettext("Buy"),
        "cut": gettext("Cut out"),
        "print": gettext("Print"),
        "fetch": gettext("Fetch"),
        "have": gettext("There from before"),
    }
    ticked = getting_ready.ready_of(household, week=found.first)
    groups = []
    for kind in GROUPS:
        lines = []
        for need in found.prep:
            if _kind(need) == kind:
                line, name = need_line(need, names, little_one=household.younger_child), getting_ready.need_name(need)
                lines.append({"line": line, "name": name, "ready": name in ticked, "minutes": need.minutes})
        if lines:
            groups.append({"title": titles[kind], "lines": lines})
    return groups


def _kind(need: Need) -> str:
    return "have" if need.kind == "fetch" and need.material.source != "home" else need.kind
