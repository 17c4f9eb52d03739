"""Dates worked again with the calendar's own arithmetic."""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING

from dayleaf.items.model import Question
from dayleaf.items.second.pictured_params import number

if TYPE_CHECKING:
    from dayleaf.items.model import Item

_LONG = {"date-after-days": 1, "date-after-weeks": 7, "story-after-days": 1, "story-after-weeks": 7}


def date_answer(item: Item) -> str | None:
    """The day of the month so many days or weeks later; None for other items."""
    prompt = item.prompt
    if not isinstance(prompt, Question) or prompt.code not in _LONG:
        return None
    if item.figure is None:
        month = int(str(prompt.values["month"]).removeprefix("month-"))
        year = 2026 if month > 7 else 2027  # the school year of the stories
    else:
        year, month = number(item, "year"), number(item, "month")
    first = date(year, month, int(prompt.values["d"]))
    return str((first + timedelta(days=_LONG[prompt.code] * int(prompt.values["k"]))).day)
