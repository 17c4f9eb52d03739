"""Photos of sheets: handed in, read, shown, taken away."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.http import HttpResponse
from django.shortcuts import redirect
from django.views.decorators.cache import cache_control
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from dayleaf.core.errors import DayleafError, Problem
from dayleaf.learner.words import count_word
from dayleaf.marking.mark import score
from dayleaf.reading.files import MOST_BYTES
from dayleaf.reading.refusals import TooLarge
from dayleaf.records import photos as kept
from dayleaf.records import selectors, settling
from dayleaf.records.coming import lesson_named
from dayleaf.web import photo_reading
from dayleaf.web.page import page
from dayleaf.web.shown import upper_first
from dayleaf.web.through import from_phone, who

if TYPE_CHECKING:
    from collections.abc import Iterable

    from django.core.files.uploadedfile import UploadedFile
    from django.http import HttpRequest

    from dayleaf.records.models import Household

SHOWN = 12
"""Sheets on the page, the newest first."""


@require_http_methods(["GET", "POST"])
def photos(request: HttpRequest) -> HttpResponse:
    """The way to hand photos in, and what became of them."""
    household = selectors.household()
    if request.method == "GET":
        return page(request, "photos", _values(request, household), household=household, here="mark")
    problems = _keep(household, request.FILES.getlist("photos"), came_from=who(request))
    photo_reading.read_soon(household.id)
    if not problems:
        return redirect("photos")
    values = {**_values(request, household), "problems": problems}
    return page(request, "photos", values, household=household, here="mark", status=422)


@require_GET
def photos_now(request: HttpRequest) -> HttpResponse:
    """What became of the photos, in part, so that the page sees them being read."""
    household = selectors.household()
    return page(request, "_photos", _values(request, household), household=household)


@require_POST
def read_now(request: HttpRequest) -> HttpResponse:
    """Read what waits: after the computer was switched off in between."""
    photo_reading.read_soon(selectors.household().id)
    del request
    return redirect("photos")


@require_POST
def remove(request: HttpRequest, photo: str) -> HttpResponse:
    """Take a photo away; marks that were kept stay."""
    kept.photo_remove(selectors.household(), photo)
    del request
    return redirect("photos")


@require_POST
def put_away(request: HttpRequest, photo: str, number: int) -> HttpResponse:
    """Take the sentence about a page that was not read away."""
    kept.page_put_away(selectors.household(), photo, number)
    del request
    return redirect("photos")


@require_GET
@cache_control(private=True, max_age=86_400, immutable=True)
def side(request: HttpRequest, photo: str, number: int) -> HttpResponse:
    """A side of a sheet as seen from above."""
    del request
    return HttpResponse(kept.side_picture(selectors.household(), photo, number), content_type="image/jpeg")


def _keep(household: Household, files: Iterable[UploadedFile[bytes]], *, came_from: str) -> list[Problem]:
    """Keep the files; one sentence for each that is not kept."""
    problems = []
    files = list(files)
    if not files:
        problems.append(Problem("No photo", "choose one or more first"))
    for file in files:
        try:
            if (file.size or 0) > MOST_BYTES:
                raise TooLarge(megabytes=(file.size or 0) // 1_000_000)
            kept.photo_keep(household, file.read(), came_from=came_from)
        except DayleafError as reason:
            problems.append(Problem(file.name or "A photo", str(reason)))
    return problems


def _values(request: HttpRequest, household: Household) -> dict[str, Any]:
    found = kept.handed_in(household)
    lines = [_line(household, sheet) for sheet in found.sheets[:SHOWN]]
    open_ones = [line for line in lines if not line["marked"]]
    return {
        "heading": _heading(found.waiting, len(open_ones), any_sheet=bool(lines)),
        "waiting": found.waiting,
        "reading": photo_reading.is_reading(),
        "open": open_ones,
        "marked": [line for line in lines if line["marked"]],
        "not_read": found.not_read,
        "phone": from_phone(request),
    }


def _heading(waiting: int, open_ones: int, *, any_sheet: bool) -> str:
    if waiting:
        return f"Reading {'one photo' if waiting == 1 else f'{count_word(waiting)} photos'}"
    if open_ones:
        number = upper_first(count_word(open_ones))
        return f"{number} {'sheet waits' if open_ones == 1 else 'sheets wait'} for your look"
    return "Every photographed sheet is marked" if any_sheet else "A photo marks the sheet"


def _line(household: Household, sheet: str) -> dict[str, Any]:
    row = selectors.sheet_find(household, sheet)
    marking = selectors.marking_of(row)
    seen = settling.sheet_seen(row)
    words = _waits_for(seen)
    if marking is not None:
        right, of = score(marking.items)
        words = f"{right} of {of} right"
    return {
        "sheet": row.sheet_id,
        "name": row.learner.name,
        "title": lesson_named(row.lesson).title,
        "marked": marking is not None,
        "words": words,
        "photos": list(dict.fromkeys(side.photo for side in seen.sides)),
    }


def _waits_for(seen: settling.SheetSeen) -> str:
    """What a person still has to look at, in a few words."""
    asked = sum(item.proposal.state == "ask" for item in seen.counted)
    words = []
    if asked:
        words.append("one place to look at" if asked == 1 else f"{count_word(asked)} places to look at")
    if any(item.proposal.state == "not seen" for item in seen.counted):
        words.append("one side is missing" if len(seen.unseen) == 1 else "sides are missing")
    return ", ".join(words) or "all is read; keep the marks"
