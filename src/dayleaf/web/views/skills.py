"""The library's skills: every one with an example, found by the words people use, and each on a page of its own."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

from django.http import Http404
from django.views.decorators.http import require_GET

from dayleaf.core.ids import SkillId
from dayleaf.course.finding import find, index_of
from dayleaf.course.load import grade2
from dayleaf.web.page import household_or_none, page
from dayleaf.web.skills_shown import shown_skill, skills_by_strand

if TYPE_CHECKING:
    from django.http import HttpRequest, HttpResponse

    from dayleaf.course.finding import Index

LONGEST = 80


@require_GET
def skills(request: HttpRequest) -> HttpResponse:
    """All skills by strand, or those that a search finds."""
    query = request.GET.get("q", "").strip()[:LONGEST]
    every = len(grade2().skills)
    found = [skill.id for skill in find(_index(), query, most=every).skills] if query else None
    values = {
        "query": query,
        "all": every,
        "count": len(found) if found is not None else every,
        "strands": skills_by_strand(found),
    }
    return page(request, "library/skills", values, household=household_or_none(), here="library")


@require_GET
def skill(request: HttpRequest, skill_id: str) -> HttpResponse:
    """One skill: what to say, every way to ask it, what rests on what, where it stands in the course."""
    if skill_id not in grade2().skills:
        raise Http404
    values = shown_skill(SkillId(skill_id))
    return page(request, "library/skill", values, household=household_or_none(), here="library")


@cache
def _index() -> Index:
    return index_of(grade2())
