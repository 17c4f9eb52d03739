"""Which rules a plan of a year breaks. Written apart from the planner: it walks the calendar date by date."""

from __future__ import annotations

from collections import Counter, defaultdict
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import pairwise
from typing import TYPE_CHECKING

from dayleaf.plan.wishes import LONG_BREAK, RULE_SAYS, TWO_WEEKS

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from dayleaf.core.ids import LessonId
    from dayleaf.plan.lessons import PlanLesson
    from dayleaf.plan.run import CourseRun, FamilyYear, RunPlan
    from dayleaf.plan.wishes import Rules

ONE_DAY = timedelta(days=1)


@dataclass(frozen=True, slots=True)
class Break:
    """One rule that a plan breaks: with which lesson, on which date (None where it has none), in one sentence."""

    rule: str
    run: int
    lesson: LessonId
    day: date | None
    says: str


def check_year(year: FamilyYear, plans: Sequence[RunPlan]) -> tuple[Break, ...]:
    """Every rule that these plans break, run by run, in the order of the lessons. What was done breaks no rule."""
    return YearChecker(year).breaks(plans)


class YearChecker:
    """Checks many plans of one year: the calendars are walked once."""

    def __init__(self, year: FamilyYear) -> None:
        self.rules = year.rules
        self.minutes = [_minutes_by_date(run) for run in year.runs]

    def breaks(self, plans: Sequence[RunPlan]) -> tuple[Break, ...]:
        """The rules that these plans break, as `check_year` gives them."""
        return tuple(
            one for n, plan in enumerate(plans) for one in _RunCheck(plan, n, self.rules, self.minutes[n]).breaks()
        )


