"""The morning in a household's file: blocks, appointments, shared things; and what they ask for on one date.

The format is described in `docs/plan-format-morning.md`.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any, Final

from dayleaf.core.errors import Problem
from dayleaf.core.ids import LearnerId
from dayleaf.plan.morning_model import (
    ADULT,
    Appointment,
    Block,
    MorningNeeds,
    MorningWishes,
    Phase,
    SharedThing,
    Stamina,
)
from dayleaf.plan.morning_tables import DAY_MINUTES, Table, minutes_between

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping
    from datetime import date, time

    from dayleaf.plan.busy import BusyTime

LESSON_WORTH: Final = 100
STAMINA_BY_AGE: Final = ((5, 30, 15), (6, 40, 10), (8, 50, 10), (10, 60, 10), (99, 75, 10))
"""Up to an age: how many minutes at a stretch, how long a pause at least (common practice, no source)."""
USUAL_AGE: Final = 7
"""The age taken where none is given."""


@dataclass(frozen=True, slots=True)
class LessonOfDay:
    """What a year's plan brings on a date: minutes led, minutes alone, and the materials by their ids."""

    learner: LearnerId
    title: str
    led: int
    alone: int
    materials: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class AskedBlock:
    """A block as the file has it: on which weekdays (None: every day); `is_lesson` stands for the plan's own lesson."""

    block: Block
    weekdays: frozenset[int] | None
    is_lesson: bool


@dataclass(frozen=True, slots=True)
class AskedAppointment:
    """An appointment as the file has it: a clock time on weekdays, on one date, or every day."""

    name: str
    who: tuple[str, ...]
    start: time
    minutes: int
    quiet: bool
    weekdays: frozenset[int] | None
    day: date | None

    def falls_on(self, day: date) -> bool:
        """Whether it takes place on a date."""
        if self.day is not None:
            return self.day == day
        return self.weekdays is None or day.weekday() in self.weekdays


@dataclass(frozen=True, slots=True)
class MorningTables:
    """Everything that a household's file says of its mornings."""

    start: time | None
    latest: int | None
    blocks: tuple[AskedBlock, ...]
    stamina: Mapping[LearnerId, Stamina]
    appointments: tuple[AskedAppointment, ...]
    shared: tuple[SharedThing, ...]
    wishes: MorningWishes


def stamina_at(age: int | None) -> Stamina:
    """How long a child of an age keeps at it, by the table of common practice."""
    years = USUAL_AGE if age is None else age
    return next(Stamina(span, pause) for upto, span, pause in STAMINA_BY_AGE if years <= upto)


def read_morning(
    raw: Mapping[str, Any], *, ages: Mapping[LearnerId, int | None]
) -> tuple[MorningTables, tuple[Problem, ...]]:
    """The morning's part of a household file: the tables `morning`, `appointments`, `shared`, and `blocks` by learner.

    `ages` names every learner in order, with the age in years or None. With problems, all of them are returned
    and the tables hold what could be read.
    """
    problems: list[Problem] = []
    whole = Table("", raw, problems)
    start, latest, wishes = _morning(raw.get("morning"), problems)
    shared = tuple(thing for table in whole.tables("shared") if (thing := _shared(table)))
    things = {one.name for one in shared}
    blocks: list[AskedBlock] = []
    if ADULT in ages:
        problems.append(Problem("learners", f"{ADULT!r} is what the adult is called; give the child another id"))
    of_learners = raw.get("blocks") or {}
    for learner in ages:
        table = Table(f"learners.{learner}", {"blocks": of_learners.get(learner, [])}, problems)
        own = [block for inner in table.tables("blocks") if (block := _block(inner, learner, things))]
        problems += _names_apart(table, own)
        blocks += own
    morning = raw.get("morning")
    said = Table("morning", morning if isinstance(morning, dict) else {}, problems)
    stamina = _stamina(said, ages)
    known = {ADULT, *ages, *(said.names("little_ones") or ())}
    asked = (_appointment(table, known) for table in whole.tables("appointments"))
    appointments = tuple(one for one in asked if one is not None)
    if start is None and appointments:
        problems.append(Problem("morning.start", "an appointment needs a morning with a start, as start = “9:00”"))
    return MorningTables(start, latest, tuple(blocks), stamina, appointments, shared, wishes), tuple(problems)


