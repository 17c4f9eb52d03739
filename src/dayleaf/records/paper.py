"""What a child's records say about the paper to make: the child's look, the numbers had lately, the seed."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache
from typing import TYPE_CHECKING

from dayleaf.core.seeds import seed_from
from dayleaf.packets.day import prepare_day
from dayleaf.packets.model import Child, NotBuiltYet
from dayleaf.packets.pages import BACK_PLACES
from dayleaf.records import selectors
from dayleaf.records.courses import course_with
from dayleaf.records.family_lines import lines_printed
from dayleaf.records.results import named_by_test

if TYPE_CHECKING:
    from collections.abc import Sequence

    from dayleaf.core.ids import SkillId
    from dayleaf.course.model import Day
    from dayleaf.learner.review import Back
    from dayleaf.packets.model import Packet
    from dayleaf.records.models import Household, Learner

LATELY = 40
"""Items of the child's last so many sheets are not asked again (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class ForOnce:
    """How one print differs from the child's own pages; None leaves a thing as it is."""

    lang: str | None = None
    paper: str | None = None
    hand: str | None = None
    boxes: str | None = None
    sheets: str | None = None
    fewer_items: bool = False

    @property
    def other_layout(self) -> bool:
        """Whether more than the language or the paper differs."""
        return bool(self.hand or self.boxes or self.sheets or self.fewer_items)


AS_ALWAYS = ForOnce()


def child_of(learner: Learner, once: ForOnce = AS_ALWAYS) -> Child:
    """What packets needs of a learner, with what is asked for once."""
    look = selectors.look_of(learner, paper=once.paper, lang=once.lang)
    if once.hand:
        look = replace(look, left_handed=once.hand == "left")
    if once.boxes:
        look = replace(look, large_boxes=once.boxes == "large", compact=once.boxes == "compact")
    two_sheets = {"one": False, "two": True}.get(once.sheets or learner.sheets_per_day)
    return Child(learner.name, look, two_sheets, once.fewer_items or learner.fewer_items)


def seed_of(learner: Learner, lesson: Day, *, again: int = 0) -> int:
    """The seed of a lesson's numbers for this child; `again` counts earlier prints where fresh ones are asked for."""
    return seed_from(learner.household_id, learner.id, lesson.id, again)


def asked_lately(learner: Learner, lesson: Day) -> frozenset[str]:
    """Keys of the items on the child's last sheets, this lesson's own left out."""
    return selectors.items_lately(learner, last=LATELY, but=lesson.id)


def packet_for(
    learner: Learner,
    lesson: Day,
    *,
    backs: Sequence[Back],
    seed: int,
    once: ForOnce = AS_ALWAYS,
    avoid: frozenset[str] = frozenset(),
    yesterday: str = "",
    salt: int = 0,
    form: str = "A",
) -> Packet:
    """The packet of a lesson for this child; `salt` gives the same items other sheet ids, `form` a test's form.

    A tenth day fixes up what the child's test left open.
    """
    child = child_of(learner, once)
    packet = _prepared(
        lesson,
        child,
        home=learner.household,
        seed=seed,
        backs=tuple(backs),
        avoid=avoid,
        id_parts=(learner.household_id, learner.id, lesson.id, child.look.lang, child.look.paper, salt),
        younger_child=learner.household.younger_child,
        form=form,
        fix_up=named_by_test(learner, lesson),
    )
    return replace(packet, yesterday=yesterday, family=lines_printed(learner.household, lesson))


@lru_cache(maxsize=16)
def _prepared(
    lesson: Day,
    child: Child,
    *,
    home: Household,
    seed: int,
    backs: tuple[Back, ...],
    avoid: frozenset[str],
    id_parts: tuple[str | int, ...],
    younger_child: bool,
    form: str,
    fix_up: tuple[SkillId, ...],
) -> Packet:
    """The last few packets stay at hand: the one that showed which backs fit is the one that is printed."""
    return prepare_day(
        course_with(home, lesson.id),
        lesson,
        child,
        seed=seed,
        backs=backs,
        avoid=avoid,
        id_parts=id_parts,
        younger_child=younger_child,
        form=form,
        fix_up=fix_up,
    )


def backs_that_fit(learner: Learner, lesson: Day, backs: Sequence[Back]) -> tuple[Back, ...]:
    """Of more skills than a back has places, in order, those that its paper has room for.

    Of a lesson that cannot be printed yet, the first ones.
    """
    lately = asked_lately(learner, lesson)
    try:
        packet = packet_for(learner, lesson, backs=backs, seed=seed_of(learner, lesson), avoid=lately)
    except NotBuiltYet:
        return tuple(backs[:BACK_PLACES])
    sides = [side for sheet in packet.sheets for side in sheet.pages]
    shown = sides[-1:] if lesson.kind == "lesson" else sides
    printed = {placed.item.skill for side in shown for block in side.blocks for placed in block.items}
    return tuple(back for back in backs if back.skill in printed)[:BACK_PLACES]
