"""Papers as they were printed, and the fonts that paper and screen share."""

from __future__ import annotations

from functools import cache
from importlib.resources import files
from typing import TYPE_CHECKING

from django.http import Http404, HttpResponse
from django.views.decorators.cache import cache_control
from django.views.decorators.http import require_GET

from dayleaf.records import selectors
from dayleaf.records.models import PrintRow

if TYPE_CHECKING:
    from django.http import HttpRequest

FONTS = {
    "source-sans-3.ttf": ("fontpkg_source_sans_3", "SourceSans3[wght].ttf"),
    "literata.ttf": ("fontpkg_literata", "Literata[opsz,wght].ttf"),
    "lexend.ttf": ("fontpkg_lexend", "Lexend[wght].ttf"),
}
PAPERS = {"pages": "pages", "guide": "guide", "key": "key"}


@require_GET
def paper(request: HttpRequest, print_id: str, paper: str) -> HttpResponse:
    """One paper of a print of this household, to be looked at in the browser."""
    del request
    household = selectors.household()
    found = PrintRow.objects.filter(household=household, print_id=print_id).select_related("learner").first()
    if found is None or paper not in PAPERS:
        raise Http404
    name = f"{found.learner.name} {found.lesson} {paper}.pdf"
    response = HttpResponse(bytes(getattr(found, PAPERS[paper])), content_type="application/pdf")
    response.headers["Content-Disposition"] = f'inline; filename="{_plain(name)}"'
    response.headers["Cache-Control"] = "private, no-store"
    return response


@require_GET
@cache_control(max_age=31_536_000, immutable=True, public=True)
def font(request: HttpRequest, name: str) -> HttpResponse:
    """A font file of the installed font packages."""
    del request
    if name not in FONTS:
        raise Http404
    return HttpResponse(_font(name), content_type="font/ttf")


@cache
def _font(name: str) -> bytes:
    package, file = FONTS[name]
    return (files(package) / "files" / file).read_bytes()


def _plain(name: str) -> str:
    """A file name of letters that every header may hold."""
    return "".join(sign if sign.isascii() and (sign.isalnum() or sign in " -.") else "_" for sign in name)
