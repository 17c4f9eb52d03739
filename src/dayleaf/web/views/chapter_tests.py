"""Chapter tests on pages: the blueprint, the forms, marks by skill, and the decision with its evidence."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.http import Http404
from django.shortcuts import redirect
from django.utils.translation import gettext
from django.views.decorators.http import require_GET, require_POST

from dayleaf.core.errors import BadInput, Problem
from dayleaf.core.ids import FormatId
from dayleaf.packets.blueprint import NotATest
from dayleaf.packets.forms import LETTERS
from dayleaf.records import desk, selectors
from dayleaf.records.cards import cards_prepare
from dayleaf.records.chapter_tests import CHOICES, chapter_test, test_decide, tests_of
from dayleaf.records.courses import course_of
from dayleaf.web.clock import today_for, weekday_and_date
from dayleaf.web.page import page

if TYPE_CHECKING:
    from django.http import HttpRequest, HttpResponse

    from dayleaf.course.model import Course
    from dayleaf.packets.blueprint import Blueprint
    from dayleaf.records.chapter_tests import ChapterTest
    from dayleaf.records.results import TestResult

PAPERS = ("pages", "guide", "key")


@require_GET
def tests(request: HttpRequest, learner: str) -> HttpResponse:
    """Every chapter test of a child: when it is, whether it is printed, how it went."""
    household = selectors.household()
    child = selectors.learner_by_id(household, learner)
    today = today_for(household)
    found = tests_of(child)
    coming = next((one for one in found if one.of is None and one.on is not None and one.on >= today), None)
    values = {
        "name": child.name,
        "learner": child.id,
        "coming": {"chapter": coming.day.chapter, "on": weekday_and_date(coming.on)} if coming and coming.on else None,
        "tests": [
            {
                "chapter": one.day.chapter,
                "title": one.title,
                "day": one.day.number,
                "on": weekday_and_date(one.on) if one.on else "",
                "printed": one.printed,
                "score": gettext("%(right)s of %(of)s right") % {"right": one.right, "of": one.of} if one.of else "",
            }
            for one in found
        ],
    }
    return page(request, "tests/tests", values, household=household, here="children")


@require_GET
def test(request: HttpRequest, learner: str, chapter: int) -> HttpResponse:
    """One chapter's test."""
    household = selectors.household()
    child = selectors.learner_by_id(household, learner)
    try:
        found = chapter_test(child, chapter)
    except NotATest as error:
        raise Http404 from error
    course = course_of(child)
    values: dict[str, Any] = {
        "name": child.name,
        "learner": child.id,
        "chapter": chapter,
        "title": course.chapters[chapter - 1].title,
        "heading": _heading(found),
        "blueprint": shown_blueprint(course, found.blueprint),
        "forms": [
            {"letter": one.letter, "print": one.print_id, "day": weekday_and_date(one.day), "sheets": one.sheets,
             "waiting": one.waiting}
            for one in found.forms
        ],
        "next_form": found.next_form,
        "result": _shown_result(course, found.result) if found.result else None,
        "tenth": found.tenth,
        "choices": [{"value": one, "chosen": one == (found.decided or CHOICES[0])} for one in CHOICES],
        "decided": found.decided,
    }  # fmt: skip
    return page(request, "tests/test", values, household=household, here="children")


@require_POST
def print_form(request: HttpRequest, learner: str, chapter: int) -> HttpResponse:
    """Print a form for this child, once, and open one of its papers."""
    household = selectors.household()
    child = selectors.learner_by_id(household, learner)
    letter, paper = request.POST.get("form", "A"), request.POST.get("open", "pages")
    if letter not in LETTERS or len(letter) != 1:
        raise BadInput([Problem("form", f"{letter!r} is none of {', '.join(LETTERS)}")])
    if paper not in PAPERS:
        raise BadInput([Problem("paper", f"there is no paper called {paper!r}")])
    day = chapter_test(child, chapter).day
    row, _new = desk.day_print(child, desk.Wish(today=today_for(household), lesson=day.id, form=letter))
    return redirect("paper", print_id=row.print_id, paper=paper)


@require_POST
def decide(request: HttpRequest, learner: str, chapter: int) -> HttpResponse:
    """Keep what the adult decides, or take that back."""
    household = selectors.household()
    child = selectors.learner_by_id(household, learner)
    today = today_for(household)
    test_decide(learner=child, chapter=chapter, chosen=request.POST.get("decision", ""), day=today)
    cards_prepare(household, today=today)
    return redirect("test", learner=child.id, chapter=chapter)


def shown_blueprint(course: Course, blueprint: Blueprint) -> dict[str, Any]:
    """The blueprint as rows: the skill, how many items, asked how, about how long, and how hard in order."""
    return {
        "items": blueprint.items,
        "minutes": round(blueprint.minutes),
        "rows": [
            {
                "skill": plan.skill.id,
                "title": plan.skill.title,
                "items": len(plan.places),
                "formats": ", ".join(
                    f"{n} × {course.formats[FormatId(name)].name.lower()}" for name, n in plan.formats.items()
                ),
                "bands": ", ".join(dict.fromkeys(place.band for place in plan.places)),
                "few": plan.few,
            }
            for plan in blueprint.skills
        ],
    }


def _shown_result(course: Course, result: TestResult) -> dict[str, Any]:
    return {
        "form": result.form,
        "on": weekday_and_date(result.marked_on),
        "evidence": result.sentences[0],
        "said": result.sentences[1:],
        "change": result.advice.change,
        "step": result.advice.step,
        "from_lesson": result.advice.from_lesson,
        "waiting": result.waiting,
        "skills": [
            {
                "title": course.skills[one.skill].title,
                "right": one.right,
                "of": one.of,
                "holds": one.holds,
            }
            for one in result.advice.results
        ],
    }


def _heading(found: ChapterTest) -> str:
    """The page's answer: what to do after the test, or how far it is."""
    result = found.result
    if result is not None:
        step, when = result.advice.step, weekday_and_date(result.when) if result.when else ""
        heads = {
            "go on": gettext("It holds: go on with the next lesson"),
            "fix up": gettext("Fix up %(minutes)s minutes, then go on") % {"minutes": result.advice.minutes},
            "form B": gettext("Work once more on what is named, then form %(form)s") % {"form": found.next_form},
            "re-teach": gettext("Teach the named skills again"),
        }
        return f"{heads[step]}, {gettext('on')} {when}" if when and step != "go on" else heads[step]
    if found.forms:
        letters = ", ".join(form.letter for form in found.forms)
        return gettext("Form %(letters)s is printed and waits for marks") % {"letters": letters}
    if found.on:
        return gettext("The test is planned for %(day)s") % {"day": weekday_and_date(found.on)}
    return gettext("This test is not in the plan; it can be printed all the same")
