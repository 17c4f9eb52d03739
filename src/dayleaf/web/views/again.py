"""See it again: one skill, a screen a step, next and back, read aloud by the device itself."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.http import Http404, HttpResponse
from django.utils.translation import gettext
from django.views.decorators.http import require_GET

from dayleaf.core.ids import SkillId
from dayleaf.course.load import grade2
from dayleaf.packets.model import NotBuiltYet
from dayleaf.packets.see_again import print_again, see_again
from dayleaf.sheets.model import Look
from dayleaf.web.page import household_or_none, page
from dayleaf.web.shelf import inline_figure

if TYPE_CHECKING:
    from django.http import HttpRequest

    from dayleaf.course.model import Skill

MOST_SEEDS = 10_000


@require_GET
def again(request: HttpRequest, skill: str) -> HttpResponse:
    """One screen of a skill seen again; `?step=` counts from 1, `?seed=` chooses other numbers."""
    known = _skill(skill)
    seed = _whole(request, "seed", least=0, most=MOST_SEEDS)
    try:
        screens = see_again(grade2(), known, seed=seed).screens
    except NotBuiltYet as unbuilt:
        raise Http404(str(unbuilt)) from unbuilt
    at = _whole(request, "step", least=1, most=len(screens))
    heading, shown = screens[at - 1]
    beside = [one for name, one in screens[:at] if name == heading and one.pictures] or [screens[0][1]]
    values: dict[str, Any] = {
        "skill": known,
        "heading": heading,
        "text": shown.text,
        "pictures": [
            {"letter": letter, "svg": inline_figure(figure)}
            for letter, figure in (shown.pictures or beside[-1].pictures)
        ],
        "step": at,
        "of": len(screens),
        "seed": seed,
        "back": at - 1 if at > 1 else None,
        "next": at + 1 if at < len(screens) else None,
        "other": seed + 1,
    }
    return page(request, "again", values, household=household_or_none(), here="library")


@require_GET
def paper(request: HttpRequest, skill: str) -> HttpResponse:
    """The same on paper."""
    known = _skill(skill)
    home = household_or_none()
    look = Look("a4" if home and home.paper == "a4" else "letter")
    try:
        content = print_again(grade2(), known, look, seed=_whole(request, "seed", least=0, most=MOST_SEEDS))
    except NotBuiltYet as unbuilt:
        raise Http404(str(unbuilt)) from unbuilt
    answer = HttpResponse(content, content_type="application/pdf")
    answer["Content-Disposition"] = f'inline; filename="again-{known.id}.pdf"'
    return answer


def _skill(name: str) -> Skill:
    skills = grade2().skills
    if name not in skills:
        raise Http404(gettext("There is no skill of that name."))
    return skills[SkillId(name)]


def _whole(request: HttpRequest, name: str, *, least: int, most: int) -> int:
    """A number of the address, kept between its ends; the least where there is none."""
    written = request.GET.get(name, "")
    return min(max(int(written), least), most) if written.isascii() and written.isdigit() else least
