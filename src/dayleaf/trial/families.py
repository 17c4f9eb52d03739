"""Families of virtual children with what they would share, and troubles planted into some of them.

Every family lives its own year: four or five days a week, days missed, an illness, a holiday that was not planned,
records written each evening, once a week or only now and then, sheets marked with every answer or only counted. A
planted trouble changes what happens and nothing else; who has which is told beside the families and stands nowhere in
them.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import timedelta
from hashlib import sha256
from typing import TYPE_CHECKING, Final, Literal

import numpy as np

from dayleaf.advising.shared import (
    Counts,
    MarkedSheet,
    PlannedDay,
    SharedPlan,
    SharedProgress,
    SharedRecords,
    TaughtDay,
    Terms,
)
from dayleaf.course.load import grade2
from dayleaf.trial.activation import Activation
from dayleaf.trial.policies import Rotation
from dayleaf.trial.world import world_of
from dayleaf.trial.year import live

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from dayleaf.trial.minds import Numbers
    from dayleaf.trial.year import Log

Trouble = Literal["no news", "taught again", "habit", "pace"]
TROUBLES: Final[tuple[Trouble, ...]] = ("no news", "taught again", "habit", "pace")
WAYS: Final = ("smaller-from-larger", "no-regroup", "forgot-the-trade", "one-off", "added-for-taken")
DAYS: Final = 90
"""Planned lesson days before today."""
SLIP_FITS: Final = 0.3
"""How often a slip's answer is that of some error way by chance (invented, on the high side)."""


@dataclass(frozen=True, slots=True)
class Trial:
    """Families as they would be shared on `today`, and what was planted in each (None: nothing)."""

    today: date
    families: tuple[SharedRecords, ...]
    planted: tuple[Trouble | None, ...]


@dataclass(slots=True)
class _Family:
    """How one family lives."""

    trouble: Trouble | None
    weekdays: tuple[int, ...]
    start: int
    batch: int
    keyed: bool
    ill: range
    quiet: int = 0
    again: int = 0
    slow: float = 0.0
    halves: bool = False
    owed: float = 0.0
    place: int = 0
    repeats: int = 0
    taught: list[TaughtDay] = field(default_factory=list)


