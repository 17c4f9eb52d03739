"""A family's own course in two steps: paste its contents, confirm the skills, and it is planned."""

from __future__ import annotations

import json
from datetime import date
from typing import TYPE_CHECKING, Any, Final

from django.db import transaction
from django.shortcuts import redirect
from django.utils.translation import gettext
from django.views.decorators.http import require_GET, require_POST

from dayleaf.core.errors import BadInput, DayleafError, Problem
from dayleaf.core.ids import SkillId
from dayleaf.course.load import grade2
from dayleaf.course.outline import confirmed, read_outline, suggested
from dayleaf.course.outline_codec import outline_data, outline_from_json
from dayleaf.records import selectors
from dayleaf.records.cards import cards_prepare
from dayleaf.records.courses import course_keep, course_plan, courses_of
from dayleaf.web.clock import today_for
from dayleaf.web.page import page

if TYPE_CHECKING:
    from collections.abc import Sequence

    from django.http import HttpRequest, HttpResponse

    from dayleaf.records.models import Household

LARGEST: Final = 500_000
"""Signs of a pasted table of contents; none is longer."""


@require_GET
def own_course(request: HttpRequest) -> HttpResponse:
    """Where the contents of a course are pasted, and the courses kept so far."""
    return _paste(request, selectors.household(), "", ())


@require_POST
def read(request: HttpRequest) -> HttpResponse:
    """Every line of what was pasted, with three skills to choose among."""
    household = selectors.household()
    upload = request.FILES.get("file")
    pasted = request.POST.get("text", "")
    content: bytes | str = upload.read(LARGEST) if upload else pasted[:LARGEST]
    outline = read_outline(content)
    if not outline.lines:
        says = gettext("There is no lesson in it; paste one line for each.")
        return _paste(request, household, pasted, (Problem(gettext("The contents"), says),))
    data = outline_data(grade2(), outline, suggested(grade2(), outline))
    return _confirm(request, household, data, ())


@require_POST
def keep(request: HttpRequest) -> HttpResponse:
    """Keep the course with the skills chosen, and plan it for the child named."""
    household = selectors.household()
    try:
        outline = outline_from_json(request.POST.get("outline", ""))
        data = outline_data(grade2(), outline, suggested(grade2(), outline))
        picked = [request.POST.get(f"skill-{line.line}", "") for line in outline.lines]
        whole = confirmed(outline, [(SkillId(one),) if one else () for one in picked])
        for row, line in zip(data["lines"], whole.lines, strict=True):
            row["chosen"] = list(line.skills)
        today = today_for(household)
        start = date.fromisoformat(request.POST.get("start") or today.isoformat())
        learner = request.POST.get("learner", "")
        with transaction.atomic():
            title = request.POST.get("title", "")
            course = course_keep(household=household, title=title, outline=json.dumps(data, ensure_ascii=False))
            if learner:
                child = selectors.learner_by_id(household, learner)
                course_plan(learner=child, course=course, start=start, today=today, minutes=None)
    except BadInput as wrong:
        return _confirm(request, household, data, wrong.problems)
    except (DayleafError, ValueError) as wrong:
        return _confirm(request, household, data, (Problem(gettext("The plan"), str(wrong)),))
    if not learner:
        return redirect("own-course")
    cards_prepare(household, today=today)
    return redirect("year-of", learner=learner)


def _paste(request: HttpRequest, household: Household, text: str, problems: Sequence[Problem]) -> HttpResponse:
    values = {"text": text, "problems": problems, "courses": courses_of(household)}
    return page(request, "own_course", values, household=household, here="library", status=422 if problems else 200)


def _confirm(request: HttpRequest, household: Household, data: Any, problems: Sequence[Problem]) -> HttpResponse:
    wrong = {one["line"]: one["says"] for one in data["wrong"]}
    lines = [
        {
            **line,
            "book": "; ".join(f"{book} {pages}" for book, pages in line["pages"].items()),
            "wrong": wrong.get(line["line"], ""),
            "first": line["chosen"][0] if line["chosen"] else "",
        }
        for line in data["lines"]
    ]
    values = {
        "lines": lines,
        "lessons": sum(line["kind"] == "lesson" for line in lines),
        "outline": json.dumps(data, ensure_ascii=False),
        "problems": problems,
        "children": selectors.learners(household),
        "start": today_for(household).isoformat(),
        "title": request.POST.get("title", ""),
    }
    return page(
        request, "own_course_lines", values, household=household, here="library", status=422 if problems else 200
    )
