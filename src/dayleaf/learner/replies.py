"""What a child wrote to one item, beside what each error way would have written."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Final

from dayleaf.learner.columns import column_ways
from dayleaf.marking.answer import same_answer
from dayleaf.wording.say import text_of

if TYPE_CHECKING:
    from collections.abc import Mapping

    from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
    from dayleaf.events.model import ItemMark
    from dayleaf.items.model import Item
    from dayleaf.marking.answer import AskedItem

ANY_NUMBER: Final = 0
"""Stands for the count of other answers where digits are written: any number may come."""
NOT_KEYED: Final = "?"
"""Stands for what a child wrote where nobody typed it."""


@dataclass(frozen=True, slots=True)
class Reply:
    """One item, what was written to it, and what each error way would write.

    `others` counts the answers that a slip may land on where there are a few to choose from. `readings` holds
    further answers of a way whose description can be read in two manners; `own` are the ways that the item itself
    names, before the published ones were added.
    """

    key: str
    skill: SkillId
    format: FormatId
    text: str
    right: str
    written: str
    errors: Mapping[ErrorWayId, str]
    others: int = ANY_NUMBER
    readings: Mapping[ErrorWayId, tuple[str, ...]] = field(default_factory=dict)
    own: tuple[ErrorWayId, ...] = ()

    def predicted(self, way: ErrorWayId | None) -> str:
        """What a child with this way (None: with none) writes if nothing slips."""
        return self.right if way is None else self.errors.get(way, self.right)

    @property
    def is_right(self) -> bool:
        """Whether the right answer was written."""
        return same_answer(self.written, self.right)

    def fits(self, way: ErrorWayId | None) -> bool:
        """Whether what was written is what this way writes, in one of its readings."""
        if same_answer(self.written, self.predicted(way)):
            return True
        return way is not None and any(same_answer(self.written, one) for one in self.readings.get(way, ()))


def reply_to(item: Item, written: str, *, lang: str | None = "en") -> Reply:
    """The reply `written` to an item made now; its text stays empty where no language is given."""
    ways = column_ways(item.skill, item.numbers, right=item.answer, known=item.errors)
    return Reply(
        key=item.key,
        skill=item.skill,
        format=item.format,
        text=text_of(item, lang) if lang else "",
        right=item.answer,
        written=written,
        errors=ways.errors,
        others=_others_of_item(item),
        readings=ways.readings,
        own=tuple(item.errors),
    )


def reply_of_mark(mark: ItemMark, asked: AskedItem) -> Reply:
    """The reply that a mark gives to an item as frozen on its sheet."""
    kinds = [(spot.kind, spot.size) for spot in asked.spots]
    others = ANY_NUMBER
    if len(kinds) == 1 and kinds[0][0] in {"circle", "compare"}:
        others = 2 if kinds[0][0] == "compare" else max(1, kinds[0][1] - 1)
    item = asked.item
    ways = column_ways(mark.skill, item.numbers, right=item.answer, known=item.errors)
    return Reply(
        key=mark.key,
        skill=mark.skill,
        format=mark.format,
        text=item.text,
        right=item.answer,
        written=NOT_KEYED if mark.answer is None else mark.answer,
        errors=ways.errors,
        others=others,
        readings=ways.readings,
        own=tuple(item.errors),
    )


def _others_of_item(item: Item) -> int:
    if len(item.parts) != 1 or item.parts[0].kind not in {"choice", "compare"}:
        return ANY_NUMBER
    return 2 if item.parts[0].kind == "compare" else max(1, len(item.parts[0].options) - 1)
