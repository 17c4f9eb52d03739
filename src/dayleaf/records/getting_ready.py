"""What is ready of a week's prep list: ticks that stay, on every device of the home."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.db import transaction

from dayleaf.records.models import ReadyRow

if TYPE_CHECKING:
    from datetime import date

    from dayleaf.plan.week import Need
    from dayleaf.records.models import Household

LONGEST = 120


def need_name(need: Need) -> str:
    """What a need is called among the ticks: its material, and the kind of picture card where it is one."""
    return f"{need.material.id}:{need.what}" if need.what else need.material.id


def ready_of(household: Household, *, week: date) -> frozenset[str]:
    """The names of what was ticked in the week that begins on this day."""
    return frozenset(ReadyRow.objects.filter(household=household, week=week).values_list("what", flat=True))


@transaction.atomic
def ready_set(household: Household, *, week: date, what: str, ready: bool) -> None:
    """Tick a thing, or take the tick back; saying the same twice changes nothing."""
    what = what[:LONGEST]
    if ready:
        ReadyRow.objects.get_or_create(household=household, week=week, what=what)
    else:
        ReadyRow.objects.filter(household=household, week=week, what=what).delete()
