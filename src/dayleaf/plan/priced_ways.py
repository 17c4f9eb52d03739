"""Ways out of a year that does not fit: each tried, each with its price, its end and what is lost."""

from __future__ import annotations

from dataclasses import dataclass, fields, replace
from typing import TYPE_CHECKING, Any, Literal

from dayleaf.plan.calendar import WEEKDAYS, learning_days
from dayleaf.plan.path import Stuck, cheapest_run
from dayleaf.plan.path_costs import first_open_day
from dayleaf.plan.price import price_run
from dayleaf.plan.wishes import RULE_SAYS, Rules

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from dayleaf.core.ids import LessonId
    from dayleaf.plan.calendar import LearningDay
    from dayleaf.plan.lessons import PlanLesson
    from dayleaf.plan.run import CourseRun, FamilyYear, RunPlan

Kind = Literal[
    "join_look_backs",
    "join",
    "leave_out",
    "shorten",
    "skip_firm",
    "weekday",
    "free_days",
    "days_off",
    "more_days",
    "rule",
]
END = "end"
"""The name of the rule that all is done by the calendar's end."""


@dataclass(frozen=True, slots=True)
class PricedWay:
    """One change that is enough: what is done, what is lost by it, in sentences; the plan, and what its wishes cost.

    `name` tells it from the others (`weekday:friday`, `rule:no_test_after_break`). `year` is the year so changed;
    `given_up` days were free of lessons or lie after the end before. `spare` counts its learning days without a lesson
    from the first open day on.
    """

    name: str
    kind: Kind
    says: str
    lost: tuple[str, ...]
    year: FamilyYear
    plan: RunPlan
    cost: Mapping[str, int]
    given_up: int
    spare: int

    @property
    def total(self) -> int:
        """What all wishes of this run cost in the plan."""
        return sum(self.cost.values())

    @property
    def price(self) -> int:
        """What the plan's wishes cost, and the days and the rule that are given up for it."""
        wishes = self.year.wishes
        return self.total + self.given_up * wishes.day_given_up + (self.kind == "rule") * wishes.rule_dropped


@dataclass(frozen=True, slots=True)
class Refusal:
    """A run that does not fit: what it needs, what there is, the first lesson without a day.

    `rules` are those of which dropping one alone would be enough; `end` stands for the end of the calendar.
    """

    run: int
    lesson: LessonId
    needed: int
    available: int
    rules: tuple[str, ...]
    says: str
    ways: tuple[PricedWay, ...]


def refuse(year: FamilyYear, n: int, lesson: LessonId) -> Refusal:
    """The honest no to run `n`, whose first lesson without a day is `lesson`."""
    run = year.runs[n]
    needed, available = len(_pending(run)), len(_open_days(run))
    rules = tuple(name for name in _rules_on(year.rules) if _fits(year, run, _without(year.rules, name)))
    if run.calendar.end is not None and _fits(year, _with(run, end=None), year.rules):
        rules = (*rules, END)
    return Refusal(
        run=n,
        lesson=lesson,
        needed=needed,
        available=available,
        rules=rules,
        says=_sentence(run, lesson, needed, available, rules),
        ways=priced_ways(year, n),
    )


def priced_ways(year: FamilyYear, n: int) -> tuple[PricedWay, ...]:
    """Every single change with which run `n` fits, the cheapest first; of the same price the later kind last."""
    found = []
    for name, kind, says, changed in _changes(year, n):
        run = changed.runs[n]
        plan = cheapest_run(run, rules=changed.rules, wishes=changed.wishes)
        if not isinstance(plan, Stuck):
            cost = {wish: price for wish, price in price_run(plan, changed.wishes).items() if price}
            given_up = _given_up(year.runs[n], plan)
            lost = tuple(_lost(year.runs[n], kind, plan, name, given_up))
            spare = len(_open_days(run)) - len({one.day for one in plan.placed if one not in run.done})
            found.append(PricedWay(name, kind, says, lost, changed, plan, cost, given_up, spare))
    return tuple(sorted(found, key=lambda way: way.price))


def _changes(year: FamilyYear, n: int) -> Iterator[tuple[str, Kind, str, FamilyYear]]:
    run = year.runs[n]
    backs = tuple(
        replace(one, if_short="keep") if one.may_join and one.kind != "look-back" else one for one in run.lessons
    )
    if not run.may_join and backs != run.lessons:
        says = "Each look back shares a day with its test."
        yield "join_look_backs", "join_look_backs", says, _changed(year, n, replace(run, lessons=backs, may_join=True))
    if not run.may_join:
        says = "What the course marks so shares a day with the lesson after it, as far as needed."
        yield "join", "join", says, _changed(year, n, replace(run, may_join=True))
    if not run.may_leave_out:
        says = "What the course marks so is left out, as far as needed."
        yield "leave_out", "leave_out", says, _changed(year, n, replace(run, may_leave_out=True))
    if not (run.may_join and run.may_leave_out):
        says = "Lessons share days and others are left out, as far as the course allows and as far as needed."
        yield "shorten", "shorten", says, _changed(year, n, replace(run, may_join=True, may_leave_out=True))
    if run.firm and not run.may_leave_out:
        firm = tuple(_firm(one, run) for one in run.lessons)
        says = "What the child can do already is skipped, as far as needed."
        yield "skip_firm", "skip_firm", says, _changed(year, n, replace(run, lessons=firm, may_leave_out=True))
    longest = max(run.calendar.minutes.values(), default=0)
    for weekday, name in enumerate(WEEKDAYS):
        if longest and not run.calendar.minutes.get(weekday):
            minutes = {**run.calendar.minutes, weekday: longest}
            says = f"{name}s become learning days of {longest} minutes."
            yield f"weekday:{name.lower()}", "weekday", says, _changed(year, n, _with(run, minutes=minutes))
    yield from _days_given_up(year, n)
    if run.calendar.end is not None:
        yield "more_days", "more_days", "The year ends later.", _changed(year, n, _with(run, end=None))
    for rule in _rules_on(year.rules):
        says = f"This rule is dropped: {RULE_SAYS[rule]}."
        yield f"rule:{rule}", "rule", says, replace(year, rules=_without(year.rules, rule))


