"""A plan sent back: made from what a family shared, and looked at by the family before anything changes.

The family's own names of its days off never travel; they are put back when a plan is accepted.
"""

from __future__ import annotations

import json
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any, Final

from dayleaf.advising.titles import lesson_words
from dayleaf.core.errors import DayleafError, Problem
from dayleaf.core.ids import LearnerId
from dayleaf.plan.calendar_changes import with_off, with_weekday
from dayleaf.plan.check_year import check_year
from dayleaf.plan.codec import PlanNotReadable, from_json, to_json
from dayleaf.plan.family import NoDay
from dayleaf.plan.kept import KeptYear, family_on, with_plans
from dayleaf.plan.priced_ways import refuse
from dayleaf.plan.replan import bend, settled

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence
    from datetime import date

    from dayleaf.core.ids import LessonId
    from dayleaf.plan.calendar import DaysOff, LearningCalendar
    from dayleaf.plan.run import CourseRun, RunPlan

SOMEBODY: Final = LearnerId("somebody")
OFF: Final = "off"
LONGEST_DAYS: Final = 3 * 366
DAY: Final = 24 * 60


class DoesNotFit(DayleafError):
    """The year that was wished does not hold all lessons."""


@dataclass(frozen=True, slots=True)
class Wished:
    """What a consultant changes: minutes by weekday (0 = Monday; 0 minutes: no lesson), days off, what may be joined.

    None leaves a thing as it is.
    """

    minutes: Mapping[int, int] | None = None
    off: tuple[DaysOff, ...] = ()
    may_join: bool | None = None
    may_leave_out: bool | None = None
    end: date | None = None


@dataclass(frozen=True, slots=True)
class Moved:
    """A lesson that another plan gives on another day; `after` is None where it has no day any more."""

    lesson: str
    title: str
    before: date | None
    after: date | None


def as_shared(year: KeptYear) -> dict[str, Any]:
    """The year as data without what tells of the family: names of days off, the country of its holidays."""
    plain = replace(year, plans=tuple(_with_calendar(plan, _nameless) for plan in year.plans), country="")
    found: dict[str, Any] = json.loads(to_json(replace(plain, subdivision="")))
    return found


def as_year(kept: Mapping[str, Any], *, learner: LearnerId = SOMEBODY) -> KeptYear:
    """The year that was shared.

    Raises:
        PlanNotReadable: it is none, or one that no family has.
    """
    try:
        year = from_json(json.dumps(kept), learner=learner)
        small = bool(year.plans) and all(_is_small(plan.run.calendar) for plan in year.plans)
    except (OverflowError, RecursionError) as wrong:
        raise PlanNotReadable(f"{type(wrong).__name__}") from wrong
    if not small:
        raise PlanNotReadable("its year is longer than three years")
    return year


def suggested(year: KeptYear, wished: Wished, *, today: date) -> KeptYear:
    """The year bent to the wishes from `today` on; as few dates change as can be.

    Raises:
        DoesNotFit: the lessons do not fit, in the planner's own sentence.
    """
    family, plans = family_on([year], today)
    runs = tuple(_changed(run, wished) for run in family.runs)
    bent = replace(family, runs=runs)
    found = bend(bent, plans)
    if isinstance(found, NoDay):
        raise DoesNotFit(refuse(bent, found.run, found.lesson).says)
    return with_plans([year], settled(found, plans))[0]


def moved(before: KeptYear, after: KeptYear) -> tuple[Moved, ...]:
    """The lessons that change their day, in the order of the days before."""
    old = {(plan.run.course, one.lesson): one.day for plan in before.plans for one in plan.placed}
    new = {(plan.run.course, one.lesson): one.day for plan in after.plans for one in plan.placed}
    names = {one.id: one.title for plan in before.plans for one in plan.run.lessons}
    pairs = [(lesson, old.get((course, lesson)), new.get((course, lesson))) for course, lesson in {**old, **new}]
    return tuple(
        Moved(lesson, names.get(lesson) or lesson_words(lesson), first, second)
        for lesson, first, second in pairs
        if first != second
    )


