"""Where a child stands, skill by skill and chapter by chapter: the word, what it rests on, what comes next."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, Literal

from dayleaf.records import selectors
from dayleaf.records.beliefs import year_plan
from dayleaf.records.coming import ahead_kept, coming_lesson

if TYPE_CHECKING:
    from collections.abc import Mapping
    from datetime import date

    from dayleaf.core.ids import SkillId
    from dayleaf.course.model import Course
    from dayleaf.learner.belief import Beliefs, Known
    from dayleaf.learner.known import Word
    from dayleaf.records.models import Learner

ORDER: Final[tuple[Word, ...]] = ("shaky", "rusty", "new", "firm", "not yet")
"""What wants a look first stands first."""

Next = Literal["comes back", "three days", "will come back", "more practice", "nothing", "waits"]


@dataclass(frozen=True, slots=True)
class SkillStanding:
    """One skill today. `then` says what comes next, `on` the day where that is known."""

    skill: SkillId
    title: str
    known: Known
    then: Next
    on: date | None = None


@dataclass(frozen=True, slots=True)
class ChapterStanding:
    """One chapter: how many of its skills have which word, in `ORDER`; `here` is the chapter of the next lesson."""

    number: int
    title: str
    words: tuple[tuple[Word, int], ...]
    here: bool


@dataclass(frozen=True, slots=True)
class Standing:
    """All of it: the chapters in order, and the skills met so far by strand, what wants a look first."""

    chapters: tuple[ChapterStanding, ...]
    strands: tuple[tuple[str, tuple[SkillStanding, ...]], ...]
    waiting: int


def standing_of(learner: Learner, beliefs: Beliefs, course: Course, *, today: date) -> Standing:
    """Where a child stands today, from what was kept; nothing is written."""
    known = beliefs.known_all(today)
    coming = _coming(learner, today)
    strands: dict[str, list[SkillStanding]] = {}
    for skill, one in known.items():
        if one.word != "not yet":
            then, on = _next(one, coming.get(skill))
            found = SkillStanding(skill, course.skills[skill].title, one, then, on)
            strands.setdefault(course.skills[skill].strand, []).append(found)
    return Standing(
        chapters=_chapters(learner, course, known, today),
        strands=tuple(
            (title, tuple(sorted(strands[code], key=lambda one: ORDER.index(one.known.word))))
            for code, title in course.strands.items()
            if code in strands
        ),
        waiting=sum(one.word == "not yet" for one in known.values()),
    )


def _coming(learner: Learner, today: date) -> Mapping[SkillId, date]:
    """The skills that come back with the next lesson, where that was worked out."""
    if selectors.plan_version_or_none(learner) is None:
        return {}
    lesson = coming_lesson(learner, after=today)
    ahead = None if lesson is None else ahead_kept(learner, lesson, today=today)
    return {} if ahead is None else {back.skill: ahead.on for back in ahead.backs}


def _next(known: Known, on: date | None) -> tuple[Next, date | None]:
    if on is not None:
        return "comes back", on
    then: Mapping[Word, Next] = {
        "shaky": "three days",
        "rusty": "will come back",
        "new": "more practice",
        "firm": "nothing",
        "not yet": "waits",
    }
    return then[known.word], None


def _chapters(
    learner: Learner, course: Course, known: Mapping[SkillId, Known], today: date
) -> tuple[ChapterStanding, ...]:
    here = _here(learner, course, today)
    found = []
    for chapter in course.chapters:
        days = [day for day in course.days if day.chapter == chapter.number]
        skills = dict.fromkeys(skill for day in days for skill in day.new_skills if skill in known)
        words = Counter(known[skill].word for skill in skills)
        counted = tuple((word, words[word]) for word in ORDER if words[word])
        found.append(ChapterStanding(chapter.number, chapter.title, counted, chapter.number == here))
    return tuple(found)


def _here(learner: Learner, course: Course, today: date) -> int | None:
    """The chapter of the first lesson planned from today on."""
    if selectors.plan_version_or_none(learner) is None:
        return None
    chapters = {day.id: day.chapter for day in course.days}
    ahead = (chapters.get(one.lesson) for one in year_plan(learner).placed if one.day >= today)
    return next((one for one in ahead if one is not None), None)