def families_lived(*, today: date, seed: int, families: int = 60, troubled: int = 24) -> Trial:
    """So many families on a day, `troubled` of them with one of the four troubles in turn."""
    chance = np.random.default_rng(seed)
    troubles: list[Trouble | None] = [TROUBLES[n % len(TROUBLES)] if n < troubled else None for n in range(families)]
    chance.shuffle(troubles)
    course = grade2()
    lessons = [day for day in course.days if (*day.new_skills, *day.front_skills)]
    weekdays = [today - timedelta(days=n) for n in range(1, 7 * DAYS // 4) if (today - timedelta(days=n)).weekday() < 5]
    dates = weekdays[:DAYS][::-1]
    world = world_of(course, tuple(day.toordinal() for day in dates), lessons=frozenset(day.id for day in lessons))
    homes = [_drawn(trouble, chance) for trouble in troubles]

    def teach(here: Numbers, number: int, _day: float) -> Numbers:
        taught = np.full(len(here), -1)
        for row, child in enumerate(here):
            place = _given(homes[child], dates, number, chance)
            if place is not None:
                day = lessons[place[0]]
                homes[child].taught.append(
                    TaughtDay(dates[number], day.id, place[1], (world.graph.ids[world.lessons[place[0]]],))
                )
                taught[row] = world.lessons[place[0]]
        return taught

    memory = Activation(world, families, np.random.default_rng(seed + 1))
    year = live(world, memory, Rotation(world, families, seed + 2), children=families, seed=seed + 3, lessons=teach)
    rows = _by_child(year.log, families)
    ids = [day.id for day in lessons]
    found = tuple(
        _shared(
            home,
            n=n,
            dates=dates,
            today=today,
            log=year.log,
            rows=rows[n],
            skills=world.graph.ids,
            lessons=ids,
            chance=chance,
        )
        for n, home in enumerate(homes)
    )
    return Trial(today, found, tuple(troubles))


def _drawn(trouble: Trouble | None, chance: np.random.Generator) -> _Family:
    ill = int(chance.integers(0, DAYS)) if chance.random() < 0.4 else DAYS
    home = _Family(
        trouble=trouble,
        weekdays=(0, 1, 2, 3, 4) if chance.random() < 0.6 else (0, 1, 3, 4),
        start=int(chance.integers(0, 20)),
        batch=int(chance.choice([1, 5, 9], p=[0.6, 0.3, 0.1])),
        keyed=bool(chance.random() < 0.8) or trouble == "habit",
        ill=range(ill, ill + int(chance.integers(2, 6))),
    )
    if trouble == "no news":
        home.quiet = int(chance.integers(13, 30))
    if trouble == "taught again":
        home.again = int(chance.integers(10, 15))
    if trouble not in {None, "no news"}:
        home.batch, home.ill = min(home.batch, 5), range(0)
    if trouble == "pace":
        home.slow, home.halves = float(chance.uniform(0.4, 0.55)), bool(chance.random() < 0.5)
    return home


def _given(
    home: _Family, dates: Sequence[date], number: int, chance: np.random.Generator
) -> tuple[int, Literal["done", "half"]] | None:
    """The lesson of a day by its place, and how far it went; None where there was none."""
    learning = number >= home.start and dates[number].weekday() in home.weekdays and number not in home.ill
    if not learning or (home.quiet and number >= DAYS - home.quiet):
        return None
    if home.slow and number >= DAYS - 25:
        if home.halves:
            home.repeats += 1
            done = home.repeats % 2 == 0
            place, home.place = home.place, home.place + done
            return place, "done" if done else "half"
        home.owed += home.slow
        if home.owed < 1:
            return None
        home.owed -= 1
    place = home.place
    if home.again and number >= DAYS - home.again:
        return place, "done"
    if home.repeats < 2 and chance.random() < 0.12:
        home.repeats += 1
        return place, "done"
    home.place, home.repeats = place + 1, 0
    return place, "done"


def _by_child(log: Log, children: int) -> list[Numbers]:
    order = np.argsort(log.child, kind="stable")
    return np.split(order, np.searchsorted(log.child[order], np.arange(1, children)))


def _shared(
    home: _Family,
    *,
    n: int,
    dates: Sequence[date],
    today: date,
    log: Log,
    rows: Numbers,
    skills: Sequence[str],
    lessons: Sequence[str],
    chance: np.random.Generator,
) -> SharedRecords:
    there = {one.day: one for one in home.taught}
    sheets: dict[date, dict[str, list[int]]] = {}
    ways: dict[tuple[date, str], dict[str, int]] = {}
    mine = {skills[log.skill[row]] for row in rows[-120:]}
    stuck = set(sorted(mine)[:: max(1, len(mine) // 8)]) if home.trouble == "habit" else set()
    habit = str(chance.choice(WAYS))
    since = dates[-int(chance.integers(18, 30))]
    for row in rows:
        day = dates[0].fromordinal(int(log.day[row]))
        if day not in there:
            continue
        skill = skills[log.skill[row]]
        right, way = bool(log.right[row]), ""
        if skill in stuck and day >= since and chance.random() < 0.7:
            right, way = False, habit
        elif not right and home.keyed and chance.random() < SLIP_FITS:
            way = str(chance.choice(WAYS))
        counts = sheets.setdefault(day, {}).setdefault(skill, [0, 0, 0])
        counts[0] += right
        counts[1] += 1
        counts[2] += bool(log.helped[row])
        if way:
            told = ways.setdefault((day, skill), {})
            told[way] = told.get(way, 0) + 1
    marked = tuple(
        MarkedSheet(
            day,
            there[day].lesson,
            {one: Counts(c[0], c[1], c[2], ways.get((day, one), {})) for one, c in found.items()},
        )
        for day, found in sorted(sheets.items())
    )
    planned = [day for day in dates[home.start :] if day.weekday() in home.weekdays]
    then = tuple(PlannedDay(day, lessons[min(place, len(lessons) - 1)]) for place, day in enumerate(planned))
    written = _written(sorted(there), home.batch, up_to_date=home.trouble not in {None, "no news"})
    known = [one for one in sorted(there) if written and one <= max(written)]
    kept = set(known)
    return SharedRecords(
        terms=Terms(
            share=sha256(f"{today}{n}".encode()).hexdigest()[:16],
            child=f"trial{n + 1:02d}",
            family=f"Family {n + 1:02d}",
            learner=f"Child {n + 1:02d}",
            course="grade2",
            kinds=("plan", "progress"),
            made_on=today,
            until=today + timedelta(days=60),
            answer_key="",
        ),
        plan=SharedPlan(version="trial", days=(), then=then),
        progress=SharedProgress(
            taught=tuple(one for one in home.taught if one.day in kept),
            marked=tuple(sheet for sheet in marked if sheet.day in kept),
            there=tuple(known),
            written=tuple(sorted(written)),
        ),
    )


def _written(there: Sequence[date], batch: int, *, up_to_date: bool) -> tuple[date, ...]:
    """The evenings on which the records of `batch` days were written together; the last ones may not be yet."""
    evenings = there[batch - 1 :: batch]
    return tuple({*evenings, there[-1]} if up_to_date and there else evenings)
