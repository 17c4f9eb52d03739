"""The day: one screen that says what happens this morning, prints it, and keeps how far it went."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.shortcuts import redirect
from django.urls import reverse
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from dayleaf.core.errors import BadInput, Problem
from dayleaf.records import cards, daily, desk, selectors, services
from dayleaf.records.cards import Card, DayOff, at_table
from dayleaf.records.coming import lesson_named
from dayleaf.records.mornings import morning_of
from dayleaf.records.notes import notes_on
from dayleaf.web.clock import today_for, weekday_and_date
from dayleaf.web.page import household_or_none, page
from dayleaf.web.shown import shown_card, shown_morning, shown_note, shown_unmarked

if TYPE_CHECKING:
    from django.http import HttpRequest, HttpResponse

    from dayleaf.core.ids import LessonId
    from dayleaf.events.model import Noted
    from dayleaf.records.models import Household

PAPERS = ("pages", "guide", "key")
LONGEST_NOTE = 400


@require_GET
def today(request: HttpRequest) -> HttpResponse:
    """Today's page, or the three questions where there is no household yet."""
    household = household_or_none()
    if household is None:
        return redirect("first-visit")
    return page(request, "today", _day(household), household=household, here="today")


@require_POST
def prepare(request: HttpRequest) -> HttpResponse:
    """Work out what today's page could not find, and give the day again."""
    household = selectors.household()
    cards.cards_prepare(household, today=today_for(household))
    return _day_again(request, household)


@require_POST
def print_day(request: HttpRequest, learner: str, lesson: str) -> HttpResponse:
    """Print a lesson, once, and open one of its papers."""
    household = selectors.household()
    child = selectors.learner_by_id(household, learner)
    paper = request.POST.get("open", "pages")
    if paper not in PAPERS:
        raise BadInput([Problem("paper", f"there is no paper called {paper!r}")])
    row, _new = desk.day_print(child, desk.Wish(today=today_for(household), lesson=lesson))
    return redirect("paper", print_id=row.print_id, paper=paper)


@require_POST
def said(request: HttpRequest, learner: str, lesson: str) -> HttpResponse:
    """Keep how far a lesson went, or take it back."""
    household = selectors.household()
    child = selectors.learner_by_id(household, learner)
    how_far = request.POST.get("how_far", "")
    daily.lesson_said(child, lesson, how_far, today=today_for(household))
    cards.cards_prepare(household, today=today_for(household))
    return _day_again(request, household)


@require_http_methods(["GET", "POST"])
def note(request: HttpRequest, learner: str, lesson: str) -> HttpResponse:
    """An adult's own words on a lesson, kept for this child and the next."""
    household = selectors.household()
    child, day = selectors.learner_by_id(household, learner), lesson_named(lesson)
    problems: tuple[Problem, ...] = ()
    if request.method == "POST":
        try:
            services.note_add(
                household=household,
                learner=child,
                lesson=day.id,
                text=request.POST.get("text", "")[:LONGEST_NOTE],
                day=today_for(household),
            )
        except BadInput as bad:
            problems = tuple(bad.problems)
        else:
            return redirect("note", learner=child.id, lesson=day.id)
    names = {one.id: one.name for one in selectors.learners(household)}
    values = {
        "name": child.name,
        "learner": child.id,
        "lesson": day,
        "problems": problems,
        "most": LONGEST_NOTE,
        "notes": [shown_note(one, names=names) for one in notes_on(household, [day.id])[day.id]],
    }
    return page(request, "note", values, household=household, here="today", status=422 if problems else 200)


def _day_again(request: HttpRequest, household: Household) -> HttpResponse:
    if getattr(request, "htmx", False):
        return page(request, "_day", _day(household), household=household)
    return redirect(reverse("today"))


def _day(household: Household) -> dict[str, Any]:
    day = today_for(household)
    found = cards.cards_of(household, today=day)
    notes = notes_on(household, [card.day.id for card in found if isinstance(card, Card)])
    names = {one.id: one.name for one in selectors.learners(household)}
    waiting = selectors.sheets_unmarked(*selectors.learners(household))
    earlier = [sheet for sheet in waiting if sheet.printed.day < day]
    return {
        "date": weekday_and_date(day),
        "cards": [{**shown_card(card, today=day), "notes": _notes(card, notes, names)} for card in found],
        "unmarked": shown_unmarked(earlier, today=day),
        "unmarked_count": len(earlier),
        **shown_morning(found, morning_of(household, at_table(found), today=day), start=household.morning_start),
    }


def _notes(
    card: Card | DayOff, notes: dict[LessonId, tuple[Noted, ...]], names: dict[str, str]
) -> list[dict[str, str]]:
    """What was noted on the card's lesson, the newest first."""
    return [] if isinstance(card, DayOff) else [shown_note(one, names=names) for one in notes[card.day.id]]
