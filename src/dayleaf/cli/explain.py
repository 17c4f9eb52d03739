"""`dayleaf explain`: why answers are wrong, from the answers alone."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from dayleaf.cli.shapes import say_json, seen_shape
from dayleaf.cli.skills import find_skill
from dayleaf.core.errors import BadInput, Problem
from dayleaf.course.load import grade2
from dayleaf.items.written import NotAnItem, read_written
from dayleaf.learner.seen import explain
from dayleaf.learner.words import seen_sentences

if TYPE_CHECKING:
    from dayleaf.course.model import Skill
    from dayleaf.items.model import Item


@click.command()
@click.option("--skill", required=True, help="The skill that was asked.")
@click.option("--json", "as_json", is_flag=True, help="Print JSON.")
@click.argument("written", nargs=-1, required=True)
def verb(*, skill: str, written: tuple[str, ...], as_json: bool) -> None:
    """Say why answers are wrong: explain --skill sub-2digit-regroup "62-38=36" "71-47=36"."""
    known = find_skill(skill)
    seen = explain(grade2(), known, _all_read(known, written))
    if as_json:
        say_json(seen_shape(seen))
        return
    click.echo(seen_sentences(seen))


def _all_read(skill: Skill, written: tuple[str, ...]) -> list[tuple[Item, str]]:
    """Every problem with its answer; raises BadInput naming all that cannot be read."""
    read: list[tuple[Item, str]] = []
    problems: list[Problem] = []
    for text in written:
        try:
            read.append(read_written(skill, text))
        except NotAnItem as misread:
            problems.append(Problem(f"“{text}”", misread.why))
    if problems:
        raise BadInput(problems)
    return read
