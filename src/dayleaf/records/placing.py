"""Finding a child's place on screen, over some sittings: what was asked aloud, what to ask next, where to begin."""

from __future__ import annotations

import json
from dataclasses import dataclass, replace
from datetime import date
from functools import cache, lru_cache
from typing import TYPE_CHECKING, Final, Literal, get_args

from django.db import transaction

from dayleaf.core.errors import BadInput, Problem
from dayleaf.core.ids import CourseId, LearnerId, SkillId
from dayleaf.core.seeds import seed_from
from dayleaf.course.load import grade2
from dayleaf.learner.asking import can_be_read_aloud, item_to_read
from dayleaf.learner.placement import MOST, place
from dayleaf.learner.start import placement_map
from dayleaf.learner.states import ground_of_course, number_skills
from dayleaf.packets.placement import A_SITTING
from dayleaf.plan.calendar import LearningCalendar
from dayleaf.plan.lessons import our_courses
from dayleaf.plan.run import CourseRun
from dayleaf.records import cards, selectors, services
from dayleaf.records.beliefs import year_plan
from dayleaf.records.models import PlacementRow
from dayleaf.records.replans import year_begin

if TYPE_CHECKING:
    from collections.abc import Sequence

    from dayleaf.course.model import Day
    from dayleaf.items.model import Item
    from dayleaf.learner.placement import Placed
    from dayleaf.learner.start import PlacementMap
    from dayleaf.learner.states import Ground
    from dayleaf.records.models import Learner

Said = Literal["right", "not yet", "not asked"]
OURS: Final = CourseId("grade2")
MINUTES: Final = 60
"""Minutes a learning day has where no calendar says so (as at the first visit)."""
WEEKDAYS: Final = range(5)


@dataclass(frozen=True, slots=True)
class AskedAloud:
    """One question: its skill, what was said to it, and the day of the sitting."""

    skill: SkillId
    said: Said
    day: date


@dataclass(frozen=True, slots=True)
class Placing:
    """How far a placement is. `ask` and `item` are the next question, None where enough was asked.

    `today` counts the questions answered today; `rest` says that they are enough for one sitting.
    """

    asked: tuple[AskedAloud, ...]
    ask: SkillId | None
    item: Item | None
    found: PlacementMap
    today: int
    rest: bool

    @property
    def answered(self) -> int:
        """Questions that were answered, right or not yet."""
        return sum(one.said != "not asked" for one in self.asked)


def placing_of(learner: Learner, *, today: date) -> Placing:
    """How far this child's placement is; nothing is written."""
    asked = asked_aloud(learner)
    placed, found = _found(tuple((one.skill, one.said) for one in asked))
    here = sum(one.day == today and one.said != "not asked" for one in asked)
    item = None
    if placed.ask is not None:
        item = item_to_read(grade2().skills[placed.ask], seed=seed_from("placement", learner.id, len(asked)))
    return Placing(asked, placed.ask, item, found, here, rest=here > 0 and here % A_SITTING == 0)


def asked_aloud(learner: Learner) -> tuple[AskedAloud, ...]:
    """What was asked so far, the first question first."""
    row = PlacementRow.objects.filter(learner=learner).first()
    known = grade2().skills
    said = json.loads(row.said) if row else []
    return tuple(
        AskedAloud(SkillId(skill), word, date.fromisoformat(day)) for skill, word, day in said if skill in known
    )


@transaction.atomic
def placement_say(learner: Learner, *, skill: str, said: str, day: date) -> None:
    """Keep what was said to a question. Raises `BadInput` for a skill or a word that is none of ours."""
    word: Said | None = next((one for one in get_args(Said) if one == said), None)
    if word is None or skill not in grade2().skills:
        raise BadInput([Problem("placement", f"say one of {', '.join(get_args(Said))} of a skill of the course")])
    _keep(learner, (*asked_aloud(learner), AskedAloud(SkillId(skill), word, day)))


@transaction.atomic
def placement_take_back(learner: Learner) -> None:
    """Take the last answer back; nothing happens before the first."""
    _keep(learner, asked_aloud(learner)[:-1])


@transaction.atomic
def placement_anew(learner: Learner) -> None:
    """Forget what was asked and begin with the first question."""
    _keep(learner, ())


@transaction.atomic
def placement_begin(learner: Learner, *, number: int, today: date) -> str:
    """Lay the course out from that day on, today at the earliest; the sentence of the no where it does not fit.

    Another day than the one advised is kept as the adult's own choice. The plan before can be put back (`year_undo`).

    Raises:
        BadInput: the course has no day of that number.
    """
    course = grade2()
    if not 1 <= number <= len(course.days):
        raise BadInput([Problem("day", f"write a number from 1 to {len(course.days)}")])
    calendar = _calendar(learner, today)
    run = CourseRun(LearnerId(learner.id), OURS, our_courses()[OURS][number - 1 :], calendar)
    tries = (
        run,
        replace(run, may_join=True, may_leave_out=True),
        replace(run, calendar=replace(calendar, end=None)),
    )
    says = ""
    for one in tries:
        no = year_begin({learner: one}, today=today, reason=f"begins with day {number}")
        if no is None:
            break
        says = no.says
    else:
        return says
    advised = placing_of(learner, today=today).found.start
    if advised is not None and advised.number != number:
        services.choice_keep(
            learner=learner,
            lesson=course.days[number - 1].id,
            advised=f"begin with day {advised.number}",
            chosen=f"begin with day {number}",
            day=today,
        )
    cards.cards_prepare(learner.household, today=today)
    return ""


def first_planned(learner: Learner) -> Day | None:
    """The day of the course with which the plan in force begins; None where there is no plan."""
    if selectors.plan_version_or_none(learner) is None:
        return None
    days = {day.id: day for day in grade2().days}
    return next((days[one.lesson] for one in year_plan(learner).placed if one.lesson in days), None)


def _keep(learner: Learner, asked: Sequence[AskedAloud]) -> None:
    said = services.canonical([[one.skill, one.said, one.day.isoformat()] for one in asked])
    PlacementRow.objects.update_or_create(learner=learner, defaults={"said": said})


def _calendar(learner: Learner, today: date) -> LearningCalendar:
    """The child's own calendar from today on, a sibling's where there is none, Monday to Friday where there is none."""
    everyone = (learner, *selectors.learners(learner.household))
    planned = (one for one in everyone if selectors.plan_version_or_none(one) is not None)
    first = next(planned, None)
    if first is None:
        return LearningCalendar(start=today, minutes=dict.fromkeys(WEEKDAYS, MINUTES))
    calendar = year_plan(first).run.calendar
    return replace(calendar, start=max(today, calendar.start))


@lru_cache(maxsize=64)
def _found(asked: tuple[tuple[SkillId, Said], ...]) -> tuple[Placed, PlacementMap]:
    """What the answers say; a skill that the adult left out is not asked again and counts for nothing."""
    heard = [(skill, said == "right") for skill, said in asked if said != "not asked"]
    left_out = {skill for skill, said in asked if said == "not asked"}
    skills = number_skills(grade2())
    placed = place(_ground(), heard, asks=_aloud() - left_out, judged=skills, most=MOST)
    return placed, placement_map(grade2(), _ground(), placed, heard, skills=skills)


@cache
def _ground() -> Ground:
    return ground_of_course(grade2())


@cache
def _aloud() -> frozenset[SkillId]:
    return frozenset(skill for skill in grade2().skills if can_be_read_aloud(skill))
