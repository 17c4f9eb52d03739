"""Extra practice: any skills, any amount, any format, with a key, at once."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING, Any, Final

from django.http import HttpResponse
from django.utils.translation import gettext
from django.views.decorators.http import require_GET, require_POST

from dayleaf.core.errors import BadInput
from dayleaf.core.ids import SkillId
from dayleaf.course.finding import find, index_of
from dayleaf.course.load import grade2
from dayleaf.packets.practice import MOST, formats_to_practise
from dayleaf.records import loose_papers, selectors
from dayleaf.records.beliefs import beliefs_kept
from dayleaf.records.loose_papers import PracticeWish
from dayleaf.web.clock import today_for
from dayleaf.web.page import page

if TYPE_CHECKING:
    from django.http import HttpRequest, QueryDict

    from dayleaf.course.finding import Index
    from dayleaf.records.models import Learner

EACH: Final = 8
FOUND: Final = 24
FIRST: Final = ("shaky", "rusty", "new")
"""Skills with these words are offered before anybody has searched."""
PAPERS: Final = ("pages", "key")


@require_GET
def practice(request: HttpRequest, learner: str) -> HttpResponse:
    """Choose the skills; those that want practice are offered first, others are found by a word."""
    household = selectors.household()
    found = selectors.learner_by_id(household, learner)
    values = _values(found, request.GET)
    template = "_offered" if getattr(request, "htmx", False) else "practice"
    return page(request, template, values, household=household, here="children")


@require_POST
def paper(request: HttpRequest, learner: str) -> HttpResponse:
    """The pages or the key of what was chosen."""
    household = selectors.household()
    found = selectors.learner_by_id(household, learner)
    each, again = request.POST.get("each", ""), request.POST.get("round", "0")
    wish = PracticeWish(
        skills=tuple((one, request.POST.get(f"format-{one}", "")) for one in request.POST.getlist("skill")),
        each=int(each) if each.isdecimal() else 0,
        round=int(again) if again.isdecimal() else 0,
    )
    name = request.POST.get("open", "pages")
    try:
        made = loose_papers.practice_paper(found, wish)
    except BadInput as bad:
        values = {**_values(found, request.POST), "problems": bad.problems}
        return page(request, "practice", values, household=household, here="children", status=422)
    response = HttpResponse(made.key if name == "key" else made.pages.pdf, content_type="application/pdf")
    response.headers["Content-Disposition"] = f'inline; filename="practice {"key" if name == "key" else "pages"}.pdf"'
    response.headers["Cache-Control"] = "private, no-store"
    return response


def _values(learner: Learner, said: QueryDict) -> dict[str, Any]:
    query, chosen = said.get("q", "").strip()[:80], said.getlist("skill")
    course = grade2()
    offered = [skill.id for skill in find(_index(), query, most=FOUND).skills] if query else _wanting(learner)
    rows = dict.fromkeys([*(SkillId(one) for one in chosen if one in course.skills), *offered])
    return {
        "name": learner.name,
        "learner": learner.id,
        "query": query,
        "each": said.get("each") or str(EACH),
        "most": MOST,
        "round": said.get("round") or "0",
        "rounds": [(str(n), title) for n, title in enumerate(_rounds())],
        "skills": [
            {
                "id": skill,
                "title": course.skills[skill].title,
                "on": skill in chosen,
                "formats": [
                    {"id": one, "name": course.formats[one].name, "on": said.get(f"format-{skill}") == one}
                    for one in formats_to_practise(course, skill)
                ],
            }
            for skill in rows
            if formats_to_practise(course, skill)
        ],
    }


def _rounds() -> tuple[str, ...]:
    return gettext("as before"), gettext("other ones"), gettext("others again"), gettext("once more others")


def _wanting(learner: Learner) -> list[SkillId]:
    """What is shaky, rusty or new, in this order; the first skills of the course where nothing is."""
    beliefs = beliefs_kept(learner, grade2())
    known = beliefs.known_all(today_for(learner.household)) if beliefs else {}
    wanting = [skill for word in FIRST for skill, one in known.items() if one.word == word]
    met = [skill for skill, one in known.items() if one.word == "firm"]
    return ([*wanting, *met] or [day.new_skills[0] for day in grade2().days if day.new_skills])[:FOUND]


@cache
def _index() -> Index:
    return index_of(grade2())
