"""Errors become sentences and status codes here and nowhere else."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.errors import BadInput, DayleafError
from dayleaf.records.coming import NoSuchLesson
from dayleaf.records.devices import NoSuchDevice
from dayleaf.records.errors import NoHousehold, NoPlan, NoSuchChild, NoSuchSheet
from dayleaf.records.kept_backups import NoSuchBackup
from dayleaf.records.photos import NoSuchPhoto
from dayleaf.records.screen import NoPageOfTheirOwn
from dayleaf.records.settling import NoPhotoOfIt
from dayleaf.records.subjects import NoSuchLine
from dayleaf.web.page import household_or_none, page

if TYPE_CHECKING:
    from django.http import HttpRequest, HttpResponse

STATUS: tuple[tuple[type[DayleafError], int], ...] = (
    (NoSuchChild, 404),
    (NoSuchSheet, 404),
    (NoSuchLesson, 404),
    (NoSuchPhoto, 404),
    (NoSuchBackup, 404),
    (NoSuchLine, 404),
    (NoSuchDevice, 404),
    (NoPhotoOfIt, 404),
    (NoPageOfTheirOwn, 404),
    (NoHousehold, 404),
    (NoPlan, 404),
    (BadInput, 422),
    (DayleafError, 409),
)


def said_in_words(request: HttpRequest, error: DayleafError) -> HttpResponse:
    """The page for an error that has a name."""
    status = next(code for kind, code in STATUS if isinstance(error, kind))
    return _page(request, str(error).splitlines(), status)


def not_found(request: HttpRequest, exception: Exception | None = None) -> HttpResponse:
    """No page at this address."""
    del exception
    return _page(request, ["There is no page at this address."], 404)


def not_understood(request: HttpRequest, exception: Exception | None = None) -> HttpResponse:
    """A request that no page of ours makes; nothing of the household is shown."""
    del exception
    sentences = ["This was not understood.", "Open the page again; at most 100 photos go in at once."]
    return page(request, "words", {"sentences": sentences}, household=None, status=400)


def broken(request: HttpRequest) -> HttpResponse:
    """Something that we did not foresee; nothing was kept of the request."""
    return _page(request, ["Something went wrong here that we did not foresee. Nothing of it was kept."], 500)


def came_from_elsewhere(request: HttpRequest, reason: str = "") -> HttpResponse:
    """A form that this page did not hand out."""
    del reason
    sentences = ["This form was not handed out by this page, or it is too old. Open the page again and repeat."]
    return _page(request, sentences, 403)


def _page(request: HttpRequest, sentences: list[str], status: int) -> HttpResponse:
    return page(request, "words", {"sentences": sentences}, household=household_or_none(), status=status)