def needs_on(
    tables: MorningTables, day: date, *, lessons: Iterable[LessonOfDay], busy: Iterable[BusyTime] = ()
) -> MorningNeeds:
    """What the morning of a date has to hold: the plan's lessons, the file's blocks, all that is taken.

    `busy` are times from a family's own calendar, in the household's zone; without a start of the morning
    they mean nothing and are left aside. A lesson uses every shared thing that is named like one of its materials.
    """
    asked = [one for one in tables.blocks if one.weekdays is None or day.weekday() in one.weekdays]
    things = {one.name for one in tables.shared}
    taken: list[Block] = []
    for lesson in lessons:
        given = next((one.block for one in asked if one.is_lesson and one.block.learner == lesson.learner), None)
        before = sum(one.learner == lesson.learner for one in taken)
        block = _of_lesson(lesson, given, things)
        # Of two lessons on one day the second has a name of its own and is wanted after the first.
        again = replace(block, id=f"{block.id}-{before + 1}", after=(*block.after, block.id))
        taken.append(again if before else block)
    taken += [one.block for one in asked if not one.is_lesson]
    children = list(dict.fromkeys([*tables.stamina, *(block.learner for block in taken)]))
    taken.sort(key=lambda block: children.index(block.learner))
    start = tables.start
    appointments: list[Appointment] = []
    if start is not None:
        appointments += [
            Appointment(one.name, one.who, minutes_between(start, one.start), one.minutes, one.quiet)
            for one in tables.appointments
            if one.falls_on(day)
        ]
        appointments += busy_appointments(busy, day, start)
    return MorningNeeds(
        blocks=tuple(taken),
        stamina=dict(tables.stamina),
        appointments=tuple(one for one in appointments if one.end > 0),
        shared={one.name: one.count for one in tables.shared},
        latest=tables.latest,
        start=start,
        wishes=tables.wishes,
    )


def _of_lesson(lesson: LessonOfDay, given: Block | None, things: set[str]) -> Block:
    uses = tuple(name for name in lesson.materials if name in things)
    planned = (Phase("led", lesson.led, uses), Phase("alone", lesson.alone, uses))
    phases = tuple(phase for phase in planned if phase.minutes) or (Phase("led", 1, uses),)
    name = f"{lesson.learner}/lesson"
    if given is None:
        return Block(name, lesson.learner, lesson.title, phases, worth=LESSON_WORTH)
    return Block(
        id=given.id,
        learner=lesson.learner,
        title=lesson.title,
        phases=given.phases or phases,
        worth=given.worth,
        fresh=given.fresh,
        loud=given.loud,
        after=given.after,
    )


def busy_appointments(busy: Iterable[BusyTime], day: date, start: time) -> tuple[Appointment, ...]:
    """The busy times of a date as appointments of a morning that begins at `start`; whole days are no matter here."""
    return tuple(
        Appointment(one.name, one.who or (ADULT,), minutes_between(start, one.start), one.minutes)
        for one in busy
        if one.day == day and not one.all_day and minutes_between(start, one.start) + one.minutes > 0
    )


def _morning(raw: Any, problems: list[Problem]) -> tuple[time | None, int | None, MorningWishes]:
    if raw is None:
        return None, None, MorningWishes()
    if not isinstance(raw, dict):
        problems.append(Problem("morning", "write it as [morning]"))
        return None, None, MorningWishes()
    table = Table("morning", raw, problems)
    start, end, minutes = table.clock("start"), table.clock("end"), table.whole("minutes", least=1)
    table.known |= {"little_ones", "stamina"}
    if end is not None:
        if start is None:
            table.says("end", "an end needs a start; without a clock write minutes = 150")
        elif minutes_between(start, end) <= 0:
            table.says("end", "the morning ends before it begins")
        else:
            minutes = min(minutes or DAY_MINUTES, minutes_between(start, end))
    weights = table.take("wishes")
    wishes = MorningWishes()
    if isinstance(weights, dict):
        inner = Table("morning.wishes", weights, problems)
        usual = MorningWishes()
        given = {name: inner.whole(name, most=1000) for name in ("waiting", "order", "fresh")}
        inner.close()
        wishes = MorningWishes(**{name: getattr(usual, name) if n is None else n for name, n in given.items()})
    elif weights is not None:
        table.says("wishes", "write it as [morning.wishes]")
    table.close()
    return start, minutes, wishes


