"""A placement as a map and a start: what is firm, shaky or not yet, where to begin, what other starts would cost."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, Literal

from dayleaf.learner.placement import costs_of_starts, expected_at
from dayleaf.learner.words import count_word

if TYPE_CHECKING:
    from collections.abc import Collection, Sequence

    from dayleaf.core.ids import SkillId
    from dayleaf.course.model import Course, Day
    from dayleaf.learner.placement import Placed
    from dayleaf.learner.states import Ground

Word = Literal["firm", "shaky", "not yet"]

FIRM, NOT_YET = 0.8, 0.3
"""P(known) from which a skill is called firm, and under which it is not yet there; shaky between them."""
SOME_RUST: Final = 0.35
"""A known skill whose share of rust is larger is shaky: a fifth is taken for granted, one wrong answer shows more."""
NEARBY: Final = 10
"""Lessons earlier and later at which other starts are priced."""


@dataclass(frozen=True, slots=True)
class MapEntry:
    """One skill of the map, with the probability that it is known, and its answers if it was asked."""

    skill: SkillId
    title: str
    strand: str
    word: Word
    p: float
    asked: tuple[bool, ...]


@dataclass(frozen=True, slots=True)
class PossibleStart:
    """A day to begin with, and what is expected of the mapped skills: known ones begun again, unknown ones left out."""

    day: Day
    again: float
    left_out: float
    sentence: str


@dataclass(frozen=True, slots=True)
class PlacementMap:
    """The map, skill by skill; the start with its reasons; the possible starts, the one advised among them."""

    entries: tuple[MapEntry, ...]
    start: Day | None
    reasons: tuple[str, ...]
    starts: tuple[PossibleStart, ...]


def placement_map(
    course: Course,
    ground: Ground,
    placed: Placed,
    answers: Sequence[tuple[SkillId, bool]],
    *,
    skills: Collection[SkillId],
) -> PlacementMap:
    """The map of these skills and the start, in the course's own order.

    The parent may begin on any other day; the sentences say what that would cost. A start is never before the first
    day or after the last.
    """
    entries = tuple(
        MapEntry(
            skill=skill.id,
            title=skill.title,
            strand=course.strands[skill.strand],
            word=_word(placed.known[skill.id], placed.rusty[skill.id]),
            p=placed.known[skill.id],
            asked=tuple(right for asked, right in answers if asked == skill.id),
        )
        for skill in course.skills.values()
        if skill.id in skills and skill.id in placed.known
    )
    days = {float(day.number): day for day in course.days}
    start = days.get(placed.start) if placed.start is not None else None
    if start is None:
        return PlacementMap(entries, None, (), ())
    return PlacementMap(
        entries, start, _reasons(start, _by_day(entries, ground)), _starts(days, ground, placed, start, skills)
    )


def _word(p: float, rusty: float) -> Word:
    if p >= FIRM and rusty <= SOME_RUST * p:
        return "firm"
    return "not yet" if p < NOT_YET else "shaky"


def _reasons(start: Day, entries: Sequence[MapEntry]) -> tuple[str, ...]:
    """The start, and the asked skills that speak for it: the last ones that are there, the first ones that are not."""
    said = [f"Begin with day {start.number}, “{start.title}”."]
    right = [entry.title for entry in entries if entry.asked and all(entry.asked)]
    open_yet = [entry.title for entry in entries if entry.asked and not any(entry.asked)]
    if right:
        said.append(f"Asked and there: {_listed(right[-3:])}.")
    if open_yet:
        said.append(f"Asked and not yet there: {_listed(open_yet[:3])}.")
    shaky = [entry.title for entry in entries if entry.word == "shaky"]
    if shaky:
        said.append(f"Warm up on the way: {_listed(shaky[:3])}.")
    return tuple(said)


def _by_day(entries: Sequence[MapEntry], ground: Ground) -> list[MapEntry]:
    """The entries in the order in which the plan brings their skills."""
    return sorted(entries, key=lambda entry: (ground.place[ground.graph.number[entry.skill]], entry.skill))


def _listed(titles: Sequence[str]) -> str:
    quoted = [f"“{title}”" for title in titles]
    return quoted[0] if len(quoted) == 1 else ", ".join(quoted[:-1]) + f" and {quoted[-1]}"


def _starts(
    days: dict[float, Day], ground: Ground, placed: Placed, start: Day, skills: Collection[SkillId]
) -> tuple[PossibleStart, ...]:
    known = sorted(costs_of_starts(ground, placed.known))
    here = known.index(float(start.number))
    chosen = sorted({known[max(0, here - NEARBY)], known[here], known[min(len(known) - 1, here + NEARBY)]})
    found = []
    for day in chosen:
        again, left_out = expected_at(ground, placed.known, day, of=skills)
        found.append(PossibleStart(days[day], again, left_out, _cost(days[day], again, left_out)))
    return tuple(found)


def _cost(day: Day, again: float, left_out: float) -> str:
    return (
        f"Day {day.number}: {_about(again)} known by now would come again, "
        f"and {_about(left_out)} not known yet would be left out."
    )


def _about(n: float) -> str:
    whole = round(n)
    if whole == 0:
        return "hardly any skill"
    return f"about {count_word(whole)} {'skill' if whole == 1 else 'skills'}"
