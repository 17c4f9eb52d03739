"""One child's year as a lesson-by-day model for CP-SAT, read from the dates again: nothing of it is the planner's."""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING, Any

from ortools.sat.python import cp_model

if TYPE_CHECKING:
    from dayleaf.plan.run import CourseRun, FamilyYear


def single_cost(year: FamilyYear, *, seconds: float = 20) -> tuple[int | None, bool]:
    """The least cost of a year with one run that has an end, in which nothing was done, joins or is left out.

    The cost is None where there is no plan; the second value tells whether either is proven.
    """
    found = _OneRun(year)
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = seconds
    solver.parameters.num_workers = 2
    status = solver.solve(found.model)
    if status == cp_model.INFEASIBLE:
        return None, True
    return round(solver.objective_value), status == cp_model.OPTIMAL


class _OneRun:
    """Every lesson has one day; the costs are sums over lessons and days, and distances between places."""

    def __init__(self, year: FamilyYear) -> None:
        self.year = year
        (self.run,) = year.runs
        self.days = _dates(self.run)
        self.model = cp_model.CpModel()
        lessons = self.run.lessons
        self.on = [[self.model.new_bool_var("") for _ in self.days] for _ in lessons]
        self.place = [self.model.new_int_var(0, max(0, len(self.days) - 1), "") for _ in lessons]
        self.terms: list[Any] = []
        for i in range(len(lessons)):
            self._lesson(i)
            self._days_without(i)
        for i, lesson in enumerate(lessons):
            if lesson.kind == "test" and i and lessons[i - 1].kind == "look-back" and year.rules.test_after_look_back:
                self._test(i)
            if year.rules.log_on_time:
                self._log(i)
        self.model.minimize(sum(self.terms))

    def _lesson(self, i: int) -> None:
        wishes, lesson = self.year.wishes, self.run.lessons[i]
        longest = max(self.run.calendar.minutes.values(), default=0)
        self.model.add_exactly_one(self.on[i])
        self.model.add(self.place[i] == sum(d * one for d, one in enumerate(self.on[i])))
        if i:
            self.model.add(self.place[i] >= self.place[i - 1] + 1)
        for d, (day, minutes) in enumerate(self.days):
            price, allowed = _price(self.year, self.run, i, d, self.days)
            price += wishes.short_day * (minutes < longest and minutes < lesson.minutes)
            price += wishes.past_wished_end * (self.run.wished_end is not None and day > self.run.wished_end)
            if not allowed:
                self.model.add(self.on[i][d] == 0)
            if price:
                self.terms.append(price * self.on[i][d])

    def _days_without(self, i: int) -> None:
        """Pauses before a lesson, or how far the first of a chapter lies off its place."""
        wishes, run, n, days = self.year.wishes, self.run, len(self.run.lessons), len(self.days)
        if i == 0:
            self.terms.append(wishes.pause_in_chapter * self.place[0])
        elif not run.lessons[i].opens:
            self.terms.append(wishes.pause_in_chapter * (self.place[i] - self.place[i - 1] - 1))
        elif days > n:
            off = self.model.new_int_var(0, days, "")
            self.model.add_abs_equality(off, self.place[i] - (i + (days - n) * run.spread_percent * i // (100 * n)))
            self.terms.append(wishes.spread * off)

    def _test(self, i: int) -> None:
        wanted = self.run.lessons[i].minutes if self.year.rules.test_needs_its_minutes else 0
        for d in range(len(self.days)):
            then = next((e for e in range(d + 1, len(self.days)) if self.days[e][1] >= wanted), None)
            if then is None:
                self.model.add(self.on[i - 1][d] == 0)
            else:
                self.model.add_implication(self.on[i - 1][d], self.on[i][then])

    def _log(self, i: int) -> None:
        numbers = [day.toordinal() for day, _ in self.days]
        date_of = [sum(number * one for number, one in zip(numbers, each, strict=True)) for each in self.on]
        for j, begun in enumerate(self.run.lessons[:i]):
            if begun.log_for == self.run.lessons[i].id:
                self.model.add(date_of[i] >= date_of[j] + begun.log_days)


def _dates(run: CourseRun) -> list[tuple[date, int]]:
    calendar = run.calendar
    found: list[tuple[date, int]] = []
    day = calendar.start
    while day <= calendar.last:
        minutes = next((one.minutes for one in calendar.half_days if one.day == day), None)
        if minutes is None:
            minutes = calendar.minutes.get(day.weekday(), 0)
        off = any(one.first <= day <= one.last for one in (*calendar.off, *calendar.holidays))
        if minutes and not off and day not in calendar.free:
            found.append((day, minutes))
        day += timedelta(days=1)
    return found


def _price(year: FamilyYear, run: CourseRun, i: int, d: int, days: list[tuple[date, int]]) -> tuple[int, bool]:
    """What a lesson costs by its neighbourhood alone, and whether it may stand there at all."""
    lesson, wishes, rules = run.lessons[i], year.wishes, year.rules
    before = _between(run, days[d - 1][0], days[d][0]) if d else []
    after = _between(run, days[d][0], days[d + 1][0]) if d + 1 < len(days) else []
    broken, cut = any(before), any(after)
    price, allowed = 0, True
    if lesson.kind == "test":
        long_break = broken and len(before) >= 5
        allowed = not (long_break and rules.no_test_after_break)
        allowed &= not (rules.test_needs_its_minutes and days[d][1] < lesson.minutes)
        price += wishes.test_after_break * long_break
        price += wishes.test_after_weekend * (len(before) >= 2 and not long_break)
        price += wishes.test_before_holiday * cut
    if lesson.opens and rules.no_opening_before_two_weeks_off and cut and len(after) >= 14:
        allowed = False
    return price, allowed


def _between(run: CourseRun, left: date, right: date) -> list[bool]:
    """The days between two learning days; true where the weekday has minutes."""
    return [
        run.calendar.minutes.get((left + timedelta(days=k)).weekday(), 0) > 0 for k in range(1, (right - left).days)
    ]
