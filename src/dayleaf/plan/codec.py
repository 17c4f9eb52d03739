"""A child's year as canonical JSON: the same year is always the same bytes, so a plan can be named by its hash.

Form 2 holds all runs of a child with their calendars, rules and wishes. Form 1, which held the dates of one run, is
still read. Of a course that Dayleaf brings only the dates are written; the lessons of a family's own are written out.
"""

from __future__ import annotations

import json
from dataclasses import fields
from datetime import date
from typing import TYPE_CHECKING, Any, Final, cast

from dayleaf.core.errors import DayleafError
from dayleaf.core.ids import CourseId, LearnerId, LessonId
from dayleaf.plan.calendar import DaysOff, LearningCalendar, LearningDay
from dayleaf.plan.kept import KeptYear
from dayleaf.plan.lessons import AGAIN, PlanLesson, changed, our_courses, taught_by
from dayleaf.plan.run import SPREAD_PERCENT, CourseRun, RunPlan
from dayleaf.plan.wishes import Rules, Wishes
from dayleaf.plan.year import Placed

if TYPE_CHECKING:
    from collections.abc import Iterable

    from dayleaf.course.model import DayKind, IfShort

VERSION: Final = 2


class PlanNotReadable(DayleafError):
    """A stored plan cannot be read back."""

    def __init__(self, why: str) -> None:
        super().__init__(f"This plan cannot be read: {why}.")


def to_json(year: KeptYear) -> str:
    """The year as one line of JSON: keys in order, no spaces, dates as 2027-01-12. What is as usual is left away."""
    data = {
        "version": VERSION,
        "runs": [_run_to_data(plan) for plan in year.plans],
        "rules": _unusual(year.rules, Rules()),
        "wishes": _unusual(year.wishes, Wishes()),
        "one_of": sorted(year.one_of),
        "holidays_of": [year.country, year.subdivision],
    }
    return json.dumps(data, sort_keys=True, separators=(",", ":"), ensure_ascii=False)


def from_json(text: str, *, learner: LearnerId) -> KeptYear:
    """The year that `to_json` wrote, or a plan of form 1.

    Raises:
        PlanNotReadable: the text is no plan, or one of a later form.
    """
    try:
        data = json.loads(text)
        if data["version"] == 1:
            return KeptYear((_run_from_data(data | _guessed(data), learner),))
        if data["version"] != VERSION:
            raise PlanNotReadable(f"it has form {data['version']!r}, and this Dayleaf reads form {VERSION}")
        country, subdivision = data["holidays_of"]
        return KeptYear(
            plans=tuple(_run_from_data(run, learner) for run in data["runs"]),
            rules=Rules(**{name: bool(on) for name, on in data["rules"].items()}),
            wishes=Wishes(**{name: int(weight) for name, weight in data["wishes"].items()}),
            one_of=frozenset(map(str, data["one_of"])),
            country=str(country),
            subdivision=str(subdivision),
        )
    except (KeyError, TypeError, AttributeError, ValueError, IndexError) as wrong:
        raise PlanNotReadable(f"{type(wrong).__name__}, {wrong}") from wrong


def _guessed(data: Any) -> dict[str, Any]:
    """What form 1 did not say: two lessons on a day and lessons left out had been allowed."""
    days = [day for _, day in data["placed"]]
    return {"may_join": len(days) > len(set(days)), "may_leave_out": bool(data["left_out"])}


def _run_to_data(plan: RunPlan) -> dict[str, Any]:
    run = plan.run
    found: dict[str, Any] = {
        "course": run.course,
        "calendar": _calendar_to_data(run.calendar),
        "placed": [[one.lesson, one.day.isoformat()] for one in plan.placed],
        "left_out": list(plan.left_out),
        "may_join": run.may_join,
        "may_leave_out": run.may_leave_out,
    }
    if run.spread_percent != SPREAD_PERCENT:
        found["spread_percent"] = run.spread_percent
    if run.wished_end is not None:
        found["wished_end"] = run.wished_end.isoformat()
    if run.firm:
        found["firm"] = list(run.firm)
    if run.course not in our_courses():
        found["lessons"] = [_lesson_to_data(one) for one in run.lessons]
    return found


