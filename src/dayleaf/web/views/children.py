"""What each child knows, in words with their evidence; read from what was kept."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.shortcuts import redirect
from django.views.decorators.http import require_GET, require_POST

from dayleaf.course.load import grade2
from dayleaf.learner.words import count_word
from dayleaf.records import people, selectors
from dayleaf.records.beliefs import beliefs_kept, beliefs_now
from dayleaf.records.cards import cards_prepare
from dayleaf.records.models import BOXES, HANDS, SHEETS_PER_DAY
from dayleaf.web.clock import today_for, weekday_and_date
from dayleaf.web.page import page

if TYPE_CHECKING:
    from datetime import date

    from django.http import HttpRequest, HttpResponse

    from dayleaf.course.model import Course
    from dayleaf.learner.belief import Beliefs, Known

MEANING = {
    "not yet": "not taught or asked here so far",
    "new": "taught, with little practice",
    "shaky": "practised, and not sure yet",
    "firm": "likely right on the next try",
    "rusty": "was firm, and not seen for long",
}

ORDER = ("shaky", "rusty", "new", "firm")
"""What wants a look first stands first."""


@require_GET
def children(request: HttpRequest) -> HttpResponse:
    """The children, each with a way to the own page."""
    household = selectors.household()
    values = {"children": [{"id": one.id, "name": one.name} for one in selectors.learners(household)]}
    return page(request, "children", values, household=household, here="children")


@require_GET
def child(request: HttpRequest, learner: str) -> HttpResponse:
    """One child's skills by strand: the word, and the sentence it stands on."""
    household = selectors.household()
    found = selectors.learner_by_id(household, learner)
    course, today = grade2(), today_for(household)
    beliefs = beliefs_kept(found, course)
    values: dict[str, Any] = {
        "name": found.name,
        "learner": found.id,
        "meaning": MEANING,
        "ready": beliefs is not None,
        "choices": [
            {"name": "hand", "title": "Writes with", "options": HANDS, "now": found.hand},
            {"name": "boxes", "title": "Answer boxes", "options": BOXES, "now": found.boxes},
            {"name": "sheets", "title": "Sheets a day", "options": SHEETS_PER_DAY, "now": found.sheets_per_day},
        ],
        "fewer": found.fewer_items,
    }
    if beliefs is not None:
        values |= _by_strand(course, beliefs, today)
    return page(request, "child", values, household=household, here="children")


@require_POST
def read_again(request: HttpRequest, learner: str) -> HttpResponse:
    """Read the log afresh, where nothing was kept."""
    household = selectors.household()
    found = selectors.learner_by_id(household, learner)
    beliefs_now(found, grade2(), upto=today_for(household))
    del request
    return redirect("child", learner=found.id)


@require_POST
def pages(request: HttpRequest, learner: str) -> HttpResponse:
    """How this child's pages look from the next print on."""
    household = selectors.household()
    found = selectors.learner_by_id(household, learner)
    people.learner_paper(
        learner=found,
        hand=request.POST.get("hand", ""),
        boxes=request.POST.get("boxes", ""),
        sheets_per_day=request.POST.get("sheets", ""),
        fewer_items=request.POST.get("fewer") == "yes",
    )
    cards_prepare(household, today=today_for(household))
    return redirect("child", learner=found.id)


def _by_strand(course: Course, beliefs: Beliefs, today: date) -> dict[str, Any]:
    known = beliefs.known_all(today)
    strands: dict[str, list[dict[str, str]]] = {}
    waiting = 0
    for skill, one in known.items():
        if one.word == "not yet":
            waiting += 1
            continue
        line = {"title": course.skills[skill].title, "word": one.word, "evidence": evidence(one, today=today)}
        strands.setdefault(course.skills[skill].strand, []).append(line)
    return {
        "strands": [
            {"title": title, "lines": sorted(strands[code], key=lambda line: ORDER.index(line["word"]))}
            for code, title in course.strands.items()
            if code in strands
        ],
        "waiting": waiting,
    }


def evidence(known: Known, *, today: date) -> str:
    """What a word stands on: how many answers, how many right, and when last."""
    if not known.asked or known.last_asked is None:
        return "taught, not asked yet"
    asked = f"{known.right} of {known.asked} right"
    days = (today - known.last_asked).days
    when = "today" if days == 0 else "yesterday" if days == 1 else f"{count_word(days)} days ago"
    return (
        f"{asked}, last asked {when}" if days < 60 else f"{asked}, last asked on {weekday_and_date(known.last_asked)}"
    )
