"""Which of the family's own lines print in a day's guide."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from dayleaf.records.courses import course_with

if TYPE_CHECKING:
    from dayleaf.course.model import Day
    from dayleaf.records.models import Household

PARTS: Final = ("open", "close")


def lines_printed(household: Household, day: Day) -> tuple[tuple[str, str], ...]:
    """The lines of a day, (`open` or `close`, words): its chapter's, where it is a lesson, then its own."""
    course = course_with(household, day.id)
    rows = [
        row
        for row in household.lines.filter(course=course.id)
        if row.lesson == day.id or (row.chapter == day.chapter and day.kind == "lesson")
    ]
    rows.sort(key=lambda row: (PARTS.index(row.part), row.lesson))
    return tuple((row.part, row.text) for row in rows)
