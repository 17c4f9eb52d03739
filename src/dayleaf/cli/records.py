"""`dayleaf records`: attendance, progress, grades, samples and the year's end as files."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Final, get_args

import click

from dayleaf.cli.options import OneDay, home_option, household_in, today_at, today_option, writable
from dayleaf.core.errors import BadInput, Problem
from dayleaf.packets.reports import RULES, ReportName, attendance_sentence, print_report
from dayleaf.records import selectors
from dayleaf.records.archive import archive_of, write_new
from dayleaf.records.reports import report_of
from dayleaf.records.span import first_and_last
from dayleaf.records.summer import print_summer

if TYPE_CHECKING:
    from datetime import date

WHAT: Final = (*get_args(ReportName), "summer", "archive")


@click.command()
@click.option("--learner", required=True, help="The child's name.")
@click.option("--what", type=click.Choice(WHAT), multiple=True, help="Which files; the archive with everything else.")
@click.option("--from", "first", type=OneDay(), help="The first day, as 2026-09-01; the first one kept otherwise.")
@click.option("--to", "last", type=OneDay(), help="The last day; today otherwise.")
@click.option("--out", type=click.Path(path_type=Path, file_okay=False), required=True, help="The folder to write to.")
@home_option
@today_option
def verb(
    *,
    learner: str,
    what: tuple[str, ...],
    first: date | None,
    last: date | None,
    out: Path,
    home: Path,
    today: date | None,
) -> None:
    """Write a child's records as files to keep: reports, tables and plain data; never over a file that is there."""
    household = household_in(home)
    child = selectors.learner_by_name(household, learner)
    day = today_at(household, today)
    begin, end = first_and_last(child, today=day)
    begin, end = first or begin, last or end
    if begin > end:
        raise BadInput([Problem("--from", f"{begin} is after {end}; name an earlier day")])
    writable(out)
    paper = selectors.look_of(child).paper
    wanted = what or ("archive",)
    report = report_of(child, first=begin, last=end, today=day)
    for name in wanted:
        if name == "archive":
            file = out / f"{_plain(child.name)}-{begin}-{end}.zip"
            write_new(file, archive_of(child, first=begin, last=end, today=day).zipped())
        elif name == "summer":
            file = out / f"{_plain(child.name)}-summer.pdf"
            write_new(file, print_summer(child, today=day))
        else:
            file = out / f"{_plain(child.name)}-{name}.pdf"
            write_new(file, print_report(report, _named(name), paper=paper))
        click.echo(str(file))
    click.echo(f"{child.name}, {begin} to {end}: {attendance_sentence(report.attendance)}")
    click.echo(RULES)


def _named(name: str) -> ReportName:
    return next(one for one in get_args(ReportName) if one == name)


def _plain(name: str) -> str:
    return "".join(sign if sign.isalnum() else "-" for sign in name)
