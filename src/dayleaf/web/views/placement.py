"""Where a child begins: read aloud, touch what was said, stop when it stops; the map, the start, its price."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from django.http import HttpResponse
from django.shortcuts import redirect
from django.utils.translation import gettext
from django.views.decorators.http import require_http_methods, require_POST

from dayleaf.core.errors import BadInput, Problem
from dayleaf.course.load import grade2
from dayleaf.learner.placement import MOST
from dayleaf.records import loose_papers, placing, selectors
from dayleaf.records.cards import cards_prepare
from dayleaf.records.replans import year_undo
from dayleaf.sheets.cells import answer_words
from dayleaf.web.clock import today_for
from dayleaf.web.page import page
from dayleaf.wording.say import text_of

if TYPE_CHECKING:

    from django.http import HttpRequest

    from dayleaf.learner.start import MapEntry
    from dayleaf.records.models import Learner
    from dayleaf.records.placing import Placing

PAPERS: Final = ("pages", "guide", "key")
ORDER: Final = ("firm", "shaky", "not yet")


@require_http_methods(["GET", "POST"])
def placement(request: HttpRequest, learner: str) -> HttpResponse:
    """The next question, or what the answers say."""
    household = selectors.household()
    found, today = selectors.learner_by_id(household, learner), today_for(household)
    if request.method == "POST":
        if "back" in request.POST:
            placing.placement_take_back(found)
        elif "anew" in request.POST:
            placing.placement_anew(found)
        else:
            said, skill = request.POST.get("said", ""), request.POST.get("skill", "")
            if (
                skill == placing.placing_of(found, today=today).ask
            ):  # a second touch of the same button says nothing new
                placing.placement_say(found, skill=skill, said=said, day=today)
        if not getattr(request, "htmx", False):
            return redirect("placement", learner=found.id)
    values = _values(found, placing.placing_of(found, today=today), asked_for="map" in request.GET)
    template = "_placement" if getattr(request, "htmx", False) else "placement"
    return page(request, template, values, household=household, here="children")


@require_POST
def begin(request: HttpRequest, learner: str) -> HttpResponse:
    """Lay the course out from the day chosen."""
    household = selectors.household()
    found, today = selectors.learner_by_id(household, learner), today_for(household)
    if "undo" in request.POST:
        year_undo(found, today=today)
        cards_prepare(household, today=today)
        return redirect("placement", learner=found.id)
    number = request.POST.get("day", "").strip()
    says = placing.placement_begin(found, number=int(number) if number.isdecimal() else 0, today=today)
    values = _values(found, placing.placing_of(found, today=today), asked_for=True)
    values |= {"says": says} if says else {"begun": grade2().days[int(number) - 1]}
    status = 422 if says else 200
    return page(request, "placement", values, household=household, here="children", status=status)


@require_POST
def paper(request: HttpRequest, learner: str) -> HttpResponse:
    """The placement on paper."""
    found = selectors.learner_by_id(selectors.household(), learner)
    name = request.POST.get("open", "pages")
    if name not in PAPERS:
        raise BadInput([Problem("paper", f"there is no paper called {name!r}")])
    prints = loose_papers.placement_paper(found).prints
    response = HttpResponse(
        prints.pages.pdf if name == "pages" else getattr(prints, name), content_type="application/pdf"
    )
    response.headers["Content-Disposition"] = f'inline; filename="where to begin {name}.pdf"'
    response.headers["Cache-Control"] = "private, no-store"
    return response


def _values(learner: Learner, now: Placing, *, asked_for: bool) -> dict[str, Any]:
    over = now.ask is None or now.item is None
    first = placing.first_planned(learner)
    return {
        "name": learner.name,
        "learner": learner.id,
        "n": now.answered + 1,
        "most": MOST,
        "answered": now.answered,
        "asked": len(now.asked),
        "rest": now.rest and not over,
        "over": over,
        "show_map": over or asked_for,
        "question": None if over or now.item is None else _question(now),
        "start": now.found.start,
        "reasons": now.found.reasons[1:],
        "others": [one for one in now.found.starts if one.day != now.found.start],
        "cost": next((one.sentence for one in now.found.starts if one.day == now.found.start), ""),
        "strands": _strands(now.found.entries),
        "first": first,
        "questions": [
            {"title": grade2().skills[one.skill].title, "said": one.said}
            for one in now.asked
            if one.said != "not asked"
        ],
    }


def _question(now: Placing) -> dict[str, str]:
    if now.item is None or now.ask is None:
        return {}
    return {
        "skill": now.ask,
        "text": " ".join(text_of(now.item, "en").split()),
        "answer": answer_words(now.item, "en"),
        "of": grade2().skills[now.ask].title,
    }


def _strands(entries: tuple[MapEntry, ...]) -> list[dict[str, Any]]:
    """The map: each strand with its skills under the three words."""
    titles = {"firm": gettext("firm"), "shaky": gettext("shaky"), "not yet": gettext("not yet")}
    strands: dict[str, list[MapEntry]] = {}
    for entry in entries:
        strands.setdefault(entry.strand, []).append(entry)
    return [
        {
            "title": title,
            "parts": [
                {
                    "word": titles[word],
                    "code": word.replace(" ", "-"),
                    "skills": [one for one in inside if one.word == word],
                }
                for word in ORDER
                if any(one.word == word for one in inside)
            ],
        }
        for title, inside in strands.items()
    ]
