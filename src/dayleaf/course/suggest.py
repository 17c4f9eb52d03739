"""Which of our skills a line of somebody's outline teaches: text similarity, offline, with no trained model.

Every skill is told in several wordings: its title, what is said, the titles of the days that bring it, the words its
chapter teaches, and the wordings of the trade (`trade_words`). A line is held against each wording by the cosine of
their words, rare words counting more (term frequency times inverse document frequency: Salton and Buckley, 1988,
formula `ntc`); a word never met is read as the met word whose letters are most alike (Dice's coefficient of letter
triples). The chapter's own title counts as part of a line, and the lines of a chapter pull each other towards the
strand that they share.
"""

from __future__ import annotations

import math
from collections import Counter, defaultdict
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import TYPE_CHECKING, Final

from dayleaf.course.trade_words import trade_words, words_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from dayleaf.core.ids import SkillId
    from dayleaf.course.model import Course

SUGGESTED: Final = 3
ALIKE: Final = 0.55
"""Letters at least so alike (Dice, 0 to 1) make an unknown word a known one misspelt."""
BAG, CHAPTER, STRAND, KEPT = 0.35, 0.45, 0.22, 0.6
"""How much all wordings of a skill together count beside the nearest one, a line with its chapter beside the line
alone, the strand of the chapter's other lines, and what a line that says nothing takes from the one before."""
GRADE: Final = {"2": 0.02, "1": 0.012, "3": 0.0, "K": -0.02}
"""A nudge between skills that fit equally: this is a course for grade 2."""


@dataclass(frozen=True, slots=True)
class Suggestion:
    """A skill, and how well a line fits it: 0 not at all, 1 word by word."""

    skill: SkillId
    score: float


@dataclass(frozen=True, slots=True)
class Asked:
    """A line to find skills for: its title, and the title of its chapter ("" if it has none)."""

    title: str
    chapter: str = ""


@dataclass(frozen=True, slots=True)
class _Wordings:
    """All wordings of all skills as weights of words of length one, found by word; `rare` is a word's weight."""

    rare: Mapping[str, float]
    phrases: tuple[tuple[SkillId, Mapping[str, float]], ...]
    bags: Mapping[SkillId, Mapping[str, float]]
    by_word: Mapping[str, tuple[int, ...]]
    triples: Mapping[str, frozenset[str]]


def suggest(course: Course, lines: Sequence[Asked], *, n: int = SUGGESTED) -> tuple[tuple[Suggestion, ...], ...]:
    """The n most likely skills of every line, the likeliest first.

    The lines stand in the order of the outline. Every line gets n suggestions: one whose words say nothing takes
    those of the line before it in its chapter.
    """
    known = _wordings(tuple(_told(course)))
    alone = [_scores(known, line.title) for line in lines]
    scores = [
        _blended(own, _scores(known, f"{line.title} {line.chapter}")) if line.chapter else own
        for line, own in zip(lines, alone, strict=True)
    ]
    pulled = _pulled(course, lines, scores)
    found: list[tuple[Suggestion, ...]] = []
    for place, each in enumerate(pulled):
        same_chapter = place and lines[place - 1].chapter == lines[place].chapter
        if same_chapter and not any(alone[place].values()):
            for before in found[-1]:
                each[before.skill] = each.get(before.skill, 0.0) + KEPT * before.score
        nudged = {skill: each.get(skill, 0.0) + _nudge(course, skill) for skill in course.skills}
        ranked = sorted(nudged, key=lambda skill: (-nudged[skill], skill))
        found.append(tuple(Suggestion(skill, round(min(max(nudged[skill], 0.0), 1.0), 3)) for skill in ranked[:n]))
    return tuple(found)


def _nudge(course: Course, skill: SkillId) -> float:
    return GRADE.get(course.skills[skill].grade, 0.0)


def _told(course: Course) -> Iterable[tuple[SkillId, str]]:
    """Every wording of every skill: the trade's, its title, what is said of it, its days."""
    for skill in course.skills.values():
        yield skill.id, skill.title
        for phrase in trade_words().phrases.get(skill.id, ()):
            yield skill.id, phrase
    for day in course.days:
        if len(day.new_skills) == 1:
            yield day.new_skills[0], day.title


