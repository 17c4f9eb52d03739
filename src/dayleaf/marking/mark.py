"""From what the parent said to one mark an item."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.errors import BadInput
from dayleaf.events.model import ItemMark
from dayleaf.marking.answer import asked_items, read_typed, same_answer
from dayleaf.marking.entry import entry_problems

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from dayleaf.core.ids import ErrorWayId
    from dayleaf.events.model import ItemState
    from dayleaf.marking.answer import AskedItem
    from dayleaf.marking.entry import Entry
    from dayleaf.sheets.model import MapItem, PageMap


def mark_sheet(pages: Sequence[PageMap], entry: Entry) -> tuple[ItemMark, ...]:
    """One mark for every item of the sheet, in the order of their numbers.

    Items are right unless the entry says otherwise. A wrong answer carries every error way that gives it.
    Items of a together page count as helped. An item after the last one reached is not reached.

    Raises:
        BadInput: the entry does not fit the sheet; every problem is listed.
    """
    problems = entry_problems(pages, entry)
    if problems:
        raise BadInput(problems)
    return tuple(_mark(n, asked, entry) for n, asked in asked_items(pages).items())


def score(marks: Iterable[ItemMark]) -> tuple[int, int]:
    """(right, of): blank items count in `of`, items that were not reached do not."""
    reached = [mark for mark in marks if mark.state != "not reached"]
    return sum(mark.state == "right" for mark in reached), len(reached)


def ways_that_give(item: MapItem, answer: str) -> tuple[ErrorWayId, ...]:
    """The error ways that lead to this wrong answer, in the order of the item; () for the right answer."""
    if same_answer(answer, item.answer):
        return ()
    return tuple(way for way, wrong in item.errors.items() if same_answer(answer, wrong))


def _mark(n: int, asked: AskedItem, entry: Entry) -> ItemMark:
    item = asked.item
    state: ItemState = "right"
    answer: str | None = item.answer
    if entry.reached is not None and n > entry.reached:
        state, answer = "not reached", None
    elif n in entry.blank:
        state, answer = "blank", None
    elif n in entry.wrong:
        typed = entry.wrong[n]
        state, answer = "wrong", None if typed is None else read_typed(asked, typed)
    return ItemMark(
        n=n,
        skill=item.skill,
        format=item.format,
        key=item.key,
        state=state,
        answer=answer,
        helped=n in entry.helped or (asked.with_parent and state in {"right", "wrong"}),
        errors=ways_that_give(item, answer) if state == "wrong" and answer is not None else (),
    )
