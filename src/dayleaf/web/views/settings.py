"""What holds for the whole household: paper, week, morning, the passphrase, the phones."""

from __future__ import annotations

from datetime import date, time
from typing import TYPE_CHECKING, Any, Final

from django.shortcuts import redirect
from django.utils.translation import gettext
from django.views.decorators.http import require_http_methods, require_POST

from dayleaf.core.errors import BadInput, Problem
from dayleaf.records import cards, devices, people, selectors
from dayleaf.web.clock import today_for
from dayleaf.web.page import page
from dayleaf.web.passphrase import (
    NotThePassphrase,
    TriedTooOften,
    let_in,
    passphrase_check,
    passphrase_set,
    shut_out,
)
from dayleaf.web.through import from_phone

if TYPE_CHECKING:
    from django.http import HttpRequest, HttpResponse

    from dayleaf.records.models import Household

STARTS: Final = (0, 6, 5)


@require_http_methods(["GET", "POST"])
def settings_page(request: HttpRequest) -> HttpResponse:
    """Look at the settings, or keep them."""
    household = selectors.household()
    if request.method == "POST":
        try:
            _keep(request, household)
        except BadInput as bad:
            fresh = selectors.household()
            values = {**_values(request, fresh), "problems": bad.problems}
            return page(request, "settings", values, household=fresh, here="settings", status=422)
        return redirect("settings")
    return page(request, "settings", _values(request, household), household=household, here="settings")


@require_POST
def passphrase(request: HttpRequest) -> HttpResponse:
    """Set, change or take away the passphrase; a phone cannot."""
    household = selectors.household()
    problems: tuple[Problem, ...] = ()
    try:
        _passphrase_keep(request, household)
    except BadInput as bad:
        problems = tuple(bad.problems)
    except (NotThePassphrase, TriedTooOften) as no:
        problems = (Problem("passphrase", str(no)),)
    if problems:
        values = {**_values(request, household), "problems": problems}
        return page(request, "settings", values, household=household, here="settings", status=422)
    if household.passphrase:
        let_in(request, household)
    else:
        shut_out(request)
    return redirect("settings")


@require_http_methods(["GET", "POST"])
def opening(request: HttpRequest) -> HttpResponse:
    """Ask for the passphrase."""
    household = selectors.household()
    if not household.passphrase:
        return redirect("today")
    if request.method == "GET":
        return page(request, "open", {}, household=None)
    try:
        passphrase_check(household, request.POST.get("passphrase", ""))
    except (NotThePassphrase, TriedTooOften) as no:
        return page(request, "open", {"sentence": str(no)}, household=None, status=422)
    let_in(request, household)
    return redirect("today")


def _passphrase_keep(request: HttpRequest, household: Household) -> None:
    if from_phone(request):
        raise BadInput([Problem("passphrase", "it is set at the computer")])
    if household.passphrase:
        passphrase_check(household, request.POST.get("now", ""))
    fresh = "" if "away" in request.POST else request.POST.get("fresh", "")
    if not fresh and "away" not in request.POST:
        raise BadInput([Problem("passphrase", "write the new one")])
    passphrase_set(household, fresh)


def _keep(request: HttpRequest, household: Household) -> None:
    said = request.POST
    start = said.get("week_start", "")
    people.household_set(
        household=household,
        paper=said.get("paper", ""),
        week_start=int(start) if start.isdecimal() else -1,
        morning_start=_time(said.get("morning_start", "")),
        younger_child=said.get("younger_child") == "yes",
    )
    for learner in selectors.learners(household):
        field = f"born-{learner.id}"
        if field in said:
            people.learner_born(learner=learner, born=_month(said.get(field, "")))
    cards.cards_prepare(household, today=today_for(household))


def _time(text: str) -> time | None:
    try:
        return time.fromisoformat(text) if text else None
    except ValueError:
        raise BadInput([Problem("start of the morning", "write a time such as 09:00, or leave it empty")]) from None


def _month(text: str) -> date | None:
    try:
        return date.fromisoformat(f"{text}-01") if text else None
    except ValueError:
        raise BadInput([Problem("month of birth", "write a month such as 2019-09, or leave it empty")]) from None


def _values(request: HttpRequest, household: Household) -> dict[str, Any]:
    names = {0: gettext("Monday"), 5: gettext("Saturday"), 6: gettext("Sunday")}
    return {
        "papers": [
            {"value": value, "title": title, "on": household.paper == value}
            for value, title in (("letter", gettext("Letter")), ("a4", gettext("A4")))
        ],
        "starts": [{"value": one, "title": names[one], "on": household.week_start == one} for one in STARTS],
        "morning": f"{household.morning_start:%H:%M}" if household.morning_start else "",
        "children": [
            {"id": one.id, "name": one.name, "born": f"{one.born:%Y-%m}" if one.born else ""}
            for one in selectors.learners(household)
        ],
        "closed": bool(household.passphrase),
        "on_phone": from_phone(request),
        "phones": len(devices.devices_of(household)),
    }
