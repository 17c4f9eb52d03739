"""What a child's records say about the whole course on paper."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.seeds import seed_from
from dayleaf.course.load import grade2
from dayleaf.packets.year import Year
from dayleaf.records import desk
from dayleaf.records.paper import ForOnce, child_of, seed_of

if TYPE_CHECKING:
    from datetime import date

    from dayleaf.course.model import Day
    from dayleaf.packets.year import OnPaper
    from dayleaf.records.models import Learner


def year_of(learner: Learner, *, paper: str | None = None, seed: int | None = None, scale: float = 1.0) -> Year:
    """The course for this child, nothing recorded: numbers as each day's own print would have, or those of a seed."""

    def of(day: Day) -> int:
        return seed_of(learner, day) if seed is None else seed_from(seed, day.id)

    child = child_of(learner, ForOnce(paper=paper))
    return Year(grade2(), child, of, younger_child=learner.household.younger_child, scale=scale)


def year_recorded(learner: Learner, *, today: date, paper: str | None = None, scale: float = 1.0) -> Year:
    """The same with every day printed for good: what is on paper already comes out as it was.

    What comes back is chosen by what is known today.
    """
    once = ForOnce(paper=paper)

    def recorded(day: Day, form: str) -> OnPaper:
        wish = desk.Wish(today=today, lesson=day.id, once=once, form=form)
        row, _new = desk.day_print(learner, wish, looking_ahead=False)
        return bytes(row.guide), bytes(row.pages), bytes(row.key)

    child = child_of(learner, once)
    younger = learner.household.younger_child
    return Year(
        grade2(),
        child,
        lambda day: seed_of(learner, day),
        younger_child=younger,
        scale=scale,
        recorded=recorded,
    )
