"""A month page read by its columns and rows."""

from __future__ import annotations

from calendar import weekday
from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.items.choices import ring_fixed
from dayleaf.items.model import Figure, Part, Question, Step
from dayleaf.items.pictured.almanac_codes import WEEKDAYS
from dayleaf.items.pictured.months import MONTHS
from dayleaf.items.rule import Made, SkillRule

if TYPE_CHECKING:
    from dayleaf.items.rule import Numbers

ROW_FOR_COLUMN, FIRST_SQUARE = ErrorWayId("column-row-mixed"), ErrorWayId("first-day-square")
_FROM_SUNDAY = (6, 0, 1, 2, 3, 4, 5)
"""The columns of the page, as the calendar module numbers weekdays."""


def _read(numbers: Numbers) -> tuple[int, int, int]:
    """Column of the weekday asked for (0 Sunday), the date of its n-th one, places left empty before the first."""
    column, before = numbers["w"], _FROM_SUNDAY.index(weekday(*MONTHS[numbers["m"]], 1))
    return column, (column - before) % 7 + 1 + 7 * (numbers["n"] - 1), before


def _page(numbers: Numbers, *blanks: int) -> Figure:
    year, month = MONTHS[numbers["m"]]
    return Figure("calendar", {"year": year, "month": month, "blanks": blanks})


def along_the_row(date: int, n: int) -> int:
    """The n-th one looked for to the right of the first one, not below it."""
    return date - 7 * (n - 1) + (n - 1)


def from_first_square(column: int, n: int) -> int:
    """The date of a place, if every month began in the first place of the page."""
    return column + 1 + 7 * (n - 1)


def _which_date(numbers: Numbers) -> Made:
    column, date, _ = _read(numbers)
    n, name = numbers["n"], WEEKDAYS[_FROM_SUNDAY[column]]
    return Made(
        Question("date-of-weekday", {"n": n, "w": name}),
        (Part("1", "digits", str(date), 2),),
        (Step("column-is-weekday", {"w": name}), Step("go-down", {"n": n, "date": date})),
        {ROW_FOR_COLUMN: str(along_the_row(date, n)), FIRST_SQUARE: str(from_first_square(column, n))},
        _page(numbers),
        0.1 + 0.15 * n,
    )


def _which_weekday(numbers: Numbers) -> Made:
    column, date, _ = _read(numbers)
    name = WEEKDAYS[_FROM_SUNDAY[column]]
    errors = {FIRST_SQUARE: WEEKDAYS[_FROM_SUNDAY[(date - 1) % 7]]}
    return Made(
        Question("weekday-of-date", {"n": date}),
        (ring_fixed(name, tuple(WEEKDAYS[day] for day in _FROM_SUNDAY), errors),),
        (Step("top-of-column", {"date": date, "w": name}),),
        errors,
        _page(numbers),
        0.3,
    )


def _which_gap(numbers: Numbers) -> Made:
    """An empty place on the page. Read down as if along a row, the date above it grows by one."""
    _, date, before = _read(numbers)
    errors = {FIRST_SQUARE: str(date + before)}
    if date > 7:
        errors[ROW_FOR_COLUMN] = str(date - 7 + 1)
    return Made(
        Question("date-in-gap"),
        (Part("1", "digits", str(date), 2),),
        (Step("one-more-than", {"before": date - 1, "date": date}),),
        errors,
        _page(numbers, date),
        0.2,
    )


RULES: tuple[SkillRule, ...] = (
    SkillRule(
        SkillId("cal-read-month"),
        formats={
            FormatId("calendar"): _which_date,
            FormatId("choose"): _which_weekday,
            FormatId("missing"): _which_gap,
        },
    ),
)
