"""The library: the whole course, open to look at before anybody has begun, and everything that can be printed of it."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING, Any

from django.http import Http404, HttpResponse
from django.views.decorators.http import require_GET, require_http_methods

from dayleaf.course.finding import find
from dayleaf.course.load import grade2
from dayleaf.packets.calibration import FarOff, NotALength, scale_from
from dayleaf.packets.front import getting_ready
from dayleaf.packets.print_outs import PAPERS, PICTURE_CARD
from dayleaf.packets.printables import print_thing
from dayleaf.packets.printables import things as everything
from dayleaf.records.example_days import example_guide, example_papers, example_picture, example_project, example_sides
from dayleaf.records.printer import home_folder, printer_forgotten, printer_measured, printer_scale
from dayleaf.web.page import household_or_none, page
from dayleaf.web.shelf import (
    MOST_OF_A_PIECE,
    days_by_chapter,
    search_index,
    shown_day,
    shown_found,
    shown_guide,
    shown_sets,
    shown_sides,
    shown_story,
)

if TYPE_CHECKING:
    from django.http import HttpRequest

    from dayleaf.course.model import Day
    from dayleaf.sheets.model import Paper
    from dayleaf.sheets.weeks import WeekSheet

PAPERS_OF_A_DAY = ("guide", "pages", "key", "project")
FOUND_AT_MOST = 24


@require_GET
def library(request: HttpRequest) -> HttpResponse:
    """Where everything is."""
    course = grade2()
    values = {"days": len(course.days), "chapters": len(course.chapters), "skills": len(course.skills)}
    return page(request, "library/shelves", values, household=household_or_none(), here="library")


@require_GET
def search(request: HttpRequest) -> HttpResponse:
    """Days, skills, taught words and stories by a word of any book."""
    query = request.GET.get("q", "").strip()[:80]
    found = find(search_index(), query, most=FOUND_AT_MOST)
    values = {"query": query, **shown_found(found)}
    return page(request, "library/found", values, household=household_or_none(), here="library")


@require_GET
def days(request: HttpRequest) -> HttpResponse:
    """Every day, chapter by chapter."""
    values = {"chapters": days_by_chapter(grade2())}
    return page(request, "library/days", values, household=household_or_none(), here="library")


@require_GET
def day(request: HttpRequest, number: int) -> HttpResponse:
    """One day: its guide with example numbers, its pages as pictures, and its papers."""
    household = household_or_none()
    course, found, paper = grade2(), _day(number), _paper()
    project = example_project(found.id)
    values = {
        **shown_day(course, found),
        "guide": shown_guide(example_guide(found.id, paper)),
        "project": shown_guide(project) if project else None,
        "sides": shown_sides(example_sides(found.id, paper)),
        "children": [{"id": one.id, "name": one.name} for one in household.learners.all()] if household else [],
    }
    return page(request, "library/day", values, household=household, here="library")


@require_GET
def side(request: HttpRequest, number: int, side: int) -> HttpResponse:
    """One side of a day as a picture."""
    del request
    picture = example_picture(_day(number).id, _paper(), side)
    if picture is None:
        raise Http404
    response = HttpResponse(picture, content_type="image/png")
    response.headers["Cache-Control"] = "private, max-age=86400"
    return response


@require_GET
def day_paper(request: HttpRequest, number: int, paper: str) -> HttpResponse:
    """One paper of a day without a name: for whoever teaches it, with nothing of a child's records on it."""
    del request
    if paper not in PAPERS_OF_A_DAY:
        raise Http404
    found = getattr(example_papers(_day(number).id, _paper()), paper)
    if found is None:
        raise Http404
    return _pdf(found, f"day {number} {paper}")


@require_GET
def stories(request: HttpRequest) -> HttpResponse:
    """The stories, one a chapter."""
    course = grade2()
    told = [chapter for chapter in course.chapters if chapter.number in course.stories]
    values = {
        "stories": [
            {"number": one.number, "title": one.story, "minutes": course.stories[one.number].minutes} for one in told
        ]
    }
    return page(request, "library/stories", values, household=household_or_none(), here="library")


