"""What a home's year says of itself: its months with their kinds of day, the last change, days lost so far."""

from __future__ import annotations

from calendar import Calendar
from collections import defaultdict
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING, Literal

from dayleaf.core.ids import LearnerId
from dayleaf.plan.calendar import learning_days
from dayleaf.plan.codec import from_json
from dayleaf.records import selectors

if TYPE_CHECKING:
    from dayleaf.plan.kept import KeptYear
    from dayleaf.plan.lessons import PlanLesson
    from dayleaf.plan.run import RunPlan
    from dayleaf.records.models import Learner
    from dayleaf.records.plans import HomeYear

Kind = Literal["lessons", "off", "missed", "free", "kept free", "no lessons"]


@dataclass(frozen=True, slots=True)
class DayOfYear:
    """One date: what it is, its lessons, and beside them the name of days off or the minutes of a half day."""

    day: date
    kind: Kind
    lessons: tuple[PlanLesson, ...] = ()
    name: str = ""
    half: int | None = None


@dataclass(frozen=True, slots=True)
class Month:
    """The weeks of a month; days of its neighbours are None."""

    first: date
    weeks: tuple[tuple[DayOfYear | None, ...], ...]

    @property
    def lessons(self) -> tuple[PlanLesson, ...]:
        """The lessons of the month, in order."""
        return tuple(one for week in self.weeks for day in week if day for one in day.lessons)


@dataclass(frozen=True, slots=True)
class LastChange:
    """What changed the plan last, on which day, and how many dates it moved. The first plan is no change."""

    reason: str
    day: date
    moved: int
    children: tuple[str, ...]


def months_of(year: KeptYear, *, first_weekday: int = 0) -> tuple[Month, ...]:
    """The months from the first lesson to the last, with the lessons of all courses of the child."""
    days = [one.day for plan in year.plans for one in plan.placed]
    if not days:
        return ()
    look = _Looked(year)
    weeks = Calendar(first_weekday)
    found = []
    at, last = min(days).replace(day=1), max(days)
    while at <= last:
        rows = weeks.monthdatescalendar(at.year, at.month)
        row = tuple(tuple(look.at(day) if day.month == at.month else None for day in week) for week in rows)
        found.append(Month(at, row))
        at = date(at.year + at.month // 12, at.month % 12 + 1, 1)
    return tuple(found)


def spare_days(plan: RunPlan, today: date) -> int | None:
    """Learning days without a lesson from today to the family's end; None where no end is set."""
    end = plan.run.calendar.end
    if end is None:
        return None
    used = {one.day for one in plan.placed}
    return sum(1 for one in learning_days(plan.run.calendar) if one.day >= today and one.day not in used)


def last_change(learner: Learner) -> LastChange | None:
    """What changed this child's plan last; None where the plan in force is the first one."""
    version = selectors.plan_version_or_none(learner)
    if version is None or version.parent is None:
        return None
    event = selectors.plan_event(version)
    if event is None:
        return None
    child = LearnerId(learner.id)
    now, before = (from_json(one.plan, learner=child) for one in (version, version.parent))
    dates = _dates(now)
    moved = sum(1 for lesson, day in _dates(before).items() if dates.get(lesson) != day)
    others = (one for one in selectors.learners(learner.household) if event.together and one.id != learner.id)
    beside = [one for one in others if _stands_at(one, event.together)]
    return LastChange(version.reason, event.head.day, moved, tuple(one.name for one in (learner, *beside)))


def days_so_far(home: HomeYear) -> tuple[int, int]:
    """Of the days planned before today, how many were lost, and how many there were, over all courses with pages."""
    lost = planned = 0
    for year in home.years:
        calendar = year.main.run.calendar
        gone = sum(1 for day in calendar.missed if day < home.today)
        lost, planned = lost + gone, planned + gone + sum(1 for one in learning_days(calendar) if one.day < home.today)
    return lost, planned


def _dates(year: KeptYear) -> dict[tuple[str, str], date]:
    return {(plan.run.course, one.lesson): one.day for plan in year.plans for one in plan.placed}


def _stands_at(learner: Learner, together: str) -> bool:
    version = selectors.plan_version_or_none(learner)
    return version is not None and selectors.plan_together(version) == together


class _Looked:
    """One child's calendars, looked up by date."""

    def __init__(self, year: KeptYear) -> None:
        calendar = year.main.run.calendar
        self.lessons: dict[date, list[PlanLesson]] = defaultdict(list)
        for plan in year.plans:
            known = {one.id: one for one in plan.run.lessons}
            for one in plan.placed:
                self.lessons[one.day].append(known[one.lesson])
        self.learning = {one.day for one in learning_days(calendar)}
        self.off = (*calendar.off, *calendar.holidays)
        self.half = {one.day: one.minutes for one in calendar.half_days}
        self.missed, self.free = set(calendar.missed), set(calendar.free)
        self.end = calendar.end or year.main.last or calendar.start

    def at(self, day: date) -> DayOfYear:
        """What a date is."""
        name = "; ".join(one.name for one in self.off if one.first <= day <= one.last and one.name)
        half = self.half.get(day)
        if day in self.lessons:
            return DayOfYear(day, "lessons", tuple(self.lessons[day]), half=half)
        if day in self.missed:
            return DayOfYear(day, "missed")
        if any(one.first <= day <= one.last for one in self.off):
            return DayOfYear(day, "off", name=name)
        if day in self.free:
            return DayOfYear(day, "kept free")
        if day in self.learning and day <= self.end:
            return DayOfYear(day, "free", half=half)
        return DayOfYear(day, "no lessons")
