"""What a form of the year's page asks for: another family's year, or something that happened."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, timedelta
from typing import TYPE_CHECKING

from django.utils.translation import gettext as _

from dayleaf.core.errors import BadInput, Problem
from dayleaf.core.ids import CourseId, LearnerId, LessonId
from dayleaf.plan.calendar import LONGEST, WEEKDAYS, DaysOff, UnknownHolidays, holidays_of
from dayleaf.plan.calendar_changes import (
    with_half_day,
    with_holidays,
    with_off,
    with_term,
    with_weekday,
    without_off,
    without_term,
)
from dayleaf.plan.lessons import PlanLesson, with_chapters
from dayleaf.plan.replan import Happened
from dayleaf.plan.run import CourseRun
from dayleaf.plan.wishes import HEAVIEST, RULE_NAMES, WISH_NAMES, WISH_SAYS, Rules, Wishes
from dayleaf.plan.year import Placed

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from django.http import QueryDict

    from dayleaf.plan.calendar import LearningCalendar
    from dayleaf.plan.run import FamilyYear
    from dayleaf.records.models import Learner
    from dayleaf.records.plans import HomeYear

LONGEST_DAY = 24 * 60
MOST_LESSONS = 600
A_CHAPTER = 10


@dataclass(frozen=True, slots=True)
class Asked:
    """What was asked, in a few words for the list of changes: a year with other days, or what happened."""

    reason: str
    family: FamilyYear | None = None
    happened: tuple[Happened, ...] = ()
    anew: bool = False


def asked_in(form: QueryDict, home: HomeYear, child: Learner) -> Asked:
    """What a form asks for, for this child or for everybody. Raises `BadInput` where it cannot be read."""
    act = form.get("act", "")
    mine = form.get("whom") == "one"
    learner = LearnerId(child.id) if mine else None
    if act == "anew":
        return Asked(_("laid out anew"), home.family, anew=True)
    if act == "lost":
        first, last = _span(form)
        missed = tuple(first + timedelta(days=n) for n in range((last - first).days + 1))
        return Asked(_("days lost from %(days)s") % {"days": _said(first, last)}, None, (Happened(learner, missed),))
    if act == "lesson":
        return _lesson(form, child)
    if act == "wishes":
        return Asked(_("other wishes"), _wished(form, home.family))
    change, reason = _change(act, form)
    places = set(home.places([child] if mine else ()))
    runs = tuple(
        replace(run, calendar=change(run.calendar)) if n in places else run for n, run in enumerate(home.family.runs)
    )
    if act == "end" and form.get("shorter"):
        runs = tuple(
            replace(run, may_join=True, may_leave_out=True) if n in places else run for n, run in enumerate(runs)
        )
    return Asked(reason, replace(home.family, runs=runs))


def beside_in(form: QueryDict, child: Learner, calendar: LearningCalendar, today: date) -> CourseRun:
    """A course of the family's own, lesson by lesson without pages. Raises `BadInput`."""
    title = form.get("title", "").strip()
    count = _whole(form, "count", _("How many lessons"), least=1, most=MOST_LESSONS)
    minutes = _whole(form, "minutes", _("Minutes"), least=1, most=LONGEST_DAY)
    weekdays = sorted({int(day) for day in form.getlist("weekday") if day in set("0123456")})
    if not title:
        raise BadInput([Problem(_("Name"), _("write what the course is called"))])
    if not weekdays:
        raise BadInput([Problem(_("Which days"), _("choose at least one weekday"))])
    lessons = with_chapters(
        PlanLesson(
            id=LessonId(f"lesson-{n:03}"),
            minutes=minutes,
            chapter=(n - 1) // A_CHAPTER + 1,
            title=f"{title} {n}",
            led=(minutes + 1) // 2,
        )
        for n in range(1, count + 1)
    )
    own = replace(calendar, start=max(calendar.start, today), minutes=dict.fromkeys(weekdays, minutes), half_days=())
    return CourseRun(LearnerId(child.id), CourseId(title[:40]), lessons, own)


def listed_holidays(country: str, subdivision: str, calendar: LearningCalendar) -> tuple[DaysOff, ...]:
    """The public holidays of a country in the years of a calendar; none where no country is named.

    Raises:
        BadInput: there is no list for the country.
    """
    if not country:
        return ()
    last = calendar.end or calendar.start + LONGEST
    try:
        found = holidays_of(country, range(calendar.start.year, last.year + 1), subdivision=subdivision or None)
    except UnknownHolidays as unknown:
        raise BadInput([Problem(_("Country"), str(unknown))]) from unknown
    return tuple(one for one in found if calendar.start <= one.first <= last)


Change = tuple["Callable[[LearningCalendar], LearningCalendar]", str]
"""Another calendar for the one there is, and what that is called."""


def _change(act: str, form: QueryDict) -> Change:
    reader = CHANGES.get(act)
    if reader is None:
        raise BadInput([Problem("act", f"there is nothing called {act!r} to change")])
    return reader(form)


def _off(form: QueryDict) -> Change:
    first, last = _span(form)
    off = DaysOff(first, last, form.get("name", "").strip()[:80])
    what = {"name": off.name or _("days off"), "days": _said(first, last)}
    return lambda calendar: with_off(calendar, off), _("%(name)s, %(days)s") % what


