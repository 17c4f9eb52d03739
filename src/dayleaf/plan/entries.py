"""The lessons of a plan as entries of a calendar: one a day, so that lessons that share a day share an entry."""

from __future__ import annotations

from itertools import groupby
from typing import TYPE_CHECKING

from dayleaf.plan.feed import Entry

if TYPE_CHECKING:
    from collections.abc import Iterator

    from dayleaf.core.ids import LearnerId
    from dayleaf.plan.run import RunPlan


def entries_of_plan(plan: RunPlan, *, learner: LearnerId, initial: str) -> Iterator[Entry]:
    """One entry for each day with lessons, named after the first of them; the minutes are those of all together."""
    lessons = {one.id: one for one in plan.run.lessons}
    for day, placed in groupby(plan.placed, key=lambda one: one.day):
        here = [lessons[one.lesson] for one in placed]
        led, minutes = sum(one.led for one in here), sum(one.minutes for one in here)
        yield Entry(
            learner=learner,
            initial=initial,
            run=str(plan.run.course),
            lesson=here[0].id,
            title="; ".join(one.title or str(one.id) for one in here),
            day=day,
            note=f"{led} minutes with you, {minutes - led} alone",
        )
