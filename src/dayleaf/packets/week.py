"""The week sheet put together: days and strips, one prep list for all, the print run, what to read and decide."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import SkillId
from dayleaf.packets.morning_strip import lane
from dayleaf.plan.morning_words import moment
from dayleaf.plan.week import CARDS, weekday_name
from dayleaf.sheets.weeks import PrepLine, WeekDay, WeekRow, WeekSheet
from dayleaf.wording.page import page_word

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from datetime import date

    from dayleaf.core.ids import LearnerId
    from dayleaf.course.model import Course
    from dayleaf.plan.morning_model import MorningPlan
    from dayleaf.plan.week import Need, NeedKind, PrintLine, Week

STRIP_MM = 50.0
SMALL_PARTS = "small parts"
KINDS: tuple[NeedKind, ...] = ("buy", "cut", "print", "fetch")
MONTHS = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)


def week_sheet(
    week: Week,
    *,
    course: Course,
    names: Mapping[LearnerId, str],
    mornings: Mapping[date, MorningPlan],
    little_one: bool = False,
    lang: str = "en",
) -> WeekSheet:
    """What the week sheet says. `mornings` are the days laid out; `little_one` asks for cautions about small parts."""
    length = max((one.minutes for one in mornings.values()), default=0)
    groups = [
        (
            page_word(f"week-{kind}", lang),
            tuple(need_line(one, names, little_one=little_one) for one in week.prep if one.kind == kind),
        )
        for kind in KINDS
    ]
    return WeekSheet(
        title=_title(week),
        under=_under(week),
        lang=lang,
        key=(page_word("week-led", lang), page_word("week-alone", lang)),
        days=tuple(_day(week, day, names, mornings.get(day), length) for day in week.days),
        prep_heading=page_word("week-ready", lang),
        prep=tuple((heading, lines) for heading, lines in groups if lines),
        facts=tuple(_facts(week, course, names, lang, little_one=little_one)),
        foot=_title(week),
    )


def said_date(day: date) -> str:
    """A date as a parent reads it: January 12."""
    return f"{MONTHS[day.month - 1]} {day.day}"


def listed(words: Sequence[str]) -> str:
    """Words in a row: one, two and three."""
    return " and ".join([", ".join(words[:-1]), words[-1]] if len(words) > 1 else words)


def run_sentences(run: Sequence[PrintLine]) -> tuple[str, ...]:
    """The print run in sentences: what is printed for good, what waits, what is on paper already."""
    said = []
    ready = [one for one in run if one.printed]
    firm = [one for one in run if one.firm and not one.printed]
    later = [one for one in run if not one.firm and not one.printed]
    if firm:
        days = listed(_weekdays(firm))
        said.append(f"{days} now: {_sheets(firm)}, in the order of use.")
    if later:
        days = listed(_weekdays(later))
        said.append(f"{days} later ({_sheets(later)}): what comes back there depends on the days before.")
    if ready:
        said.append(f"On paper already: {listed(_weekdays(ready))}.")
    return tuple(said)


def _title(week: Week) -> str:
    days = week.days or (week.first, week.last)
    first, last = days[0], days[-1]
    if first == last:
        return f"The week of {said_date(first)}"
    until = str(last.day) if first.month == last.month else said_date(last)
    return f"The week of {said_date(first)} to {until}"


def _under(week: Week) -> str:
    n = len(week.days)
    if n == 0:
        return "No lessons are planned this week."
    ready = f"about {week.minutes_ready} minutes to get ready" if week.minutes_ready else "nothing to get ready"
    return f"{n} {'day' if n == 1 else 'days'} with lessons, {ready}."


def _day(week: Week, day: date, names: Mapping[LearnerId, str], plan: MorningPlan | None, length: int) -> WeekDay:
    rows = []
    lessons = [one for one in week.lessons if one.day == day]
    drawn: set[LearnerId] = set()
    for one in lessons:
        name, strip, said = names[one.learner], "", ""
        if plan is not None and one.learner not in drawn:
            strip = lane(plan, one.learner, name=name, width=STRIP_MM, length=length)
            said = f"{name}’s line of the morning"
        minutes = f"{one.lesson.parent_minutes} + {one.lesson.child_minutes} min"
        rows.append(WeekRow("" if one.learner in drawn else name, one.lesson.title, minutes, strip, said))
        drawn.add(one.learner)
    return WeekDay(weekday_name(day), said_date(day), tuple(rows), "" if plan is None else _note(plan))


def _note(plan: MorningPlan) -> str:
    led = sum(one.minutes for one in plan.with_adult)
    if plan.start is not None:
        return f"{led} minutes with you, done by {moment(plan.start, plan.minutes)}."
    return f"{led} minutes with you, {plan.minutes} in all."


def need_line(need: Need, names: Mapping[LearnerId, str], *, little_one: bool) -> PrepLine:
    """One need in words: what, how many or instead of what, by when, and a caution where there is a little one."""
    material = need.material
    what = material.title[:1].upper() + material.title[1:]
    if material.id == CARDS and need.what:
        what += f": {need.what.replace('-', ' ')}"
    more = []
    if need.kind in ("buy", "cut") and material.how_many not in ("", "1"):
        more.append(material.how_many)
    if need.kind == "buy" and material.substitute:
        more.append(f"or {material.substitute}")
    if need.kind == "print" and len(need.learners) > 1:
        more.append(f"for {listed([names[one] for one in need.learners])}")
    elif need.together:
        more.append(f"shared by {listed([names[one] for one in need.learners])}")
    mind = SMALL_PARTS if little_one and material.small_parts else ""
    return PrepLine(what, ", ".join(more), weekday_name(need.first)[:3], mind)


def _facts(
    week: Week, course: Course, names: Mapping[LearnerId, str], lang: str, *, little_one: bool
) -> list[tuple[str, str]]:
    facts = []
    if little_one and any(one.material.small_parts for one in week.prep):
        facts.append((page_word("week-mind", lang), "Count small parts back in, away from the little one."))
    run = " ".join(run_sentences(week.run))
    if run:
        facts.append((page_word("week-run", lang), run))
    read = [
        f"{weekday_name(one.day)}’s guide for {names[one.learner]}, “{one.lesson.title}” ({_minutes(one.minutes)})."
        for one in week.read_ahead
    ]
    if read:
        facts.append((page_word("week-read", lang), " ".join(read)))
    decide = [
        f"“{one.lesson.title}” on {weekday_name(one.day)} only if {names[one.learner]} is firm in "
        f"“{course.skills[SkillId(one.if_firm)].title}” ({weekday_name(one.taught_on)})."
        for one in week.decisions
    ]
    if decide:
        facts.append((page_word("week-decide", lang), " ".join(decide)))
    if week.cannot_wait:
        things = listed([f"{one.material.title} for {weekday_name(one.first)}" for one in week.cannot_wait])
        facts.append((page_word("week-short", lang), f"Begin with these: {things}. The rest can wait a day."))
    return facts


def _minutes(n: int) -> str:
    return "1 minute" if n == 1 else f"{n} minutes"


def _sheets(lines: Sequence[PrintLine]) -> str:
    n = sum(one.sheets for one in lines)
    return "1 sheet" if n == 1 else f"{n} sheets"


def _weekdays(lines: Sequence[PrintLine]) -> list[str]:
    return list(dict.fromkeys(weekday_name(one.day) for one in lines))
