"""Pages for what cannot be done, in words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.http import HttpResponse

if TYPE_CHECKING:
    from django.http import HttpRequest


def came_from_elsewhere(request: HttpRequest, reason: str = "") -> HttpResponse:
    """A form that this page did not hand out."""
    del request, reason
    return HttpResponse("This form was not handed out by this page. Open the page again and repeat.", status=403)
