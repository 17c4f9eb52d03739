"""`dayleaf line`: a line of the family's own, a verse or a saying, in Open or Close of a day or of a chapter."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from dayleaf.cli.options import home_option, household_in
from dayleaf.records.lines import line_set, lines_of

if TYPE_CHECKING:
    from pathlib import Path


@click.command()
@click.argument("text", required=False)
@click.option("--lesson", default="", help="The day that it belongs to, as day-084.")
@click.option("--chapter", type=int, default=0, help="Or the chapter: then it stands in every lesson of it.")
@click.option("--course", default="grade2", help="With --chapter: of which course.")
@click.option("--close", is_flag=True, help="In Close; left out, in Open.")
@click.option("--remove", is_flag=True, help="Take the line of that place away.")
@home_option
def verb(*, text: str | None, lesson: str, chapter: int, course: str, close: bool, remove: bool, home: Path) -> None:
    """Keep TEXT as the family's line of a day or a chapter; without TEXT all lines are listed.

    It prints in the guides made from then on; a day that is on paper already comes out new with `--fresh`.
    """
    household = household_in(home)
    if text is None and not remove:
        for line in lines_of(household):
            place = line.lesson or f"{line.course}, chapter {line.chapter}"
            click.echo(f"{place}, {line.part}: {line.text}")
        return
    part = "close" if close else "open"
    words = "" if remove else text or ""
    kept = line_set(household=household, text=words, part=part, lesson=lesson, chapter=chapter, course=course)
    click.echo(f"{lesson or f'chapter {chapter}'}, {part}: {kept.text if kept else 'no line'}")
