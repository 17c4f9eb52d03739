"""The demo household: the Wherrow family on the canal boat, invented, with some weeks behind them.

Everything follows from the day asked for, so that the same day gives the same household, down to the items. The marks
of the past weeks are told as marks without a sheet; yesterday's sheets are printed and frozen like any other.
"""

from __future__ import annotations

import random
import uuid
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime, time, timedelta
from typing import TYPE_CHECKING

from django.db import transaction

from dayleaf.core.errors import DayleafError
from dayleaf.core.ids import EventId, FormatId, LearnerId, LessonId, SheetId, SkillId
from dayleaf.core.seeds import seed_from
from dayleaf.course.load import grade2
from dayleaf.events.model import Attended, Head, ItemMark, Marked, Noted, Taught
from dayleaf.plan.calendar import DaysOff, LearningCalendar
from dayleaf.plan.codec import to_json
from dayleaf.plan.kept import KeptYear, as_kept
from dayleaf.plan.lessons import our_courses
from dayleaf.plan.path import Stuck, cheapest_run
from dayleaf.plan.run import CourseRun, RunPlan
from dayleaf.plan.wishes import Rules, Wishes
from dayleaf.records import desk, people, selectors, services
from dayleaf.records.models import Household

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from dayleaf.course.model import Course, Day
    from dayleaf.events.model import Event, ItemState
    from dayleaf.records.models import Learner
    from dayleaf.sheets.model import PageMap

HOUSEHOLD = uuid.UUID("5d1ea7c0-0b0a-4a1e-8c0d-0000000000d1").hex
WREN_LESSON = LessonId("day-084")
IVO_LESSON = LessonId("day-016")
IVO_FIRST = LessonId("day-011")
MINUTES = 60
WEEKDAYS = (0, 1, 3, 4)
"""Monday, Tuesday, Thursday, Friday: a four-day family; the day asked for takes Thursday's place if it must."""

AFTER = timedelta(days=25)
"""How long after the last lesson the demo's year ends: some days stay free for what happens."""

MORNING, EVENING = time(8, 50), time(20, 10)

SURE, NEW = 0.93, 0.8
"""Chances of a right answer to something earlier and to the day's own skill (invented)."""


class HouseholdIsThere(DayleafError):
    """The folder already holds a household, and a demo never mixes with it."""

    def __init__(self, name: str) -> None:
        super().__init__(f"This folder already holds {name}; name a new folder for the demo.")


@dataclass(frozen=True, slots=True)
class Child:
    """One of the demo's children before it has rows."""

    name: str
    age: int
    sheets_per_day: str
    first: LessonId
    today: LessonId
    short: bool
    yesterday_marked: bool


CHILDREN = (
    Child("Wren", 7, "as the course says", LessonId("day-001"), WREN_LESSON, short=True, yesterday_marked=True),
    Child("Ivo", 9, "one", IVO_FIRST, IVO_LESSON, short=False, yesterday_marked=False),
)


@transaction.atomic
def demo_household(*, today: date) -> Household:
    """Make the household with Wren and Ivo so that `today` is the day of their lessons.

    Raises:
        HouseholdIsThere: the home that is open is not empty.
    """
    there = Household.objects.first()
    if there is not None:
        raise HouseholdIsThere(there.name)
    household = people.household_create(
        id=HOUSEHOLD,
        name="The Wherrow family",
        time_zone="UTC",
        younger_child=True,
        morning_start=time(9, 0),
    )
    course = grade2()
    for child in CHILDREN:
        learner = people.learner_add(
            id=uuid.uuid5(uuid.UUID(HOUSEHOLD), child.name).hex,
            household=household,
            name=child.name,
            born=date(today.year - child.age, 5, 1) if today.month >= 5 else date(today.year - child.age - 1, 9, 1),
            sheets_per_day=child.sheets_per_day,
        )
        plan = plan_for(course, child, today=today)
        services.plan_set(
            id=uuid.uuid5(uuid.UUID(learner.id), "first plan").hex,
            learner=learner,
            plan=to_json(KeptYear((plan,))),
            reason="the first plan",
            day=plan.first,
            at=_at(plan.first - timedelta(days=2), EVENING),
        )
        services.events_append(household=household, events=history(course, learner, plan, today=today))
        _yesterday(learner, plan, today=today, marked=child.yesterday_marked)
        desk.refresh(learner, today=today)
    return household


def _yesterday(learner: Learner, plan: RunPlan, *, today: date, marked: bool) -> None:
    """Print the last learning day before `today`, and mark it with one miss where it is to be marked."""
    last = max((placed for placed in plan.placed if placed.day < today), key=lambda placed: placed.day, default=None)
    if last is None:
        return
    wish = desk.Wish(today=last.day, lesson=last.lesson)
    desk.day_print(learner, wish, at=_at(last.day, MORNING))
    if not marked:
        return
    sheets = selectors.sheets_of(learner, last.lesson)
    for number, sheet in enumerate(sheets):
        missed = _miss(selectors.pages_of(sheet)) if number == 0 else ""
        desk.sheet_mark(sheet, today=last.day, right_except=missed, at=_at(last.day, EVENING))


