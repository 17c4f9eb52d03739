"""A consultant's page: whom to call, with reasons in words, from the files that families shared."""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING, Any

from django.conf import settings
from django.http import Http404
from django.shortcuts import redirect
from django.utils import timezone
from django.utils.translation import gettext, ngettext
from django.views.decorators.http import require_http_methods, require_POST

from dayleaf.advising.calls import who_to_call
from dayleaf.advising.files import MOST_FILE, NotAnExchangeFile, unpacked
from dayleaf.advising.shared import SharedRecords
from dayleaf.core.errors import BadInput, DayleafError, Problem
from dayleaf.records.families import (
    FAMILIES,
    Families,
    call_set_aside,
    call_told_again,
    families_cleared,
    families_in,
    family_open,
    left_to_call,
    set_aside,
)
from dayleaf.records.printer import home_folder
from dayleaf.web.clock import today_for
from dayleaf.web.page import household_or_none, page

if TYPE_CHECKING:
    from collections.abc import Sequence

    from django.http import HttpRequest, HttpResponse

    from dayleaf.advising.calls import Call

FORTNIGHT = timedelta(days=14)


@require_http_methods(["GET", "HEAD", "POST"])
def families(request: HttpRequest) -> HttpResponse:
    """Whom to call and whose files are open; a file handed in is opened, or refused with a sentence."""
    problem, status = "", 200
    if request.method == "POST":
        try:
            _open(request)
        except DayleafError as wrong:
            problem, status = str(wrong), 422
        else:
            return redirect("families")
    return page(request, "families", {**_shown(), "problem": problem}, household=household_or_none(), status=status)


@require_POST
def aside(request: HttpRequest, child: str) -> HttpResponse:
    """Set a line aside until a day, with a note."""
    today, folder = _today(), home_folder() / FAMILIES
    call = next((one for one in _calls(_found(today), today) if one.child == child), None)
    if call is None:
        raise Http404
    try:
        until = date.fromisoformat(request.POST.get("until", ""))
    except ValueError as wrong:
        raise BadInput([Problem("until", gettext("write the day as 2027-01-12"))]) from wrong
    call_set_aside(folder, call, until=until, note=request.POST.get("note", ""), today=today)
    return redirect("families")


@require_POST
def told_again(request: HttpRequest, child: str) -> HttpResponse:  # noqa: ARG001 (Django's signature)
    """Undo: the line is told again."""
    if (home_folder() / FAMILIES).is_dir():
        call_told_again(home_folder() / FAMILIES, child)
    return redirect("families")


def _open(request: HttpRequest) -> None:
    file = request.FILES.get("file")
    if file is None or isinstance(file, list):
        raise NotAnExchangeFile(gettext("no file was chosen"))
    if file.size is None or file.size > MOST_FILE:
        raise NotAnExchangeFile(gettext("it is too large"))
    data = file.read()
    content = unpacked(data)
    if not isinstance(content, SharedRecords):
        raise NotAnExchangeFile(gettext("it is a suggested plan, which a family opens at home"))
    family_open(content, data, home=home_folder(), today=_today())


def _found(today: date) -> Families:
    folder = home_folder() / FAMILIES
    families_cleared(home_folder(), today=today)
    return families_in(folder, today=today) if folder.is_dir() else Families((), ())


def _calls(found: Families, today: date) -> tuple[Call, ...]:
    return who_to_call(found.shared, today=today)


def _shown() -> dict[str, Any]:
    today = _today()
    found = _found(today)
    notes = [one for one in set_aside(home_folder() / FAMILIES) if one.until >= today]
    calls = left_to_call(_calls(found, today), notes, today=today)
    return {
        "says": _sentence(calls, found),
        "calls": calls,
        "aside": notes,
        "open": sorted((one.terms for one in found.shared), key=lambda terms: (terms.family, terms.learner)),
        "not_read": found.problems,
        "fortnight": (today + FORTNIGHT).isoformat(),
        "today": today.isoformat(),
    }


def _sentence(calls: Sequence[Call], found: Families) -> str:
    if not found.shared:
        return gettext("No family shares anything with you yet")
    if not calls:
        return gettext("Nobody needs a call today")
    text = ngettext("%(n)d call may help today", "%(n)d calls may help today", len(calls))
    return text % {"n": len(calls)}


def _today() -> date:
    household = household_or_none()
    fixed: date | None = getattr(settings, "TODAY", None)
    return today_for(household) if household is not None else fixed or timezone.localdate()