@require_GET
def story(request: HttpRequest, chapter: int) -> HttpResponse:
    """One story to read aloud from the screen."""
    course = grade2()
    if chapter not in course.stories:
        raise Http404
    values = shown_story(course, chapter)
    return page(request, "library/story", values, household=household_or_none(), here="library")


@require_GET
def cut_outs(request: HttpRequest) -> HttpResponse:
    """Sets to cut out, each with its pieces, so that one that was lost can be printed again."""
    values = {"sets": shown_sets(), "scale": _scale_said(printer_scale(home_folder()))}
    return page(request, "library/cut_outs", values, household=household_or_none(), here="library")


@require_GET
def papers(request: HttpRequest) -> HttpResponse:
    """Mats, charts and cards to work on."""
    course = grade2()
    names = everything(course)
    mats = [{"word": one, "title": _title(one)} for one in names if one in PAPERS]
    cards = [
        {"word": one, "title": _title(one.removeprefix(PICTURE_CARD))} for one in names if one.startswith(PICTURE_CARD)
    ]
    values = {"mats": mats, "cards": cards}
    return page(request, "library/papers", values, household=household_or_none(), here="library")


@require_GET
def print_one(request: HttpRequest, word: str) -> HttpResponse:
    """Anything that can be printed by its name, at true size; `piece-NAME=3` asks for some pieces of a set alone."""
    pieces = {}
    for field in request.GET:
        name, asked = field.removeprefix("piece-"), request.GET.get(field, "")
        if name != field and asked.isascii() and asked.isdecimal() and 0 < int(asked) <= MOST_OF_A_PIECE:
            pieces[name] = int(asked)
    printed = print_thing(
        grade2(),
        word,
        paper=_paper(),
        scale=printer_scale(home_folder()),
        one_sided=request.GET.get("backs") == "none",
        pieces=pieces,
    )
    return _pdf(printed.pdf, word.replace(":", " "))


@require_GET
def list_of_the_year(request: HttpRequest) -> HttpResponse:
    """The getting-ready list of the year."""
    household = household_or_none()
    little = household.younger_child if household else True
    sheet = _getting_ready(_paper(), little_one=little)
    groups = [{"title": head, "lines": lines} for head, lines in sheet.prep]
    values = {"groups": groups, "facts": sheet.facts}
    return page(request, "library/getting_ready", values, household=household, here="library")


@require_http_methods(["GET", "POST"])
def printer(request: HttpRequest) -> HttpResponse:
    """Whether the printer keeps the size, and the correction where it does not."""
    household = household_or_none()
    values: dict[str, Any] = {}
    status = 200
    if request.method == "POST":
        measured = request.POST.get("measured", "")
        try:
            if request.POST.get("forget"):
                printer_forgotten(home_folder())
            else:
                printer_measured(home_folder(), scale=scale_from(measured), measured=measured)
        except (NotALength, FarOff) as wrong:
            values, status = {"problem": str(wrong), "typed": measured}, 422
        else:
            values = {"kept": True}
    values["scale"] = _scale_said(printer_scale(home_folder()))
    return page(request, "library/printer", values, household=household, here="library", status=status)


@cache
def _getting_ready(paper: Paper, *, little_one: bool) -> WeekSheet:
    return getting_ready(grade2(), paper=paper, little_one=little_one)


def _day(number: int) -> Day:
    found = grade2().days
    if not 1 <= number <= len(found):
        raise Http404
    return found[number - 1]


def _paper() -> Paper:
    household = household_or_none()
    return "a4" if household is not None and household.paper == "a4" else "letter"


def _title(word: str) -> str:
    material = grade2().materials.get(word)
    title = material.title if material else word.replace("-", " ").replace(":", " ")
    return title[:1].upper() + title[1:]


def _scale_said(scale: float) -> str:
    """The correction as a number in a sentence; "" where there is none."""
    return "" if abs(scale - 1) < 0.0005 else f"{abs(scale - 1):.1%} {'larger' if scale > 1 else 'smaller'}"


def _pdf(content: bytes, name: str) -> HttpResponse:
    response = HttpResponse(content, content_type="application/pdf")
    plain = "".join(sign if sign.isascii() and (sign.isalnum() or sign in " -.") else "_" for sign in name)
    response.headers["Content-Disposition"] = f'inline; filename="{plain}.pdf"'
    response.headers["Cache-Control"] = "private, no-store"
    return response
