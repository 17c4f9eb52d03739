"""`dayleaf mark`: a sheet marked by exception."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from dayleaf.cli.options import home_option, household_in, today_at, today_option
from dayleaf.cli.shapes import say_json, seen_shape
from dayleaf.records import desk, selectors

if TYPE_CHECKING:
    from datetime import date
    from pathlib import Path


@click.command()
@click.argument("sheet")
@click.option("--right-except", default="", help='What was written where it was wrong: "3=36,7=66".')
@click.option("--reached", type=int, help="The last item the child came to.")
@click.option("--helped", default="", help='Items done with help: "4,5".')
@click.option("--blank", default="", help='Items left empty: "9".')
@click.option("--json", "as_json", is_flag=True, help="Print JSON.")
@home_option
@today_option
def verb(
    *,
    sheet: str,
    right_except: str,
    reached: int | None,
    helped: str,
    blank: str,
    as_json: bool,
    home: Path,
    today: date | None,
) -> None:
    """Mark SHEET (its seven signs): all right except what you name. Marking again corrects."""
    household = household_in(home)
    marking = desk.sheet_mark(
        selectors.sheet_find(household, sheet),
        today=today_at(household, today),
        right_except=right_except,
        reached=reached,
        helped=helped,
        blank=blank,
    )
    if as_json:
        say_json(_shape(marking))
        return
    if marking.corrected:
        click.echo("This corrects the marking before.")
    click.echo(f"{marking.right} of {marking.of} right. {marking.sentences}")


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
