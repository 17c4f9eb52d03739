"""What a family can change about its calendar, each change as another calendar."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from dayleaf.plan.calendar import LearningDay

if TYPE_CHECKING:
    from collections.abc import Iterable
    from datetime import date

    from dayleaf.plan.calendar import DaysOff, LearningCalendar


def with_weekday(calendar: LearningCalendar, weekday: int, minutes: int) -> LearningCalendar:
    """With so many minutes on a weekday (0 = Monday); 0 switches it off."""
    others = {day: each for day, each in calendar.minutes.items() if day != weekday}
    return replace(calendar, minutes={**others, weekday: minutes} if minutes else others)


def with_off(calendar: LearningCalendar, off: DaysOff) -> LearningCalendar:
    """With these days off too; half days among them are days off now."""
    half = tuple(one for one in calendar.half_days if not off.first <= one.day <= off.last)
    kept = tuple(one for one in calendar.off if one != off)
    return replace(calendar, off=tuple(sorted((*kept, off), key=lambda one: (one.first, one.last))), half_days=half)


def without_off(calendar: LearningCalendar, off: Iterable[DaysOff]) -> LearningCalendar:
    """Without these days off."""
    gone = set(off)
    return replace(calendar, off=tuple(one for one in calendar.off if one not in gone))


def with_half_day(calendar: LearningCalendar, day: date, minutes: int) -> LearningCalendar:
    """With so many minutes on one date; its weekday's own number takes the half day back."""
    others = tuple(one for one in calendar.half_days if one.day != day)
    if minutes == calendar.minutes.get(day.weekday(), 0):
        return replace(calendar, half_days=others)
    half = LearningDay(day=day, minutes=minutes)
    return replace(calendar, half_days=tuple(sorted((*others, half), key=lambda one: one.day)))


def with_term(calendar: LearningCalendar, term: DaysOff) -> LearningCalendar:
    """With learning days inside this term and the others only."""
    kept = tuple(one for one in calendar.terms if one != term)
    return replace(calendar, terms=tuple(sorted((*kept, term), key=lambda one: one.first)))


def without_term(calendar: LearningCalendar, term: DaysOff) -> LearningCalendar:
    """Without this term; without any, every learning day counts again."""
    return replace(calendar, terms=tuple(one for one in calendar.terms if one != term))


def with_holidays(calendar: LearningCalendar, kept: Iterable[DaysOff], listed: Iterable[DaysOff]) -> LearningCalendar:
    """With those of the `listed` holidays that are `kept`; holidays that stand on no list stay."""
    known = set(listed)
    others = [one for one in calendar.holidays if one not in known]
    return replace(calendar, holidays=tuple(sorted((*others, *kept), key=lambda one: one.first)))
