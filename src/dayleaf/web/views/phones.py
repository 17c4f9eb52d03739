"""Phones: the door opened and closed at the computer, a phone let in by a one-time code, and sent away."""

from __future__ import annotations

import io
from typing import TYPE_CHECKING, Any

import segno
from django.conf import settings
from django.core.wsgi import get_wsgi_application
from django.http import Http404, HttpResponse
from django.shortcuts import redirect
from django.urls import reverse
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from dayleaf.core.errors import BadInput, DayleafError
from dayleaf.records import devices, selectors
from dayleaf.web import door
from dayleaf.web.clock import weekday_and_date
from dayleaf.web.page import page
from dayleaf.web.through import COOKIE, GOOD_FOR, from_phone

if TYPE_CHECKING:
    from django.http import HttpRequest

    from dayleaf.records.models import Household

NEXT_TO_THE_PAGES = 1
"""The door's port is the one after that of the pages, where it is free."""


@require_GET
def phones(request: HttpRequest) -> HttpResponse:
    """The door, the code that is good now, and the phones that were let in."""
    household = selectors.household()
    return page(request, "phones", _values(household), household=household, here="mark")


@require_GET
def phones_now(request: HttpRequest) -> HttpResponse:
    """The same in part, so that the page sees a phone come in."""
    household = selectors.household()
    return page(request, "_phones", _values(household), household=household)


@require_POST
def open_door(request: HttpRequest) -> HttpResponse:
    """Open the door, or ask for a new code where it is open."""
    port = getattr(settings, "PORT", 0)
    opened = door.open_door(
        get_wsgi_application(),
        address=getattr(settings, "PHONES_AT", None),
        port=port + NEXT_TO_THE_PAGES if port else 0,
    )
    if opened.address not in settings.ALLOWED_HOSTS:
        settings.ALLOWED_HOSTS = [*settings.ALLOWED_HOSTS, opened.address]
    door.new_code(opened)
    del request
    return redirect("phones")


@require_POST
def close_door(request: HttpRequest) -> HttpResponse:
    """Close the door."""
    door.close_door()
    del request
    return redirect("phones")


@require_POST
def send_away(request: HttpRequest, device: str) -> HttpResponse:
    """Take a phone's leave away."""
    devices.device_send_away(household=selectors.household(), device_id=device)
    del request
    return redirect("phones")


@require_GET
def code(request: HttpRequest) -> HttpResponse:
    """The address with the code as a square for the phone's camera."""
    del request
    address = _address(door.door())
    if address is None:
        raise Http404
    picture = io.BytesIO()
    segno.make_qr(address, error="m").save(picture, kind="svg", scale=6, border=4, dark="#1e2722", light="#ffffff")
    response = HttpResponse(picture.getvalue(), content_type="image/svg+xml")
    response.headers["Cache-Control"] = "no-store"
    return response


@require_http_methods(["GET", "POST"])
def join(request: HttpRequest, code: str = "") -> HttpResponse:
    """On the phone: the code, a name, and in. Looking at the page uses nothing up."""
    household = selectors.household()
    if not from_phone(request):
        return redirect("phones")
    if request.method == "GET":
        return page(request, "join", {"code": code, "name": "A phone"}, household=None)
    said = {"code": request.POST.get("code", ""), "name": request.POST.get("name", "").strip() or "A phone"}
    try:
        devices.check_name(said["name"])
        door.use_code(door.door(), said["code"])
        _, token = devices.device_join(household=household, name=said["name"])
    except (BadInput, door.CodeNotGood) as problem:
        return page(request, "join", {**said, "problem": _sentence(problem)}, household=None, status=422)
    response = redirect("photos")
    response.set_cookie(COOKIE, token, max_age=GOOD_FOR, httponly=True, samesite="Strict")
    return response


def _sentence(problem: DayleafError) -> str:
    return " ".join(str(problem).splitlines())


def _address(opened: door.Door | None) -> str | None:
    text = door.good_code(opened)
    return f"http://{opened.host}{reverse('join-with', args=[text])}" if opened and text else None


def _values(household: Household) -> dict[str, Any]:
    opened = door.door()
    text = door.good_code(opened)
    return {
        "open": opened is not None,
        "host": opened.host if opened else "",
        "code": f"{text[:4]} {text[4:]}" if text else "",
        "square": text or "",
        "phones": [
            {"id": one.device_id, "name": one.name, "since": weekday_and_date(one.joined_at.date())}
            for one in devices.devices_of(household)
        ],
    }
