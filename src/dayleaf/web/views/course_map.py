"""The course map: one picture, the chosen skill's lines, the honest totals, an ordinary week, and the same as text."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING, Any

from django.http import Http404, HttpResponse
from django.utils.safestring import mark_safe
from django.views.decorators.http import require_GET

from dayleaf.core.ids import SkillId
from dayleaf.course.load import grade2
from dayleaf.packets.course_map import (
    chain_words,
    course_map,
    map_svg,
    ordinary_week,
    print_map,
    totals_sentences,
    weeks_of,
)
from dayleaf.packets.front import totals
from dayleaf.web.page import household_or_none, page

if TYPE_CHECKING:
    from django.http import HttpRequest

    from dayleaf.packets.course_map import CourseMap


@require_GET
def whole(request: HttpRequest) -> HttpResponse:
    """The map with its longest chain, or with what one skill, `?skill=`, rests on and leads to."""
    course = grade2()
    wanted = request.GET.get("skill", "")
    if wanted and wanted not in course.skills:
        raise Http404
    values = _shown(wanted)
    return page(request, "course_map", values, household=household_or_none(), here="library")


@require_GET
def paper(request: HttpRequest) -> HttpResponse:  # noqa: ARG001 -- a view takes it
    """The map and the index on paper."""
    home = household_or_none()
    content = print_map(grade2(), paper="a4" if home and home.paper == "a4" else "letter")
    answer = HttpResponse(content, content_type="application/pdf")
    answer["Content-Disposition"] = 'inline; filename="course-map.pdf"'
    return answer


@lru_cache(maxsize=300)
def _shown(wanted: str) -> dict[str, Any]:
    """What the page shows; the course does not change while the pages are open."""
    course = grade2()
    found = course_map(course, chosen=SkillId(wanted) if wanted else None)
    before = sorted({a for a, _ in found.links} - {wanted}, key=list(course.skills).index) if wanted else []
    week = ordinary_week(course)
    return {
        "svg": mark_safe(map_svg(found)),  # noqa: S308 -- drawn by us, with escaped words
        "skill": course.skills[SkillId(wanted)] if wanted else None,
        "before": [course.skills[SkillId(one)] for one in before],
        "after": [course.skills[b] for a, b in found.links if a == wanted],
        "chain": chain_words(found),
        "strands": [_strand(found, strand) for strand in found.strands],
        "totals": _totals(),
        "weeks": weeks_of(course),
        "ordinary": week,
        "days": course.days[week.first - 1 : week.last],
    }


@lru_cache(maxsize=1)
def _totals() -> tuple[str, ...]:
    return totals_sentences(totals(grade2()), grade2())


def _strand(found: CourseMap, strand: str) -> dict[str, Any]:
    skills = [
        {"chapter": chapter, "skill": found.course.skills[name]}
        for (row, chapter), names in sorted(found.fields.items())
        if row == strand
        for name in names
    ]
    return {"title": found.course.strands[strand], "skills": skills}
