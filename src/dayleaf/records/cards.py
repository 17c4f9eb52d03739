"""What the day's page shows of each child: read from what was kept, never worked out while somebody only looks."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from dayleaf.course.load import grade2
from dayleaf.plan.year import DateOutsideYear
from dayleaf.records import selectors
from dayleaf.records.beliefs import year_plan
from dayleaf.records.coming import ahead_kept, backs_last_chosen, lesson_named, look_ahead
from dayleaf.records.courses import course_with
from dayleaf.records.mornings import morning_keep
from dayleaf.records.seen import last_seen

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from dayleaf.course.model import Course, Day
    from dayleaf.events.model import HowFar
    from dayleaf.records.models import Household, Learner, SheetRow
    from dayleaf.records.seen import LastSeen


NOT_TODAY = "not today"


@dataclass(frozen=True, slots=True)
class Returning:
    """An earlier skill that comes back today, and why in a few words ("" where the reason was not kept)."""

    title: str
    why: str


@dataclass(frozen=True, slots=True)
class Card:
    """One child's lesson of the day.

    `returning` is None where nobody has worked out yet what comes back. `how_far` is what was said of the
    lesson today, None where nothing was said. `seen` is what the last marks
    before today showed.
    """

    learner: Learner
    day: Day
    of: int
    chapter: str
    fetch: tuple[str, ...]
    returning: tuple[Returning, ...] | None
    printed: bool
    how_far: HowFar | None
    seen: LastSeen | None


@dataclass(frozen=True, slots=True)
class DayOff:
    """A child without a lesson today. `following` is the next learning day, None after the end."""

    learner: Learner
    following: date | None
    title: str


def cards_of(household: Household, *, today: date) -> tuple[Card | DayOff, ...]:
    """The cards of all children with a plan, in their order; only reads."""
    cards: list[Card | DayOff] = []
    for learner in selectors.learners(household):
        if selectors.plan_version_or_none(learner) is None:
            continue
        lessons = _lessons(learner, today)
        cards += [_card(learner, lesson, today) for lesson in lessons] or [_day_off(learner, today)]
    return tuple(cards)


def cards_prepare(household: Household, *, today: date) -> None:
    """Work out and keep what today's cards and the morning need: once a day, and after every write."""
    wanted: list[tuple[Learner, Day]] = []
    for learner in selectors.learners(household):
        if selectors.plan_version_or_none(learner) is not None:
            said = selectors.said_on(learner, today)
            for lesson in _lessons(learner, today):
                if not selectors.is_printed(learner, lesson.id):
                    look_ahead(learner, lesson, today=today)
                if lesson.id not in said or said[lesson.id].how_far != NOT_TODAY:
                    wanted.append((learner, lesson))
    morning_keep(household, wanted, today=today)


def at_table(cards: Sequence[Card | DayOff]) -> tuple[tuple[Learner, Day], ...]:
    """The lessons of these cards that take place today."""
    return tuple((one.learner, one.day) for one in cards if isinstance(one, Card) and one.how_far != NOT_TODAY)


def fetch_of(day: Day, course: Course | None = None) -> tuple[str, ...]:
    """What to lay ready, by the names a parent knows, home things first."""
    materials = (course or grade2()).materials
    return tuple(materials[name].title for name in (*day.materials, *day.print_outs) if name in materials)


def _lessons(learner: Learner, today: date) -> tuple[Day, ...]:
    """The lessons planned for today, and those of which somebody said something today (the plan may have moved)."""
    said = selectors.said_on(learner, today)
    try:
        planned = year_plan(learner).lessons_on(today)
    except DateOutsideYear:
        planned = ()
    return tuple(lesson_named(lesson) for lesson in dict.fromkeys((*said, *planned)))


def _card(learner: Learner, lesson: Day, today: date) -> Card:
    course = course_with(learner.household, lesson.id)
    sheets = selectors.sheets_of(learner, lesson.id)
    said = selectors.said_on(learner, today).get(lesson.id)
    return Card(
        learner=learner,
        day=lesson,
        of=len(course.days),
        chapter=course.chapters[lesson.chapter - 1].title,
        fetch=fetch_of(lesson, course),
        returning=_on_paper(learner, lesson, sheets) if sheets else _chosen(learner, lesson, today),
        printed=bool(sheets),
        how_far=None if said is None else said.how_far,
        seen=_before_today(learner, today),
    )


def _before_today(learner: Learner, today: date) -> LastSeen | None:
    seen = last_seen(learner)
    return seen if seen is not None and seen.day < today else None


def _on_paper(learner: Learner, lesson: Day, sheets: Sequence[SheetRow]) -> tuple[Returning, ...]:
    """The skills on the back of the newest print, in the order of the paper; reasons where they are known."""
    why = {back.skill: back.why for back in backs_last_chosen(learner, lesson)}
    newest = [sheet for sheet in sheets if sheet.printed_id == sheets[-1].printed_id]
    pages = [page for sheet in newest for page in selectors.pages_of(sheet) if page.kind == "back"]
    skills = dict.fromkeys(item.skill for page in pages for item in page.items)
    return tuple(Returning(grade2().skills[skill].title, why.get(skill, "")) for skill in skills)


def _chosen(learner: Learner, lesson: Day, today: date) -> tuple[Returning, ...] | None:
    """What will come back on a lesson that is not printed yet; None where nobody has chosen since the last event."""
    ahead = ahead_kept(learner, lesson, today=today)
    if ahead is None:
        return None
    return tuple(Returning(grade2().skills[back.skill].title, back.why) for back in ahead.backs)


def _day_off(learner: Learner, today: date) -> DayOff:
    following = year_plan(learner).next_days(today, 1)
    if not following:
        return DayOff(learner, None, "")
    return DayOff(learner, following[0].day, lesson_named(following[0].lesson).title)
