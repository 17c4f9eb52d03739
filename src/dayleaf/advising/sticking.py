"""Where a child sticks: a skill given again and again, a habit that stays, help that grows."""

from __future__ import annotations

from collections import Counter, defaultdict
from dataclasses import dataclass
from datetime import timedelta
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from datetime import date

    from dayleaf.advising.shared import MarkedSheet, SharedRecords

AGAIN: Final = "~again"
AGAIN_DAYS: Final = 5
"""Days beyond the planned ones; more than five calls for a talk (JOB 2.5, common practice)."""
LATELY: Final = timedelta(days=14)
EPISODE: Final = timedelta(days=45)

HABIT_SHEETS: Final = 20
"""Days with marks that are looked at."""
OWN: Final = 4
OWN_DAYS: Final = 3
OWN_SPAN: Final = timedelta(days=9)
OWN_SHARE: Final = 0.25
"""A habit's wrong answers among all answers to the skills where it shows."""
OF_WRONG: Final = 0.6
"""And among the wrong ones: slips fit one way or another, a habit explains most of what is wrong where it shows."""
OWN_IN_ONE: Final = 2
"""A skill counts from so many on: single answers in many skills are what slips leave."""

HELP_SHEETS: Final = 10
HELP_LEAST: Final = 0.25
HELP_TIMES: Final = 2.5
HELP_BEFORE: Final = 60


@dataclass(frozen=True, slots=True)
class Again:
    """A skill (or a lesson, where no skill is known) on its days; `extra` days are beyond those planned."""

    skill: str
    lesson: str
    days: tuple[date, ...]
    extra: int
    right: int
    of: int

    @property
    def times(self) -> float:
        """How many times over the line."""
        return self.extra / AGAIN_DAYS


@dataclass(frozen=True, slots=True)
class Habit:
    """An error way that keeps showing: `own` of `of` answers to these skills since `first`, on so many days."""

    way: str
    skills: tuple[str, ...]
    own: int
    of: int
    days: int
    first: date
    last: date
    taught_since: bool

    @property
    def times(self) -> float:
        """How many times over the line."""
        return max(1.0, min(self.own / OWN, self.days / OWN_DAYS) * 0.75)


@dataclass(frozen=True, slots=True)
class Help:
    """Helped answers lately and before, as shares."""

    now: float
    before: float
    helped: int
    of: int
    since: date

    @property
    def times(self) -> float:
        """How many times over the line."""
        return max(1.0, self.now / max(self.before * HELP_TIMES, HELP_LEAST))


def taught_again(shared: SharedRecords, as_of: date) -> Again | None:
    """The skill with most days beyond its planned ones, five or more, given again within the last two weeks.

    A lesson given on several days counts its days after the first; half a lesson counts as half a day, except that a
    lesson on more than five days beyond its first counts whatever was done of it.
    """
    if shared.progress is None:
        return None
    days: dict[str, dict[date, float]] = defaultdict(dict)
    skills: dict[str, set[str]] = defaultdict(set)
    for one in shared.progress.taught:
        if as_of - EPISODE <= one.day <= as_of and one.how_far != "not today":
            lesson = one.lesson.removesuffix(AGAIN)
            days[lesson][one.day] = 1.0 if one.how_far == "done" else 0.5
            skills[lesson].update(one.skills)
    extra: Counter[str] = Counter()
    on: dict[str, set[date]] = defaultdict(set)
    lessons: dict[str, str] = {}
    for lesson, found in days.items():
        beyond = sum(found.values()) - 1
        if len(found) > AGAIN_DAYS:
            beyond = max(beyond, len(found) - 1)
        for name in skills[lesson] or {f"lesson {lesson}"}:
            extra[name] += max(0, int(beyond))
            on[name].update(found)
            lessons[name] = lesson
    best = max(sorted(extra), key=lambda name: (extra[name], -len(on[name])), default=None)
    if best is None or extra[best] < AGAIN_DAYS or max(on[best]) < as_of - LATELY:
        return None
    first = min(on[best])
    counts = [sheet.skills[best] for sheet in shared.progress.marked if first <= sheet.day and best in sheet.skills]
    return Again(
        skill="" if best.startswith("lesson ") else best,
        lesson=lessons[best],
        days=tuple(sorted(on[best])),
        extra=extra[best],
        right=sum(one.right for one in counts),
        of=sum(one.of for one in counts),
    )


