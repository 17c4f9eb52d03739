"""A child's own page: a round of items, one at a time, without a clock or points; off until an adult asks for it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from django.shortcuts import redirect
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from dayleaf.core.errors import BadInput
from dayleaf.records import desk, selectors
from dayleaf.records.cards import cards_prepare
from dayleaf.records.screen import (
    ROUNDS,
    Asked,
    NoPageOfTheirOwn,
    NothingToAskYet,
    read_answer,
    round_begin,
    screen_answer,
    screen_switch,
)
from dayleaf.records.services import new_id
from dayleaf.web.asked_item import shown_item, shown_steps
from dayleaf.web.clock import today_for
from dayleaf.web.page import page

if TYPE_CHECKING:
    from django.http import HttpRequest, HttpResponse

    from dayleaf.records.models import Household, Learner

KEPT: Final = "round"
"""Where the session keeps the round that is going on: its id, its items, how far it is."""


@require_http_methods(["GET", "POST"])
def switch(request: HttpRequest, learner: str) -> HttpResponse:
    """Whether the child has such a page, and how many items a round has: for the adult."""
    household = selectors.household()
    child = selectors.learner_by_id(household, learner)
    if request.method == "POST":
        typed = request.POST.get("items", "")
        screen_switch(learner=child, items=int(typed) if typed.isascii() and typed.isdecimal() else -1)
        return redirect("screen", learner=child.id)
    values = {"name": child.name, "learner": child.id, "now": child.on_screen, "rounds": ROUNDS}
    return page(request, "go/switch", values, household=household, here="children")


@require_http_methods(["GET", "POST"])
def go(request: HttpRequest, learner: str) -> HttpResponse:
    """Where a round begins; a POST begins one."""
    household, child = _child(learner)
    values: dict[str, Any] = {"name": child.name, "learner": child.id, "items": child.on_screen}
    if request.method == "POST":
        try:
            items = round_begin(child, today=today_for(household))
        except NothingToAskYet as nothing:
            return _page(request, "begin", {**values, "nothing": str(nothing)}, household)
        kept = [[one.skill, one.format, [list(pair) for pair in one.numbers]] for one in items]
        request.session[KEPT] = {"learner": child.id, "id": new_id(), "items": kept, "at": 0}
        return redirect("go-item", learner=child.id)
    return _page(request, "begin", values, household)


@require_GET
def item(request: HttpRequest, learner: str) -> HttpResponse:
    """The item whose turn it is, or the end."""
    household, child = _child(learner)
    kept = _round(request, child)
    if kept is None:
        return redirect("go", learner=child.id)
    values: dict[str, Any] = {"name": child.name, "learner": child.id, "at": kept["at"], "of": len(kept["items"])}
    if kept["at"] >= len(kept["items"]):
        return _page(request, "end", values, household)
    return _page(request, "item", {**values, **shown_item(_item(kept).item(), household.language)}, household)


@require_POST
def answer(request: HttpRequest, learner: str) -> HttpResponse:
    """Keep the answer, say how it goes, and lead on."""
    household, child = _child(learner)
    kept = _round(request, child)
    if kept is None or kept["at"] >= len(kept["items"]):
        return redirect("go", learner=child.id)
    if request.POST.get("n") != str(kept["at"]):
        return redirect("go-item", learner=child.id)
    today, lang = today_for(household), household.language
    one = _item(kept).item()
    values: dict[str, Any] = {"name": child.name, "learner": child.id, "at": kept["at"], "of": len(kept["items"])}
    try:
        said = read_answer(one, request.POST.get("answer", ""))
    except BadInput:
        again = {**values, **shown_item(one, lang), "again": True}
        return _page(request, "item", again, household, status=422)
    mark = screen_answer(learner=child, round_id=kept["id"], n=kept["at"] + 1, item=one, answer=said, day=today)
    request.session[KEPT] = {**kept, "at": kept["at"] + 1}
    if kept["at"] + 1 == len(kept["items"]):
        desk.refresh(child, today=today)
        cards_prepare(household, today=today)
    if mark.state == "right":
        return _page(request, "right", {**values, **shown_item(one, lang), "last": _last(kept)}, household)
    shown = {**values, **shown_item(one, lang), "steps": shown_steps(one, lang), "last": _last(kept)}
    return _page(request, "look", shown, household)


@require_POST
def stop(request: HttpRequest, learner: str) -> HttpResponse:
    """End the round early: what was answered stays."""
    household, child = _child(learner)
    if request.session.pop(KEPT, None) is not None:
        today = today_for(household)
        desk.refresh(child, today=today)
        cards_prepare(household, today=today)
    return redirect("go", learner=child.id)


def _child(learner: str) -> tuple[Household, Learner]:
    """The child whose page it is. Raises `NoPageOfTheirOwn` where nobody has switched it on."""
    household = selectors.household()
    child = selectors.learner_by_id(household, learner)
    if not child.on_screen:
        raise NoPageOfTheirOwn(child.name)
    return household, child


def _round(request: HttpRequest, child: Learner) -> dict[str, Any] | None:
    kept = request.session.get(KEPT)
    return kept if isinstance(kept, dict) and kept.get("learner") == child.id else None


def _item(kept: dict[str, Any]) -> Asked:
    skill, name, numbers = kept["items"][kept["at"]]
    return Asked(skill, name, tuple((key, value) for key, value in numbers))


def _last(kept: dict[str, Any]) -> bool:
    return bool(kept["at"] + 1 == len(kept["items"]))


def _page(
    request: HttpRequest, template: str, values: dict[str, Any], household: Household, status: int = 200
) -> HttpResponse:
    return page(request, f"go/{template}", values, household=household, status=status)
