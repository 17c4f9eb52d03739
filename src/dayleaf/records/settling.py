"""A photographed sheet until its marks are kept: what it shows, what is still asked, what people said, the marking."""

from __future__ import annotations

import json
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Final

from django.db import transaction

from dayleaf.core.errors import BadInput, DayleafError, Problem
from dayleaf.events.model import BoxEvidence
from dayleaf.marking.answer import asked_items
from dayleaf.reading.answers import entry_words, misfits, propose
from dayleaf.records import desk, selectors
from dayleaf.records.models import SettledRow
from dayleaf.records.photos import sides_seen
from dayleaf.records.services import canonical

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from datetime import date

    from dayleaf.marking.answer import AskedItem
    from dayleaf.reading.answers import Proposal, Question
    from dayleaf.reading.model import BoxReading, PageReading
    from dayleaf.records.models import SheetRow
    from dayleaf.records.photos import SideSeen
    from dayleaf.sheets.model import PageMap

OPEN: Final = ("ask", "not seen")


class NotSettled(DayleafError):
    """Something is still asked about the sheet."""

    def __init__(self, items: Sequence[int]) -> None:
        self.items = tuple(items)
        named = ", ".join(str(n) for n in items)
        noun = "item" if len(items) == 1 else "items"
        super().__init__(f"One more look at {noun} {named}; the marks are kept once everything is settled.")


class NothingOnIt(DayleafError):
    """The photos show a sheet that nobody wrote on."""

    def __init__(self) -> None:
        super().__init__("Nothing is written on this sheet, so there is nothing to mark.")


class NoPhotoOfIt(DayleafError):
    """No photo of this household shows the sheet."""

    def __init__(self, sheet: str) -> None:
        super().__init__(f"There is no photo of the sheet {sheet} here.")


@dataclass(frozen=True, slots=True)
class Settled:
    """What people said of a photographed sheet.

    `said` names a box ("" for nothing in it) or an item (right, wrong, blank, or its whole answer as typed); `by` says
    on which device. `reached` is the last item the child came to, None for the end.
    """

    said: Mapping[str, str] = field(default_factory=dict)
    by: Mapping[str, str] = field(default_factory=dict)
    helped: frozenset[int] = frozenset()
    reached: int | None = None


@dataclass(frozen=True, slots=True)
class ItemSeen:
    """One item: what is proposed now, and what was or is asked about it.

    `doubtful` are single boxes whose digit is not sure. `as_read` is the whole answer to confirm, as a parent would
    type it ("" where it cannot be typed), None where that is not asked. `told` says that it is drawn, built or told.
    """

    asked: AskedItem
    proposal: Proposal
    doubtful: tuple[Question, ...]
    as_read: str | None
    told: bool

    @property
    def n(self) -> int:
        """The item's number."""
        return self.asked.item.n

    @property
    def open(self) -> bool:
        """Whether it waits for a person's word."""
        return self.proposal.state in OPEN


@dataclass(frozen=True, slots=True)
class SheetSeen:
    """A sheet as its photos show it, with what was settled so far."""

    row: SheetRow
    pages: tuple[PageMap, ...]
    sides: tuple[SideSeen, ...]
    items: tuple[ItemSeen, ...]
    settled: Settled

    @property
    def open(self) -> tuple[int, ...]:
        """The items that wait for a person's word, up to the last one reached."""
        return tuple(item.n for item in self.counted if item.open)

    @property
    def counted(self) -> tuple[ItemSeen, ...]:
        """The items up to the last one reached."""
        last = self.settled.reached
        return tuple(item for item in self.items if last is None or item.n <= last)

    @property
    def unseen(self) -> tuple[PageMap, ...]:
        """The sides that no photo shows."""
        shown = {side.reading.page for side in self.sides}
        return tuple(page for page in self.pages if page.page not in shown)


def sheet_seen(row: SheetRow) -> SheetSeen:
    """What the photos of a sheet show; only reads. Raises `NoPhotoOfIt`."""
    sides = sides_seen(row)
    if not sides:
        raise NoPhotoOfIt(row.sheet_id)
    return _seen(row, sides, settled_of(row))


def settled_of(row: SheetRow) -> Settled:
    """What people said so far."""
    kept = SettledRow.objects.filter(household=row.household_id, sheet=row.sheet_id).first()
    if kept is None:
        return Settled()
    data = json.loads(kept.said)
    return Settled(data["said"], data["by"], frozenset(data["helped"]), data["reached"])


