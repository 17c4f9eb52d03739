"""What `dayleaf plan` says in calendars: the plan as a calendar file, one morning, a family's own calendar."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import click

from dayleaf.cli.options import CannotWriteHere
from dayleaf.cli.shapes import say_json
from dayleaf.core.errors import BadInput, Problem
from dayleaf.core.ids import LearnerId
from dayleaf.plan.busy import days_off, read_busy
from dayleaf.plan.entries import entries_of_plan
from dayleaf.plan.feed import calendar_file
from dayleaf.plan.morning import plan_morning
from dayleaf.plan.morning_codec import morning_data
from dayleaf.plan.morning_file import LessonOfDay, busy_appointments, needs_on
from dayleaf.plan.morning_words import morning_lines
from dayleaf.records.weeks import lessons_between, morning_needs

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence
    from datetime import date
    from pathlib import Path

    from dayleaf.plan.busy import BusyTime
    from dayleaf.plan.feed import Announced, Entry
    from dayleaf.plan.household import HouseholdFile
    from dayleaf.plan.morning_model import MorningNeeds
    from dayleaf.plan.run import FamilyYear, RunPlan
    from dayleaf.records.models import Household, Learner


def write_calendar(
    path: Path,
    entries: Iterable[Entry],
    *,
    household: str,
    name: str,
    zone: str,
    today: date,
    also: Mapping[str, Announced] | None = None,
) -> None:
    """Write the calendar file, or bring the one that is there up to date; `also` is what was announced elsewhere.

    Raises:
        NotOurCalendar: another program's file stands there; it is left as it is.
        CannotWriteHere: the file cannot be read or written.
    """
    try:
        before = path.read_bytes() if path.exists() else None
        content = calendar_file(
            entries, household=household, name=name, zone=zone, today=today, before=before, also=also
        )
        path.write_bytes(content)
    except OSError as error:
        raise CannotWriteHere(path, error.strerror or "it is no file") from error


def file_entries(file: HouseholdFile, plans: Iterable[RunPlan]) -> tuple[Entry, ...]:
    """The lessons of a household's file as calendar entries."""
    names = {child.id: child.name for child in file.children}
    return tuple(
        entry
        for plan in plans
        for entry in entries_of_plan(plan, learner=plan.run.learner, initial=names[plan.run.learner][:1])
    )


def file_morning(
    file: HouseholdFile, plans: Iterable[RunPlan], day: date, busy: Sequence[BusyTime]
) -> tuple[MorningNeeds, dict[LearnerId, str]]:
    """What the morning of a date asks for by a household's file, and the children's names."""
    lessons = [
        LessonOfDay(
            learner=plan.run.learner,
            title=lesson.title or str(lesson.id),
            led=lesson.led,
            alone=lesson.minutes - lesson.led,
            materials=lesson.materials,
        )
        for plan in plans
        for found in [{one.id: one for one in plan.run.lessons}]
        for one in plan.placed
        if one.day == day
        for lesson in [found[one.lesson]]
    ]
    needs = needs_on(file.morning, day, lessons=lessons, busy=busy)
    return needs, {child.id: child.name for child in file.children}


def home_morning(
    household: Household, learners: Sequence[Learner], day: date, busy: Sequence[BusyTime]
) -> tuple[MorningNeeds, dict[LearnerId, str]]:
    """What the morning of a date asks for by the plans in force at home, and the children's names."""
    needs = morning_needs(household, learners, lessons_between(learners, day, day), day)
    if needs.start is not None and busy:
        needs = replace(needs, appointments=(*needs.appointments, *busy_appointments(busy, day, needs.start)))
    return needs, {LearnerId(learner.id): learner.name for learner in learners}


def say_morning(needs: MorningNeeds, names: Mapping[LearnerId, str], day: date, *, as_json: bool) -> None:
    """Lay the morning out and print it."""
    plan = plan_morning(needs)
    if as_json:
        say_json(morning_data(needs, plan, day=day, names=names))
        return
    for line in morning_lines(needs, plan, names):
        click.echo(line)


def busy_in(path: Path, *, first: date, last: date, zone: str) -> tuple[BusyTime, ...]:
    """The busy times of a family's own calendar file; what could not be read in it is said on the side.

    Raises:
        BadInput: the file is not there or is no calendar.
    """
    try:
        content = path.read_bytes()
    except OSError as error:
        raise BadInput([Problem(str(path), f"it cannot be read: {error.strerror}")]) from error
    busy, problems = read_busy(content, first=first, last=last, zone=zone)
    if any(problem.where == "calendar" for problem in problems) and not busy:
        raise BadInput([Problem(str(path), problem.message) for problem in problems])
    for problem in problems:
        click.echo(f"{path.name}: {problem}", err=True)
    return busy


def with_days_off(year: FamilyYear, busy: Iterable[BusyTime]) -> FamilyYear:
    """The year with the whole busy days as days off, for everybody."""
    off = days_off(busy)
    runs = tuple(replace(run, calendar=replace(run.calendar, off=(*run.calendar.off, *off))) for run in year.runs)
    return replace(year, runs=runs)
