"""The skill map: what leads to what, and the checks of each skill."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

import networkx as nx

from dayleaf.core.errors import Problem
from dayleaf.course.places import in_skill
from dayleaf.course.rules import RuleNotUnderstood, RuleTooWide, parse_rule

if TYPE_CHECKING:
    from collections.abc import Collection, Iterator

    from dayleaf.core.ids import SkillId
    from dayleaf.course.model import Course, Skill


def skill_graph(course: Course) -> nx.DiGraph[SkillId]:
    """Return the skills with an edge from each prerequisite to what it leads to."""
    graph: nx.DiGraph[SkillId] = nx.DiGraph()
    graph.add_nodes_from(course.skills)
    graph.add_edges_from(
        (before, skill.id) for skill in course.skills.values() for before in skill.prereqs if before in course.skills
    )
    return graph


def check_skills(course: Course) -> Iterator[Problem]:
    """Check each skill against what the course knows, and all of them for circles and for the codes to cover."""
    for skill in course.skills.values():
        yield from _check_links(course, skill)
        yield from _check_rule(course, skill)
        yield from _check_error_ways(course, skill)
    yield from _check_circles(course)
    yield from _check_covered(course)
    for way in course.error_ways.values():
        if way.goes_to is not None and way.goes_to not in course.skills:
            where = f"error_ways.toml: {way.id}.goes_to"
            yield Problem(
                where, f'"{way.goes_to}" is not a skill of the course; name one that mends this or leave it out'
            )


def _check_links(course: Course, skill: Skill) -> Iterator[Problem]:
    known: tuple[tuple[str, Collection[str], Collection[str], str], ...] = (
        ("prereqs", skill.prereqs, course.skills, "a skill of the course"),
        ("formats", skill.formats, course.formats, "a row of formats.toml"),
        ("pictures", skill.pictures, course.pictures, "a row of pictures.toml"),
        ("materials", skill.materials, course.materials, "a row of materials.toml"),
        ("codes", skill.codes, course.standards, "a row of standards.toml"),
        ("format_from_day", skill.format_from_day.keys(), skill.formats, "among this skill's formats"),
        ("format_from_day", skill.format_from_day.values(), {day.id for day in course.days}, "a day of the course"),
    )
    for field, named, there, what in known:
        for name in named:
            if name not in there:
                yield in_skill(course, skill, field, f'"{name}" is not {what}; mend the name or add it there')
        yield from _check_twice(course, skill, field, named)
    if skill.strand not in course.strands:
        yield in_skill(
            course, skill, "folder", f'"{skill.strand}" is not a strand; name it in course.toml or move the file'
        )
    if not skill.formats:
        yield in_skill(course, skill, "formats", "is empty; name at least one way to ask")
    if skill.id in skill.prereqs:
        yield in_skill(course, skill, "prereqs", "names the skill itself; take it out")
    if skill.fit == "exact" and not skill.codes:
        yield in_skill(course, skill, "fit", 'is "exact" but there is no code to fit; name the code or write "none"')


def _check_twice(course: Course, skill: Skill, field: str, named: Collection[str]) -> Iterator[Problem]:
    if field == "format_from_day":
        return
    for name, times in Counter(named).items():
        if times > 1:
            yield in_skill(course, skill, field, f'names "{name}" {times} times; keep one')


def _check_rule(course: Course, skill: Skill) -> Iterator[Problem]:
    if skill.item_rule is None:
        return
    try:
        count = parse_rule(skill.item_rule).count()
    except (RuleNotUnderstood, RuleTooWide) as error:
        yield in_skill(course, skill, "item_rule", str(error))
        return
    if count != skill.distinct_items:
        message = f"is {skill.distinct_items}, but the rule allows {count}; write {count} or mend the rule"
        yield in_skill(course, skill, "distinct_items", message)


def _check_error_ways(course: Course, skill: Skill) -> Iterator[Problem]:
    for n, note in enumerate(skill.error_ways, start=1):
        if note.id not in course.error_ways:
            message = f'"{note.id}" has no row in error_ways.toml; add one with its phrase and what to try next'
            yield in_skill(course, skill, f"error_ways[{n}].id", message)
    yield from _check_twice(course, skill, "error_ways", [note.id for note in skill.error_ways])


def _check_circles(course: Course) -> Iterator[Problem]:
    for knot in nx.strongly_connected_components(skill_graph(course)):
        if len(knot) > 1:
            first = min(knot)
            message = f"leads in a circle through {', '.join(sorted(knot))}; take one of these links out"
            yield in_skill(course, course.skills[first], "prereqs", message)


def _check_covered(course: Course) -> Iterator[Problem]:
    """Every code of the grade that the course says it covers is the work of at least one core skill."""
    if not course.covers:
        return
    taught = {code for skill in course.skills.values() if skill.role == "core" for code in skill.codes}
    for code in course.standards:
        if code.startswith(f"{course.covers}.") and not any(
            each == code or _is_point_of(each, code) for each in taught
        ):
            where = f"{course.id}/course.toml: covers"
            message = f"no core skill has the code {code}; add it to the skill that teaches it"
            yield Problem(where, message)


def _is_point_of(code: str, whole: str) -> bool:
    """Say whether the first is a lettered point of the second: 2.NBT.A.1a of 2.NBT.A.1."""
    return code[:-1] == whole and code[-1:].isalpha()
