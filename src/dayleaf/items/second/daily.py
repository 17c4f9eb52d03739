"""Money, time, dates and longer stories answered again without the code that made the items."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.items.second.daily_dates import date_answer
from dayleaf.items.second.daily_money import money_answer
from dayleaf.items.second.daily_stories import long_story_answer
from dayleaf.items.second.daily_time import time_answer

if TYPE_CHECKING:
    from dayleaf.items.model import Item

_READERS = (money_answer, time_answer, date_answer, long_story_answer)


def daily_answer(item: Item) -> str | None:
    """The answer read from the item's prompt and picture alone; None where neither is of a kind known here."""
    return next((answer for read in _READERS if (answer := read(item)) is not None), None)
