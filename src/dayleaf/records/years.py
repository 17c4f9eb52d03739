"""What a home's year says of itself: days so far, months with their kinds of day, what stands beside the calendar."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.plan.calendar import learning_days

if TYPE_CHECKING:
    from dayleaf.records.plans import HomeYear


def days_so_far(home: HomeYear) -> tuple[int, int]:
    """Of the days planned before today, how many were lost, and how many there were, over all courses with pages."""
    lost = planned = 0
    for year in home.years:
        calendar = year.main.run.calendar
        gone = sum(1 for day in calendar.missed if day < home.today)
        lost, planned = lost + gone, planned + gone + sum(1 for one in learning_days(calendar) if one.day < home.today)
    return lost, planned
