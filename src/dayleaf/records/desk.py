"""The verbs that the terminal and the pages share: prepare a day, print it, mark a sheet, see what comes next.

Everything here joins the pure rooms with what the household keeps; every write is one transaction of
`services`. Nothing is typeset and no log is read while a page is only being looked at.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import count
from typing import TYPE_CHECKING, Any

from django.db import transaction

from dayleaf import __version__
from dayleaf.core.errors import DayleafError
from dayleaf.marking.entry import parse_entry
from dayleaf.marking.mark import mark_sheet, score
from dayleaf.packets.day import print_packet
from dayleaf.records import selectors, services
from dayleaf.records.beliefs import year_plan
from dayleaf.records.coming import Ahead, coming_lesson, lesson_named, look_ahead
from dayleaf.records.courses import course_with
from dayleaf.records.paper import AS_ALWAYS, ForOnce, asked_lately, child_of, packet_for, seed_of
from dayleaf.records.results import form_printed
from dayleaf.records.seen import last_seen, newest_marks, say_seen, seen_in, when_said
from dayleaf.wording.say import text_of

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date, datetime

    from dayleaf.core.ids import SkillId
    from dayleaf.course.model import Day
    from dayleaf.events.model import BoxEvidence, ItemMark
    from dayleaf.learner.review import Back
    from dayleaf.learner.seen import Seen
    from dayleaf.packets.model import Packet, Prints
    from dayleaf.records.models import Learner, PrintRow, SheetRow
    from dayleaf.sheets.model import Look, PageMap

ENGINE = f"dayleaf {__version__}"


class NoLessonThatDay(DayleafError):
    """The plan has no lesson on that day."""

    def __init__(self, name: str, day: date, following: date | None) -> None:
        then = f"; the next one is on {following}" if following else ""
        super().__init__(f"{name} has no lesson on {day}{then}.")


@dataclass(frozen=True, slots=True)
class Wish:
    """What is asked for: a lesson by name, or by a date of the plan, or neither for today's.

    `seed` is None for the household's own; `fresh` asks for other numbers than those printed before; `once`
    says how the pages differ this time; `form` is the form of a chapter test.
    """

    today: date
    lesson: str | None = None
    on: date | None = None
    seed: int | None = None
    fresh: bool = False
    once: ForOnce = AS_ALWAYS
    form: str = "A"


@dataclass(frozen=True, slots=True)
class Marking:
    """What marking a sheet gave, and how it changes what comes back on the next lesson."""

    sheet: SheetRow
    items: tuple[ItemMark, ...]
    right: int
    of: int
    corrected: bool
    seen: Seen
    sentences: str
    tomorrow: Ahead | None
    before: tuple[Back, ...]

    @property
    def changed(self) -> tuple[tuple[SkillId, str], ...]:
        """Skills that came onto tomorrow's back through this marking ("added") or left it ("dropped")."""
        after = self.tomorrow.backs if self.tomorrow else ()
        was, now = {back.skill for back in self.before}, {back.skill for back in after}
        added = tuple((back.skill, "added") for back in after if back.skill not in was)
        return added + tuple((back.skill, "dropped") for back in self.before if back.skill not in now)


def lesson_wanted(learner: Learner, wish: Wish) -> Day:
    """The day of the course that a wish means.

    Raises:
        NoSuchLesson: the name is none of the course's.
        DateOutsideYear, NoLessonThatDay: the plan has nothing on the date.
    """
    if wish.lesson is not None:
        return lesson_named(wish.lesson)
    plan = year_plan(learner)
    on = wish.on or wish.today
    lesson = plan.lesson_on(on)
    if lesson is None:
        following = plan.next_days(on, 1)
        raise NoLessonThatDay(learner.name, on, following[0].day if following else None)
    return lesson_named(lesson)


def seed_wanted(learner: Learner, day: Day, wish: Wish) -> int:
    """The seed of a print: the one asked for, or made from household, learner and lesson.

    Fresh numbers count the prints there are, so that each is new.
    """
    if wish.seed is not None:
        return wish.seed
    again = len(selectors.prints_of(learner, day.id)) if wish.fresh else 0
    return seed_of(learner, day, again=again)


def day_packet(learner: Learner, day: Day, wish: Wish, *, seed: int, salt: int = 0) -> Packet:
    """The packet of a day as this child needs it now. Writes nothing but caches."""
    return packet_for(
        learner,
        day,
        backs=look_ahead(learner, day, today=wish.today).choices,
        seed=seed,
        once=wish.once,
        avoid=asked_lately(learner, day),
        yesterday=_before_today(learner, wish.today),
        salt=salt,
        form=wish.form,
    )


def _unused_packet(learner: Learner, day: Day, wish: Wish, *, seed: int) -> Packet:
    """The packet with sheet ids that were never given at home: the first ones, unless they are taken."""
    for salt in count():
        packet = day_packet(learner, day, wish, seed=seed, salt=salt)
        if not selectors.sheets_taken(learner.household, (sheet.id for sheet in packet.sheets)):
            break
    return packet


def _before_today(learner: Learner, today: date) -> str:
    """What the last marks before today showed, for the guide; "" where there are none."""
    seen = last_seen(learner)
    return seen.first_sentence if seen and seen.day < today else ""


def day_preview(learner: Learner, wish: Wish) -> Prints:
    """A day on paper without a record of it: the same pages as `day_print` would give."""
    day = lesson_wanted(learner, wish)
    course = course_with(learner.household, day.id)
    return print_packet(course, day_packet(learner, day, wish, seed=seed_wanted(learner, day, wish)))


