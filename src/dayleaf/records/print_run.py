"""Pages of many days printed at once, in the order of use, up to four weeks ahead."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from itertools import count
from typing import TYPE_CHECKING, Final

from django.db import transaction

from dayleaf.core.ids import EventId, LearnerId
from dayleaf.events.model import Head, ItemMark, Marked, Taught
from dayleaf.learner.belief import resume
from dayleaf.packets.binding import bound, maps_bound
from dayleaf.packets.day import print_packet
from dayleaf.packets.model import NotBuiltYet
from dayleaf.records import desk, selectors, services
from dayleaf.records.backs import backs_from
from dayleaf.records.beliefs import beliefs_now, year_plan
from dayleaf.records.courses import course_with
from dayleaf.records.paper import asked_lately, child_of, packet_for, seed_of
from dayleaf.records.weeks import learner_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from dayleaf.course.model import Course, Day
    from dayleaf.events.model import Event
    from dayleaf.learner.review import Back
    from dayleaf.packets.model import Packet, Prints
    from dayleaf.plan.week import WeekLesson
    from dayleaf.records.models import Learner, PrintRow
    from dayleaf.sheets.model import PageMap

MOST_WEEKS: Final = 4
"""How far ahead pages may be printed: beyond, too much of a back is a guess."""


@dataclass(frozen=True, slots=True)
class RunPart:
    """One lesson of a print run; `new` says whether it was printed only now, `cannot` why it has no pages."""

    learner: Learner
    day: date
    lesson: Day
    row: PrintRow | None
    new: bool = False
    cannot: str = ""


@dataclass(frozen=True, slots=True)
class RunFiles:
    """A whole run as files: the children's pages with their map, the guides, the keys."""

    pages: bytes
    map: tuple[PageMap, ...]
    guides: bytes
    keys: bytes


def run_files(parts: Iterable[RunPart]) -> RunFiles:
    """The finished files of a run, bound in its order; a run without pages gives empty files."""
    rows = [part.row for part in parts if part.row is not None]
    if not rows:
        return RunFiles(b"", (), b"", b"")
    pages, before = bound([bytes(row.pages) for row in rows])
    maps = maps_bound([desk.pages_printed(row) for row in rows], before)
    guides, _ = bound([bytes(row.guide) for row in rows])
    keys, _ = bound([bytes(row.key) for row in rows])
    return RunFiles(pages, maps, guides, keys)


def run_print(
    learners: Sequence[Learner], lessons: Iterable[WeekLesson], *, today: date, at: datetime | None = None
) -> Iterator[RunPart]:
    """Print lessons in the order given, ahead of their days; each is one transaction, whatever comes after.

    What is on paper already stays as it is. The backs of later days are a best guess: what is printed before them is
    taken as done and right, so that each day brings other skills back. Marks that come in change the packets that
    are not printed yet, and every printed sheet can be marked.
    """
    ahead = {LearnerId(learner.id): _Ahead(learner, today) for learner in learners}
    for one in lessons:
        learner = learner_of(learners, one)
        earlier = selectors.print_of(learner, one.lesson.id)
        if earlier is not None:
            ahead[one.learner].take(one, desk.pages_printed(earlier))
            yield RunPart(learner, one.day, one.lesson, earlier)
            continue
        try:
            row = ahead[one.learner].print(one, at=at)
        except NotBuiltYet as unbuilt:
            yield RunPart(learner, one.day, one.lesson, None, cannot=str(unbuilt))
        else:
            yield RunPart(learner, one.day, one.lesson, row, new=True)
    for learner in learners:
        desk.refresh(learner, today=today)


class _Ahead:
    """One child's run: what is known today, and what is taken for granted of the days printed so far."""

    def __init__(self, learner: Learner, today: date) -> None:
        self._learner, self._today = learner, today
        self._taken: list[Event] = []

    def print(self, one: WeekLesson, *, at: datetime | None) -> PrintRow:
        """Print a lesson, freeze it, and take it as done."""
        if not self._taken and one.day <= self._today:
            row, _new = desk.day_print(self._learner, desk.Wish(today=self._today, lesson=one.lesson.id), at=at)
            self.take(one, desk.pages_printed(row))
            return row
        backs = self._backs(one)
        seed = seed_of(self._learner, one.lesson)
        prints = print_packet(self._course(one), self._unused(one, backs, seed))
        row = self._freeze(one, prints, seed, at)
        self.take(one, prints.pages.pages)
        return row

    def take(self, one: WeekLesson, pages: Iterable[PageMap]) -> None:
        """Take a printed lesson as taught and its items as right, on its day."""
        said = one.day == self._today and one.lesson.id in selectors.said_on(self._learner, one.day)
        if said or one.day < self._today:
            return
        skills = tuple(dict.fromkeys((*one.lesson.new_skills, *one.lesson.front_skills)))
        self._taken.append(Taught(self._head(one.day), one.lesson.id, "done", skills))
        for page in pages:
            marks = tuple(
                ItemMark(item.n, item.skill, item.format, item.key, "right", None, helped=False, errors=())
                for item in page.items
            )
            self._taken.append(Marked(self._head(one.day), page.sheet, one.lesson.id, marks))

    def _unused(self, one: WeekLesson, backs: Sequence[Back], seed: int) -> Packet:
        """The packet with sheet ids that were never given at home."""
        lately = asked_lately(self._learner, one.lesson)
        salts = (
            packet_for(self._learner, one.lesson, backs=backs, seed=seed, avoid=lately, salt=salt) for salt in count()
        )
        return next(
            packet
            for packet in salts
            if not selectors.sheets_taken(self._learner.household, (sheet.id for sheet in packet.sheets))
        )

    def _course(self, one: WeekLesson) -> Course:
        return course_with(self._learner.household, one.lesson.id)

    def _backs(self, one: WeekLesson) -> tuple[Back, ...]:
        known = beliefs_now(self._learner, self._course(one), upto=self._today)
        before = [event for event in self._taken if event.head.day < one.day]
        known = resume(known, before, upto=one.day - timedelta(days=1)) if before else known
        plan = year_plan(self._learner)
        return backs_from(known, self._learner, self._course(one), one.lesson, plan=plan, day=one.day)

    @transaction.atomic
    def _freeze(self, one: WeekLesson, prints: Prints, seed: int, at: datetime | None) -> PrintRow:
        look = child_of(self._learner).look
        skills = dict.fromkeys(item.skill for page in prints.pages.pages for item in page.items)
        return services.day_print(
            learner=self._learner,
            day=self._today,
            lesson=one.lesson.id,
            skills=tuple(skills),
            seed=seed,
            engine=desk.ENGINE,
            lang=look.lang,
            paper=look.paper,
            sheets=prints.packet.sheets,
            pages=prints.pages,
            guide=prints.guide,
            key=prints.key,
            at=at,
        )

    def _head(self, day: date) -> Head:
        """The head of an event that is only taken for granted and never written."""
        moment = datetime.combine(day, time(12), tzinfo=UTC)
        return Head(EventId(f"taken {len(self._taken)}"), moment, day, LearnerId(self._learner.id))
