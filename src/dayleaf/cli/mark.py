"""`dayleaf mark`: a sheet marked by exception, or from its photos."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from dayleaf.cli import photo as photo_words
from dayleaf.cli.options import home_option, household_in, today_at, today_option
from dayleaf.cli.result import result_lines, result_shape
from dayleaf.cli.shapes import say_json, seen_shape
from dayleaf.records import desk, selectors
from dayleaf.records.courses import course_with
from dayleaf.records.results import test_result

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date
    from pathlib import Path

    from dayleaf.records.models import Household
    from dayleaf.records.results import TestResult


@click.command()
@click.argument("sheet", nargs=-1, required=True, metavar="SHEET | FILES...")
@click.option("--photo", is_flag=True, help="Mark from FILES, the photos or scans of filled in sheets.")
@click.option("--settle", default="", help='With --photo, what you see where it asks: "3.1.0=4,11=right".')
@click.option("--right-except", default="", help='What was written where it was wrong: "3=36,7=66".')
@click.option("--reached", type=int, help="The last item the child came to.")
@click.option("--helped", default="", help='Items done with help: "4,5".')
@click.option("--blank", default="", help='Items left empty: "9".')
@click.option("--json", "as_json", is_flag=True, help="Print JSON.")
@home_option
@today_option
def verb(
    *,
    sheet: tuple[str, ...],
    photo: bool,
    settle: str,
    right_except: str,
    reached: int | None,
    helped: str,
    blank: str,
    as_json: bool,
    home: Path,
    today: date | None,
) -> None:
    """Mark SHEET (its seven signs): all right except what you name. Marking again corrects.

    With --photo, FILES are read instead: what is sure is marked, what is not is asked about, and nothing is written
    down for a sheet before all of it is settled.
    """
    household = household_in(home)
    day = today_at(household, today)
    if photo:
        if right_except or blank:
            raise click.UsageError("With --photo, say what you see with --settle.")
        _from_photos(household, sheet, settle=settle, day=day, helped=helped, reached=reached, as_json=as_json)
        return
    if len(sheet) > 1:
        raise click.UsageError("Name one sheet; photos are named after --photo.")
    marking = desk.sheet_mark(
        selectors.sheet_find(household, sheet[0]),
        today=day,
        right_except=right_except,
        reached=reached,
        helped=helped,
        blank=blank,
    )
    result = _result_of(household, marking)
    if as_json:
        say_json({**_shape(marking), **({"test": result_shape(result)} if result else {})})
        return
    _say(marking)
    for line in result_lines(result) if result else ():
        click.echo(line)


def _result_of(household: Household, marking: desk.Marking) -> TestResult | None:
    """What the chapter test says now, where the marked sheet is one of it."""
    course = course_with(household, marking.sheet.lesson)
    day = next((day for day in course.days if day.id == marking.sheet.lesson and day.kind == "test"), None)
    return test_result(household, marking.sheet.learner, day.chapter, course=course) if day else None


def _say(marking: desk.Marking) -> None:
    if marking.corrected:
        click.echo("This corrects the marking before.")
    click.echo(f"{marking.right} of {marking.of} right. {marking.sentences}")


def _from_photos(
    household: Household,
    files: Sequence[str],
    *,
    settle: str,
    day: date,
    helped: str,
    reached: int | None,
    as_json: bool,
) -> None:
    """Read the photos and mark every sheet that is wholly settled."""
    pages, rows = photo_words.photos_read(household, files)
    settled = photo_words.settled_in(settle, list(rows))
    found = {sheet: photo_words.proposals_of(row, pages, settled[sheet], reached) for sheet, row in rows.items()}
    markings = {
        sheet: photo_words.marked(
            rows[sheet], proposals, pages, settled[sheet], today=day, helped=helped, reached=reached
        )
        for sheet, proposals in found.items()
        if not photo_words.open_items(proposals) and not photo_words.is_empty(proposals)
    }
    if as_json:
        marks = {sheet: _shape(marking) for sheet, marking in markings.items()}
        say_json(photo_words.photo_shape(pages, {sheet: (found[sheet], marks.get(sheet)) for sheet in found}))
        return
    for path, page in pages:
        if page.status == "refused":
            click.echo(f"{path.name}: {page.message}")
    for sheet, proposals in found.items():
        if sheet in markings:
            _say(markings[sheet])
        elif photo_words.is_empty(proposals):
            click.echo(f"Sheet {sheet}: nothing is written on it, so nothing was written down.")
        else:
            click.echo("\n".join(photo_words.sentences(sheet, proposals)))


def _shape(marking: desk.Marking) -> dict[str, Any]:
    ahead = marking.tomorrow
    return {
        "sheet": marking.sheet.sheet_id,
        "right": marking.right,
        "of": marking.of,
        "corrected": marking.corrected,
        "items": [
            {"n": mark.n, "state": mark.state, "answer": mark.answer, "helped": mark.helped} for mark in marking.items
        ],
        "seen": seen_shape(marking.seen),
        "said": marking.sentences,
        "tomorrow": {
            "lesson": ahead.day.id if ahead else None,
            "date": ahead.on.isoformat() if ahead else None,
            "back": [{"skill": back.skill, "why": back.why} for back in ahead.backs] if ahead else [],
            "changed": [{"skill": skill, "change": change} for skill, change in marking.changed],
        },
    }
