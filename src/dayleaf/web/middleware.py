"""What every answer carries, and how an error becomes a page."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.errors import DayleafError
from dayleaf.records.reading import only_looking
from dayleaf.web.views.errors import said_in_words

if TYPE_CHECKING:
    from collections.abc import Callable

    from django.http import HttpRequest, HttpResponse

    Answer = Callable[[HttpRequest], HttpResponse]

POLICY = "default-src 'self'; object-src 'self'; base-uri 'none'; form-action 'self'; frame-ancestors 'self'"


def only_from_here(answer: Answer) -> Answer:
    """Every answer tells the browser to load from this machine only."""

    def answered(request: HttpRequest) -> HttpResponse:
        response = answer(request)
        response.headers["Content-Security-Policy"] = POLICY
        response.headers["Permissions-Policy"] = "camera=(self), geolocation=(), microphone=()"
        return response

    return answered


def reads_once(answer: Answer) -> Answer:
    """A page that is only looked at reads the same thing once."""

    def answered(request: HttpRequest) -> HttpResponse:
        if request.method not in {"GET", "HEAD"}:
            return answer(request)
        with only_looking():
            return answer(request)

    return answered


class InWords:
    """An error that has a name is answered by a page that says it."""

    def __init__(self, answer: Answer) -> None:
        self._answer = answer

    def __call__(self, request: HttpRequest) -> HttpResponse:
        """Pass the request on."""
        return self._answer(request)

    def process_exception(self, request: HttpRequest, error: Exception) -> HttpResponse | None:
        """The page for one of our own errors; others go on to the 500 page."""
        return said_in_words(request, error) if isinstance(error, DayleafError) else None
