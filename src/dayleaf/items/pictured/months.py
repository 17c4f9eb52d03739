"""Days and weeks from one date to another."""

from __future__ import annotations

from calendar import monthrange
from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.core.seeds import seed_from
from dayleaf.items.model import Figure, Part, Question, Step
from dayleaf.items.rule import Made, SkillRule

if TYPE_CHECKING:
    from dayleaf.items.rule import Numbers

MONTHS = (*((2026, month) for month in range(8, 13)), *((2027, month) for month in range(1, 6)))
"""The months of the demonstration's school year."""


def date_after(first: int, days: int, *, month_days: int) -> int:
    """The date so many days after one of a month, going on into the next month.

    >>> date_after(29, 4, month_days=31)
    2
    """
    date = first + days
    return date - month_days if date > month_days else date


def week_is_ten(days: int) -> int | None:
    """Ten days for each week; None where no weeks are asked."""
    return None if days % 7 else days // 7 * 10


def _made(numbers: Numbers, *, told: bool) -> Made:
    d, k = numbers["d"], numbers["k"]
    year, month = MONTHS[seed_from("month", d, k, told) % len(MONTHS)]
    days = monthrange(year, month)[1]
    weeks = k // 7 if k % 7 == 0 else 0
    date = date_after(d, k, month_days=days)
    errors = {ErrorWayId("counts-start-day"): str(date_after(d, k - 1, month_days=days))}
    if (slip := week_is_ten(k)) is not None:
        errors[ErrorWayId("week-is-ten")] = str((d + slip - 1) % days + 1)
    steps = [Step("weeks-down", {"n": weeks, "days": k})] if weeks else []
    if d + k > days:
        steps.append(Step("month-ends", {"days": days, "left": k - (days - d)}))
    steps.append(Step("date-is", {"n": date}))
    values: dict[str, int | str] = {"month": f"month-{month}"} if told else {}
    values |= {"d": d, "k": weeks or k}
    code = f"{'story' if told else 'date'}-after-{'weeks' if weeks else 'days'}"
    return Made(
        Question(code, values),
        (Part("1", "digits", str(date), 2),),
        tuple(steps),
        errors,
        None if told else Figure("calendar", {"year": year, "month": month, "marks": (d,)}),
        min(1.0, 0.2 + 0.03 * k * (not weeks) + 0.1 * weeks + 0.3 * (d + k > days)),
    )


def _on_the_page(numbers: Numbers) -> Made:
    return _made(numbers, told=False)


def _told(numbers: Numbers) -> Made:
    return _made(numbers, told=True)


RULES: tuple[SkillRule, ...] = (
    SkillRule(
        SkillId("cal-elapsed-days-weeks"),
        formats={FormatId("calendar"): _on_the_page, FormatId("word1"): _told},
    ),
)
