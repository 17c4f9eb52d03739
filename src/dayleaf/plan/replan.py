"""When life happens: days missed, lessons half done, done early, skipped or given again, and three ways to go on.

*Slide*: what was free stays free, everything else moves. *Spare*: free days take up what was lost, and as few dates
change as can be. *Trim*: the same, with what the course lets share a day or be left out. What was done keeps its date;
a day missed is no learning day and nothing is said to have been done on it.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Literal

from dayleaf.plan.calendar import learning_days
from dayleaf.plan.family import STARTS, NoDay, lay_family
from dayleaf.plan.lessons import again, changed
from dayleaf.plan.path_costs import changed_between, first_open_day
from dayleaf.plan.price import price_year
from dayleaf.plan.run import FamilyPlan

if TYPE_CHECKING:
    from collections.abc import Collection, Mapping, Sequence
    from datetime import date

    from dayleaf.core.ids import LearnerId, LessonId
    from dayleaf.plan.run import CourseRun, FamilyYear, RunPlan
    from dayleaf.plan.year import Placed

LATER_END = 20
"""What a lesson after the last day in force costs in a re-plan: more than two lessons on one day, or one left out."""

WayOn = Literal["slide", "spare", "trim", "anew"]
"""`anew` binds no date: the rest of the year is laid out as if nobody knew the plan in force."""


@dataclass(frozen=True, slots=True)
class Happened:
    """What became otherwise than planned, for one learner (None: everybody).

    `missed` days had no lesson. `half` days had one that has to be finished: it stays to be done. `done` are lessons
    with the dates on which they were done in fact, early or late; `skip` and `repeat` name lessons.
    """

    learner: LearnerId | None = None
    missed: tuple[date, ...] = ()
    half: tuple[date, ...] = ()
    done: tuple[Placed, ...] = ()
    skip: tuple[LessonId, ...] = ()
    repeat: tuple[LessonId, ...] = ()


@dataclass(frozen=True, slots=True)
class Bent:
    """One way to go on: the new plan, which lessons changed their date or lost it, and the learning days left over.

    `past_end` tells that the last lesson lies after the family's end.
    """

    way: WayOn
    plan: FamilyPlan
    moved: tuple[tuple[int, LessonId, date, date | None], ...]
    spare: int
    past_end: bool

    @property
    def last(self) -> date | None:
        """The day of the last lesson of all."""
        return max((plan.last for plan in self.plan.plans if plan.last is not None), default=None)


def ways_on(
    year: FamilyYear,
    before: Sequence[RunPlan],
    happened: Sequence[Happened],
    *,
    today: date,
    ways: Collection[WayOn] = ("spare", "trim", "slide"),
) -> tuple[Bent, ...]:
    """The ways to go on from `today`, each that there is, the one that changes fewest dates first.

    `before` are the plans in force. Lessons planned before `today` are taken as done unless something else happened.
    A test that moves to a day on which it lands badly counts as more changed dates (`path_costs.LANDING`).
    """
    bent = replace(year, runs=tuple(_after(plan, happened, today) for plan in before))
    found: list[Bent] = []
    for way in ways:
        one = bend(_wanted(way, bent, before), before, way=way)
        if not isinstance(one, NoDay):
            late = _is_late(year, one.plan)
            days = [[each.day for each in learning_days(run.calendar)] for run in bent.runs] if way == "slide" else None
            spare = one.spare if days is None else _spare(bent, one.plan, days)
            found.append(replace(one, past_end=late, spare=spare))
    return tuple(sorted(found, key=lambda one: (one.past_end, len(one.moved))))


def bend(year: FamilyYear, before: Sequence[RunPlan], *, way: WayOn = "spare") -> Bent | NoDay:
    """The plan of a year whose runs or calendars have changed since `before` was made, or the run that does not fit.

    As few dates change as can be; on the ways `slide` and `anew` the dates in force do not bind. Runs that are new
    (more runs than plans) are laid beside the others.
    """
    plans = (*before, *(None for _ in year.runs[len(before) :]))
    keep = [{} if plan is None else _still(run, plan) for run, plan in zip(year.runs, plans, strict=True)]
    if way in {"spare", "trim"}:
        laid = lay_family(_near(year, plans), keep=keep, starts=1)
    else:
        laid = lay_family(year, starts=STARTS if way == "anew" else 1)
    if isinstance(laid, NoDay):
        return laid
    found = tuple(replace(one, run=run) for one, run in zip(laid.plans, year.runs, strict=True))
    plan = FamilyPlan(plans=found, cost=price_year(year, found, laid.days), bound=0)
    moved = tuple(
        (n, lesson, dates[lesson], one.dates.get(lesson))
        for n, (one, dates) in enumerate(zip(plan.plans, keep, strict=True))
        for lesson in changed_between(dates, one.dates)
    )
    spare = _spare(year, plan, [[one.day for one in days] for days in laid.days])
    return Bent(way=way, plan=plan, moved=moved, spare=spare, past_end=_is_late(year, plan))


def _near(year: FamilyYear, plans: Sequence[RunPlan | None]) -> FamilyYear:
    """The year in which a date that must change moves no farther than it must.

    Chapters are not spread anew, and what shares a day goes on sharing it: a lesson after the end in force is dear.
    """
    runs = tuple(
        run if plan is None else replace(run, wished_end=plan.last) for run, plan in zip(year.runs, plans, strict=True)
    )
    return replace(year, runs=runs, wishes=replace(year.wishes, spread=0, past_wished_end=LATER_END))


def settled(bent: Bent, before: Sequence[RunPlan]) -> tuple[RunPlan, ...]:
    """The plans of a way that was chosen, to be kept: a slide's free days stay usable, an end it passed moves."""
    found = []
    for plan, old in zip(bent.plan.plans, (*before, *bent.plan.plans[len(before) :]), strict=True):
        calendar, end = plan.run.calendar, plan.run.calendar.end
        if bent.way == "slide":
            end = old.run.calendar.end
            calendar = replace(calendar, free=old.run.calendar.free)
        if end is not None and plan.last is not None:
            end = max(end, plan.last)
        found.append(replace(plan, run=replace(plan.run, calendar=replace(calendar, end=end))))
    return tuple(found)


