"""Codes of items about days, months, dates, places in a line and schedules; `codes` takes them in."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

WEEKDAYS = tuple(f"weekday-{k}" for k in range(7))
"""Monday first, as the calendar module counts."""

MONTHS = tuple(f"month-{k}" for k in range(1, 13))

PLANNED = ("plan-breakfast", "plan-numbers", "plan-lock", "plan-garden", "plan-lunch", "plan-goats", "plan-swim")
"""What stands on a plan of the day, in the order of the day."""

QUESTIONS: Mapping[str, tuple[str, ...]] = {
    # places in a line; e is 0 where the bridge stands at the left end, 1 at the right
    "which-from-bridge": (),  # Count from the bridge. Which boat does the arrow show?
    "ringed-from-bridge": ("n", "m", "e"),  # In which picture is the fourth boat from the bridge ringed?
    # days and months; name is a word code
    "day-after": ("name",),  # Today is Tuesday. Which day is tomorrow?
    "day-before": ("name",),
    "month-after": ("name",),  # Which month comes just after May?
    "month-before": ("name",),
    # a month page; w is a word code of a weekday
    "date-of-weekday": ("n", "w"),  # Which date is the third Tuesday?
    "weekday-of-date": ("n",),  # Which day of the week is the fourteenth?
    "date-in-gap": (),  # Which date belongs in the empty place?
    # schedules
    "next-boat": ("h", "m", "half"),  # half: am or pm. It is 10:45 a.m. Which boat is the next one?
}

OPTIONS: frozenset[str] = frozenset({*WEEKDAYS, *MONTHS, "st", "nd", "rd", "th"})

WORDS: Mapping[str, bool] = {
    "order-name": True,  # the name of a place: twenty-third
    **dict.fromkeys((*WEEKDAYS, *MONTHS, *PLANNED, "am", "pm"), False),
}

STEPS: Mapping[str, tuple[str, ...]] = {
    "count-from-bridge": ("n",),  # Begin at the bridge. Count to 4
    "day-names-go-on": ("name", "next"),  # codes. After Tuesday comes Wednesday
    "months-go-on": ("name", "next"),
    "first-is": ("name",),  # code. Monday comes first
    "ending-of": ("n", "ending"),  # ending: an option. Twenty-third ends in -rd
    "column-is-weekday": ("w",),  # code. All Tuesdays stand under one another
    "go-down": ("n", "date"),  # Go down to the third one: 15
    "top-of-column": ("date", "w"),  # codes. Above 14 stands its weekday: Wednesday
    "one-more-than": ("before", "date"),  # After 13 comes 14
    "slide-across": ("row", "h", "m"),  # code. Slide across from lunch: 12:30
    "morning-first": (),  # A.m. comes before p.m. Twelve o'clock comes before one
    "next-after": ("h", "m"),  # The first time after it is 12:30
}
