"""An optional passphrase before the pages of this computer. It closes the pages; it does not encrypt the folder."""

from __future__ import annotations

import time
from typing import TYPE_CHECKING, Final

from django.contrib.auth.hashers import check_password, make_password
from django.shortcuts import redirect
from django.utils.crypto import salted_hmac

from dayleaf.core.errors import BadInput, DayleafError, Problem
from dayleaf.web.page import household_or_none
from dayleaf.web.through import from_phone

if TYPE_CHECKING:
    from collections.abc import Callable

    from django.http import HttpRequest, HttpResponse

    from dayleaf.records.models import Household

    Answer = Callable[[HttpRequest], HttpResponse]

SHORTEST: Final = 8
"""Signs of a passphrase at the least (NIST SP 800-63B, 5.1.1.2)."""
TRIES: Final = 5
REST: Final = 60.0
"""After so many wrong tries nothing is tried for so many seconds, not even the right one."""
OPEN_TO_ALL: Final = ("/open", "/static/", "/fonts/", "/favicon.ico", "/join")

_OPENED: Final = "opened"
wrong_tries: list[float] = []
"""When wrong ones were tried since the pages were opened, in seconds of this machine’s own count."""


class NotThePassphrase(DayleafError):
    """What was typed is not the household's passphrase."""

    def __init__(self) -> None:
        super().__init__("That is not the passphrase of this home.")


class TriedTooOften(DayleafError):
    """Too many wrong tries in a row."""

    def __init__(self) -> None:
        super().__init__("That was tried five times; wait a minute, then try again.")


def passphrase_set(household: Household, passphrase: str) -> None:
    """Keep a salted scrypt hash of the passphrase, or none where it is empty. Raises `BadInput`."""
    if passphrase and len(passphrase) < SHORTEST:
        raise BadInput([Problem("passphrase", f"take at least {SHORTEST} signs; a few words are good")])
    household.passphrase = make_password(passphrase) if passphrase else ""
    household.save(update_fields=["passphrase"])


def passphrase_check(household: Household, passphrase: str, *, now: float | None = None) -> None:
    """Return where it is the right one. Raises `NotThePassphrase`, and `TriedTooOften` in the minute after five."""
    moment = time.monotonic() if now is None else now
    wrong_tries[:] = [one for one in wrong_tries if moment - one < REST]
    if len(wrong_tries) >= TRIES:
        raise TriedTooOften
    if not check_password(passphrase, household.passphrase):
        wrong_tries.append(moment)
        raise NotThePassphrase
    wrong_tries.clear()


def let_in(request: HttpRequest, household: Household) -> None:
    """Remember in this browser's session that the passphrase was given."""
    request.session[_OPENED] = _seal(household)
    request.session.set_expiry(0)


def shut_out(request: HttpRequest) -> None:
    """Forget it again."""
    request.session.pop(_OPENED, None)


def asked_first(answer: Answer) -> Answer:
    """Pages of a home with a passphrase are answered once it was given; a phone was let in by its own code."""

    def answered(request: HttpRequest) -> HttpResponse:
        if from_phone(request) or request.path.startswith(OPEN_TO_ALL):
            return answer(request)
        household = household_or_none()
        if household is None or not household.passphrase or request.session.get(_OPENED) == _seal(household):
            return answer(request)
        return redirect("open")

    return answered


def _seal(household: Household) -> str:
    """Another passphrase makes another seal, so that a changed one is asked for everywhere."""
    return salted_hmac("dayleaf.passphrase", household.passphrase).hexdigest()