def _shared(table: Table) -> SharedThing | None:
    name, count = table.text("name"), table.whole("count", least=1, most=50)
    table.close()
    if name is None:
        table.says("name", "a shared thing needs a name")
        return None
    return SharedThing(name, count or 1)


def _stamina(morning: Table, ages: Mapping[LearnerId, int | None]) -> dict[LearnerId, Stamina]:
    """How long each child keeps at it: by age, unless `[[morning.stamina]]` says otherwise."""
    found = {learner: stamina_at(age) for learner, age in ages.items()}
    for table in morning.tables("stamina"):
        name = table.text("learner")
        span, pause = table.whole("span", least=5), table.whole("pause", least=1, most=120)
        table.close()
        if name is None or LearnerId(name) not in found:
            table.says("learner", f"{name!r} is no learner’s id")
            continue
        usual = found[LearnerId(name)]
        found[LearnerId(name)] = Stamina(span or usual.span, pause or usual.pause)
    return found


def _block(table: Table, learner: LearnerId, things: set[str]) -> AskedBlock | None:
    name, title = table.text("id"), table.text("title")
    is_lesson = table.flag("lesson")
    phases = tuple(one for inner in table.tables("phases") if (one := _phase(inner, things)))
    worth = table.whole("worth", most=10_000)
    block = Block(
        id=f"{learner}/{name or 'lesson'}",
        learner=learner,
        title=title or name or "Lesson",
        phases=phases,
        worth=(LESSON_WORTH if is_lesson else 50) if worth is None else worth,
        fresh=table.flag("fresh"),
        loud=table.flag("loud"),
        after=tuple(f"{learner}/{one}" for one in table.names("after") or ()),
    )
    weekdays = table.weekdays("weekdays")
    table.close()
    if name is None and not is_lesson:
        table.says("id", "a block needs an id, as id = “reading”")
        return None
    if not phases and not is_lesson:
        table.says("phases", "a block needs phases, as phases = [{led = 10}, {alone = 15}]")
        return None
    return AskedBlock(block, weekdays, is_lesson)


def _phase(table: Table, things: set[str]) -> Phase | None:
    led, alone = table.whole("led", least=1, most=600), table.whole("alone", least=1, most=600)
    uses = table.names("uses") or ()
    table.close()
    for name in uses:
        if name not in things:
            table.says("uses", f"{name!r} is none of the [[shared]] things")
    minutes = led or alone
    if minutes is None or (led and alone):
        table.says("", "write either led = 10 or alone = 10")
        return None
    return Phase("led" if led else "alone", minutes, tuple(dict.fromkeys(uses)))


def _names_apart(table: Table, blocks: list[AskedBlock]) -> list[Problem]:
    names = [one.block.id for one in blocks]
    known = {name.rpartition("/")[2] for name in names} | {"lesson"}
    twice = sorted({name for name in names if names.count(name) > 1})
    found = [Problem(f"{table.where}.blocks", f"two blocks are called {name.rpartition('/')[2]!r}") for name in twice]
    for one in blocks:
        lacking = [name for name in (after.rpartition("/")[2] for after in one.block.after) if name not in known]
        found += [Problem(f"{table.where}.blocks.after", f"this child has no block {name!r}") for name in lacking]
    return found


def _appointment(table: Table, known: set[str]) -> AskedAppointment | None:
    name, who = table.text("name") or "Appointment", table.names("who")
    start, end, minutes = table.clock("from"), table.clock("until"), table.whole("minutes", least=1)
    quiet, weekdays, day = table.flag("quiet"), table.weekdays("weekdays"), table.day("date")
    table.close()
    for one in who or ():
        if one not in known:
            table.says("who", f"{one!r} is neither {ADULT!r}, a learner’s id nor one of morning.little_ones")
    if start is None:
        table.says("from", 'an appointment needs a beginning, as from = "10:30"')
        return None
    if end is not None:
        minutes = minutes_between(start, end)
    if minutes is None or minutes <= 0:
        table.says("until", 'an appointment needs an end after its beginning, as until = "11:15"')
        return None
    return AskedAppointment(name, who or (ADULT,), start, minutes, quiet, weekdays, day)
