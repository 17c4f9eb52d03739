"""What every page is made with."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.shortcuts import render

from dayleaf.records import selectors
from dayleaf.records.errors import NoHousehold

if TYPE_CHECKING:
    from django.http import HttpRequest, HttpResponse

    from dayleaf.records.models import Household


def household_or_none() -> Household | None:
    """The household of this home; None before the first visit is over."""
    try:
        return selectors.household()
    except NoHousehold:
        return None


def page(
    request: HttpRequest,
    template: str,
    values: dict[str, Any],
    *,
    household: Household | None,
    here: str = "",
    status: int = 200,
) -> HttpResponse:
    """The template with its values; `here` marks the page's own place in the navigation."""
    return render(
        request,
        f"dayleaf/{template}.html",
        {**values, "household": household, "here": here},
        status=status,
    )
