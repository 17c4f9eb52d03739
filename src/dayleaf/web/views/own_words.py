"""The family's own words on a day: notes that stay for the next child, and lines for Open and Close."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final
from urllib.parse import urlencode

from django.http import Http404
from django.shortcuts import redirect
from django.urls import reverse
from django.utils.translation import gettext
from django.views.decorators.http import require_GET, require_POST

from dayleaf.core.errors import BadInput
from dayleaf.records import selectors
from dayleaf.records.coming import NoSuchLesson, lesson_named
from dayleaf.records.courses import course_with
from dayleaf.records.lines import LONGEST, PARTS, line_set, lines_of, note_keep, notes_of
from dayleaf.web.clock import today_for, weekday_and_date
from dayleaf.web.page import page

if TYPE_CHECKING:
    from collections.abc import Sequence

    from django.http import HttpRequest, HttpResponse

    from dayleaf.core.errors import Problem
    from dayleaf.course.model import Day
    from dayleaf.records.models import Household

OF_DAY: Final = "day"
OF_CHAPTER: Final = "chapter"


@require_GET
def own_words(request: HttpRequest, lesson: str) -> HttpResponse:
    """The notes on a day and its lines, each with a field to write in."""
    return _shown(request, selectors.household(), _day(lesson), ())


@require_POST
def note(request: HttpRequest, lesson: str) -> HttpResponse:
    """Keep a note on the day."""
    household, day = selectors.household(), _day(lesson)
    try:
        text = request.POST.get("text", "")
        note_keep(household=household, lesson=day.id, text=text, day=today_for(household))
    except BadInput as wrong:
        return _shown(request, household, day, wrong.problems)
    return redirect("own-words", lesson=day.id)


@require_POST
def line(request: HttpRequest, lesson: str) -> HttpResponse:
    """Keep, change or take away one line of the day or of its chapter; what was there can be put back."""
    household, day = selectors.household(), _day(lesson)
    part, of = request.POST.get("part", ""), request.POST.get("of", OF_DAY)
    before = _line(household, day, part, of)
    course = course_with(household, day.id)
    place: dict[str, Any] = {"chapter": day.chapter, "course": course.id} if of == OF_CHAPTER else {"lesson": day.id}
    try:
        line_set(household=household, text=request.POST.get("text", ""), part=part, **place)
    except BadInput as wrong:
        return _shown(request, household, day, wrong.problems)
    changed = before and before != _line(household, day, part, of)
    undo = f"?{urlencode({'was': before, 'part': part, 'of': of})}" if changed else ""
    return redirect(reverse("own-words", args=[day.id]) + undo)


def _shown(request: HttpRequest, household: Household, day: Day, problems: Sequence[Problem]) -> HttpResponse:
    labels = {
        ("open", OF_DAY): gettext("In Open, on this day"),
        ("close", OF_DAY): gettext("In Close, on this day"),
        ("open", OF_CHAPTER): gettext("In Open, in every lesson of the chapter"),
        ("close", OF_CHAPTER): gettext("In Close, in every lesson of the chapter"),
    }
    was, part, of = (request.GET.get(name, "") for name in ("was", "part", "of"))
    values = {
        "day": day,
        "chapter": course_with(household, day.id).chapters[day.chapter - 1],
        "notes": [{"text": one.text, "on": weekday_and_date(one.day)} for one in notes_of(household, day.id)],
        "lines": [
            {"part": p, "of": o, "label": label, "text": _line(household, day, p, o)}
            for (p, o), label in labels.items()
        ],
        "longest": LONGEST,
        "problems": problems,
        "undo": {"was": was[:LONGEST], "part": part, "of": of} if was and part in PARTS else None,
    }
    status = 422 if problems else 200
    return page(request, "own_words", values, household=household, here="library", status=status)


def _line(household: Household, day: Day, part: str, of: str) -> str:
    course = course_with(household, day.id).id
    found = (
        one.text
        for one in lines_of(household)
        if one.part == part
        and (
            (of == OF_DAY and one.lesson == day.id)
            or (of == OF_CHAPTER and (one.course, one.chapter) == (course, day.chapter))
        )
    )
    return next(found, "")


def _day(lesson: str) -> Day:
    try:
        return lesson_named(lesson)
    except NoSuchLesson as none:
        raise Http404(str(none)) from none