@cache
def _wordings(told: tuple[tuple[SkillId, str], ...]) -> _Wordings:
    split = [(skill, Counter(words_of(text))) for skill, text in told]
    split = [(skill, words) for skill, words in split if words]
    in_skills: dict[str, set[SkillId]] = defaultdict(set)
    for skill, words in split:
        for word in words:
            in_skills[word].add(skill)
    of = len({skill for skill, _ in split})
    rare = {word: math.log(1 + of / len(skills)) for word, skills in in_skills.items()}
    phrases = tuple((skill, _unit(words, rare)) for skill, words in split)
    all_words: dict[SkillId, Counter[str]] = defaultdict(Counter)
    by_word: dict[str, list[int]] = defaultdict(list)
    for place, (skill, words) in enumerate(split):
        all_words[skill].update(words)
        for word in words:
            by_word[word].append(place)
    bags = {
        skill: _unit({word: 1 + math.log(n) for word, n in words.items()}, rare) for skill, words in all_words.items()
    }
    triples = {word: _triples(word) for word in rare if len(word) > 3}
    return _Wordings(rare, phrases, bags, {word: tuple(places) for word, places in by_word.items()}, triples)


def _unit(words: Mapping[str, float], rare: Mapping[str, float]) -> dict[str, float]:
    weights = {word: n * rare[word] for word, n in words.items() if word in rare}
    long = math.sqrt(sum(weight * weight for weight in weights.values())) or 1.0
    return {word: weight / long for word, weight in weights.items()}


def _scores(known: _Wordings, text: str) -> dict[SkillId, float]:
    words = Counter(word for each in words_of(text) if (word := _met(known, each)))
    asked = _unit(words, known.rare)
    best: dict[SkillId, float] = {}
    for place in {place for word in asked for place in known.by_word.get(word, ())}:
        skill, phrase = known.phrases[place]
        alike = sum(weight * phrase.get(word, 0.0) for word, weight in asked.items())
        best[skill] = max(best.get(skill, 0.0), alike)
    bags = known.bags
    return {
        skill: (near + BAG * sum(weight * bags[skill].get(word, 0.0) for word, weight in asked.items())) / (1 + BAG)
        for skill, near in best.items()
    }


def _met(known: _Wordings, word: str) -> str:
    """The word if any wording has it, else the one whose letters are most alike, else nothing."""
    return word if word in known.rare else _nearest(word, tuple(known.triples.items()))


@lru_cache(maxsize=4096)
def _nearest(word: str, triples: tuple[tuple[str, frozenset[str]], ...]) -> str:
    own = _triples(word)
    if len(word) < 5 or not own:
        return ""
    score, nearest = max((2 * len(own & other) / (len(own) + len(other)), name) for name, other in triples)
    return nearest if score >= ALIKE else ""


def _triples(word: str) -> frozenset[str]:
    edged = f" {word} "
    return frozenset(edged[n : n + 3] for n in range(len(edged) - 2))


def _blended(own: Mapping[SkillId, float], with_chapter: Mapping[SkillId, float]) -> dict[SkillId, float]:
    skills = own.keys() | with_chapter.keys()
    return {skill: (1 - CHAPTER) * own.get(skill, 0.0) + CHAPTER * with_chapter.get(skill, 0.0) for skill in skills}


def _pulled(
    course: Course, lines: Sequence[Asked], scores: Sequence[Mapping[SkillId, float]]
) -> list[dict[SkillId, float]]:
    """The scores with each skill raised by how much the other lines of the chapter speak of its strand."""
    chapters: dict[str, list[int]] = defaultdict(list)
    for place, line in enumerate(lines):
        if line.chapter:
            chapters[line.chapter].append(place)
    strands = [_strands(course, each) for each in scores]
    pulled = [dict(each) for each in scores]
    for places in chapters.values():
        together: Counter[str] = Counter()
        for place in places:
            together.update(strands[place])
        others = len(places) - 1
        for place in places if others else ():
            for skill in pulled[place]:
                strand = course.skills[skill].strand
                share = (together[strand] - strands[place].get(strand, 0.0)) / others
                pulled[place][skill] += STRAND * share
    return pulled


def _strands(course: Course, scores: Mapping[SkillId, float]) -> dict[str, float]:
    """How strongly a line speaks of each strand: its best skill's score there."""
    best: dict[str, float] = {}
    for skill, score in scores.items():
        strand = course.skills[skill].strand
        best[strand] = max(best.get(strand, 0.0), score)
    return best
