"""`dayleaf check`: the course's shape and meaning, and with --items every answer key."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING

import click
from rich.console import Console
from rich.progress import track

from dayleaf.course.check import check_course
from dayleaf.course.load import read_course
from dayleaf.items.built import is_built
from dayleaf.items.draw import draw_items
from dayleaf.items.second import second_answer

if TYPE_CHECKING:
    from dayleaf.course.model import Course


@click.command()
@click.option("--content", type=click.Path(path_type=Path), help="Check another content folder.")
@click.option("--items", type=click.IntRange(min=0), default=0, help="Also make N items a skill and solve each twice.")
def verb(content: Path | None, items: int) -> None:
    """Check the course: shape, meaning, and with --items every answer key."""
    course, problems = read_course(content)
    if course is not None:
        problems = (*problems, *check_course(course))
    for problem in problems:
        click.echo(str(problem))
    if problems or course is None:
        click.echo(f"{len(problems)} problems.", err=True)
        sys.exit(2)
    click.echo(f"{len(course.skills)} skills and {len(course.days)} days, no problems.")
    if items:
        _solve_twice(course, items)


def _solve_twice(course: Course, count: int) -> None:
    built = [skill for skill in course.skills.values() if is_built(skill.id)]
    wrong = 0
    for skill in track(built, description="Solving twice", console=Console(stderr=True)):
        for item in draw_items(skill, n=count, seed=1):
            again = second_answer(item)
            if again != item.answer:
                wrong += 1
                click.echo(f"{item.key}: answer {item.answer}, computed {again}")
    click.echo(f"{len(built)} skills, {count} items each: {wrong} keys differ.")
    if wrong:
        sys.exit(2)
