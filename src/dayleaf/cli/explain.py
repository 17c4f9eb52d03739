"""`dayleaf explain`: why answers are wrong, from the answers alone."""

from __future__ import annotations

import click

from dayleaf.cli.shapes import say_json, seen_shape
from dayleaf.cli.skills import find_skill
from dayleaf.course.load import grade2
from dayleaf.items.written import read_written
from dayleaf.learner.seen import explain
from dayleaf.learner.words import seen_sentences


@click.command()
@click.option("--skill", required=True, help="The skill that was asked.")
@click.option("--json", "as_json", is_flag=True, help="Print JSON.")
@click.argument("written", nargs=-1, required=True)
def verb(*, skill: str, written: tuple[str, ...], as_json: bool) -> None:
    """Say why answers are wrong: explain --skill sub-2digit-regroup "62-38=36" "71-47=36"."""
    known = find_skill(skill)
    seen = explain(grade2(), known, [read_written(known, text) for text in written])
    if as_json:
        say_json(seen_shape(seen))
        return
    click.echo(seen_sentences(seen))
