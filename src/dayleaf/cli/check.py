"""`dayleaf check`: the course's shape and meaning, and with --items every answer key and picture."""

from __future__ import annotations

import sys
from pathlib import Path
from time import perf_counter
from typing import TYPE_CHECKING

import click
from rich.console import Console
from rich.progress import track

from dayleaf.cli.key_check import KINDS, Findings, check_skill
from dayleaf.cli.shapes import say_json
from dayleaf.course.check import check_course
from dayleaf.course.load import read_course
from dayleaf.items.built import is_built
from dayleaf.packets.form_check import NOTHING_CHECKED, check_tests
from dayleaf.packets.printables import check_things

if TYPE_CHECKING:
    from collections.abc import Sequence

    from dayleaf.core.errors import Problem
    from dayleaf.course.model import Course


@click.command()
@click.option("--content", type=click.Path(path_type=Path), help="Check another content folder.")
@click.option("--items", type=click.IntRange(min=0), default=0, help="Also make N items a skill and solve each twice.")
@click.option("--json", "as_json", is_flag=True, help="Print JSON.")
def verb(content: Path | None, items: int, *, as_json: bool) -> None:
    """Check the course: shape, meaning, and with --items every answer key and every picture.

    Each item is solved a second time by separate code and held against its rule; each picture must have words that
    carry its data and not the answer, and must be one that can be drawn. Forms A and B of every chapter test are made
    and held against each other.
    """
    course, problems = read_course(content)
    if course is not None:
        problems = (*problems, *check_course(course), *check_things(course))
    tests = check_tests(course) if course is not None and not problems else NOTHING_CHECKED
    problems = (*problems, *tests.problems)
    if problems or course is None:
        if as_json:
            say_json({"problems": _listed(problems)})
        for problem in () if as_json else problems:
            click.echo(str(problem))
        click.echo(f"{len(problems)} problems.", err=True)
        sys.exit(2)
    if not as_json:
        click.echo(f"{len(course.skills)} skills and {len(course.days)} days, no problems.")
        click.echo(
            f"{tests.tests} chapter tests in forms A and B, {tests.items} items: alike in make, every key solved twice."
        )
    if items:
        _look_at_items(course, items, as_json=as_json)
    elif as_json:
        counts = {
            "skills": len(course.skills),
            "days": len(course.days),
            "tests": tests.tests,
            "test_items": tests.items,
        }
        say_json({**counts, "problems": []})


def _look_at_items(course: Course, count: int, *, as_json: bool) -> None:
    built = [skill for skill in course.skills.values() if is_built(skill.id)]
    found = Findings()
    start = perf_counter()
    for skill in track(built, description="Items solved twice", console=Console(stderr=True)):
        check_skill(skill, count, found)
    seconds = perf_counter() - start
    if as_json:
        counts = {kind.replace(" ", "_"): found.counts[kind] for kind in KINDS}
        say_json({
            "skills": len(built), "items": found.items, "pictures": found.pictures, **counts,
            "seconds": round(seconds, 1), "problems": _listed(found.problems),
        })  # fmt: skip
    else:
        _say(found, skills=len(built), count=count, seconds=seconds)
    if found.counts:
        sys.exit(2)


def _say(found: Findings, *, skills: int, count: int, seconds: float) -> None:
    for problem in found.problems:
        click.echo(str(problem))
    more = sum(found.counts.values()) - len(found.problems)
    if more:
        click.echo(f"… and {more:,} more.")
    click.echo(f"{skills} skills, {count:,} items each: {found.items:,} items, {found.pictures:,} pictures drawn.")
    click.echo(", ".join(f"{found.counts[kind]:,} {kind}" for kind in KINDS) + f"; {seconds:.0f} s.")


def _listed(problems: Sequence[Problem]) -> list[dict[str, str]]:
    return [{"where": problem.where, "message": problem.message} for problem in problems]