def _days_given_up(year: FamilyYear, n: int) -> Iterator[tuple[str, Kind, str, FamilyYear]]:
    run = year.runs[n]
    if run.calendar.free:
        yield "free_days", "free_days", "The free days are used.", _changed(year, n, _with(run, free=()))
    blocks = sorted(run.calendar.off, key=lambda off: (off.last - off.first, off.first))
    for used in range(1, len(blocks) + 1):
        given = blocks[:used]
        less = _changed(year, n, _with(run, off=tuple(off for off in run.calendar.off if off not in given)))
        if _fits(less, less.runs[n], less.rules):
            names = ", ".join(off.name or str(off.first) for off in sorted(given, key=lambda off: off.first))
            yield "days_off", "days_off", f"These days off become learning days: {names}.", less
            return


def _given_up(before: CourseRun, plan: RunPlan) -> int:
    """On how many days of the plan there was no time for lessons before."""
    had = {one.day for one in learning_days(before.calendar)}
    return len({one.day for one in plan.placed} - had - {one.day for one in plan.run.done})


def _lost(before: CourseRun, kind: Kind, plan: RunPlan, name: str, given_up: int) -> Iterator[str]:
    """What is lost of what is still to come, in sentences."""
    titles = {one.id: f"{one.id} ({one.title})" if one.title else one.id for one in plan.run.lessons}
    done = {one.lesson for one in before.done}
    past = max((n for n, lesson in enumerate(titles) if lesson in done), default=-1)
    coming = set(list(titles)[past + 1 :])
    if left_out := [titles[one] for one in plan.left_out if one in coming]:
        yield "Left out: " + ", ".join(left_out) + "."
    if joined := [f"{one} with {other}" for one, other in plan.joined if other in coming]:
        yield "On one day: " + ", ".join(joined) + "."
    if kind == "more_days":
        yield f"{_days(given_up)} after {before.calendar.end}; the last lesson is on {plan.last}."
    if kind in {"weekday", "free_days", "days_off"}:
        yield f"{_days(given_up)} that had no lessons."
    if kind == "rule":
        yield f"No longer sure: {RULE_SAYS[name.removeprefix('rule:')]}."


def _days(count: int) -> str:
    return "1 day" if count == 1 else f"{count} days"


def _sentence(run: CourseRun, lesson: LessonId, needed: int, available: int, rules: tuple[str, ...]) -> str:
    if available == 0:
        return f"There is no learning day for {needed} lessons; name at least one weekday with minutes."
    last = run.calendar.last
    if needed > available:
        return (
            f"{needed} lessons do not fit in {available} learning days up to {last}; {lesson} is the first without one."
        )
    blamed = next((name for name in rules if name != END), None)
    if blamed is not None:
        return f"{lesson} has no day up to {last} on which this rule holds: {RULE_SAYS[blamed]}."
    return f"{lesson} has no day up to {last} on which all rules hold, though {available} days are enough for {needed}."


def _firm(one: PlanLesson, run: CourseRun) -> PlanLesson:
    """Only what is firm may go, and neither a test nor a lesson that begins a log."""
    if one.id in run.firm and one.kind != "test" and one.log_for is None:
        return replace(one, if_short="drop")
    return replace(one, if_short="keep") if one.may_go else one


def _pending(run: CourseRun) -> list[PlanLesson]:
    done = {one.lesson for one in run.done}
    return [one for one in run.lessons if one.id not in done]


def _open_days(run: CourseRun) -> list[LearningDay]:
    first = first_open_day(run)
    return [one for one in learning_days(run.calendar) if one.day >= first]


def _fits(year: FamilyYear, run: CourseRun, rules: Rules) -> bool:
    return not isinstance(cheapest_run(run, rules=rules, wishes=year.wishes), Stuck)


def _rules_on(rules: Rules) -> list[str]:
    return [one.name for one in fields(Rules) if getattr(rules, one.name)]


def _without(rules: Rules, name: str) -> Rules:
    return replace(rules, **{name: False})


def _with(run: CourseRun, **calendar: Any) -> CourseRun:
    return replace(run, calendar=replace(run.calendar, **calendar))


def _changed(year: FamilyYear, n: int, run: CourseRun) -> FamilyYear:
    return replace(year, runs=(*year.runs[:n], run, *year.runs[n + 1 :]))