def _run_from_data(data: Any, learner: LearnerId) -> RunPlan:
    course = CourseId(data["course"])
    placed = tuple(Placed(lesson=LessonId(lesson), day=date.fromisoformat(day)) for lesson, day in data["placed"])
    left_out = tuple(LessonId(lesson) for lesson in data["left_out"])
    wanted = {one.lesson for one in placed}.union(left_out)
    if "lessons" in data:
        lessons = tuple(_lesson_from_data(one) for one in data["lessons"])
    else:
        skip = [one.id for one in our_courses()[course] if one.id not in wanted]
        repeat = [taught_by(one) for one in wanted if one.endswith(AGAIN)]
        lessons = changed(our_courses()[course], skip=skip, repeat=repeat)
    unknown = wanted.difference(one.id for one in lessons)
    if unknown:
        raise PlanNotReadable(f"it names {min(unknown)}, which is no lesson of the course {course}")
    wished = data.get("wished_end")
    run = CourseRun(
        learner=learner,
        course=course,
        lessons=lessons,
        calendar=_calendar_from_data(data["calendar"]),
        wished_end=None if wished is None else date.fromisoformat(wished),
        firm=tuple(LessonId(one) for one in data.get("firm", ())),
        may_join=bool(data["may_join"]),
        may_leave_out=bool(data["may_leave_out"]),
        spread_percent=int(data.get("spread_percent", SPREAD_PERCENT)),
    )
    return RunPlan(run=run, placed=placed, left_out=left_out)


def _lesson_to_data(one: PlanLesson) -> dict[str, Any]:
    found = _unusual(one, PlanLesson(id=one.id))
    return {"id": one.id, **{name: list(value) if name == "materials" else value for name, value in found.items()}}


def _lesson_from_data(data: Any) -> PlanLesson:
    usual = PlanLesson(id=LessonId(data["id"]))
    return PlanLesson(
        id=usual.id,
        kind=cast("DayKind", str(data.get("kind", usual.kind))),
        minutes=int(data.get("minutes", usual.minutes)),
        chapter=int(data.get("chapter", usual.chapter)),
        opens=bool(data.get("opens", usual.opens)),
        if_short=cast("IfShort", str(data.get("if_short", usual.if_short))),
        log_for=LessonId(data["log_for"]) if "log_for" in data else None,
        log_days=int(data.get("log_days", 0)),
        materials=tuple(map(str, data.get("materials", ()))),
        title=str(data.get("title", "")),
        led=int(data.get("led", 0)),
    )


def _unusual(value: Any, usual: Any) -> dict[str, Any]:
    """The fields of a value that differ from the usual one's."""
    pairs = ((one.name, getattr(value, one.name)) for one in fields(value))
    return {name: found for name, found in pairs if found != getattr(usual, name)}


def _calendar_to_data(calendar: LearningCalendar) -> dict[str, Any]:
    later: dict[str, list[Any]] = {
        "half_days": [[one.day.isoformat(), one.minutes] for one in calendar.half_days],
        "terms": _off_to_data(calendar.terms),
        "free": [day.isoformat() for day in calendar.free],
        "missed": [day.isoformat() for day in calendar.missed],
    }
    return {
        "start": calendar.start.isoformat(),
        "end": None if calendar.end is None else calendar.end.isoformat(),
        "minutes": {str(weekday): calendar.minutes[weekday] for weekday in sorted(calendar.minutes)},
        "off": _off_to_data(calendar.off),
        "holidays": _off_to_data(calendar.holidays),
        **{name: value for name, value in later.items() if value},
    }


def _calendar_from_data(data: Any) -> LearningCalendar:
    return LearningCalendar(
        start=date.fromisoformat(data["start"]),
        end=None if data["end"] is None else date.fromisoformat(data["end"]),
        minutes={int(weekday): int(minutes) for weekday, minutes in data["minutes"].items()},
        off=_off_from_data(data["off"]),
        holidays=_off_from_data(data["holidays"]),
        half_days=tuple(
            LearningDay(day=date.fromisoformat(day), minutes=int(minutes)) for day, minutes in data.get("half_days", ())
        ),
        terms=_off_from_data(data.get("terms", ())),
        free=tuple(date.fromisoformat(day) for day in data.get("free", ())),
        missed=tuple(date.fromisoformat(day) for day in data.get("missed", ())),
    )


def _off_to_data(off: Iterable[DaysOff]) -> list[list[str]]:
    return [[one.first.isoformat(), one.last.isoformat(), one.name] for one in off]


def _off_from_data(data: Any) -> tuple[DaysOff, ...]:
    return tuple(
        DaysOff(first=date.fromisoformat(f), last=date.fromisoformat(t), name=str(name)) for f, t, name in data
    )