@transaction.atomic
def settled_keep(
    row: SheetRow, *, said: Mapping[str, str], helped: frozenset[int], reached: int | None, by: str
) -> SheetSeen:
    """Keep all that is said of a sheet now; it takes the place of what was said before.

    Raises:
        BadInput: something does not fit the sheet; nothing was kept.
        NoPhotoOfIt.
    """
    sides = sides_seen(row)
    if not sides:
        raise NoPhotoOfIt(row.sheet_id)
    pages = selectors.pages_of(row)
    asked = asked_items(pages)
    problems = [*misfits(pages, said)]
    if reached is not None and reached not in asked:
        problems.append(Problem("reached", f"is {reached}, which is no item of this sheet"))
    problems += [Problem(f"item {n}", "is not on this sheet") for n in sorted(helped - set(asked))]
    if problems:
        raise BadInput(problems)
    before = settled_of(row)
    same = {name for name, word in said.items() if before.said.get(name) == word}
    who = {name: before.by.get(name, by) if name in same else by for name in said}
    settled = Settled(dict(said), who, helped, reached)
    data = {"said": settled.said, "by": who, "helped": sorted(helped), "reached": reached}
    SettledRow.objects.update_or_create(
        household_id=row.household_id, sheet=row.sheet_id, defaults={"said": canonical(data)}
    )
    return _seen(row, sides, settled)


def photo_mark(row: SheetRow, *, today: date) -> desk.Marking:
    """Keep the marks of a photographed sheet as they were settled: one event, with what the photos showed.

    Keeping them again corrects the marking before.

    Raises:
        NotSettled, NothingOnIt, NoPhotoOfIt: nothing was written.
    """
    seen = sheet_seen(row)
    if seen.open:
        raise NotSettled(seen.open)
    proposals = [item.proposal for item in seen.counted]
    if all(one.state == "blank" for one in proposals):
        raise NothingOnIt
    right_except, blank = entry_words(seen.pages, proposals)
    not_blank = {item.n for item in seen.counted if item.proposal.state != "blank"}
    return desk.sheet_mark(
        row,
        today=today,
        right_except=right_except,
        reached=seen.settled.reached,
        helped=",".join(str(n) for n in sorted(seen.settled.helped & not_blank)),
        blank=blank,
        evidence=evidence_of(
            seen.pages,
            [side.reading for side in seen.sides],
            said=seen.settled.said,
            by=seen.settled.by,
            items=frozenset(item.n for item in seen.counted),
        ),
    )


def evidence_of(
    pages: Sequence[PageMap],
    readings: Sequence[PageReading],
    *,
    said: Mapping[str, str],
    by: Mapping[str, str],
    items: frozenset[int],
) -> tuple[BoxEvidence, ...]:
    """What stood in each answer box of these items that was not plainly empty, and what people said of whole answers.

    `said` and `by` as in `Settled`.
    """
    whole = (BoxEvidence(str(n), "", 0.0, said[str(n)], by.get(str(n), "")) for n in sorted(items) if str(n) in said)
    of = {box.id: box.item for page in pages for box in page.boxes if box.role == "answer"}
    boxes = (
        BoxEvidence(box.id, box.reading, box.certainty, said.get(box.id), by.get(box.id, ""))
        for reading in sorted(readings, key=lambda one: one.page or 0)
        for box in reading.boxes
        if of.get(box.id) in items and (box.state != "blank" or box.id in said)
    )
    return (*whole, *boxes)


def _seen(row: SheetRow, sides: tuple[SideSeen, ...], settled: Settled) -> SheetSeen:
    pages = selectors.pages_of(row)
    readings = [side.reading for side in sides]
    first = {one.n: one for one in propose(pages, readings)}
    now = {one.n: one for one in propose(pages, readings, settled=settled.said)}
    said = {box.id: box for reading in readings for box in reading.boxes}
    items = tuple(_item(asked, first[n], now[n], said) for n, asked in asked_items(pages).items())
    return SheetSeen(row, pages, sides, items, settled)


def _item(asked: AskedItem, first: Proposal, now: Proposal, said: Mapping[str, BoxReading]) -> ItemSeen:
    whys = {question.why for question in first.questions}
    doubtful = first.questions if whys == {"doubtful"} else ()
    told = whys == {"drawn"}
    as_read: str | None = None
    pressing = now if doubtful else first
    if pressing.state == "ask" and not told and {question.why for question in pressing.questions} != {"doubtful"}:
        as_read = pressing.answer or _as_read(asked, pressing, said)
    return ItemSeen(asked, now, doubtful, as_read, told)


def _as_read(asked: AskedItem, one: Proposal, said: Mapping[str, BoxReading]) -> str:
    """The answer to an item of a single number as its boxes read, gaps closed; "" for any other item."""
    boxes = [said[question.box] for question in one.questions if question.box in said]
    if len(asked.spots) != 1 or asked.spots[0].kind != "digit" or len(boxes) != asked.spots[0].size:
        return ""
    return "".join(box.reading for box in boxes)
