"""Which days a child was there, and minutes where somebody counts them.

Nothing is invented: a day is known from what a person said of it, or from a lesson that was said to be done, a sheet
that was marked, another subject that was done. What a person said of the day itself goes before all else.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from dayleaf.core.errors import BadInput, Problem
from dayleaf.plan.calendar import learning_days
from dayleaf.records import services
from dayleaf.records.plans import kept_year_or_none
from dayleaf.records.span import days_said, days_taught, days_worked
from dayleaf.records.subjects import minutes_problems, subjects_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping
    from datetime import date

    from dayleaf.events.model import Attended
    from dayleaf.records.ledgers import SubjectRow
    from dayleaf.records.models import Learner
    from dayleaf.records.span import PresenceTold

Known = Literal["there", "not there", "not known"]
Because = Literal["said", "taught", "marked", "another subject", ""]
COURSE = "Mathematics"


@dataclass(frozen=True, slots=True)
class DayThere:
    """One day of a child: what is known of it and from what; `minutes` of this course where a person named them.

    `planned` says that it was a learning day of the plan.
    """

    day: date
    known: Known
    because: Because
    minutes: int | None = None
    subjects: tuple[SubjectRow, ...] = ()
    planned: bool = False


@dataclass(frozen=True, slots=True)
class Totals:
    """Days, and minutes by subject: those that were named, and on how many of its days they were."""

    there: int
    not_there: int
    not_known: int
    minutes: Mapping[str, tuple[int, int]]


def attendance(learner: Learner, *, first: date, last: date, today: date) -> tuple[DayThere, ...]:
    """Every day from `first` to `last` of which something is known, or that was a learning day up to `today`.

    A learning day that is still to come is left out.
    """
    held = days_said(learner, first=first, last=last)
    done = days_taught(learner, first=first, last=last)
    marked = days_worked(learner, first=first, last=last)
    subjects: dict[date, list[SubjectRow]] = defaultdict(list)
    for row in subjects_of(learner, first=first, last=last):
        subjects[row.day].append(row)
    planned = _planned(learner, first=first, last=min(last, today))
    days = sorted({*held, *done, *marked, *subjects, *planned})
    return tuple(
        _day(one, held.get(one), one in done, one in marked, subjects.get(one, ()), planned=one in planned)
        for one in days
    )


def totals(days: Iterable[DayThere]) -> Totals:
    """How many days are known to be what, and the minutes that were named."""
    days = tuple(days)
    count = Counter(one.known for one in days)
    minutes: dict[str, list[int]] = defaultdict(list)
    for one in days:
        if one.minutes is not None and one.known != "not there":
            minutes[COURSE].append(one.minutes)
        for row in one.subjects:
            if row.done and row.minutes is not None:
                minutes[row.title].append(row.minutes)
    return Totals(
        count["there"],
        count["not there"],
        count["not known"],
        {title: (sum(each), len(each)) for title, each in minutes.items()},
    )


def day_said(*, learner: Learner, day: date, known: str, minutes: int | None, today: date) -> Attended:
    """Write down what a person says of a day: there, not there, or “not said”, which takes back what was said.

    Raises:
        BadInput: the day is still to come, or the minutes do not fit in it.
    """
    problems = minutes_problems(minutes)
    if day > today:
        problems.append(Problem("day", f"{day} is still to come; it can be said when it is there"))
    if known not in {"there", "not there", "not said"}:
        problems.append(Problem("day", "say that it was there, not there, or not said"))
    if problems:
        raise BadInput(problems)
    return services.attendance_set(
        learner=learner,
        present=known == "there",
        taken_back=known == "not said",
        minutes=minutes if known == "there" else None,
        day=day,
    )


def _planned(learner: Learner, *, first: date, last: date) -> set[date]:
    year = kept_year_or_none(learner)
    if year is None:
        return set()
    end = year.main.run.calendar.end or year.main.last or last
    days = {one.day for one in learning_days(year.main.run.calendar)}
    return {day for day in days if first <= day <= min(last, end)}


def _day(
    day: date,
    said: PresenceTold | None,
    done: bool,  # noqa: FBT001 -- one day's findings, named where they are gathered
    marked: bool,  # noqa: FBT001 -- the same
    subjects: Iterable[SubjectRow],
    *,
    planned: bool,
) -> DayThere:
    subjects = tuple(subjects)
    known: Known = "not known"
    because: Because = ""
    if said is not None:
        known, because = ("there" if said.present else "not there"), "said"
    elif done:
        known, because = "there", "taught"
    elif marked:
        known, because = "there", "marked"
    elif any(row.done for row in subjects):
        known, because = "there", "another subject"
    return DayThere(day, known, because, said.minutes if said else None, subjects, planned)
