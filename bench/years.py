"""Random years, small enough to try every plan or as large as a family's, and every plan of a small one."""

from __future__ import annotations

from datetime import date, timedelta
from itertools import combinations, combinations_with_replacement
from random import Random
from typing import TYPE_CHECKING

from dayleaf.core.ids import CourseId, LearnerId, LessonId
from dayleaf.plan.calendar import DaysOff, LearningCalendar, LearningDay, learning_days
from dayleaf.plan.check_year import YearChecker
from dayleaf.plan.days import year_days
from dayleaf.plan.lessons import PlanLesson, with_chapters
from dayleaf.plan.path_costs import first_open_day
from dayleaf.plan.price import price_run
from dayleaf.plan.run import CourseRun, FamilyYear, RunPlan
from dayleaf.plan.wishes import WISH_NAMES, Rules, Wishes
from dayleaf.plan.year import Placed

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

MONDAY = date(2026, 8, 17)
MOST_DAYS = 11


def small_year(seed: int) -> FamilyYear:
    """One run of four to seven lessons on a calendar of seven to eleven learning days, with everything that can be."""
    draw = Random(seed)
    calendar = _calendar(draw, weeks=draw.choice([2, 3, 6]), days=draw.randint(7, 11))
    lessons = with_chapters(_lessons(draw, draw.randint(4, 7)))
    run = CourseRun(
        learner=LearnerId("wren"),
        course=CourseId("small"),
        lessons=lessons,
        calendar=calendar,
        wished_end=draw.choice([None, calendar.start + timedelta(days=draw.randint(3, 20))]),
        may_join=draw.random() < 0.5,
        may_leave_out=draw.random() < 0.5,
        spread_percent=draw.choice([0, 70, 100]),
    )
    if draw.random() < 0.3:
        run = _begun(draw, run)
    rules = Rules(*(draw.random() < 0.9 for _ in range(5)))
    wishes = Wishes(*(draw.randint(0, 12) for _ in range(len(WISH_NAMES))))
    return FamilyYear(runs=(run,), rules=rules, wishes=wishes)


def _calendar(draw: Random, *, weeks: int, days: int) -> LearningCalendar:
    weekdays = draw.sample(range(7), draw.randint(2, 6))
    start = MONDAY + timedelta(days=draw.randint(0, 6))
    minutes = {weekday: draw.choice([20, 30, 45]) for weekday in weekdays}
    off = tuple(
        DaysOff(first=first, last=first + timedelta(days=draw.choice([0, 2, 6, 14])), name="away")
        for first in (start + timedelta(days=draw.randint(2, 7 * weeks)) for _ in range(draw.randint(0, 3)))
    )
    half = tuple(LearningDay(start + timedelta(days=n), 15) for n in draw.sample(range(7 * weeks), draw.randint(0, 2)))
    calendar = LearningCalendar(start=start, minutes=minutes, off=off, half_days=half)
    last = learning_days(calendar)[:days][-1].day
    return LearningCalendar(start=start, minutes=minutes, off=off, half_days=half, end=draw.choice([last, last, None]))


def _lessons(draw: Random, count: int) -> list[PlanLesson]:
    found: list[PlanLesson] = []
    chapter = 1
    while len(found) < count:
        n = len(found)
        kind = draw.choice(["lesson", "lesson", "look-back", "test", "project", "spare"])
        if n and found[-1].kind == "look-back" and draw.random() < 0.8:
            kind = "test"
        chapter += n > 0 and draw.random() < 0.3
        found.append(
            PlanLesson(
                id=LessonId(f"l{n}"),
                kind=kind,  # type: ignore[arg-type]  # drawn from the kinds
                minutes=draw.choice([15, 30, 40]),
                chapter=chapter,
                if_short=draw.choice(["keep", "keep", "drop", "keep" if kind == "test" else "join-next"])
                if n < count - 1
                else "keep",
            )
        )
    return _with_a_log(draw, found)


def _with_a_log(draw: Random, lessons: list[PlanLesson]) -> list[PlanLesson]:
    projects = [n for n, one in enumerate(lessons) if one.kind == "project" and n]
    if not projects or draw.random() < 0.3:
        return lessons
    project = draw.choice(projects)
    begin = draw.randrange(project)
    one = lessons[begin]
    lessons[begin] = PlanLesson(
        id=one.id,
        kind=one.kind,
        minutes=one.minutes,
        chapter=one.chapter,
        if_short="keep" if one.may_go else one.if_short,
        log_for=lessons[project].id,
        log_days=draw.randint(1, 12),
    )
    return lessons


def _begun(draw: Random, run: CourseRun) -> CourseRun:
    """The run with its first lessons done, one a day from the start."""
    days = learning_days(run.calendar)
    done = draw.randint(1, 3)
    placed = tuple(Placed(one.id, day.day) for one, day in zip(run.lessons[:done], days, strict=False))
    today = days[done].day if draw.random() < 0.5 else None
    return CourseRun(
        **{name: getattr(run, name) for name in ("learner", "course", "lessons", "calendar", "wished_end")},
        done=placed,
        not_before=today,
        may_join=run.may_join,
        may_leave_out=run.may_leave_out,
        spread_percent=run.spread_percent,
    )


def every_plan(run: CourseRun, days: Sequence[date]) -> Iterator[RunPlan]:
    """Every way to give the lessons still to come some of these days in order, or leave some out that may go."""
    done = {one.lesson for one in run.done}
    pending = [one for one in run.lessons if one.id not in done]
    may_go = [one for one in pending if run.may_leave_out and one.may_go]
    for count in range(len(may_go) + 1):
        for gone in combinations(may_go, count):
            kept = [one for one in pending if one not in gone]
            choose = combinations_with_replacement if run.may_join else combinations
            for chosen in choose(days, len(kept)):
                placed = tuple(Placed(one.id, day) for one, day in zip(kept, chosen, strict=True))
                yield RunPlan(run=run, placed=(*run.done, *placed), left_out=tuple(one.id for one in gone))


def least_cost(year: FamilyYear) -> int | None:
    """The cost of the cheapest plan of a year with one small run, by trying them all; None where none keeps the rules.

    Without an end of the calendar, the cheapest of those that end soonest, looked for on the first days only.
    """
    (run,) = year.runs
    days = [one.day for one in learning_days(run.calendar) if one.day >= first_open_day(run)][:MOST_DAYS]
    best: tuple[date, int] | None = None
    checker, with_gaps = YearChecker(year), year_days(run.calendar)
    for plan in every_plan(run, days):
        if checker.breaks([plan]):
            continue
        end = date.min if run.calendar.end is not None or plan.last is None else plan.last
        cost = sum(price_run(plan, year.wishes, with_gaps).values())
        best = (end, cost) if best is None else min(best, (end, cost))
    return None if best is None else best[1]