class _RunCheck:
    def __init__(self, plan: RunPlan, n: int, rules: Rules, minutes: dict[date, int]) -> None:
        self.run: CourseRun = plan.run
        self.n = n
        self.rules = rules
        self.dates: dict[LessonId, list[date]] = defaultdict(list)
        for one in plan.placed:
            self.dates[one.lesson].append(one.day)
        self.done = {one.lesson: one.day for one in self.run.done}
        self.minutes = minutes
        self.first, self.last = min(minutes, default=date.max), max(minutes, default=date.min)

    def breaks(self) -> Iterator[Break]:
        yield from self._each_once()
        yield from self._dates()
        yield from self._two_on_a_day()
        for place, lesson in enumerate(self.run.lessons):
            if lesson.id in self.done or lesson.id not in self.dates:
                continue
            if lesson.kind == "test":
                yield from self._test(place, lesson)
            if lesson.opens and self.rules.no_opening_before_two_weeks_off and self._off_after(lesson) >= TWO_WEEKS:
                yield self._break("no_opening_before_two_weeks_off", lesson)
            if lesson.kind == "project" and self.rules.log_on_time:
                yield from self._project(lesson)

    def _break(self, rule: str, lesson: PlanLesson, says: str = "") -> Break:
        day = next(iter(self.dates.get(lesson.id, ())), None)
        return Break(rule=rule, run=self.n, lesson=lesson.id, day=day, says=says or f"{lesson.id}: {RULE_SAYS[rule]}.")

    def _each_once(self) -> Iterator[Break]:
        for lesson in self.run.lessons:
            days = self.dates.get(lesson.id, [])
            if len(days) > 1:
                yield self._break("once", lesson, f"{lesson.id} stands on {len(days)} dates; it is given once.")
            if not days and not (self.run.may_leave_out and lesson.if_short == "drop"):
                yield self._break("all_lessons", lesson, f"{lesson.id} has no date and may not be left out.")
            if days and lesson.id in self.done and days[0] != self.done[lesson.id]:
                says = f"{lesson.id} was done on {self.done[lesson.id]}; what was done keeps its date."
                yield self._break("done_stays", lesson, says)

    def _dates(self) -> Iterator[Break]:
        open_from = self.run.calendar.start
        if self.run.not_before is not None:
            open_from = max(open_from, self.run.not_before)
        if self.done:
            open_from = max(open_from, max(self.done.values()) + ONE_DAY)
        before: date | None = None
        for lesson in self.run.lessons:
            for day in self.dates.get(lesson.id, ()):
                if lesson.id in self.done:
                    continue
                if day not in self.minutes:
                    yield self._break("learning_day", lesson, f"{lesson.id} stands on {day}, which is no learning day.")
                elif day < open_from:
                    yield self._break(
                        "past", lesson, f"{lesson.id} stands on {day}; nothing is planned before {open_from}."
                    )
                if before is not None and day < before:
                    yield self._break("order", lesson, f"{lesson.id} comes on {day}, before the lesson ahead of it.")
                before = day if before is None else max(before, day)

    def _two_on_a_day(self) -> Iterator[Break]:
        kept = [one for one in self.run.lessons if one.id in self.dates]
        count = Counter(day for one in kept if one.id not in self.done for day in self.dates[one.id][:1])
        for one, other in pairwise(kept):
            day = self.dates[other.id][0]
            if other.id in self.done or self.dates[one.id][0] != day:
                continue
            if not (self.run.may_join and one.if_short == "join-next"):
                says = f"{other.id} stands on {day} together with {one.id}, which may not share a day."
                yield self._break("one_a_day", other, says)
            elif count[day] > 2:
                yield self._break("one_a_day", other, f"{count[day]} lessons stand on {day}; two is the most.")

    def _test(self, place: int, test: PlanLesson) -> Iterator[Break]:
        day = self.dates[test.id][0]
        if self.rules.test_needs_its_minutes and self.minutes.get(day, test.minutes) < test.minutes:
            yield self._break("test_needs_its_minutes", test)
        if self.rules.no_test_after_break and self._off_before(day) >= LONG_BREAK:
            yield self._break("no_test_after_break", test)
        back = self.run.lessons[place - 1] if place else None
        if not self.rules.test_after_look_back or back is None or back.kind != "look-back" or back.id not in self.dates:
            return
        looked = self.dates[back.id][0]
        if looked == day and back.id not in self.done:
            return
        fit = [one for one in self.minutes if looked < one < day and self._long_enough(one, test)]
        if back.id in self.done:
            open_from = max(max(self.done.values()) + ONE_DAY, self.run.not_before or date.min)
            fit = [one for one in fit if one >= open_from and self._may_hold(one)]
        if fit or day <= looked:
            yield self._break("test_after_look_back", test)

    def _long_enough(self, day: date, test: PlanLesson) -> bool:
        return not self.rules.test_needs_its_minutes or self.minutes[day] >= test.minutes

    def _may_hold(self, day: date) -> bool:
        return not self.rules.no_test_after_break or self._off_before(day) < LONG_BREAK

    def _project(self, project: PlanLesson) -> Iterator[Break]:
        for begun in self.run.lessons:
            if begun.log_for == project.id and begun.id in self.dates:
                waited = (self.dates[project.id][0] - self.dates[begun.id][0]).days
                if waited < begun.log_days:
                    says = f"{project.id} comes {waited} days after {begun.id}; its log needs {begun.log_days}."
                    yield self._break("log_on_time", project, says)

    def _off_before(self, day: date) -> int:
        """Days off right before a date, 0 where the weekdays alone account for them or no learning day came before.

        A missed day counts before a date, not after it: nobody knew of it.
        """
        return self._off(day, -ONE_DAY)

    def _off_after(self, lesson: PlanLesson) -> int:
        return self._off(self.dates[lesson.id][0], ONE_DAY)

    def _off(self, day: date, step: timedelta) -> int:
        length, cut = 0, False
        look = day + step
        while look not in self.minutes:
            if not self.first <= look <= self.last:
                return 0
            length += 1
            known = step < timedelta(0) or look not in self.run.calendar.missed
            cut = cut or (known and self.run.calendar.minutes.get(look.weekday(), 0) > 0)
            look += step
        return length if cut else 0


def _minutes_by_date(run: CourseRun) -> dict[date, int]:
    """Every learning day with its minutes, found by asking of each date whether anything closes it."""
    calendar = run.calendar
    last = calendar.end if calendar.end is not None else calendar.start + timedelta(days=2 * 366)
    found = {}
    for number in range(calendar.start.toordinal(), last.toordinal() + 1):
        day = date.fromordinal(number)
        closed = day in calendar.free or day in calendar.missed
        closed = closed or any(off.first <= day <= off.last for off in (*calendar.off, *calendar.holidays))
        if calendar.terms and not any(term.first <= day <= term.last for term in calendar.terms):
            closed = True
        minutes = calendar.minutes.get(day.weekday(), 0)
        for half in calendar.half_days:
            if half.day == day:
                minutes = half.minutes
        if minutes and not closed:
            found[day] = minutes
    return found
