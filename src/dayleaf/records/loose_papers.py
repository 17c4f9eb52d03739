"""Paper outside the plan: three short days with a skill, a placement, extra practice. Nothing is recorded.

The last few are kept at hand, so that guide, pages and key of one wish are set once.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta
from functools import lru_cache
from typing import TYPE_CHECKING

from dayleaf.core.errors import BadInput, Problem
from dayleaf.core.ids import FormatId, SkillId
from dayleaf.core.seeds import seed_from
from dayleaf.course.load import grade2
from dayleaf.learner.habits import named, odds_in
from dayleaf.learner.states import ground_of_course, number_skills
from dayleaf.learner.strip import strip_for
from dayleaf.packets.placement import ON_PAPER, placement_skills, print_placement
from dayleaf.packets.practice import MOST, Asked, formats_to_practise, print_practice
from dayleaf.packets.strip import print_strip
from dayleaf.records.habits import habits_before
from dayleaf.records.paper import child_of
from dayleaf.wording.languages import languages_of

if TYPE_CHECKING:
    from datetime import date

    from dayleaf.core.ids import ErrorWayId
    from dayleaf.packets.loose import Loose
    from dayleaf.packets.model import Child
    from dayleaf.packets.placement import PlacementPaper
    from dayleaf.packets.practice import Practice
    from dayleaf.records.models import Learner


@dataclass(frozen=True, slots=True)
class PracticeWish:
    """Extra practice asked for: skills, each with its format ("" for any), so many items each; `round` counts again."""

    skills: tuple[tuple[str, str], ...]
    each: int
    round: int = 0


def strip_paper(learner: Learner, skill: SkillId, *, today: date) -> Loose:
    """Three short days with a skill, against the habit that the marks of its strand show, if they show one.

    Raises:
        NotBuilt: no item of the skill can be made.
    """
    course = grade2()
    habits = habits_before(learner, today + timedelta(days=1))
    habit = named(odds_in(habits, course.skills[skill].strand)).habit
    return _strip(learner.id, child_of(learner), skill, habit)


def placement_paper(learner: Learner) -> PlacementPaper:
    """The placement of this child on paper: always the same one."""
    return _placement(learner.id, child_of(learner))


def practice_paper(learner: Learner, wish: PracticeWish) -> Practice:
    """Extra practice with its key. Raises `BadInput` with all problems of the wish."""
    course = grade2()
    problems = [] if wish.skills else [Problem("skills", "choose at least one")]
    for skill, name in wish.skills:
        can = formats_to_practise(course, SkillId(skill)) if skill in course.skills else ()
        if not can:
            problems.append(Problem("skills", f"nothing can be printed for {skill!r}"))
        elif name and name not in can:
            problems.append(Problem("format", f"{course.skills[SkillId(skill)].title} is not asked as {name!r}"))
        elif child_of(learner).look.lang not in languages_of(SkillId(skill)):
            problems.append(Problem("skills", f"{course.skills[SkillId(skill)].title} has no words in that language"))
    if not 1 <= wish.each <= MOST:
        problems.append(Problem("how many", f"a number from 1 to {MOST}"))
    if problems:
        raise BadInput(problems)
    return _practice(learner.id, child_of(learner), wish)


@lru_cache(maxsize=4)
def _strip(learner: str, child: Child, skill: SkillId, way: ErrorWayId | None) -> Loose:
    strip = strip_for(grade2(), grade2().skills[skill], way=way, seed=seed_from("strip", learner, 0))
    return print_strip(strip, child, id_parts=(learner, "strip", skill, 0))


@lru_cache(maxsize=2)
def _placement(learner: str, child: Child) -> PlacementPaper:
    course = grade2()
    ground = ground_of_course(course)
    places = {skill: float(day) for skill, day in zip(ground.graph.ids, ground.place, strict=True)}
    asked = placement_skills(course, places, skills=number_skills(course), lang=child.look.lang, n=ON_PAPER)
    return print_placement(course, asked, child, seed=seed_from("placement", learner))


@lru_cache(maxsize=4)
def _practice(learner: str, child: Child, wish: PracticeWish) -> Practice:
    course = grade2()
    asked = [
        Asked(
            course.skills[SkillId(skill)],
            (FormatId(name),) if name else formats_to_practise(course, SkillId(skill)),
            wish.each,
        )
        for skill, name in wish.skills
    ]
    seed = seed_from("practice", learner, wish.round, *(f"{skill} {name}" for skill, name in wish.skills))
    return print_practice(asked, child, seed=seed, id_parts=(learner, "practice", seed, wish.each))
