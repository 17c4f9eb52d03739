"""A child's year as its page says it: a sentence, months with their kinds of day in words, ways on and ways out."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from datetime import timedelta
from typing import TYPE_CHECKING, Any

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from dayleaf.core.errors import BadInput
from dayleaf.plan.calendar import WEEKDAYS
from dayleaf.plan.wishes import RULE_NAMES, RULE_SAYS, WISH_NAMES, WISH_SAYS
from dayleaf.records import selectors
from dayleaf.records.busy_times import busy_name
from dayleaf.records.plans import kept_year_or_none
from dayleaf.records.years import last_change, months_of, spare_days
from dayleaf.web.clock import weekday_and_date
from dayleaf.web.shown import upper_first
from dayleaf.web.year_asked import listed_holidays

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from dayleaf.plan.kept import KeptYear
    from dayleaf.plan.lessons import PlanLesson
    from dayleaf.plan.priced_ways import Refusal
    from dayleaf.plan.replan import Bent
    from dayleaf.records.models import Household, Learner
    from dayleaf.records.plans import HomeYear
    from dayleaf.records.years import DayOfYear, Month

MOST_SHOWN = 12
"""So many moved dates are named; how many more there are is said."""


@dataclass(frozen=True, slots=True)
class Cell:
    """One date of a month as the page shows it."""

    number: int
    iso: str
    name: str
    words: tuple[str, ...]
    kind: str
    today: bool
    past: bool


def shown_year(
    household: Household, child: Learner | None, *, today: date, country: str | None = None
) -> dict[str, Any]:
    """What the year's page says of a child; little where there is no plan."""
    everyone = selectors.learners(household)
    year = None if child is None else kept_year_or_none(child)
    if child is None or year is None:
        return {"children": everyone, "child": child, "heading": _("There is no plan yet")}
    calendar = year.main.run.calendar
    spare = spare_days(year.main, today)
    months = [_month(month, today) for month in months_of(year)]
    ahead = next((n for n, month in enumerate(months) if not month["past"]), len(months))
    monday = today - timedelta(days=today.weekday())
    return {
        "children": everyone,
        "child": child,
        "heading": _heading(child, year, spare),
        "change": last_change(child),
        "past": months[:ahead],
        "months": months[ahead:],
        "weekdays": [(n, name, calendar.minutes.get(n, 0)) for n, name in enumerate(WEEKDAYS)],
        "off": [(one, _span_said(one.first, one.last)) for one in calendar.off if one.last >= today],
        "terms": [(one, _span_said(one.first, one.last)) for one in calendar.terms],
        "end": calendar.end,
        "monday": monday.isoformat(),
        "friday": (monday + timedelta(days=4)).isoformat(),
        "today": today.isoformat(),
        "lessons": [one for one in year.main.run.lessons if _date(year, one) >= today][:40],
        "beside": year.plans[1:],
        "rules": [(name, upper_first(RULE_SAYS[name]), getattr(year.rules, name)) for name in RULE_NAMES],
        "wishes": [(name, upper_first(WISH_SAYS[name]), getattr(year.wishes, name)) for name in WISH_NAMES],
        "busy": busy_name(household),
        **_holidays(year, country),
    }


def shown_ways(ways: Sequence[Bent], home: HomeYear) -> list[dict[str, Any]]:
    """The ways to go on: what each does, what it loses, which dates move."""
    return [_way(one, home) for one in ways]


def shown_refusal(refusal: Refusal | None, home: HomeYear, *, chosen: bool = True) -> dict[str, Any]:
    """The honest no, with its ways out."""
    assert refusal is not None, "there is no plan"  # noqa: S101 (as called)
    names = {one.id: one.name for one in home.learners}
    ways = [
        {
            "name": way.name,
            "says": way.says,
            "lost": [_shortened(one) for one in way.lost],
            "last": _last(way.plan.last),
        }
        for way in refusal.ways
    ]
    who = names.get(str(home.plans[refusal.run].run.learner), "") if refusal.run < len(home.plans) else ""
    return {"who": who, "says": refusal.says, "ways": ways if chosen else []}


def _way(one: Bent, home: HomeYear) -> dict[str, Any]:
    says = {
        "spare": _("Use spare days: as few dates change as can be."),
        "trim": _("Trim: lessons share a day or are left out, as far as the course allows."),
        "slide": _("Slide: everything comes later, and days that were free stay free."),
    }
    names = {learner.id: learner.name for learner in home.learners}
    titles = [{lesson.id: lesson for lesson in plan.run.lessons} for plan in home.plans]
    moved = [
        {
            "who": names[str(home.plans[n].run.learner)],
            "what": _lesson_said(titles[n][lesson]) if lesson in titles[n] else lesson,
            "was": _short(was),
            "now": _short(now) if now else _("left out"),
        }
        for n, lesson, was, now in one.moved
    ]
    count = len(moved)
    left = [
        _lesson_said(lesson)
        for before, after in zip(home.plans, one.plan.plans, strict=True)
        for lesson in after.run.lessons
        if lesson.id in set(after.left_out) - set(before.left_out)
    ]
    return {
        "name": one.way,
        "title": {"spare": _("Use spare days"), "trim": _("Trim"), "slide": _("Slide")}.get(one.way, one.way),
        "says": says.get(one.way, ""),
        "dates": ngettext("%(n)s date changes", "%(n)s dates change", count) % {"n": count},
        "last": _last(one.last),
        "spare": one.spare,
        "late": one.past_end,
        "left": left,
        "moved": moved[:MOST_SHOWN],
        "more": max(0, count - MOST_SHOWN),
    }