def _off_away(form: QueryDict) -> Change:
    first, last = _span(form)
    gone = DaysOff(first, last, form.get("name", ""))
    said = _("lessons again on %(days)s") % {"days": _said(first, last)}
    return lambda calendar: without_off(calendar, [gone]), said


def _term(form: QueryDict) -> Change:
    first, last = _span(form)
    term = DaysOff(first, last, form.get("name", "").strip()[:80])
    return lambda calendar: with_term(calendar, term), _("a term, %(days)s") % {"days": _said(first, last)}


def _term_away(form: QueryDict) -> Change:
    first, last = _span(form)
    gone = DaysOff(first, last, form.get("name", ""))
    return lambda calendar: without_term(calendar, gone), _("a term less")


def _half(form: QueryDict) -> Change:
    day, minutes = _day(form, "first"), _whole(form, "minutes", _("Minutes"), most=LONGEST_DAY)
    what = {"minutes": str(minutes), "day": _said(day, day)}
    return lambda calendar: with_half_day(calendar, day, minutes), _("%(minutes)s minutes on %(day)s") % what


def _end(form: QueryDict) -> Change:
    end = _day(form, "end") if form.get("end") else None
    said = _("no set end") if end is None else _("the year ends on %(day)s") % {"day": _said(end, end)}
    return lambda calendar: replace(calendar, end=end), said


def _weekdays(form: QueryDict) -> Change:
    minutes = {n: _whole(form, f"minutes-{n}", name, most=LONGEST_DAY) for n, name in enumerate(WEEKDAYS)}

    def changed(calendar: LearningCalendar) -> LearningCalendar:
        for weekday, each in minutes.items():
            calendar = with_weekday(calendar, weekday, each)
        return calendar

    days = [name for n, name in enumerate(WEEKDAYS) if minutes[n]]
    return changed, _("lessons on %(days)s") % {"days": ", ".join(days) or _("no weekday")}


def _holidays(form: QueryDict) -> Change:
    country, subdivision = form.get("country", "").strip(), form.get("subdivision", "").strip()
    chosen = set(form.getlist("holiday"))

    def changed(calendar: LearningCalendar) -> LearningCalendar:
        listed = listed_holidays(country, subdivision, calendar)
        return with_holidays(calendar, [one for one in listed if f"{one.first} {one.name}" in chosen], listed)

    return changed, _("public holidays, %(count)s kept") % {"count": len(chosen)}


CHANGES: Mapping[str, Callable[[QueryDict], Change]] = {
    "weekdays": _weekdays,
    "off": _off,
    "off-away": _off_away,
    "term": _term,
    "term-away": _term_away,
    "half": _half,
    "end": _end,
    "holidays": _holidays,
}


def _wished(form: QueryDict, family: FamilyYear) -> FamilyYear:
    """The year with the rules that are ticked and the weights that are written."""
    weights = {name: _whole(form, f"wish-{name}", WISH_SAYS[name], most=HEAVIEST) for name in WISH_NAMES}
    rules = {name: f"rule-{name}" in form for name in RULE_NAMES}
    return replace(family, rules=Rules(**rules), wishes=Wishes(**weights))


def _lesson(form: QueryDict, child: Learner) -> Asked:
    lesson, what = LessonId(form.get("lesson", "")), form.get("what", "")
    learner = LearnerId(child.id)
    if what == "skip":
        return Asked(_("%(lesson)s left out") % {"lesson": lesson}, None, (Happened(learner, skip=(lesson,)),))
    if what == "repeat":
        return Asked(_("%(lesson)s given again") % {"lesson": lesson}, None, (Happened(learner, repeat=(lesson,)),))
    if what == "done":
        day = _day(form, "first")
        done = Happened(learner, done=(Placed(lesson=lesson, day=day),))
        return Asked(_("%(lesson)s done on %(day)s") % {"lesson": lesson, "day": _said(day, day)}, None, (done,))
    raise BadInput([Problem("what", f"there is nothing called {what!r} that can happen to a lesson")])


def _span(form: QueryDict) -> tuple[date, date]:
    first = _day(form, "first")
    last = _day(form, "last") if form.get("last") else first
    if last < first:
        raise BadInput([Problem(_("Last day"), _("it lies before the first day"))])
    if last - first > LONGEST:
        raise BadInput([Problem(_("Last day"), _("it lies more than two years after the first"))])
    return first, last


def _day(form: QueryDict, name: str) -> date:
    try:
        return date.fromisoformat(form.get(name, ""))
    except ValueError:
        raise BadInput([Problem(_("Date"), _("write a date such as 2027-01-12"))]) from None


def _whole(form: QueryDict, name: str, where: str, *, least: int = 0, most: int) -> int:
    text = form.get(name, "").strip() or "0"
    if not (text.isascii() and text.isdigit() and least <= int(text[:9]) <= most):
        raise BadInput([Problem(where, _("write a whole number from %(a)s to %(b)s") % {"a": least, "b": most})])
    return int(text)


def _said(first: date, last: date) -> str:
    one = f"{first.day} {first:%B}"
    return one if first == last else f"{one} to {last.day} {last:%B}"
