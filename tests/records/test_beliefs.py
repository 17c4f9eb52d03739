"""The kept beliefs are the beliefs: after every kind of write they equal a fresh reading of the whole log."""

from __future__ import annotations

import random
from datetime import date, timedelta
from typing import TYPE_CHECKING, get_args

import pytest

from dayleaf.core.ids import LessonId, SkillId
from dayleaf.course.load import grade2
from dayleaf.events.model import HowFar
from dayleaf.learner.belief import fold
from dayleaf.records import selectors, services
from dayleaf.records.beliefs import beliefs_kept, beliefs_now

if TYPE_CHECKING:
    from collections.abc import Callable

    from dayleaf.events.model import ItemMark
    from dayleaf.records.models import Learner, PrintRow

MONDAY = date(2027, 1, 11)
SKILL = SkillId("sub-2digit-regroup")


def test_kept_beliefs_equal_a_fresh_reading_after_every_write(
    wren: Learner, print_day: Callable[..., PrintRow], marks: tuple[ItemMark, ...]
) -> None:
    course = grade2()
    lesson = LessonId("day-084")
    print_day(wren, day=MONDAY)
    sheet = selectors.sheet_find(wren.household, "4C7Q2MX")
    writes: list[Callable[[date], object]] = [
        lambda day: services.day_taught(learner=wren, lesson=lesson, how_far="half", skills=[SKILL], day=day),
        lambda day: services.day_taught(learner=wren, lesson=lesson, how_far="done", skills=[SKILL], day=day),
        lambda day: services.sheet_mark(sheet=sheet, items=marks, day=day),
        lambda day: services.sheet_mark(sheet=sheet, items=marks[:1], day=day),
        lambda day: services.note_add(household=wren.household, learner=wren, text="tired", day=day),
        lambda day: services.note_add(household=wren.household, text="rain", day=day),
        lambda day: services.sheet_look(sheet=sheet, skills=[SKILL], impression="some trouble", day=day),
        lambda day: services.attendance_set(learner=wren, present=True, day=day),
    ]

    quiet = {4, 5, 7}  # notes and attendance: nothing is worked out from them

    for number, write in enumerate(writes):
        day = MONDAY + timedelta(days=number // 2)
        write(day)
        assert (beliefs_kept(wren, course) is None) == (number not in quiet)
        beliefs = beliefs_now(wren, course, upto=day)

        fresh = fold(selectors.events_of(wren), course, upto=day)
        assert beliefs == fresh
        assert beliefs_kept(wren, course) == fresh


@pytest.mark.parametrize("seed", range(4))
def test_kept_beliefs_equal_a_fresh_reading_in_any_order_of_writes_and_days(
    wren: Learner, print_day: Callable[..., PrintRow], marks: tuple[ItemMark, ...], seed: int
) -> None:
    chance = random.Random(seed)
    course = grade2()
    for n in range(3):
        print_day(wren, sheet=f"AAAAAA{n}", lesson=f"day-08{n}", day=MONDAY)
    sheets = selectors.sheets_of(wren)

    for _ in range(25):
        day = MONDAY + timedelta(days=chance.randrange(6))
        if chance.random() < 0.5:
            services.sheet_mark(
                sheet=chance.choice(sheets), items=chance.choice([marks, marks[:1], marks[1:]]), day=day
            )
        else:
            how_far: HowFar = chance.choice(get_args(HowFar))
            lesson = LessonId(chance.choice(["day-084", "day-085"]))
            services.day_taught(learner=wren, lesson=lesson, how_far=how_far, skills=[SKILL], day=day)
        upto = MONDAY + timedelta(days=chance.randrange(7))

        assert beliefs_now(wren, course, upto=upto) == fold(selectors.events_of(wren), course, upto=upto)


def test_a_new_day_without_events_is_read_on_from_what_was_kept(
    wren: Learner, print_day: Callable[..., PrintRow], marks: tuple[ItemMark, ...]
) -> None:
    course = grade2()
    print_day(wren, day=MONDAY)
    services.sheet_mark(sheet=selectors.sheet_find(wren.household, "4C7Q2MX"), items=marks, day=MONDAY)
    beliefs_now(wren, course, upto=MONDAY)

    later = beliefs_now(wren, course, upto=MONDAY + timedelta(days=9))

    assert later == fold(selectors.events_of(wren), course, upto=MONDAY + timedelta(days=9))


def test_an_event_dated_ahead_counts_only_from_its_day_on(wren: Learner) -> None:
    course = grade2()
    lesson, ahead = LessonId("day-084"), MONDAY + timedelta(days=3)
    services.day_taught(learner=wren, lesson=lesson, how_far="done", skills=[SKILL], day=ahead)

    before = beliefs_now(wren, course, upto=MONDAY)
    after = beliefs_now(wren, course, upto=ahead)

    assert before.known(SKILL, MONDAY).word == "not yet"
    assert after == fold(selectors.events_of(wren), course, upto=ahead)
    assert after.known(SKILL, ahead).word == "new"
