"""Plans of a day and times of boats, read row by row, before noon and after."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.core.seeds import seed_from
from dayleaf.items.choices import ring_fixed
from dayleaf.items.model import Figure, Gap, Part, Question, Row, Step, Word
from dayleaf.items.pictured.almanac_codes import PLANNED
from dayleaf.items.pictured.letters import shuffled
from dayleaf.items.pictured.times import shown
from dayleaf.items.rule import Made, SkillRule

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from dayleaf.items.model import Token
    from dayleaf.items.rule import Numbers

ROW_SLIP, BY_NUMBER = ErrorWayId("row-slip"), ErrorWayId("earliest-is-smallest-number")

Planned = tuple[str, int, int]
"""What, hour 0 to 23, minute."""

_HOURS = (7, 9, 10, 11, 12, 13, 15)
"""The hour at which each thing of PLANNED begins."""

_AROUND_NOON = (3, 4, 5)
_ROWS = 5


def plan_of(s: int) -> tuple[Planned, ...]:
    """Five things of a day in their order, to five minutes; those around noon are always among them."""
    others = sorted((k for k in range(len(PLANNED)) if k not in _AROUND_NOON), key=lambda k: seed_from("planned", s, k))
    chosen = sorted((*_AROUND_NOON, *others[: _ROWS - len(_AROUND_NOON)]))
    return tuple((PLANNED[k], _HOURS[k], seed_from("minute", s, k) % 12 * 5) for k in chosen)


def on_the_face(hour: int) -> int:
    """The hour from 1 to 12.

    >>> on_the_face(0), on_the_face(12), on_the_face(15)
    (12, 12, 3)
    """
    return (hour - 1) % 12 + 1


def half_of(hour: int) -> str:
    """The code of the half of the day: before noon, or from noon on."""
    return "am" if hour < 12 else "pm"


def by_smallest_number(times: Iterable[tuple[int, int]]) -> list[tuple[int, int]]:
    """Times of one half of the day put in order by their first number: 1:15 before 12:30."""
    return sorted(times, key=lambda time: (half_of(time[0]), on_the_face(time[0]), time[1]))


def _table(rows: Iterable[Planned]) -> Figure:
    cells = (cell for what, h, m in rows for cell in (what, shown(on_the_face(h), m), half_of(h)))
    return Figure("table", {"cells": tuple(cells), "columns": 3})


def _when(numbers: Numbers) -> Made:
    """One row to find; who slips reads the row below, at the foot of the table the row above."""
    plan, q = plan_of(numbers["s"]), numbers["q"]
    what, h, m = plan[q]
    _, slip_h, slip_m = plan[q + 1 if q + 1 < len(plan) else q - 1]
    return Made(
        Row((Word(what), Gap("1"), ":", Gap("2"))),
        (Part("1", "digits", str(on_the_face(h)), 2), Part("2", "digits", f"{m:02}", 2)),
        (Step("slide-across", {"row": what, "h": on_the_face(h), "m": m}),),
        {ROW_SLIP: f"{on_the_face(slip_h)} {slip_m:02}"},
        _table(plan),
        0.2 + 0.05 * q,
    )


def _order(numbers: Numbers) -> Made:
    """Four rows out of order, three of them around noon."""
    plan = plan_of(numbers["s"])
    noon = [row for row in plan if PLANNED.index(row[0]) in _AROUND_NOON]
    spare = [row for row in plan if row not in noon][numbers["q"] % 2]
    rows = _mixed([*noon, spare], numbers)
    times = [(h, m) for _, h, m in rows]
    return Made(
        Row(_numbered([what for what, _, _ in rows])),
        tuple(Part(str(gap), "digits", rank, 1) for gap, rank in enumerate(_ranks(times, sorted(times)), start=1)),
        (Step("morning-first"),),
        {BY_NUMBER: " ".join(_ranks(times, by_smallest_number(times)))},
        _table(rows),
        0.6,
    )


def _mixed(rows: Sequence[Planned], numbers: Numbers) -> list[Planned]:
    """The rows in an order of their own for each s and q, never the true one."""
    names = shuffled((what for what, _, _ in rows), "schedule", numbers["s"], numbers["q"] // 2)
    mixed = sorted(rows, key=lambda row: names.index(row[0]))
    return mixed if mixed != sorted(rows, key=lambda row: row[1:]) else mixed[::-1]


def _numbered(words: Iterable[str]) -> tuple[Token, ...]:
    return tuple(token for gap, word in enumerate(words, start=1) for token in (Gap(str(gap)), Word(word)))


def _ranks(times: Iterable[tuple[int, int]], order: Sequence[tuple[int, int]]) -> list[str]:
    return [str(order.index(time) + 1) for time in times]


def boats_of(s: int) -> tuple[tuple[int, int], ...]:
    """Four boats, two before noon, one soon after noon, one later; minutes from 5 to 50."""
    return tuple((hour, seed_from("boat", s, hour) % 10 * 5 + 5) for hour in (10, 11, 12, 13 + s % 2))


def _next_boat(numbers: Numbers) -> Made:
    """It is five minutes after one boat has left; the next is asked."""
    boats, q = boats_of(numbers["s"]), numbers["q"]
    (h, m), coming = boats[q], boats[q + 1]
    said = tuple(shown(on_the_face(hour), minute) for hour, minute in boats)
    errors = {ROW_SLIP: said[q]}
    if coming[0] == 12:
        errors[BY_NUMBER] = said[q + 2]
    figure = Figure(
        "table",
        {
            "cells": tuple(cell for (hour, _), time in zip(boats, said, strict=True) for cell in (time, half_of(hour))),
            "columns": 2,
        },
    )
    return Made(
        Question("next-boat", {"h": on_the_face(h), "m": m + 5, "half": half_of(h)}),
        (ring_fixed(said[q + 1], said, errors),),
        (Step("next-after", {"h": on_the_face(coming[0]), "m": coming[1]}),),
        errors,
        figure,
        0.4 + 0.2 * (coming[0] == 12),
    )


def before_the_last(numbers: Numbers) -> bool:
    """Some boat is still to come."""
    return numbers["q"] <= 2


def mixes(numbers: Numbers) -> bool:
    """Each plan in two orders, with each of two other rows."""
    return numbers["q"] <= 3


_READ, _ORDER, _CHOOSE = FormatId("graph-read"), FormatId("order"), FormatId("choose")

RULES: tuple[SkillRule, ...] = (
    SkillRule(
        SkillId("time-schedule-read"),
        formats={_READ: _when, _ORDER: _order, _CHOOSE: _next_boat},
        fits={_ORDER: mixes, _CHOOSE: before_the_last},
    ),
)
