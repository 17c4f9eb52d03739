"""A week made ready: what to fetch, print, cut and buy, what to read ahead, and the order of the print run."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from typing import TYPE_CHECKING, Final, Literal

from dayleaf.plan.calendar import WEEKDAYS

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence

    from dayleaf.core.ids import LearnerId, LessonId, SkillId
    from dayleaf.course.model import Course, Day, Material

NeedKind = Literal["buy", "cut", "print", "fetch"]

FIRM_DAYS: Final = 3
"""So many learning days are printed for good; the backs of later ones still depend on what happens before."""
CARD: Final = "picture-card:"
CARDS: Final = "picture-cards"
IN_A_SLEEVE: Final = frozenset({"pv-mat", "part-whole-mat", "hundred-chart"})
"""Print-outs that are kept and used again; every other print-out is used up."""
WORDS_A_MINUTE: Final = 200
"""How fast an adult reads a guide (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class WeekLesson:
    """One lesson of one child on its day."""

    learner: LearnerId
    day: date
    lesson: Day


@dataclass(frozen=True, slots=True)
class Need:
    """One line of the prep list, for all children together.

    `first` is the first day it is needed, `days` all of them. `minutes` is what getting it ready takes. `together`
    says that two children need the one set on the same day. `what` tells picture cards apart.
    """

    kind: NeedKind
    material: Material
    what: str
    learners: tuple[LearnerId, ...]
    days: tuple[date, ...]
    minutes: int
    together: bool

    @property
    def first(self) -> date:
        """The first day on which it is needed."""
        return self.days[0]


@dataclass(frozen=True, slots=True)
class ReadAhead:
    """A guide worth reading before its day, and how long that takes."""

    learner: LearnerId
    day: date
    lesson: Day
    minutes: int


@dataclass(frozen=True, slots=True)
class Decision:
    """A lesson that is for its day only if what comes before it in the same week is firm."""

    learner: LearnerId
    day: date
    lesson: Day
    if_firm: SkillId
    taught_on: date


@dataclass(frozen=True, slots=True)
class PrintLine:
    """One lesson of the print run. A `firm` one is printed for good; one `printed` already is not printed again."""

    learner: LearnerId
    day: date
    lesson: LessonId
    firm: bool
    printed: bool
    sheets: int


@dataclass(frozen=True, slots=True)
class Week:
    """Everything about the days from `first` to `last`, both included."""

    first: date
    last: date
    lessons: tuple[WeekLesson, ...]
    prep: tuple[Need, ...]
    run: tuple[PrintLine, ...]
    read_ahead: tuple[ReadAhead, ...]
    decisions: tuple[Decision, ...]

    @property
    def minutes_ready(self) -> int:
        """What getting ready takes altogether, reading included."""
        return sum(one.minutes for one in self.prep) + sum(one.minutes for one in self.read_ahead)

    @property
    def days(self) -> tuple[date, ...]:
        """The days with lessons."""
        return tuple(sorted({one.day for one in self.lessons}))

    @property
    def cannot_wait(self) -> tuple[Need, ...]:
        """At most two needs that a week short of time begins with: to buy or to cut, then what most days use."""
        things = [one for one in self.prep if one.material.id != CARDS]
        ranked = sorted(things, key=lambda one: (one.kind not in ("buy", "cut"), -len(one.days), one.first))
        return tuple(ranked[:2])


def week_around(day: date, *, lesson_days: Collection[date] = (), first_weekday: int = 0) -> tuple[date, date]:
    """The first and last day of the week that holds `day`.

    Where it has no lessons from `day` on and the next week has some, it is the next: a Sunday evening looks forward.
    """
    first = day - timedelta(days=(day.weekday() - first_weekday) % 7)
    last = first + timedelta(days=6)
    ahead = any(day <= one <= last for one in lesson_days)
    following = any(last < one <= last + timedelta(days=7) for one in lesson_days)
    return (first, last) if ahead or not following else (first + timedelta(days=7), last + timedelta(days=7))


def prepare_week(
    course: Course,
    lessons: Iterable[WeekLesson],
    *,
    first: date,
    last: date,
    today: date,
    at_hand: Collection[str] = (),
    printed: Collection[tuple[LearnerId, LessonId]] = (),
    sheets: Mapping[tuple[LearnerId, LessonId], int] | None = None,
) -> Week:
    """The week of these lessons. `at_hand` names materials that are there already, `printed` lessons on paper.

    `sheets` says how many sheets a lesson has for a child; left out, as the course says. The three learning days
    from `today` on are firm; the print run leaves out what is past.
    """
    row = tuple(sorted((one for one in lessons if first <= one.day <= last), key=lambda one: one.day))
    firm = sorted({one.day for one in row if one.day >= today})[:FIRM_DAYS]
    counted = sheets or {}
    run = tuple(
        PrintLine(
            learner=one.learner,
            day=one.day,
            lesson=one.lesson.id,
            firm=one.day in firm,
            printed=(one.learner, one.lesson.id) in printed,
            sheets=counted.get((one.learner, one.lesson.id), 2 if one.lesson.second_sheet else 1),
        )
        for one in row
        if one.day >= today
    )
    return Week(
        first=first,
        last=last,
        lessons=row,
        prep=prep_list(row, course.materials, at_hand=at_hand),
        run=run,
        read_ahead=tuple(_read_ahead(row, course)),
        decisions=tuple(_decisions(row, course)),
    )


def prep_list(
    lessons: Iterable[WeekLesson], materials: Mapping[str, Material], *, at_hand: Collection[str]
) -> tuple[Need, ...]:
    """What the lessons need, over all children, each thing once: to buy, to cut, to print, to fetch.

    What is at hand is only fetched. Print-outs that are used up are printed each week anew.
    """
    wanted: dict[tuple[str, str], list[WeekLesson]] = {}
    for one in lessons:
        for name in (*one.lesson.materials, *one.lesson.print_outs):
            material, what = (CARDS, name.removeprefix(CARD)) if name.startswith(CARD) else (name, "")
            if material in materials:
                wanted.setdefault((material, what), []).append(one)
    needs = [_need(materials[name], what, uses, at_hand) for (name, what), uses in wanted.items()]
    order: tuple[NeedKind, ...] = ("buy", "cut", "print", "fetch")
    return tuple(sorted(needs, key=lambda one: (order.index(one.kind), one.first, one.material.title)))


def at_hand_before(lessons: Iterable[Day], materials: Mapping[str, Material]) -> frozenset[str]:
    """What earlier lessons have left in the house: bought, cut, kept in a sleeve; things of the home always are."""
    met = {name for day in lessons for name in (*day.materials, *day.print_outs)}
    kept = {
        name for name in met if name in materials and (materials[name].source != "print-out" or name in IN_A_SLEEVE)
    }
    return frozenset(kept | {name for name, material in materials.items() if material.source == "home"})


def weekday_name(day: date) -> str:
    """The weekday of a date."""
    return WEEKDAYS[day.weekday()]


def _need(material: Material, what: str, uses: Sequence[WeekLesson], at_hand: Collection[str]) -> Need:
    kinds: Mapping[str, NeedKind] = {"cut-out set": "cut", "print-out": "print", "buy": "buy", "home": "fetch"}
    kind: NeedKind = "fetch" if material.id in at_hand else kinds[material.source]
    days = [one.day for one in uses]
    learners = tuple(dict.fromkeys(one.learner for one in uses))
    together = any(len({one.learner for one in uses if one.day == day}) > 1 for day in set(days))
    minutes = 0 if kind == "fetch" and material.source != "home" else material.prep_minutes
    return Need(kind, material, what, learners, tuple(sorted(set(days))), minutes, together)


def _read_ahead(row: Sequence[WeekLesson], course: Course) -> Iterator[ReadAhead]:
    """For each child the longest guide among the lessons that bring something new."""
    for learner in dict.fromkeys(one.learner for one in row):
        new = [one for one in row if one.learner == learner and _brings(one.lesson, course) and one.lesson.guide]
        if new:
            longest = max(new, key=lambda one: _words(one.lesson))
            yield ReadAhead(
                learner, longest.day, longest.lesson, max(1, round(_words(longest.lesson) / WORDS_A_MINUTE))
            )


def _decisions(row: Sequence[WeekLesson], course: Course) -> Iterator[Decision]:
    """The last lesson of each child whose new skill stands on one that is new earlier in the same week."""
    for learner in dict.fromkeys(one.learner for one in row):
        own = [one for one in row if one.learner == learner]
        new = {skill: one.day for one in own for skill in one.lesson.new_skills}
        found = [
            Decision(learner, one.day, one.lesson, below, new[below])
            for one in own
            for skill in one.lesson.new_skills
            for below in course.skills[skill].prereqs
            if below in new and new[below] < one.day
        ]
        if found:
            yield max(found, key=lambda one: (one.day, one.taught_on))


def _brings(day: Day, course: Course) -> bool:
    return any(course.skills[skill].role == "core" for skill in day.new_skills if skill in course.skills)


def _words(day: Day) -> int:
    guide = day.guide
    if guide is None:
        return 0
    steps = " ".join(step.text for part in guide.parts for step in part.steps)
    return len(f"{guide.aim} {guide.before} {steps} {guide.watch}".split())
