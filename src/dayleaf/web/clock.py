"""Which day it is: the household's own date, or the day that `--today` asked for."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.conf import settings
from django.utils import timezone

from dayleaf.records import selectors

if TYPE_CHECKING:
    from datetime import date

    from dayleaf.records.models import Household


def today_for(household: Household) -> date:
    """The household's today."""
    fixed: date | None = getattr(settings, "TODAY", None)
    return fixed or selectors.today_of(household, timezone.now())


def weekday_and_date(day: date) -> str:
    """As Tuesday 12 January."""
    return f"{day:%A} {day.day} {day:%B}"
