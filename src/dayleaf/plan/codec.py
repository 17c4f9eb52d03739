"""A year plan as canonical JSON: the same plan is always the same bytes, so a plan can be named by its hash."""

from __future__ import annotations

import json
from datetime import date
from typing import TYPE_CHECKING, Any, Final

from dayleaf.core.errors import DayleafError
from dayleaf.core.ids import CourseId, LessonId
from dayleaf.plan.calendar import DaysOff, LearningCalendar, LearningDay
from dayleaf.plan.year import Placed, YearPlan

if TYPE_CHECKING:
    from collections.abc import Iterable

VERSION: Final = 1


class PlanNotReadable(DayleafError):
    """A stored plan cannot be read back."""

    def __init__(self, why: str) -> None:
        super().__init__(f"This plan cannot be read: {why}.")


def to_json(plan: YearPlan) -> str:
    """The plan as one line of JSON: keys in order, no spaces, dates as 2027-01-12."""
    calendar = plan.calendar
    data = {
        "version": VERSION,
        "course": plan.course,
        "calendar": {
            "start": calendar.start.isoformat(),
            "end": None if calendar.end is None else calendar.end.isoformat(),
            "minutes": {str(weekday): calendar.minutes[weekday] for weekday in sorted(calendar.minutes)},
            "off": _off_to_data(calendar.off),
            "holidays": _off_to_data(calendar.holidays),
            **_what_else(calendar),
        },
        "placed": [[placed.lesson, placed.day.isoformat()] for placed in plan.placed],
        "left_out": list(plan.left_out),
    }
    return json.dumps(data, sort_keys=True, separators=(",", ":"), ensure_ascii=False)


def from_json(text: str) -> YearPlan:
    """The plan that `to_json` wrote.

    Raises:
        PlanNotReadable: the text is no plan, or one of a later form.
    """
    try:
        data = json.loads(text)
        if data["version"] != VERSION:
            raise PlanNotReadable(f"it has form {data['version']!r}, and this Dayleaf reads form {VERSION}")
        calendar = data["calendar"]
        return YearPlan(
            course=CourseId(data["course"]),
            calendar=LearningCalendar(
                start=date.fromisoformat(calendar["start"]),
                end=None if calendar["end"] is None else date.fromisoformat(calendar["end"]),
                minutes={int(weekday): int(minutes) for weekday, minutes in calendar["minutes"].items()},
                off=_off_from_data(calendar["off"]),
                holidays=_off_from_data(calendar["holidays"]),
                half_days=tuple(
                    LearningDay(day=date.fromisoformat(day), minutes=int(minutes))
                    for day, minutes in calendar.get("half_days", ())
                ),
                terms=_off_from_data(calendar.get("terms", ())),
                free=tuple(date.fromisoformat(day) for day in calendar.get("free", ())),
                missed=tuple(date.fromisoformat(day) for day in calendar.get("missed", ())),
            ),
            placed=tuple(
                Placed(lesson=LessonId(lesson), day=date.fromisoformat(day)) for lesson, day in data["placed"]
            ),
            left_out=tuple(LessonId(lesson) for lesson in data["left_out"]),
        )
    except (KeyError, TypeError, AttributeError, ValueError) as wrong:
        raise PlanNotReadable(f"{type(wrong).__name__}, {wrong}") from wrong


def _what_else(calendar: LearningCalendar) -> dict[str, Any]:
    """The parts of a calendar that came later, written only where there are any: older plans keep their bytes."""
    later: dict[str, list[Any]] = {
        "half_days": [[one.day.isoformat(), one.minutes] for one in calendar.half_days],
        "terms": _off_to_data(calendar.terms),
        "free": [day.isoformat() for day in calendar.free],
        "missed": [day.isoformat() for day in calendar.missed],
    }
    return {name: value for name, value in later.items() if value}


def _off_to_data(off: Iterable[DaysOff]) -> list[list[str]]:
    return [[one.first.isoformat(), one.last.isoformat(), one.name] for one in off]


def _off_from_data(data: Any) -> tuple[DaysOff, ...]:
    return tuple(
        DaysOff(first=date.fromisoformat(f), last=date.fromisoformat(t), name=str(name)) for f, t, name in data
    )
