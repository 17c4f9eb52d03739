"""`dayleaf week`: the week sheet, the prep list and the print run."""

from __future__ import annotations

import json
from datetime import timedelta
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click
from rich.console import Console
from rich.progress import track

from dayleaf.cli.options import OneDay, home_option, household_in, today_at, today_option, writable
from dayleaf.cli.shapes import say_json
from dayleaf.core.errors import BadInput, Problem
from dayleaf.core.ids import LearnerId
from dayleaf.course.load import grade2
from dayleaf.packets.week import run_sentences, week_sheet
from dayleaf.packets.week_papers import week_cut_outs, week_print_outs
from dayleaf.records import selectors
from dayleaf.records.print_run import MOST_WEEKS, run_files, run_print
from dayleaf.records.printer import printer_scale
from dayleaf.records.weeks import lessons_between, mornings_of, week_of
from dayleaf.sheets.codec import map_to_data
from dayleaf.sheets.model import Look
from dayleaf.sheets.weeks import typeset_week

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from dayleaf.plan.week import Week
    from dayleaf.records.models import Household, Learner
    from dayleaf.records.print_run import RunPart
    from dayleaf.sheets.weeks import WeekSheet


@click.command()
@click.option("--learner", "name", help="Only this child.")
@click.option("--all", "everyone", is_flag=True, help="All children together.")
@click.option("--out", type=click.Path(path_type=Path, file_okay=False), help="Where the files go.")
@click.option("--date", "on", type=OneDay(), help="The week that holds this date.")
@click.option("--print", "printing", is_flag=True, help="Also print the firm days: pages, guides, keys.")
@click.option("--ahead", type=click.IntRange(1, MOST_WEEKS), help="Print so many weeks ahead, as for a copy shop.")
@click.option("--with-print-outs", is_flag=True, help="Also write print-outs.pdf and cut-outs.pdf of the prep list.")
@click.option("--json", "as_json", is_flag=True, help="Print JSON.")
@home_option
@today_option
def verb(
    *,
    name: str | None,
    everyone: bool,
    out: Path | None,
    on: date | None,
    printing: bool,
    ahead: int | None,
    with_print_outs: bool,
    as_json: bool,
    home: Path,
    today: date | None,
) -> None:
    """Write week.pdf (the week sheet) and week.json (prep list, print run) to --out.

    With --print also pages.pdf, guides.pdf, keys.pdf and sheets.json of the days that are firm, in the order of use;
    with --ahead N of all days of N weeks. What is on paper already comes out as it was. With --with-print-outs also
    what the prep list says to print and to cut.
    """
    if bool(name) == everyone:
        raise BadInput([Problem("--learner", "name a child, or ask for --all")])
    if out is None and (printing or ahead or with_print_outs or not as_json):
        raise BadInput([Problem("--out", "name the folder that the files go to")])
    household = household_in(home)
    learners = (selectors.learner_by_name(household, name),) if name else selectors.learners(household)
    now = today_at(household, today)
    week = week_of(learners, today=now, on=on)
    sheet = _sheet(household, learners, week)
    data = _shape(week, learners, under=sheet.under)
    if out is not None:
        writable(out)
        look = Look("a4" if household.paper == "a4" else "letter")
        (out / "week.pdf").write_bytes(typeset_week(sheet, look))
        if with_print_outs:
            data["papers"] = _papers(week, look, printer_scale(home), out)
        if printing or ahead:
            data["printed"] = _print(learners, week, now, ahead, out)
        (out / "week.json").write_text(json.dumps(data, ensure_ascii=False, indent=1) + "\n", encoding="utf-8")
    if as_json:
        say_json(data)
        return
    click.echo(f"{sheet.title}: {sheet.under}")
    for line in (*run_sentences(week.run), *(one["cannot"] for one in data.get("printed", ()) if one["cannot"])):
        click.echo(line)