def day_print(
    learner: Learner, wish: Wish, *, at: datetime | None = None, looking_ahead: bool = True
) -> tuple[PrintRow, bool]:
    """Print a day: freeze its sheets and write it down. (print, whether it is new).

    A lesson printed before gives the same sheets again, byte for byte, unless fresh numbers, another seed,
    language or paper are asked for. `looking_ahead` brings what pages read up to date; of many prints in a row
    the next look does that.
    """
    day = lesson_wanted(learner, wish)
    look = child_of(learner, wish.once).look
    if not wish.fresh and not wish.once.other_layout:
        for earlier in selectors.prints_of(learner, day.id):
            if _same_print(earlier, wish, look) and _same_form(earlier, day, wish):
                return earlier, False
    seed = seed_wanted(learner, day, wish)
    prints = print_packet(course_with(learner.household, day.id), _unused_packet(learner, day, wish, seed=seed))
    with transaction.atomic():
        row = services.day_print(
            learner=learner,
            day=wish.today,
            lesson=day.id,
            skills=_skills_on(prints),
            seed=seed,
            engine=ENGINE,
            lang=look.lang,
            paper=look.paper,
            sheets=prints.packet.sheets,
            pages=prints.pages,
            guide=prints.guide,
            key=prints.key,
            at=at,
        )
    if looking_ahead:
        refresh(learner, today=wish.today)
    return row, True


def day_items(learner: Learner, wish: Wish, *, seed: int | None) -> tuple[int, list[dict[str, Any]]]:
    """(seed used, the day's sides with their items, in the words of `sheets.json`), nothing typeset or kept."""
    day = lesson_wanted(learner, wish)
    used = seed_wanted(learner, day, wish) if seed is None else seed
    packet = day_packet(learner, day, wish, seed=used)
    lang = packet.child.look.lang
    sides = []
    for sheet in packet.sheets:
        for number, side in enumerate(sheet.pages, start=1):
            items = [
                {
                    "n": placed.n,
                    "key": placed.item.key,
                    "skill": placed.item.skill,
                    "format": placed.item.format,
                    "numbers": dict(placed.item.numbers),
                    "text": text_of(placed.item, lang),
                    "answer": placed.item.answer,
                    "errors": dict(placed.item.errors),
                }
                for block in side.blocks
                for placed in block.items
            ]
            sides.append({"sheet": sheet.id, "page": number, "kind": side.kind, "lesson": day.id, "items": items})
    return used, sides


def pages_printed(row: PrintRow) -> tuple[PageMap, ...]:
    """The map of every side of a print, in the order of its file."""
    sheets = row.sheets.order_by("place")
    return tuple(page for sheet in sheets for page in selectors.pages_of(sheet))


def _same_print(earlier: PrintRow, wish: Wish, look: Look) -> bool:
    seed_fits = wish.seed is None or wish.seed == earlier.seed
    return seed_fits and (earlier.lang, earlier.paper) == (look.lang, look.paper)


def _same_form(earlier: PrintRow, day: Day, wish: Wish) -> bool:
    return day.kind != "test" or form_printed(earlier.sheets.first()) == wish.form.upper()


def _skills_on(prints: Prints) -> tuple[SkillId, ...]:
    return tuple(dict.fromkeys(item.skill for page in prints.pages.pages for item in page.items))


def sheet_mark(
    learner_sheet: SheetRow,
    *,
    today: date,
    right_except: str = "",
    reached: int | None = None,
    helped: str = "",
    blank: str = "",
    at: datetime | None = None,
    evidence: Sequence[BoxEvidence] = (),
) -> Marking:
    """Mark a sheet by exception, and say what was seen and what the next lesson's back brings.

    Marking again corrects the marking before. `evidence` is what its photos showed.

    Raises:
        BadInput: the entry does not fit the sheet; nothing was written.
    """
    sheet = learner_sheet
    learner = sheet.learner
    pages = selectors.pages_of(sheet)
    entry = parse_entry(pages, right_except=right_except, reached=reached, helped=helped, blank=blank)
    marks = mark_sheet(pages, entry)
    tomorrow = coming_lesson(learner, after=today)
    before = look_ahead(learner, tomorrow, today=today).backs if tomorrow else ()
    marked = services.sheet_mark(sheet=sheet, items=marks, day=today, at=at, evidence=evidence)
    seen, sentences, ahead = refresh(learner, today=today, before=before)
    right, of = score(marks)
    return Marking(
        sheet=sheet,
        items=marks,
        right=right,
        of=of,
        corrected=marked.replaces is not None,
        seen=seen,
        sentences=sentences,
        tomorrow=ahead,
        before=before,
    )


def refresh(learner: Learner, *, today: date, before: Sequence[Back] = ()) -> tuple[Seen, str, Ahead | None]:
    """Bring the caches up to date after a write: beliefs, what was seen, the backs of today's and the next lesson.

    `before` is what would have come back: skills that newly do are named first in the sentences.
    """
    for placed in year_plan(learner).placed:
        if placed.day == today and not selectors.is_printed(learner, placed.lesson):
            look_ahead(learner, lesson_named(placed.lesson), today=today)
    tomorrow = coming_lesson(learner, after=today)
    ahead = look_ahead(learner, tomorrow, today=today) if tomorrow else None
    marked = newest_marks(learner)
    seen = seen_in(learner, marked)
    backs = [back.skill for back in ahead.backs] if ahead else []
    known = {back.skill for back in before}
    named = [skill for skill in backs if skill not in known] if before else backs
    when = when_said(ahead.on, today) if ahead else "Later"
    return seen, say_seen(learner, seen, marked, named=named, when=when), ahead
