"""`dayleaf outline`: a family's own course read from its outline, with suggested skills, and kept as a course."""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from dayleaf.cli.options import OneDay, home_option, household_in, today_at, today_option
from dayleaf.cli.shapes import say_json
from dayleaf.core.errors import BadInput, Problem
from dayleaf.course.load import grade2
from dayleaf.course.outline import MOST_LINES, decoded, read_outline, suggested
from dayleaf.course.outline_codec import outline_data, outline_from_json
from dayleaf.plan.calendar import WEEKDAYS
from dayleaf.records import selectors
from dayleaf.records.courses import course_keep, course_plan, courses_of
from dayleaf.records.plans import kept_year_or_none

if TYPE_CHECKING:
    from datetime import date

    from dayleaf.course.outline import Outline

LARGEST = 2_000_000
"""Bytes: no outline is longer."""


@click.command()
@click.argument("file", type=click.Path(path_type=Path, dir_okay=False), required=False)
@click.option("--json", "as_json", is_flag=True, help="Print every line with three suggested skills as JSON.")
@click.option("--confirm", is_flag=True, help="Keep it as a course of this household, with the skills chosen.")
@click.option("--title", help="With --confirm: what you call the course (the file's name if left out).")
@click.option("--learner", "name", help="With --confirm: plan it for this child at once.")
@click.option("--start", type=OneDay(), help="With --learner: the first day (today if left out).")
@click.option("--weekdays", help="With --learner: the learning days, as monday,tuesday,thursday.")
@home_option
@today_option
def verb(
    *,
    file: Path | None,
    as_json: bool,
    confirm: bool,
    title: str | None,
    name: str | None,
    start: date | None,
    weekdays: str | None,
    home: Path,
    today: date | None,
) -> None:
    """Read the outline of a course that the family owns, line by line, and suggest three of our skills for each.

    FILE is a table (CSV with a row of heads) or a pasted table of contents, or the JSON of this verb with your
    changes. Without FILE the courses kept so far are listed.
    """
    if file is None:
        for course in courses_of(household_in(home)):
            click.echo(f"{course.id}: {course.title}, {len(course.days)} days in {len(course.chapters)} chapters")
        return
    outline = _read(file)
    data = outline_data(grade2(), outline, suggested(grade2(), outline))
    problems = outline.problems(file.name)
    if as_json:
        say_json({"file": file.name, **data})
    elif not confirm:
        _say(data)
    if problems and (not confirm or not outline.lines):
        for problem in problems:
            click.echo(str(problem), err=True)
        sys.exit(2)
    if confirm:
        _keep(data, title or file.stem, name, start, weekdays, home=home, today=today, problems=problems)


def _read(file: Path) -> Outline:
    """The outline of a file, whichever of the three forms it has."""
    if not file.is_file():
        raise BadInput([Problem(str(file), "there is no such file")])
    content = file.read_bytes()
    if len(content) > LARGEST or content[:4] in {b"%PDF", b"PK\x03\x04"}:
        message = f"is no text; save it as CSV or paste its contents into a text file of {MOST_LINES} lines at most"
        raise BadInput([Problem(file.name, message)])
    text = decoded(content)
    return outline_from_json(text) if text.lstrip().startswith("{") else read_outline(text)


def _keep(
    data: Any,
    title: str,
    name: str | None,
    start: date | None,
    weekdays: str | None,
    *,
    home: Path,
    today: date | None,
    problems: tuple[Problem, ...],
) -> None:
    """Keep the course, and plan it where a child is named. Lines to mend are said and kept as they are."""
    household = household_in(home)
    learner = selectors.learner_by_name(household, name) if name else None
    minutes = _minutes(weekdays)
    now = today_at(household, today)
    course = course_keep(household=household, title=title, outline=json.dumps(data, ensure_ascii=False))
    chosen = sum(bool(line["chosen"]) for line in data["lines"])
    click.echo(
        f"{course.id}: {course.title}, {len(course.days)} days; {chosen} of {len(data['lines'])} lines with a skill"
    )
    for problem in problems:
        click.echo(f"Still to mend: {problem}", err=True)
    if learner is not None:
        year = kept_year_or_none(learner)
        ends = year.main.run.calendar.end if year else None
        plan = course_plan(learner=learner, course=course, start=start or now, today=now, minutes=minutes)
        click.echo(f"{learner.name}: {len(plan.placed)} days from {plan.first} to {plan.last}")
        if ends is not None and plan.last is not None and plan.last > ends:
            click.echo(f"That is after the year's end on {ends}; `dayleaf plan --ways-out` says what can be done.")


def _minutes(weekdays: str | None) -> dict[int, int] | None:
    if weekdays is None:
        return None
    wanted = [one.strip().casefold() for one in weekdays.split(",") if one.strip()]
    names = [one.casefold() for one in WEEKDAYS]
    unknown = [one for one in wanted if one not in names]
    if unknown or not wanted:
        raise BadInput(
            [Problem("--weekdays", f"“{', '.join(unknown) or weekdays}” is no weekday; write such as monday")]
        )
    return {names.index(one): 45 for one in wanted}


def _say(data: Any) -> None:
    for line in data["lines"]:
        pages = "; ".join(f"{book} {pages}" for book, pages in line["pages"].items())
        alone = ", alone" if line["alone"] else ""
        click.echo(f"{line['line']:>4}  {line['kind']}{alone}: {line['title']}{f'  ({pages})' if pages else ''}")
        for one in line["skills"]:
            mark = "*" if one["skill"] in line["chosen"] else " "
            click.echo(f"      {mark} {one['score']:.2f}  {one['title']}  [{one['skill']}]")
    for one in data["other"]:
        click.echo(f"{one['line']:>4}  not a day: {one['text']}")