def _sheet(household: Household, learners: Sequence[Learner], week: Week) -> WeekSheet:
    return week_sheet(
        week,
        course=grade2(),
        names={LearnerId(learner.id): learner.name for learner in learners},
        mornings=mornings_of(household, learners, week),
        little_one=household.younger_child,
    )


def _papers(week: Week, look: Look, scale: float, out: Path) -> list[str]:
    """Write what the prep list says to print and to cut; the names of the files there are."""
    found = {
        "print-outs.pdf": week_print_outs(grade2(), week, paper=look.paper, scale=scale),
        "cut-outs.pdf": week_cut_outs(grade2(), week, paper=look.paper, scale=scale),
    }
    written = {name: pdf for name, pdf in found.items() if pdf is not None}
    for name, pdf in written.items():
        (out / name).write_bytes(pdf)
    return list(written)


def _print(learners: Sequence[Learner], week: Week, now: date, ahead: int | None, out: Path) -> list[dict[str, Any]]:
    """Print the firm days, or all days of some weeks, and write the bound files."""
    if ahead is None:
        firm = {line.day for line in week.run if line.firm}
        lessons = [one for one in week.lessons if one.day in firm and one.day >= now]
    else:
        last = week.first + timedelta(weeks=ahead, days=-1)
        lessons = list(lessons_between(learners, max(week.first, now), last))
    run = run_print(learners, lessons, today=now)
    console = Console(stderr=True)
    parts = list(track(run, description="Printing", total=len(lessons), console=console, disable=len(lessons) < 3))
    files = run_files(parts)
    if files.map:
        for name, content in (("pages", files.pages), ("guides", files.guides), ("keys", files.keys)):
            (out / f"{name}.pdf").write_bytes(content)
        text = json.dumps(map_to_data(files.map), ensure_ascii=False, indent=1)
        (out / "sheets.json").write_text(text, encoding="utf-8")
    return [_printed(part) for part in parts]


def _printed(part: RunPart) -> dict[str, Any]:
    sheets = [] if part.row is None else [sheet.sheet_id for sheet in part.row.sheets.order_by("place")]
    return {
        "learner": part.learner.name,
        "date": part.day.isoformat(),
        "lesson": part.lesson.id,
        "sheets": sheets,
        "new": part.new,
        "cannot": part.cannot,
    }


def _shape(week: Week, learners: Sequence[Learner], *, under: str) -> dict[str, Any]:
    names = {LearnerId(learner.id): learner.name for learner in learners}
    return {
        "first": week.first.isoformat(),
        "last": week.last.isoformat(),
        "says": under,
        "minutes_ready": week.minutes_ready,
        "lessons": [
            {
                "learner": names[one.learner],
                "date": one.day.isoformat(),
                "lesson": one.lesson.id,
                "title": one.lesson.title,
                "with_adult": one.lesson.parent_minutes,
                "alone": one.lesson.child_minutes,
            }
            for one in week.lessons
        ],
        "prep": [
            {
                "kind": one.kind,
                "material": one.material.id,
                "what": one.what,
                "title": one.material.title,
                "learners": [names[child] for child in one.learners],
                "first": one.first.isoformat(),
                "days": [day.isoformat() for day in one.days],
                "minutes": one.minutes,
                "together": one.together,
                "small_parts": one.material.small_parts,
                "substitute": one.material.substitute,
            }
            for one in week.prep
        ],
        "run": [
            {
                "learner": names[one.learner],
                "date": one.day.isoformat(),
                "lesson": one.lesson,
                "firm": one.firm,
                "printed": one.printed,
                "sheets": one.sheets,
            }
            for one in week.run
        ],
        "read_ahead": [
            {
                "learner": names[one.learner],
                "date": one.day.isoformat(),
                "lesson": one.lesson.id,
                "minutes": one.minutes,
            }
            for one in week.read_ahead
        ],
        "decide": [
            {
                "learner": names[one.learner],
                "date": one.day.isoformat(),
                "lesson": one.lesson.id,
                "if_firm": one.if_firm,
            }
            for one in week.decisions
        ],
        "cannot_wait": [one.material.id for one in week.cannot_wait],
    }
