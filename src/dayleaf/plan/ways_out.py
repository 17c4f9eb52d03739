"""What would make a year fit when the lessons are more than the days."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Literal

from dayleaf.plan.calendar import learning_days

if TYPE_CHECKING:
    from collections.abc import Sequence

    from dayleaf.core.ids import LessonId
    from dayleaf.course.model import Day
    from dayleaf.plan.calendar import LearningCalendar

Kind = Literal["shorten", "more days", "one more weekday"]


@dataclass(frozen=True, slots=True)
class WayOut:
    """One change that is enough, with its cost.

    `shorten`: the lessons left out and the pairs that share a day. `more days`: how many learning days are
    missing. `one more weekday`: the weekday (0 = Monday) that would do, with as many minutes as the longest.
    """

    kind: Kind
    days: int
    """Learning days that the year would then need."""
    left_out: tuple[LessonId, ...] = ()
    joined: tuple[tuple[LessonId, LessonId], ...] = ()
    missing: int = 0
    weekday: int | None = None


def shorten(lessons: Sequence[Day]) -> tuple[tuple[LessonId, ...], ...]:
    """The lessons day by day when the droppable ones are left out and the joinable ones share a day.

    A lesson that joins the next one shares its day with the next lesson that is kept.
    """
    days: list[tuple[LessonId, ...]] = []
    waiting: tuple[LessonId, ...] = ()
    for lesson in lessons:
        if lesson.if_short == "drop":
            continue
        if lesson.if_short == "join-next" and not waiting:
            waiting = (lesson.id,)
            continue
        days.append((*waiting, lesson.id))
        waiting = ()
    if waiting:
        days.append(waiting)
    return tuple(days)


def ways_out(lessons: Sequence[Day], calendar: LearningCalendar, *, short: bool = False) -> tuple[WayOut, ...]:
    """The single changes that would make these lessons fit, the one that costs least change first.

    Each is tried before it is offered; `more days` is always true.
    """
    available = len(learning_days(calendar))
    shortened = shorten(lessons)
    needed = len(shortened) if short else len(lessons)
    found = []
    if not short and len(shortened) <= available:
        kept = {lesson for day in shortened for lesson in day}
        found.append(
            WayOut(
                kind="shorten",
                days=len(shortened),
                left_out=tuple(lesson.id for lesson in lessons if lesson.id not in kept),
                joined=tuple((day[0], day[1]) for day in shortened if len(day) == 2),
            )
        )
    longest = max(calendar.minutes.values(), default=0)
    for weekday in range(7):
        if longest and not calendar.minutes.get(weekday, 0):
            wider = replace(calendar, minutes={**calendar.minutes, weekday: longest})
            if len(learning_days(wider)) >= needed:
                found.append(WayOut(kind="one more weekday", days=needed, weekday=weekday))
    found.append(WayOut(kind="more days", days=needed, missing=needed - available))
    return tuple(found)
