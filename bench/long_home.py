"""A home of three children and two full years of records, made of one printed day and seeded answers.

Every lesson day has its event, its attendance, its print with its sheets, and their marks. The sheets are copies of one
real day's under other ids, so that rows have their true size; the finished files are short, for no page reads them.
"""

from __future__ import annotations

import json
import random
import uuid
from datetime import UTC, date, datetime, time, timedelta
from typing import TYPE_CHECKING

from dayleaf.core.ids import CourseId, EventId, FormatId, LearnerId, SheetId, SkillId
from dayleaf.course.load import grade2
from dayleaf.events.model import Attended, Head, ItemMark, Marked, Taught
from dayleaf.plan.calendar import LearningCalendar
from dayleaf.plan.codec import to_json
from dayleaf.plan.kept import KeptYear
from dayleaf.plan.lessons import our_courses
from dayleaf.plan.path import Stuck, cheapest_run
from dayleaf.plan.run import CourseRun, RunPlan
from dayleaf.plan.wishes import Rules, Wishes
from dayleaf.records.home import open_home

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from dayleaf.events.model import Event
    from dayleaf.records.models import Learner, PrintRow, SheetRow

STARTS = (date(2025, 8, 18), date(2026, 8, 17))
TODAY = date(2027, 6, 1)
RIGHT = 0.87
NAMES = ("Wren", "Ivo", "Bean")


def long_home(folder: Path) -> None:
    """Make the home in an empty folder; it stays open in this process."""
    open_home(folder)
    from dayleaf.records import cards, desk, people, selectors, services  # noqa: PLC0415 -- Django is set up by now

    household = people.household_create(name="The Wherrow family", morning_start=time(9))
    for number, name in enumerate(NAMES):
        learner = people.learner_add(household=household, name=name, born=date(2019 + number, 3, 1))
        for start in STARTS:
            plan = _plan(learner, start)
            services.plan_set(learner=learner, plan=to_json(KeptYear((plan,))), reason="the year", day=start)
            if start == STARTS[0]:
                first = plan.placed[80]
                wish = desk.Wish(today=first.day, lesson=first.lesson)
                desk.day_print(learner, wish, at=_at(first.day))
                sheets = selectors.sheets_of(learner)
            services.events_append(household=household, events=_year(learner, plan, sheets))
        services.note_add(household=household, learner=learner, text="Two years on the water.", day=TODAY)
    cards.cards_prepare(household, today=TODAY)


def _plan(learner: Learner, start: date) -> RunPlan:
    minutes = dict.fromkeys((0, 1, 2, 3, 4), 60)
    run = CourseRun(
        learner=LearnerId(learner.id),
        course=CourseId("grade2"),
        lessons=our_courses()[CourseId("grade2")],
        calendar=LearningCalendar(start=start, minutes=minutes, end=start + timedelta(days=330)),
    )
    plan = cheapest_run(run, rules=Rules(), wishes=Wishes())
    if isinstance(plan, Stuck):
        raise SystemExit("The long home's year does not fit.")
    return plan


def _year(learner: Learner, plan: RunPlan, sheets: tuple[SheetRow, ...]) -> Iterator[Event]:
    chance = random.Random(f"{learner.name} {plan.first}")
    days = {day.id: day for day in grade2().days}
    for placed in plan.placed:
        if placed.day >= TODAY:
            break
        lesson = days[placed.lesson]
        yield Attended(_head(learner, placed.day, "there"), present=True)
        yield Taught(_head(learner, placed.day, "taught"), placed.lesson, "done", tuple(lesson.front_skills))
        for sheet in _printed(learner, placed.lesson, placed.day, sheets):
            items = tuple(_mark(one, chance) for page in json.loads(sheet.pages)["sheets"] for one in page["items"])
            head = _head(learner, placed.day, sheet.sheet_id)
            yield Marked(head, SheetId(sheet.sheet_id), placed.lesson, items)


def _printed(learner: Learner, lesson: str, day: date, sheets: tuple[SheetRow, ...]) -> tuple[SheetRow, ...]:
    """Copies of these sheets as the print of another day."""
    from dayleaf.records.models import PrintRow as Print  # noqa: PLC0415 -- Django is set up by now
    from dayleaf.records.models import SheetRow as Sheet  # noqa: PLC0415 -- the same

    old: PrintRow = sheets[0].printed
    seq = (day - STARTS[0]).days + 10
    row = Print.objects.create(
        print_id=uuid.uuid5(uuid.UUID(learner.id), f"print {day}").hex,
        household_id=learner.household_id,
        learner=learner,
        seq=seq,
        lesson=lesson,
        day=day,
        seed=1,
        engine=old.engine,
        lang=old.lang,
        paper=old.paper,
        guide=b"%PDF-1.7",
        pages=b"%PDF-1.7",
        key=b"%PDF-1.7",
    )
    made = []
    for place, sheet in enumerate(sheets):
        name = f"{learner.name[0]}{day:%y%j}{place}".upper()
        text = {part: getattr(sheet, part).replace(sheet.sheet_id, name) for part in ("spec", "pages")}
        made.append(
            Sheet(
                household_id=learner.household_id,
                learner=learner,
                printed=row,
                sheet_id=name,
                lesson=lesson,
                place=place,
                **text,
            )
        )
    Sheet.objects.bulk_create(made)
    return tuple(made)


def _mark(item: dict[str, object], chance: random.Random) -> ItemMark:
    right = chance.random() < RIGHT
    return ItemMark(
        n=int(str(item["n"])),
        skill=SkillId(str(item["skill"])),
        format=FormatId(str(item["format"])),
        key=str(item["key"]),
        state="right" if right else "wrong",
        answer=str(item["answer"]) if right else None,
        helped=False,
        errors=(),
    )


def _head(learner: Learner, day: date, what: str) -> Head:
    return Head(EventId(uuid.uuid5(uuid.UUID(learner.id), f"{day} {what}").hex), _at(day), day, LearnerId(learner.id))


def _at(day: date) -> datetime:
    return datetime.combine(day, time(20), tzinfo=UTC)
