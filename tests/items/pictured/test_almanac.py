"""Days, months, places in a line and schedules against the calendar, against strptime and a library of words."""

from __future__ import annotations

from datetime import date, datetime, timedelta
from typing import TYPE_CHECKING

import inflect
import pytest

from dayleaf.figures.draw import draw
from dayleaf.items.model import Figure, Question, Row, Word
from dayleaf.items.pictured.months import MONTHS
from dayleaf.items.pictured.places_in_line import ending
from dayleaf.items.pictured.schedules import boats_of, by_smallest_number, plan_of
from dayleaf.wording.say import lines_of, option_words, word_of

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from dayleaf.items.model import Item

    Every = Callable[..., Iterator[Item]]


@pytest.mark.parametrize("n", range(1, 32))
def test_place_words_and_their_endings_are_those_of_a_library(n: int) -> None:
    # Referee: inflect, which knows English ordinals.
    words = inflect.engine()

    assert word_of("order-name", "en", n) == words.number_to_words(words.ordinal(str(n)))
    assert f"{n}{ending(n)}" == words.ordinal(str(n))


def test_endings_written_wrongly_are_those_the_file_names(every: Every) -> None:
    # The skill's file: writes 21th, 22th, 23th.
    wrong = {item.errors[way] for item in every("ordinals-dates-31", "words") for way in item.errors}

    assert {"21 th", "22 th", "23 th"} <= wrong


def test_a_date_falls_on_the_weekday_of_the_calendar(every: Every) -> None:
    for item in every("cal-read-month", "choose", 3):
        assert item.figure is not None
        assert isinstance(item.prompt, Question)
        year, month = (int(str(item.figure.params[name])) for name in ("year", "month"))
        day = date(year, month, int(item.prompt.values["n"]))

        assert option_words(item.answer, "en") == f"{day:%A}"


def test_the_second_tuesday_is_a_tuesday_and_one_came_before_it(every: Every) -> None:
    for item in every("cal-read-month", "calendar", 3):
        year, month = MONTHS[item.numbers["m"]]
        day = date(year, month, int(item.answer))
        text = " ".join(lines_of(item, "en"))

        assert f"{day:%A}" in text
        before = [day - timedelta(weeks=k) for k in range(1, 6) if (day - timedelta(weeks=k)).month == month]
        assert len(before) + 1 == item.numbers["n"]


def test_read_along_the_row_the_second_tuesday_is_a_wednesday(every: Every) -> None:
    # The skill's file: reads along the row for "every Tuesday".
    for item in every("cal-read-month", "calendar", 7):
        year, month = MONTHS[item.numbers["m"]]
        if item.numbers["n"] == 2:
            wrong = date(year, month, int(item.errors[next(iter(item.errors))]))
            assert (wrong - date(year, month, int(item.answer))).days == -6


def test_the_day_after_and_the_month_before_are_those_of_the_calendar(every: Every) -> None:
    monday = date(2026, 8, 17)
    for item in every("days-months-order", "missing"):
        k, n, q = (item.numbers[name] for name in "knq")
        if k:
            beside = (n if q else n - 2) % 12 + 1
            assert option_words(item.answer, "en") == f"{date(2027, beside, 1):%B}"
        else:
            sunday_first = monday + timedelta(days=n - 2)
            beside_day = sunday_first + timedelta(days=1 if q else -1)
            assert option_words(item.answer, "en") == f"{beside_day:%A}"


def test_names_put_in_order_stand_as_in_the_week_and_the_year(every: Every) -> None:
    order = [f"{date(2026, 8, 16) + timedelta(days=k):%A}" for k in range(7)]
    order += [f"{date(2027, month, 1):%B}" for month in range(1, 13)]
    for item in every("days-months-order", "order"):
        assert isinstance(item.prompt, Row)
        words = [word_of(token.code, "en") for token in item.prompt.tokens if isinstance(token, Word)]
        ranks = [int(part.answer) for part in item.parts]

        assert sorted(words, key=order.index) == [words[ranks.index(rank)] for rank in range(1, 5)]


def test_the_arrow_stands_over_the_boat_that_is_counted_from_the_bridge() -> None:
    """Boats are found in the drawing itself: the arrow's x lies over the n-th boat from the bridge's end."""
    for end, n, m in (("left", 4, 9), ("right", 4, 9), ("right", 1, 5), ("left", 20, 20)):
        svg = draw(Figure("scene", {"n": m, "end": end, "arrow": n, "question": 1}), title="t", desc="d").svg
        boats = sorted(float(piece.split(" ")[0]) for piece in svg.split('<path transform="translate(')[1:])
        arrow = float(svg.split("Z")[-2].split("M")[-1].split(" ")[0])
        from_bridge = boats if end == "left" else boats[::-1]

        assert len(boats) == m
        assert abs(from_bridge[n - 1] - arrow) < 0.01


@pytest.mark.parametrize("s", range(12))
def test_plans_run_from_morning_to_afternoon_to_five_minutes(s: int) -> None:
    at = [datetime(2026, 8, 17, h, m) for _, h, m in plan_of(s)]  # noqa: DTZ001 -- a clock on the wall

    assert at == sorted(at)
    assert all(time.minute % 5 == 0 for time in at)
    assert {time.hour for time in at} >= {11, 12, 13}


def test_rows_are_put_in_order_as_strptime_reads_them(every: Every) -> None:
    for item in every("time-schedule-read", "order", 3):
        assert item.figure is not None
        cells = item.figure.params["cells"]
        assert isinstance(cells, tuple)
        said = [f"{cells[i + 1]} {cells[i + 2]}" for i in range(0, len(cells), 3)]
        times = [datetime.strptime(one, "%I:%M %p") for one in said]  # noqa: DTZ007 -- a clock on the wall

        assert [sorted(times).index(time) + 1 for time in times] == [int(part.answer) for part in item.parts]


def test_half_past_twelve_is_put_after_one_by_its_number() -> None:
    # The skill's file: thinks 12:30 p.m. comes after 1:00 p.m.
    assert by_smallest_number([(11, 0), (12, 30), (13, 0)]) == [(11, 0), (13, 0), (12, 30)]


def test_the_next_boat_is_the_first_that_has_not_left(every: Every) -> None:
    # The skill's own example: at 10:45, of 9:00, 10:30 and 12:00 the one at 12:00.
    for item in every("time-schedule-read", "choose"):
        assert isinstance(item.prompt, Question)
        told = (int(item.prompt.values["h"]), int(item.prompt.values["m"]), item.prompt.values["half"])
        now = (told[0] % 12 + (12 if told[2] == "pm" else 0), told[1])
        coming = min(boat for boat in boats_of(item.numbers["s"]) if boat > now)

        assert item.answer == f"{(coming[0] - 1) % 12 + 1}:{coming[1]:02}"