def answer_problems(
    own: KeptYear, answer: KeptYear, others: Sequence[KeptYear] = (), *, today: date
) -> tuple[Problem, ...]:
    """What keeps a suggested year from being this child's: other lessons, days that are over, a rule that it breaks.

    A rule that the plan in force breaks already is no reason against another plan. `others` are the other children's
    years: a household has one set of rules.
    """
    shapes = [(plan.run.course, _lessons(plan)) for plan in own.plans]
    if [(plan.run.course, _lessons(plan)) for plan in answer.plans] != shapes:
        return (Problem("plan", "it holds other lessons than your plan"),)
    if answer.rules != own.rules or answer.wishes != own.wishes or answer.one_of != own.one_of:
        return (Problem("plan", "it changes your household’s rules and wishes"),)
    over = [one for one in moved(own, answer) if min(one.before or today, one.after or today) < today]
    if over:
        return (Problem("plan", f"it changes a day that is over ({over[0].title}); ask for a fresh one"),)
    family, plans = family_on([answer, *others], today)
    before, own_plans = family_on([own, *others], today)
    already = {(one.rule, one.lesson) for one in check_year(before, own_plans)}
    broken = [one for one in check_year(family, plans) if (one.rule, one.lesson) not in already]
    return tuple(Problem("plan", one.says) for one in broken[:5])


def own_names(answer: KeptYear, own: KeptYear) -> KeptYear:
    """The suggested year with the family's own names of its days off and its country."""
    known = {(one.first, one.last): one for one in _all_off(own)}

    def named(calendar: LearningCalendar) -> LearningCalendar:
        return replace(
            calendar,
            off=_each(calendar.off, known),
            holidays=_each(calendar.holidays, known),
            terms=_each(calendar.terms, known),
        )

    plans = tuple(_with_calendar(plan, named) for plan in answer.plans)
    return replace(answer, plans=plans, country=own.country, subdivision=own.subdivision)


def _changed(run: CourseRun, wished: Wished) -> CourseRun:
    calendar = run.calendar
    if wished.minutes is not None:
        for weekday in range(7):
            calendar = with_weekday(calendar, weekday, wished.minutes.get(weekday, 0))
    for off in wished.off:
        calendar = with_off(calendar, off)
    if wished.end is not None:
        calendar = replace(calendar, end=wished.end)
    return replace(
        run,
        calendar=calendar,
        may_join=run.may_join if wished.may_join is None else wished.may_join,
        may_leave_out=run.may_leave_out if wished.may_leave_out is None else wished.may_leave_out,
    )


def _lessons(plan: RunPlan) -> frozenset[LessonId]:
    return frozenset(one.lesson for one in plan.placed).union(plan.left_out)


def _is_small(calendar: LearningCalendar) -> bool:
    """Whether the calendar and everything in it is of a size that a family's year has."""
    spans = (*calendar.off, *calendar.holidays, *calendar.terms)
    longest = max(((one.last - one.first).days for one in spans), default=0)
    minutes = all(weekday in range(7) and 0 <= most <= DAY for weekday, most in calendar.minutes.items())
    return max(longest, (calendar.last - calendar.start).days, len(spans)) <= LONGEST_DAYS and minutes


def _with_calendar(plan: RunPlan, change: Any) -> RunPlan:
    return replace(plan, run=replace(plan.run, calendar=change(plan.run.calendar)))


def _nameless(calendar: LearningCalendar) -> LearningCalendar:
    return replace(
        calendar,
        off=tuple(replace(one, name=OFF) for one in calendar.off),
        holidays=tuple(replace(one, name=OFF) for one in calendar.holidays),
        terms=tuple(replace(one, name="term") for one in calendar.terms),
    )


def _all_off(year: KeptYear) -> Iterable[DaysOff]:
    for plan in year.plans:
        calendar = plan.run.calendar
        yield from (*calendar.terms, *calendar.holidays, *calendar.off)


def _each(spans: Iterable[DaysOff], known: Mapping[tuple[date, date], DaysOff]) -> tuple[DaysOff, ...]:
    return tuple(known.get((one.first, one.last), one) for one in spans)
