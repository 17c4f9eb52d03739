"""A household written as data: calendar, learners, courses and wishes in one TOML file, read with all its problems."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any
from zoneinfo import available_timezones

from dayleaf.core.errors import BadInput, Problem
from dayleaf.course.shape import Fields, read_toml
from dayleaf.plan.household_calendar import read_calendar
from dayleaf.plan.household_courses import read_courses
from dayleaf.plan.household_learners import Child, read_learners
from dayleaf.plan.morning_file import read_morning
from dayleaf.plan.run import FamilyYear
from dayleaf.plan.wishes import HEAVIEST, RULE_NAMES, WISH_NAMES, Rules, Wishes

if TYPE_CHECKING:
    from collections.abc import Mapping
    from datetime import date
    from pathlib import Path

    from dayleaf.core.ids import CourseId
    from dayleaf.plan.calendar import LearningCalendar
    from dayleaf.plan.lessons import PlanLesson
    from dayleaf.plan.morning_file import MorningTables


@dataclass(frozen=True, slots=True)
class HouseholdFile:
    """What a household's file says.

    `timezone` is an IANA name. `lost` counts lost days among planned ones so far (lost, planned). `today` is the day
    from which on is planned, if the file names one. `morning` holds the tables of the morning.
    """

    name: str
    timezone: str
    first_weekday: int
    calendar: LearningCalendar
    children: tuple[Child, ...]
    year: FamilyYear
    morning: MorningTables
    lost: tuple[int, int] = (0, 0)
    today: date | None = None


def read_household(path: Path, *, ours: Mapping[CourseId, tuple[PlanLesson, ...]]) -> HouseholdFile:
    """Read a household's file; `ours` are the courses that Dayleaf brings, by id.

    Raises:
        BadInput: with every problem of the file, in its shape and in its meaning.
    """
    problems: list[Problem] = []
    top = read_toml(path, where=path.name, problems=problems)
    if top is None:
        raise BadInput(problems)
    found = _household(top, ours, problems)
    if problems:
        raise BadInput(problems)
    return found


def _household(top: Fields, ours: Mapping[CourseId, tuple[PlanLesson, ...]], problems: list[Problem]) -> HouseholdFile:
    about = top.table("household", optional=True) or top.nothing()
    name = about.text("name", optional=True)
    timezone = _timezone(about)
    first_weekday = _weekday(about)
    today = about.day("today", optional=True)
    lost = about.whole_pair("lost_days") if about.has("lost_days") else (0, 0)
    one_of = frozenset(about.texts("one_of_each", optional=True))
    calendar, wished_end, spread = read_calendar(top, about)
    about.done()
    courses = dict(ours) | read_courses(top)
    children = read_learners(top, calendar=calendar, courses=courses)
    rules = _rules(top)
    wishes = _wishes(top)
    raw: dict[str, Any] = {name: top.raw(name) for name in ("morning", "appointments", "shared") if top.has(name)}
    raw["blocks"] = {child.id: child.blocks for child in children if child.blocks is not None}
    top.done()
    morning, wrong = read_morning(raw, ages={child.id: child.age or None for child in children})
    problems.extend(wrong)
    runs = tuple(
        replace(run, wished_end=run.wished_end or wished_end, spread_percent=spread, not_before=today)
        for child in children
        for run in child.runs
    )
    return HouseholdFile(
        name=name,
        timezone=timezone,
        first_weekday=first_weekday,
        calendar=calendar,
        children=children,
        year=FamilyYear(runs=runs, rules=rules, wishes=wishes, one_of=one_of),
        lost=lost,
        today=today,
        morning=morning,
    )


def _timezone(about: Fields) -> str:
    name = about.text("timezone", optional=True) or "UTC"
    if name not in available_timezones():
        about.problem("timezone", f"“{name}” is no time zone; write one such as Europe/Dublin or America/New_York")
    return name


def _weekday(about: Fields) -> int:
    days = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
    return days.index(about.choice("first_weekday", days, optional="monday"))


def _rules(top: Fields) -> Rules:
    table = top.table("rules", optional=True)
    if table is None:
        return Rules()
    found = Rules(**{name: table.flag(name) for name in RULE_NAMES if table.has(name)})
    for name in RULE_NAMES:
        table.raw(name)
    table.done()
    return found


def _wishes(top: Fields) -> Wishes:
    table = top.table("wishes", optional=True)
    if table is None:
        return Wishes()
    weights = {name: table.whole(name) for name in WISH_NAMES if table.has(name)}
    for name, weight in weights.items():
        if weight > HEAVIEST:
            table.problem(name, f"is {weight}; the most it can be is {HEAVIEST}")
    for name in WISH_NAMES:
        table.raw(name)
    table.done()
    return Wishes(**weights)