def _miss(pages: Sequence[PageMap]) -> str:
    """One item of the child's own page with the answer that an error way gives, as it would be typed."""
    for page in pages:
        for item in page.items[2:] if page.kind in {"own", "front"} else ():
            wrong = [answer for answer in item.errors.values() if answer != item.answer and answer.isdigit()]
            if wrong:
                return f"{item.n}={wrong[0]}"
    return ""


def plan_for(course: Course, child: Child, *, today: date) -> RunPlan:
    """A four-day year, one week off in it, that has the child's lesson on `today` and ends some weeks after its last.

    The first day is looked for backward from today, until the lesson falls on it.
    """
    weekdays = _weekdays(today)
    off = DaysOff(today - timedelta(days=41), today - timedelta(days=35), "A week at Hollin Basin")
    days = [one.id for one in course.days]
    before = days.index(child.today) - days.index(child.first)
    start = today - timedelta(days=7 * (before * 4 // 5 if child.short else before) // len(weekdays) + 7)
    while True:
        calendar = LearningCalendar(start=start, minutes=dict.fromkeys(weekdays, MINUTES), off=(off,))
        plan = _laid(course, calendar, child)
        on = plan.date_of(child.today)
        if on == today:
            break
        start += timedelta(days=1) if on < today else timedelta(days=-1)
    end = (plan.last or today) + AFTER
    return replace(plan, run=replace(plan.run, calendar=replace(calendar, end=end)))


def history(course: Course, learner: Learner, plan: RunPlan, *, today: date) -> Iterator[Event]:
    """What happened on the learning days before the last one: taught, marked with some misses, a note, a day missed."""
    days = {day.id: day for day in course.days}
    chance = random.Random(seed_from("demo", learner.name))
    seen: list[SkillId] = []
    past = [placed for placed in plan.placed if placed.day < today]
    yesterday = max((placed.day for placed in past), default=today)
    for number, placed in enumerate(past):
        lesson = days[placed.lesson]
        skills = tuple(dict.fromkeys((*lesson.new_skills, *lesson.front_skills)))
        yield Attended(_head(learner, placed.day, f"there {number}"), present=True)
        yield Taught(_head(learner, placed.day, f"taught {number}"), placed.lesson, "done", skills)
        if placed.day < yesterday and lesson.kind != "spare":
            marks = tuple(_marks(course, lesson, seen, chance))
            if marks:
                yield Marked(_head(learner, placed.day, f"marked {number}"), SheetId(""), placed.lesson, marks)
        seen.extend(skill for skill in (*lesson.refresh_skills, *skills) if skill not in seen)
    if past:
        words = "Bundles on the deck in the sun: open the ten before you talk about it."
        yield Noted(_head(learner, yesterday, "note"), past[-1].lesson, words)


def _marks(course: Course, lesson: Day, seen: Sequence[SkillId], chance: random.Random) -> Iterator[ItemMark]:
    """Marks of the day's own skills and of a few earlier ones that came back."""
    own = [skill for skill in lesson.front_skills if course.skills[skill].formats]
    earlier = [skill for skill in lesson.back_skills if course.skills[skill].formats]
    returning = earlier or chance.sample(list(seen), min(4, len(seen)))
    asked = [*(own[n % len(own)] for n in range(6 if own else 0)), *returning[:6]]
    for n, skill in enumerate(asked, start=1):
        state: ItemState = "right" if chance.random() < (NEW if skill in lesson.new_skills else SURE) else "wrong"
        written = course.skills[skill].formats[0]
        yield ItemMark(n, skill, FormatId(written), f"{skill}/{written}", state, None, helped=False, errors=())


def _laid(course: Course, calendar: LearningCalendar, child: Child) -> RunPlan:
    """The year as soon as it can be; where it is short, with what the course lets share a day or be left out."""
    lessons = our_courses()[course.id]
    begin = [one.id for one in lessons].index(child.first)
    run = CourseRun(
        learner=LearnerId(""),
        course=course.id,
        lessons=lessons[begin:],
        calendar=calendar,
        may_join=child.short,
        may_leave_out=child.short,
    )
    plan = cheapest_run(run, rules=Rules(), wishes=Wishes())
    assert not isinstance(plan, Stuck), "two years hold one"  # noqa: S101 (it cannot be otherwise)
    return as_kept(plan)


def _weekdays(today: date) -> tuple[int, ...]:
    if today.weekday() in WEEKDAYS:
        return WEEKDAYS
    return tuple(sorted({0, 1, 4, today.weekday()}))


def _head(learner: Learner, day: date, what: str) -> Head:
    event = uuid.uuid5(uuid.UUID(learner.id), f"{day} {what}").hex
    return Head(EventId(event), _at(day, EVENING), day, LearnerId(learner.id))


def _at(day: date, hour: time) -> datetime:
    return datetime.combine(day, hour, tzinfo=UTC)
