"""What every answer carries: nothing may come from or go to another place."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable

    from django.http import HttpRequest, HttpResponseBase

    Answer = Callable[[HttpRequest], HttpResponseBase]

POLICY = "default-src 'self'; object-src 'self'; base-uri 'none'; form-action 'self'; frame-ancestors 'self'"


def only_from_here(answer: Answer) -> Answer:
    """Every answer tells the browser to load from this machine only."""

    def answered(request: HttpRequest) -> HttpResponseBase:
        response = answer(request)
        response.headers["Content-Security-Policy"] = POLICY
        response.headers["Permissions-Policy"] = "camera=(self), geolocation=(), microphone=()"
        return response

    return answered
