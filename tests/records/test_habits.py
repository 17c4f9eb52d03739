"""The kept state of habits is what a fresh reading of every earlier marking gives, in any order of writes and days."""

from __future__ import annotations

import random
from dataclasses import replace
from datetime import date, timedelta
from typing import TYPE_CHECKING

import pytest

from dayleaf.course.load import grade2
from dayleaf.learner.seen import habits_in_marks
from dayleaf.marking.answer import asked_items
from dayleaf.records import selectors, services
from dayleaf.records.habits import KIND, habits_before
from dayleaf.records.models import CacheRow

if TYPE_CHECKING:
    from collections.abc import Callable

    from dayleaf.events.model import ItemMark
    from dayleaf.records.models import Learner, PrintRow

MONDAY = date(2027, 1, 11)


@pytest.fixture
def answers(marks: tuple[ItemMark, ...], wren: Learner, print_day: Callable[..., PrintRow]) -> tuple[ItemMark, ...]:
    """Marks of the items that stand on a printed sheet: the first right, the others 36."""
    print_day(wren, sheet="BBBBBBB", lesson="day-083", day=MONDAY)
    pages = selectors.pages_of(selectors.sheet_find(wren.household, "BBBBBBB"))
    items = [asked.item for page in pages for asked in asked_items([page]).values()]
    shown = [marks[0], marks[1], *[marks[1]] * len(items)][: len(items)]
    return tuple(replace(mark, key=item.key, skill=item.skill) for mark, item in zip(shown, items, strict=True))


def test_marks_of_earlier_days_count_and_those_of_the_day_itself_do_not(
    wren: Learner, print_day: Callable[..., PrintRow], answers: tuple[ItemMark, ...]
) -> None:
    print_day(wren, day=MONDAY)
    sheet = selectors.sheet_find(wren.household, "4C7Q2MX")
    services.sheet_mark(sheet=sheet, items=answers, day=MONDAY)
    pages = selectors.pages_of(sheet)

    same_day, next_day = (habits_before(wren, MONDAY + timedelta(days=days)) for days in (0, 1))

    assert not same_day.asked
    assert next_day == habits_in_marks(grade2(), answers, pages)
    assert next_day.asked


@pytest.mark.parametrize("seed", range(2))
def test_the_kept_state_equals_a_fresh_reading_in_any_order_of_writes_and_days(
    wren: Learner, print_day: Callable[..., PrintRow], answers: tuple[ItemMark, ...], seed: int
) -> None:
    chance = random.Random(seed)
    for n in range(3):
        print_day(wren, sheet=f"AAAAAA{n}", lesson=f"day-08{n}", day=MONDAY)
    sheets = selectors.sheets_of(wren)

    for _ in range(12):
        day = MONDAY + timedelta(days=chance.randrange(6))
        services.sheet_mark(
            sheet=chance.choice(sheets), items=chance.choice([answers, answers[:1], answers[1:]]), day=day
        )
        ask = MONDAY + timedelta(days=chance.randrange(7))
        kept = habits_before(wren, ask)
        CacheRow.objects.filter(learner=wren, kind=KIND).delete()

        assert kept == habits_before(wren, ask)
