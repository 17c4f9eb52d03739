"""Every chapter test held to its promise: forms alike in make, apart in items, with keys that a second solver gets."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from itertools import combinations
from typing import TYPE_CHECKING, Final

from dayleaf.core.errors import DayleafError, Problem
from dayleaf.course.places import in_day
from dayleaf.items.domain import domain_of
from dayleaf.items.face import face, same_numbers
from dayleaf.items.second import second_answer
from dayleaf.packets.blueprint import MANY, MOST_MINUTES, blueprint_of
from dayleaf.packets.features import features_of
from dayleaf.packets.forms import form_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from dayleaf.course.model import Course, Day
    from dayleaf.items.model import Item
    from dayleaf.packets.blueprint import Blueprint
    from dayleaf.packets.forms import Form

SKILLS: Final = (5, 8)
"""A test has so many skills (JOB 1.11)."""


@dataclass(frozen=True, slots=True)
class Checked:
    """How many tests and items were looked at, and what is not as it must be."""

    tests: int
    items: int
    problems: tuple[Problem, ...]


NOTHING_CHECKED: Final = Checked(0, 0, ())


def check_tests(course: Course, *, seeds: Iterable[int] = (1,), forms: str = "AB") -> Checked:
    """Look at every chapter test of the course, in these forms, by these seeds."""
    days = [day for day in course.days if day.kind == "test"]
    seeds = tuple(seeds)
    items = 0
    problems: list[Problem] = []
    for day in days:
        try:
            blueprint = blueprint_of(course, day)
        except DayleafError as stopped:
            problems.append(in_day(course, day, "skills.front", str(stopped)))
            continue
        problems += _of_blueprint(course, day, blueprint)
        for seed in seeds:
            made = [form_of(blueprint, letter, seed=seed) for letter in forms]
            items += sum(len(form.items) for form in made)
            problems += _of_forms(course, day, made)
    return Checked(len(days), items, tuple(problems))


def _of_blueprint(course: Course, day: Day, blueprint: Blueprint) -> Iterator[Problem]:
    if not SKILLS[0] <= len(blueprint.skills) <= SKILLS[1]:
        yield in_day(course, day, "skills.front", f"has {len(blueprint.skills)} skills; a test has five to eight")
    if blueprint.minutes > MOST_MINUTES:
        yield in_day(
            course, day, "skills.front", f"asks for about {blueprint.minutes:.0f} minutes; {MOST_MINUTES:.0f} at most"
        )
    lessons = [one for one in course.days if one.chapter == day.chapter and one.kind == "lesson"]
    for skill in lessons[-1].new_skills if lessons else ():
        if skill in day.front_skills:
            yield in_day(
                course, day, "skills.front", f'has "{skill}", which only the last lesson brought; leave it out'
            )


def _of_forms(course: Course, day: Day, forms: Sequence[Form]) -> Iterator[Problem]:
    for form in forms:
        for item in form.items:
            if message := _wrong_with(course, item):
                yield in_day(course, day, f"form {form.letter}", f"{item.key}: {message}")
    for one, other in combinations(forms, 2):
        where = f"forms {one.letter} and {other.letter}, seed {one.seed}"
        if _made_of(course, one) != _made_of(course, other):
            yield in_day(course, day, where, "differ in the make of their items")
        for skill in [plan.skill for plan in one.blueprint.skills if (plan.skill.distinct_items or 0) >= MANY]:
            both = _names(skill.id, one.items) & _names(skill.id, other.items)
            if both:
                yield in_day(course, day, where, f"share {', '.join(sorted(both))}, though {skill.id} has enough items")


def _wrong_with(course: Course, item: Item) -> str:
    if not domain_of(course.skills[item.skill]).holds(item.numbers):
        return "the rule does not allow it"
    try:
        again = second_answer(item)
    except (DayleafError, LookupError, ValueError, ArithmeticError) as stopped:  # whatever stops it is a finding
        return f"answer {item.answer}, not computed: {stopped}"
    return "" if again == item.answer else f"answer {item.answer}, computed {again}"


def _made_of(course: Course, form: Form) -> Counter[object]:
    return Counter(features_of(course.skills[item.skill], item) for item in form.items)


def _names(skill: str, items: Iterable[Item]) -> set[str]:
    """What two forms may not both have: the same numbers, or the same face."""
    mine = [item for item in items if item.skill == skill]
    return {same_numbers(item.skill, item.numbers) for item in mine} | {face(item) for item in mine}
