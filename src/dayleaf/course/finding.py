"""Where something stands in a course: days, skills, taught words and stories by the words that people use for them.

*Borrowing* finds what our course calls *open a ten*: a query and everything that is searched are told in the plain
words of `trade_words` first. A query also finds whatever holds it letter by letter.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Generic, TypeVar

from dayleaf.course.trade_words import trade_words, words_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from dayleaf.core.ids import SkillId
    from dayleaf.course.model import Chapter, Course, Day, Skill

Thing = TypeVar("Thing")

IN_TITLE = 3
"""A word in a title counts so many times one that stands elsewhere."""


@dataclass(frozen=True, slots=True)
class Place(Generic[Thing]):
    """One thing that can be found: its title in plain words, all its words, and all its letters."""

    thing: Thing
    title: frozenset[str]
    words: frozenset[str]
    letters: str


@dataclass(frozen=True, slots=True)
class Index:
    """A course made ready to be searched."""

    days: tuple[Place[Day], ...]
    skills: tuple[Place[Skill], ...]
    words: tuple[Place[tuple[str, Chapter]], ...]
    stories: tuple[Place[Chapter], ...]


@dataclass(frozen=True, slots=True)
class Found:
    """What a query found, best first; days in the order of the course. `words` are taught words with their chapter."""

    days: tuple[Day, ...]
    skills: tuple[Skill, ...]
    words: tuple[tuple[str, Chapter], ...]
    stories: tuple[Chapter, ...]

    @property
    def nothing(self) -> bool:
        """Whether nothing was found at all."""
        return not (self.days or self.skills or self.words or self.stories)


def index_of(course: Course) -> Index:
    """Make a course ready to be searched."""
    return Index(
        days=tuple(_place(day, day.title, (day.how, *_taught_on(course, day))) for day in course.days),
        skills=tuple(_place(one, one.title, _said_of(one)) for one in course.skills.values()),
        words=tuple(_place((word, chapter), word, ()) for chapter in course.chapters for word in chapter.words_taught),
        stories=tuple(
            _place(chapter, chapter.story, course.stories[chapter.number].paragraphs)
            for chapter in course.chapters
            if chapter.number in course.stories
        ),
    )


def find(index: Index, query: str, *, most: int = 12) -> Found:
    """What holds every word of a query, or the query as it stands; at most `most` of a kind."""
    letters = " ".join(query.casefold().split())
    if not letters:
        return Found((), (), (), ())
    wanted = frozenset(words_of(query))
    days = _best(index.days, wanted, letters, most)
    return Found(
        days=tuple(sorted(days, key=lambda day: day.number)),
        skills=_best(index.skills, wanted, letters, most),
        words=_best(index.words, wanted, letters, most),
        stories=_best(index.stories, frozenset(), letters, most),
    )


def days_of_skill(course: Course, skill: SkillId) -> tuple[tuple[str, tuple[Day, ...]], ...]:
    """The days that teach a skill, practise it on their front, and test it; kinds without days are left out."""
    taught = [day for day in course.days if skill in day.new_skills]
    tested = [day for day in course.days if day.kind == "test" and skill in day.front_skills]
    practised = [day for day in course.days if skill in day.front_skills and day not in taught and day not in tested]
    kinds = (("taught", taught), ("practised", practised), ("tested", tested))
    return tuple((name, tuple(days)) for name, days in kinds if days)


def _place(thing: Thing, title: str, more: Iterable[str]) -> Place[Thing]:
    texts = tuple(more)
    in_title = frozenset(words_of(title))
    others = frozenset(word for text in texts for word in words_of(text))
    return Place(thing, in_title, in_title | others, " ".join((title, *texts)).casefold())


def _taught_on(course: Course, day: Day) -> Iterator[str]:
    for skill in day.new_skills:
        yield course.skills[skill].title
        yield from trade_words().phrases.get(skill, ())


def _said_of(skill: Skill) -> Iterator[str]:
    yield from (skill.say, skill.ask, *trade_words().phrases.get(skill.id, ()))


def _best(places: Iterable[Place[Thing]], wanted: frozenset[str], letters: str, most: int) -> tuple[Thing, ...]:
    scored = []
    for place in places:
        whole = bool(wanted) and wanted <= place.words
        literal = letters in place.letters
        if whole or literal:
            scored.append((IN_TITLE * len(wanted & place.title) + whole + literal, place.thing))
    scored.sort(key=lambda pair: -pair[0])
    return tuple(thing for _, thing in scored[:most])