def _heading(child: Learner, year: KeptYear, spare: int | None) -> str:
    last = _last(year.main.last)
    if spare is None:
        return _("%(name)s’s course ends on %(last)s") % {"name": child.name, "last": last}
    days = ngettext("%(n)s spare day", "%(n)s spare days", spare) % {"n": spare}
    return _("%(name)s’s course ends on %(last)s, with %(days)s") % {"name": child.name, "last": last, "days": days}


def _month(month: Month, today: date) -> dict[str, Any]:
    lessons = month.lessons
    kinds = Counter(one.kind for one in lessons)
    said = [ngettext("%(n)s lesson", "%(n)s lessons", kinds["lesson"]) % {"n": kinds["lesson"]}]
    if kinds["test"]:
        said.append(ngettext("%(n)s test", "%(n)s tests", kinds["test"]) % {"n": kinds["test"]})
    if kinds["project"]:
        said.append(ngettext("%(n)s project", "%(n)s projects", kinds["project"]) % {"n": kinds["project"]})
    weeks = [[None if day is None else _cell(day, today) for day in week] for week in month.weeks]
    shown = [n for n in range(7) if any(cell.words for week in weeks if (cell := week[n]) is not None)]
    second = [day.day.weekday() for day in month.weeks[1] if day is not None]
    return {
        "title": f"{month.first:%B} {month.first.year}",
        "says": ", ".join(said) + ".",
        "columns": [WEEKDAYS[second[n]] for n in shown],
        "weeks": [[week[n] for n in shown] for week in weeks if any(week[n] for n in shown)],
        "past": (month.first.year, month.first.month) < (today.year, today.month),
    }


def _cell(day: DayOfYear, today: date) -> Cell:
    words = tuple(_lesson_said(one) for one in day.lessons)
    if day.kind == "off":
        words = (day.name or _("day off"),)
    elif day.kind == "missed":
        words = (_("lost"),)
    elif day.kind in {"free", "kept free"}:
        words = (_("spare") if day.kind == "free" else _("kept free"),)
    if day.half is not None and day.kind in {"lessons", "free"}:
        words = (*words, _("%(n)s minutes") % {"n": day.half})
    return Cell(
        number=day.day.day,
        iso=day.day.isoformat(),
        name=f"{day.day:%a} {day.day.day}",
        words=words,
        kind=day.kind.replace(" ", "-"),
        today=day.day == today,
        past=day.day < today,
    )


def _lesson_said(one: PlanLesson) -> str:
    """A lesson in a word or two: its number, or its kind."""
    if not one.id.startswith("day-"):
        return one.title or str(one.id)
    number = int(one.id[4:7])
    kinds = {
        "lesson": _("day %(n)s"),
        "look-back": _("day %(n)s, look back"),
        "test": _("day %(n)s, test"),
        "project": _("day %(n)s, project"),
        "spare": _("day %(n)s, spare"),
        "look-back-all": _("day %(n)s, look back over all"),
    }
    said = kinds[one.kind] % {"n": number}
    return _("%(what)s again") % {"what": said} if one.id.endswith("~again") else said


def _holidays(year: KeptYear, country: str | None) -> dict[str, Any]:
    code = year.country if country is None else country.strip()
    calendar = year.main.run.calendar
    kept, wrong = set(calendar.holidays), ""
    try:
        listed = listed_holidays(code, "" if country is not None else year.subdivision, calendar)
    except BadInput as bad:
        listed, wrong = (), str(bad.problems[0].message)
    return {
        "country": code,
        "country_asked": country is not None,
        "no_list": wrong,
        "holidays": [(f"{one.first} {one.name}", one.name, _short(one.first), one in kept) for one in listed],
        "kept_holidays": len(kept),
    }


def _date(year: KeptYear, lesson: PlanLesson) -> Any:
    return year.main.dates.get(lesson.id, year.main.first)


def _last(day: date | None) -> str:
    return "" if day is None else f"{weekday_and_date(day)} {day.year}"


def _short(day: date) -> str:
    return f"{day:%a} {day.day} {day:%b}"


def _span_said(first: date, last: date) -> str:
    return _short(first) if first == last else f"{_short(first)} – {_short(last)}"


def _shortened(text: str, most: int = 220) -> str:
    return text if len(text) <= most else text[:most].rsplit(" ", 1)[0] + " …"
