"""What each child knows, in words with their evidence; read from what was kept."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING, Any, Final

from django.shortcuts import redirect
from django.utils.translation import gettext, gettext_lazy
from django.views.decorators.http import require_GET, require_POST

from dayleaf.course.load import grade2
from dayleaf.learner.words import count_word
from dayleaf.records import people, selectors
from dayleaf.records.beliefs import beliefs_kept, beliefs_now
from dayleaf.records.cards import cards_prepare
from dayleaf.records.models import BOXES, HANDS, SHEETS_PER_DAY
from dayleaf.records.standing import ORDER, standing_of
from dayleaf.web.clock import today_for, weekday_and_date
from dayleaf.web.page import page

if TYPE_CHECKING:
    from datetime import date

    from django.http import HttpRequest, HttpResponse

    from dayleaf.learner.belief import Known
    from dayleaf.records.standing import ChapterStanding, SkillStanding, Standing

WORDS: Final = {
    "not yet": gettext_lazy("not yet"),
    "new": gettext_lazy("new"),
    "shaky": gettext_lazy("shaky"),
    "firm": gettext_lazy("firm"),
    "rusty": gettext_lazy("rusty"),
}


def _meaning() -> dict[str, str]:
    return {
        gettext("not yet"): gettext("not taught or asked here so far"),
        gettext("new"): gettext("taught, with little practice"),
        gettext("shaky"): gettext("practised, and not sure yet"),
        gettext("firm"): gettext("likely right on the next try"),
        gettext("rusty"): gettext("was firm, and not seen for long"),
    }


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
    others = [one for one in selectors.learners(household) if one.id != found.id]
    values: dict[str, Any] = {
        "name": found.name,
        "learner": found.id,
        "others": [{"id": one.id, "name": one.name} for one in others],
        "meaning": _meaning(),
        "ready": beliefs is not None,
        "choices": [
            {"name": "hand", "title": "Writes with", "options": HANDS, "now": found.hand},
            {"name": "boxes", "title": "Answer boxes", "options": BOXES, "now": found.boxes},
            {"name": "sheets", "title": "Sheets a day", "options": SHEETS_PER_DAY, "now": found.sheets_per_day},
        ],
        "fewer": found.fewer_items,
    }
    if beliefs is not None:
        values |= _standing(standing_of(found, beliefs, course, today=today), today)
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


def _standing(standing: Standing, today: date) -> dict[str, Any]:
    words = Counter(one.known.word for _title, lines in standing.strands for one in lines)
    return {
        "chapters": [{"one": one, "said": _chapter_said(one)} for one in standing.chapters],
        "strands": [
            {
                "title": title,
                "open": [_line(one, today) for one in lines if one.known.word != "firm"],
                "firm": [_line(one, today) for one in lines if one.known.word == "firm"],
            }
            for title, lines in standing.strands
        ],
        "waiting": standing.waiting,
        "counts": [(words[word], word) for word in ORDER if words[word]],
    }


def _line(one: SkillStanding, today: date) -> dict[str, Any]:
    return {
        "skill": one.skill,
        "title": one.title,
        "word": one.known.word,
        "evidence": evidence(one.known, today=today),
        "then": _then(one),
    }


def _chapter_said(chapter: ChapterStanding) -> str:
    """What a chapter's cell says: what wants a look, or else the one word that holds for all."""
    counts = dict(chapter.words)
    look = [f"{counts[word]} {WORDS[word]}" for word in ("shaky", "rusty") if word in counts]
    if look:
        return ", ".join(look)
    if set(counts) == {"not yet"} or not counts:
        return gettext("not yet")
    return str(WORDS["new"] if "new" in counts else WORDS["firm"])


def _then(one: SkillStanding) -> str:
    said = {
        "comes back": gettext("comes back on %(day)s"),
        "three days": gettext("three short days may help"),
        "will come back": gettext("its turn to come back is near"),
        "more practice": gettext("practice goes on"),
        "nothing": "",
        "waits": "",
    }[one.then]
    return said % {"day": weekday_and_date(one.on)} if one.on else said


def evidence(known: Known, *, today: date) -> str:
    """What a word stands on: how many answers, how many right, and when last."""
    if not known.asked or known.last_asked is None:
        return gettext("taught, not asked yet")
    asked = gettext("%(right)d of %(asked)d right") % {"right": known.right, "asked": known.asked}
    days = (today - known.last_asked).days
    if days >= 60:
        when = gettext("last asked on %(day)s") % {"day": weekday_and_date(known.last_asked)}
    elif days < 2:
        when = gettext("last asked yesterday") if days else gettext("last asked today")
    else:
        when = gettext("last asked %(days)s days ago") % {"days": count_word(days)}
    return f"{asked}, {when}"
