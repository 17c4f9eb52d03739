"""What a child wrote, beside what each way would have written, and the odds that follow."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from dayleaf.marking.answer import same_answer
from dayleaf.wording.say import text_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
    from dayleaf.events.model import ItemMark
    from dayleaf.items.model import Item
    from dayleaf.marking.answer import AskedItem

SLIP: Final = 0.08
"""The rate of slips (JOB 1.7)."""
OTHER_ANSWERS: Final = 18
"""Answers that a slip may land on where digits are written: one of two changed to one of nine others (an
assumption, no source). A sign or a letter has one fewer than there are to choose from."""
BACK_TO_RIGHT: Final = 0.5
"""Share of the departures from a habit that land on the right answer (an assumption, no source)."""
NOT_KEYED: Final = "?"
"""Stands for what a child wrote where nobody typed it."""


@dataclass(frozen=True, slots=True)
class Reply:
    """One item, what was written to it, and what each error way would write."""

    key: str
    skill: SkillId
    format: FormatId
    text: str
    right: str
    written: str
    errors: Mapping[ErrorWayId, str]
    others: int = OTHER_ANSWERS
    """Answers that a slip may land on beside the one meant."""

    def predicted(self, way: ErrorWayId | None) -> str:
        """What a child with this way (None: with none) writes if nothing slips."""
        return self.right if way is None else self.errors.get(way, self.right)

    @property
    def is_right(self) -> bool:
        """Whether the right answer was written."""
        return same_answer(self.written, self.right)

    def fits(self, way: ErrorWayId | None) -> bool:
        """Whether what was written is what this way writes."""
        return same_answer(self.written, self.predicted(way))


def reply_to(item: Item, written: str, *, lang: str) -> Reply:
    """The reply `written` to an item made now."""
    return Reply(
        key=item.key,
        skill=item.skill,
        format=item.format,
        text=text_of(item, lang),
        right=item.answer,
        written=written,
        errors=item.errors,
        others=_others_of_item(item),
    )


def reply_of_mark(mark: ItemMark, asked: AskedItem) -> Reply:
    """The reply that a mark gives to an item as frozen on its sheet."""
    kinds = [(spot.kind, spot.size) for spot in asked.spots]
    others = OTHER_ANSWERS
    if len(kinds) == 1 and kinds[0][0] in {"circle", "compare"}:
        others = 2 if kinds[0][0] == "compare" else max(1, kinds[0][1] - 1)
    return Reply(
        key=mark.key,
        skill=mark.skill,
        format=mark.format,
        text=asked.item.text,
        right=asked.item.answer,
        written=NOT_KEYED if mark.answer is None else mark.answer,
        errors=asked.item.errors,
        others=others,
    )


def _others_of_item(item: Item) -> int:
    if len(item.parts) != 1 or item.parts[0].kind not in {"choice", "compare"}:
        return OTHER_ANSWERS
    return 2 if item.parts[0].kind == "compare" else max(1, len(item.parts[0].options) - 1)


def posterior(replies: Iterable[Reply], ways: Iterable[ErrorWayId]) -> dict[ErrorWayId | None, float]:
    """The probability of no way (None) and of each way after these answers; the prior is uniform."""
    likelihood: dict[ErrorWayId | None, float] = dict.fromkeys((None, *ways), 1.0)
    for reply in replies:
        for way in likelihood:
            likelihood[way] *= _chance(reply, way)
    total = sum(likelihood.values())
    return {way: value / total for way, value in likelihood.items()}


def _chance(reply: Reply, way: ErrorWayId | None) -> float:
    if reply.fits(way):
        return 1 - SLIP
    if way is None or same_answer(reply.predicted(way), reply.right):
        return SLIP / reply.others
    return SLIP * BACK_TO_RIGHT if reply.is_right else SLIP * (1 - BACK_TO_RIGHT) / reply.others