def _wanted(way: WayOn, bent: FamilyYear, before: Sequence[RunPlan]) -> FamilyYear:
    if way == "trim":
        return replace(bent, runs=tuple(replace(run, may_join=True, may_leave_out=True) for run in bent.runs))
    if way == "slide":
        return replace(bent, runs=tuple(_sliding(run, plan) for run, plan in zip(bent.runs, before, strict=True)))
    return bent


def _after(plan: RunPlan, happened: Sequence[Happened], today: date) -> CourseRun:
    """The run with what happened in it."""
    run = plan.run
    mine = [one for one in happened if one.learner in {None, run.learner}]
    lost = {day for one in mine for day in (*one.missed, *one.half)}
    told = {each.lesson: each for one in mine for each in one.done}
    skip = {lesson for one in mine for lesson in one.skip}
    repeat = {lesson for one in mine for lesson in one.repeat}
    done = {one.lesson: one for one in run.done if one.day not in lost}
    done |= {one.lesson: one for one in plan.placed if one.day < today and one.day not in lost} | told
    order = {one.id: n for n, one in enumerate(run.lessons)}
    lessons = changed(run.lessons, skip=skip - set(done), repeat=repeat & set(order))
    wanted = {again(one).id for one in run.lessons if one.id in repeat}
    return replace(
        run,
        lessons=tuple(replace(one, if_short="keep") if one.id in wanted else one for one in lessons),
        calendar=replace(run.calendar, missed=tuple(sorted({*run.calendar.missed, *lost}))),
        done=tuple(sorted(done.values(), key=lambda one: order[one.lesson])),
        not_before=today,
    )


def _still(run: CourseRun, plan: RunPlan) -> Mapping[LessonId, date]:
    """The dates in force of the lessons still to come."""
    done = {one.lesson for one in run.done}
    wanted = {one.id for one in run.lessons} - done
    return {lesson: day for lesson, day in plan.dates.items() if lesson in wanted}


def _sliding(run: CourseRun, plan: RunPlan) -> CourseRun:
    """The run with the free days of the plan in force kept free up to its last lesson, and no end."""
    used = {one.day for one in plan.placed}
    first, last = first_open_day(run), plan.last or run.calendar.start
    free = [one.day for one in learning_days(run.calendar) if first <= one.day <= last and one.day not in used]
    return replace(run, calendar=replace(run.calendar, free=(*run.calendar.free, *free), end=None))


def _spare(year: FamilyYear, plan: FamilyPlan, days: Sequence[Sequence[date]]) -> int:
    """Learning days (of each run's calendar) without a lesson up to the family's end, over all runs."""
    left = 0
    for run, one, learning in zip(year.runs, plan.plans, days, strict=True):
        used, first = {each.day for each in one.placed}, first_open_day(run)
        if run.calendar.end is not None:
            left += sum(1 for day in learning if day >= first and day not in used)
    return left


def _is_late(year: FamilyYear, plan: FamilyPlan) -> bool:
    ends = [(run.calendar.end, one.last) for run, one in zip(year.runs, plan.plans, strict=True)]
    return any(end is not None and last is not None and last > end for end, last in ends)
