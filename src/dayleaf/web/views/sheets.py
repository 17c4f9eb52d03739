"""Sheets: which wait for marks, and marking one by exception."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.shortcuts import redirect
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from dayleaf.core.errors import BadInput, Problem
from dayleaf.course.load import grade2
from dayleaf.marking.mark import score
from dayleaf.records import cards, desk, selectors, services
from dayleaf.records.coming import lesson_named
from dayleaf.records.photos import sides_seen
from dayleaf.web.clock import today_for, weekday_and_date
from dayleaf.web.entry import SEEN, SIDES, entry_from, shown_sides
from dayleaf.web.page import page
from dayleaf.web.result import shown_misses, shown_result

if TYPE_CHECKING:
    from datetime import date

    from django.http import HttpRequest, HttpResponse

    from dayleaf.events.model import Marked
    from dayleaf.records.models import Household, SheetRow

RECENT = 12
MENDED = ("alone", "with help", "not so")


@require_GET
def sheets(request: HttpRequest) -> HttpResponse:
    """The sheets that wait, and the last ones that were marked."""
    household = selectors.household()
    waiting = selectors.sheets_unmarked(*selectors.learners(household))
    marked = selectors.sheets_marked_lately(household, RECENT)
    values = {
        "waiting": [_line(sheet) for sheet in waiting],
        "marked": [{**_line(sheet), "score": _score(marking)} for sheet, marking in marked],
    }
    return page(request, "sheets", values, household=household, here="mark")


@require_http_methods(["GET", "POST"])
def sheet(request: HttpRequest, sheet_id: str) -> HttpResponse:
    """Mark one sheet: all right, except what is touched."""
    household = selectors.household()
    found = selectors.sheet_find(household, sheet_id)
    today = today_for(household)
    if request.method == "POST":
        return _marked(request, household, found, today)
    values = {**_about(found), "sides": shown_sides(found, selectors.marking_of(found))}
    return page(request, "mark", values, household=household, here="mark")


@require_POST
def mended(request: HttpRequest, sheet_id: str) -> HttpResponse:
    """Keep that the child mended a miss at the table, alone or with help, or take that back."""
    household = selectors.household()
    found = selectors.sheet_find(household, sheet_id)
    n, how = request.POST.get("n", ""), request.POST.get("how", "")
    misses = {str(one["n"]): one for one in shown_misses(found)}
    if n not in misses or how not in MENDED:
        raise BadInput([Problem("mended", "name a miss of this sheet, and alone, with help or not so")])
    services.item_mend(
        sheet=found, n=int(n), with_help=how == "with help", taken_back=how == "not so", day=today_for(household)
    )
    if getattr(request, "htmx", False):
        return page(request, "_mended", {"sheet": sheet_id, "misses": shown_misses(found)}, household=household)
    return redirect("sheet", sheet_id=found.sheet_id)


def _marked(request: HttpRequest, household: Household, found: SheetRow, today: date) -> HttpResponse:
    values: dict[str, Any] = _about(found)
    status = 200
    try:
        marking = desk.sheet_mark(found, today=today, **entry_from(request.POST))
    except BadInput as bad:
        values["problems"] = bad.problems
        status = 422
    else:
        cards.cards_prepare(household, today=today)
        values["result"] = shown_result(marking, grade2())
        values["misses"] = shown_misses(found)
    if getattr(request, "htmx", False):
        return page(request, "_result", values, household=household, status=status)
    values["sides"] = shown_sides(found, selectors.marking_of(found), request.POST)
    return page(request, "mark", values, household=household, here="mark", status=status)


def _about(found: SheetRow) -> dict[str, Any]:
    lesson = lesson_named(found.lesson)
    pages = selectors.pages_of(found)
    return {
        "sheet": found.sheet_id,
        "name": found.learner.name,
        "lesson": lesson,
        "marked_before": selectors.marking_of(found) is not None,
        "misses": shown_misses(found),
        "seen_words": SEEN,
        "photographed": bool(sides_seen(found)),
        "last": max((item.n for one in pages for item in one.items), default=0),
        "numbers": [item.n for one in pages for item in one.items],
    }


def _line(found: SheetRow) -> dict[str, Any]:
    return {
        "sheet": found.sheet_id,
        "name": found.learner.name,
        "title": lesson_named(found.lesson).title,
        "sides": " and ".join(SIDES[one.kind].lower() for one in selectors.pages_of(found)).replace(
            "practice sheet, front and practice sheet, back", "practice sheet"
        ),
        "day": weekday_and_date(found.printed.day),
    }


def _score(marking: Marked) -> str:
    right, of = score(marking.items)
    return f"{right} of {of} right"
