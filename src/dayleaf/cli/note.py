"""`dayleaf note`: a person's own words on a day of the course, kept for the next child; sets of notes handed on."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from dayleaf.cli.options import home_option, household_in, today_at, today_option
from dayleaf.core.errors import BadInput, Problem
from dayleaf.records.coming import lesson_named
from dayleaf.records.courses import course_called
from dayleaf.records.lines import note_keep, notes_of, set_add, set_of

if TYPE_CHECKING:
    from datetime import date

FILE = click.Path(path_type=Path, dir_okay=False)


@click.command()
@click.argument("lesson", required=False)
@click.argument("text", required=False)
@click.option("--export", "out", type=FILE, help="Write all notes and family lines of a course to a new file.")
@click.option("--import", "into", type=FILE, help="Take in such a file; what is here stays.")
@click.option("--course", default="grade2", help="With --export and --import: which course.")
@home_option
@today_option
def verb(
    *,
    lesson: str | None,
    text: str | None,
    out: Path | None,
    into: Path | None,
    course: str,
    home: Path,
    today: date | None,
) -> None:
    """Keep the note TEXT on LESSON (as day-084), or read the notes on it, or all there are."""
    household = household_in(home)
    if out is not None or into is not None:
        whole = course_called(household, course)
        if out is not None:
            if out.exists():
                raise BadInput([Problem(str(out), "is there already; name a new file")])
            out.write_text(set_of(household, whole), encoding="utf-8")
            click.echo(f"The notes and lines of {whole.title} are in {out}.")
        if into is not None:
            if not into.is_file():
                raise BadInput([Problem(str(into), "there is no such file")])
            written = into.read_text(encoding="utf-8", errors="replace")
            notes, lines = set_add(household=household, course=whole, text=written, day=today_at(household, today))
            click.echo(f"New here: {notes} of its notes, {lines} of its lines.")
        return
    if text is not None and lesson is not None:
        kept = note_keep(household=household, lesson=lesson, text=text, day=today_at(household, today))
        click.echo(f"{kept.lesson}: {kept.text}")
        return
    for note in notes_of(household, lesson_named(lesson).id if lesson else None):
        click.echo(f"{note.lesson}  {note.day}  {note.text}")
