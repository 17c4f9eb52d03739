"""Where a request comes from: this computer, or a phone through the open door; and what a phone may ask for."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from django.core.exceptions import DisallowedHost
from django.shortcuts import redirect

from dayleaf.records import devices
from dayleaf.web import door
from dayleaf.web.page import page

if TYPE_CHECKING:
    from collections.abc import Callable

    from django.http import HttpRequest, HttpResponse

    Answer = Callable[[HttpRequest], HttpResponse]

COOKIE: Final = "dayleaf_phone"
GOOD_FOR: Final = 180 * 24 * 3600
"""Seconds that a phone is known; the household can send it away at any time."""

THIS_COMPUTER: Final = "this computer"
FOR_ALL: Final = ("/join", "/static/", "/fonts/", "/favicon.ico")
"""What a phone may ask for before it was let in."""

NOT_FOR_PHONES: Final = "/phones"
"""Letting phones in and sending them away is done at the computer."""

_DEVICE: Final = "dayleaf.device"


def through_the_door(answer: Answer) -> Answer:
    """A phone that was not let in gets no further than the question for its code."""

    def answered(request: HttpRequest) -> HttpResponse:
        if not from_phone(request):
            return answer(request)
        opened = door.door()
        if opened is None or request.get_host() != opened.host:
            raise DisallowedHost("a request for another host came through the door")
        device = devices.device_with(request.COOKIES.get(COOKIE, ""))
        if device is not None:
            request.META[_DEVICE] = device.name
        if request.path.startswith(NOT_FOR_PHONES):
            return page(
                request, "words", {"sentences": ["Phones are let in at the computer."]}, household=None, status=403
            )
        if device is not None or request.path.startswith(FOR_ALL):
            return answer(request)
        if request.method == "GET":
            return redirect("join")
        return page(request, "words", {"sentences": ["This phone has not joined."]}, household=None, status=403)

    return answered


def from_phone(request: HttpRequest) -> bool:
    """Whether the request came through the door."""
    return bool(request.META.get(door.THROUGH))


def who(request: HttpRequest) -> str:
    """The device on which this is said: this computer, or the name of a phone."""
    return str(request.META.get(_DEVICE) or THIS_COMPUTER)