def habit_that_stays(shared: SharedRecords, as_of: date) -> Habit | None:
    """The error way with most wrong answers of its own among those that stay, None where none does.

    It stays when at least four answers on three days over ten days or more are its own (more where they lie in several
    skills), they are a quarter of all answers to the skills where it shows, and it shows in the later half of those
    days too.
    """
    if shared.progress is None:
        return None
    sheets = _last_days([sheet for sheet in shared.progress.marked if sheet.day <= as_of], HABIT_SHEETS)
    found = [habit for way in sorted(_ways(sheets)) if (habit := _stays(way, sheets, shared)) is not None]
    return max(found, key=lambda habit: (habit.own, habit.of), default=None)


def _stays(way: str, sheets: list[MarkedSheet], shared: SharedRecords) -> Habit | None:
    """The habit in the skills where it shows most: as many of them as together tell it from slips."""
    of_skill: Counter[str] = Counter()
    for sheet in sheets:
        of_skill.update({skill: one.ways[way] for skill, one in sheet.skills.items() if one.ways.get(way)})
    ranked = [(skill, many) for skill, many in of_skill.most_common() if many >= OWN_IN_ONE]
    tried = (_stays_in(Counter(dict(ranked[:many])), way, sheets, shared) for many in range(len(ranked), 0, -1))
    return next((habit for habit in tried if habit is not None), None)


def _stays_in(of_skill: Counter[str], way: str, sheets: list[MarkedSheet], shared: SharedRecords) -> Habit | None:
    shown = [
        sheet for sheet in sheets for skill in of_skill if skill in sheet.skills and sheet.skills[skill].ways.get(way)
    ]
    days = sorted({sheet.day for sheet in shown})
    own = of_skill.total()
    least = OWN if len(of_skill) == 1 else OWN_IN_ONE * len(of_skill) + 1
    if own < least or len(days) < OWN_DAYS or days[-1] - days[0] < OWN_SPAN:
        return None
    since = [sheet for sheet in sheets if sheet.day >= days[0]]
    asked = [(sheet, sheet.skills[skill]) for sheet in since for skill in of_skill if skill in sheet.skills]
    of = sum(one.of for _, one in asked)
    lately = {sheet.day for sheet, _ in asked}
    later = sorted(lately)[len(lately) // 2 :]
    in_later = sum(one.ways.get(way, 0) for sheet, one in asked if sheet.day in later)
    in_later_of = sum(one.of for sheet, one in asked if sheet.day in later)
    wrong = sum(one.of - one.right for _, one in asked)
    if own < OF_WRONG * wrong:
        return None
    if own < OWN_SHARE * of or in_later < max(2, OWN_SHARE * in_later_of):
        return None
    progress = shared.progress
    again = progress is not None and any(
        one.day > days[0] and set(one.skills) & set(of_skill) and one.how_far == "done" for one in progress.taught
    )
    skills = tuple(skill for skill, _ in of_skill.most_common())
    return Habit(way, skills, own, of, len(days), days[0], days[-1], taught_since=again)


def help_rising(shared: SharedRecords, as_of: date) -> Help | None:
    """Helped answers of the last ten days with marks against all earlier ones; None where they are not many more."""
    if shared.progress is None:
        return None
    sheets = [sheet for sheet in shared.progress.marked if sheet.day <= as_of]
    late = _last_days(sheets, HELP_SHEETS)
    if not late:
        return None
    since = min(sheet.day for sheet in late)
    helped, of = _helped(late)
    before, before_of = _helped([sheet for sheet in sheets if sheet.day < since])
    if before_of < HELP_BEFORE or of == 0:
        return None
    now, then = helped / of, before / before_of
    return Help(now, then, helped, of, since) if now >= max(HELP_LEAST, HELP_TIMES * then) else None


def _helped(sheets: list[MarkedSheet]) -> tuple[int, int]:
    counts = [one for sheet in sheets for one in sheet.skills.values()]
    return sum(one.helped for one in counts), sum(one.of for one in counts)


def _ways(sheets: list[MarkedSheet]) -> set[str]:
    return {way for sheet in sheets for one in sheet.skills.values() for way in one.ways}


def _last_days(sheets: list[MarkedSheet], many: int) -> list[MarkedSheet]:
    days = sorted({sheet.day for sheet in sheets})[-many:]
    return [sheet for sheet in sheets if days and sheet.day >= days[0]]
