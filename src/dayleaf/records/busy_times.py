"""A family's own calendar file at home: its whole days are days off, its hours are kept free in the morning."""

from __future__ import annotations

import json
from datetime import date, time
from typing import TYPE_CHECKING

from dayleaf.plan.busy import BusyTime
from dayleaf.records.models import BusyRow
from dayleaf.records.services import canonical

if TYPE_CHECKING:
    from collections.abc import Iterable

    from dayleaf.records.models import Household

LONGEST_NAME = 80


def busy_times(household: Household, day: date | None = None) -> tuple[BusyTime, ...]:
    """What the household's calendar takes, of one day or altogether; nothing where none was read."""
    row = BusyRow.objects.filter(household=household).first()
    times = () if row is None else tuple(_time(one) for one in json.loads(row.times))
    return times if day is None else tuple(one for one in times if one.day == day)


def busy_name(household: Household) -> str:
    """The name of the calendar that was read last; "" where there is none."""
    row = BusyRow.objects.filter(household=household).first()
    return "" if row is None else row.name


def busy_keep(household: Household, times: Iterable[BusyTime], *, name: str, day: date) -> None:
    """Keep what a calendar takes, in the place of what was kept before; without a time nothing is kept."""
    found = [[one.day.isoformat(), one.start.isoformat(), one.minutes, one.name, one.all_day] for one in times]
    if not found:
        BusyRow.objects.filter(household=household).delete()
        return
    kept = {"name": name[:LONGEST_NAME], "on": day, "times": canonical(found)}
    BusyRow.objects.update_or_create(household=household, defaults=kept)


def _time(data: list[object]) -> BusyTime:
    day, start, minutes, name, all_day = data
    return BusyTime(
        day=date.fromisoformat(str(day)),
        start=time.fromisoformat(str(start)),
        minutes=int(str(minutes)),
        name=str(name),
        all_day=bool(all_day),
    )
