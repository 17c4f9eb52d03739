"""`dayleaf year`: the whole course for one child on paper."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING, Any, cast

import click
from rich.console import Console
from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn, TimeRemainingColumn

from dayleaf.cli.options import DEFAULT_HOME, household_in, today_at, today_option, writable
from dayleaf.cli.shapes import say_json
from dayleaf.core.errors import BadInput, Problem
from dayleaf.core.seeds import seed_from
from dayleaf.course.load import grade2
from dayleaf.packets.model import Child
from dayleaf.packets.year import Year, files_of, parts_of
from dayleaf.records import selectors
from dayleaf.records.printer import printer_scale
from dayleaf.records.year import year_of, year_recorded
from dayleaf.sheets.fonts import check_printable
from dayleaf.sheets.model import Look

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator
    from datetime import date

    from dayleaf.packets.year import Part, YearFile
    from dayleaf.sheets.model import Paper

CONTENTS = "contents.json"
COURSE = "the whole course"


class Chapters(click.ParamType[tuple[int, ...]]):
    """Chapters written as 3 or 3:6, the last one left out."""

    name = "from:to"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> tuple[int, ...]:
        """Read the range."""
        if isinstance(value, tuple):
            return value
        first, colon, last = str(value).partition(":")
        numbers = range(len(grade2().chapters) + 1)
        try:
            wanted = range(int(first), int(last) if colon else int(first) + 1)
        except ValueError:
            self.fail(f"{value} is not a range of chapters; write it as 3 or 3:6.", param, ctx)
        if not wanted or wanted[0] not in numbers or wanted[-1] not in numbers:
            self.fail(f"there is no chapter {value}; they run from 1 to {numbers[-1]}.", param, ctx)
        return tuple(wanted)


@click.command()
@click.option("--learner", "name", required=True, help="The child's name.")
@click.option("--out", type=click.Path(path_type=Path, file_okay=False), required=True, help="Where the files go.")
@click.option("--seed", type=int, help="The numbers of this seed; without --home also a course without a household.")
@click.option("--paper", type=click.Choice(["letter", "a4"]), help="The paper; the household's own otherwise.")
@click.option("--chapters", type=Chapters(), help="Only these chapters, as 3 or 3:6 (0: what belongs to all).")
@click.option("--record", is_flag=True, help="Write every day down as printed; its pages then carry codes.")
@click.option("--json", "as_json", is_flag=True, help="Print the contents as JSON.")
@click.option(
    "--home",
    type=click.Path(path_type=Path, file_okay=False),
    envvar="DAYLEAF_HOME",
    help="The household's folder (or DAYLEAF_HOME).",
)
@today_option
def verb(
    *,
    name: str,
    out: Path,
    seed: int | None,
    paper: str | None,
    chapters: tuple[int, ...] | None,
    record: bool,
    as_json: bool,
    home: Path | None,
    today: date | None,
) -> None:
    """Print the whole course for one child: a file a chapter and kind of paper, and contents.json.

    Guides, pages, tests A and B, keys, chapter pages and stories, cut-outs. The backs are the course's own choice:
    print a day by itself when it comes, and its back is this child's. Nothing is recorded, and pages carry no codes,
    unless --record asks for it.
    """
    if record and seed is not None:
        raise BadInput([Problem("--record", "what is recorded has the household's own numbers; leave out --seed")])
    year = _year(name, seed=seed, paper=paper, home=home, record=record, today=today)
    writable(out)
    course = year.course
    wanted = chapters if chapters is not None else (0, *(chapter.number for chapter in course.chapters))
    days = sum(day.chapter in wanted for day in course.days)
    files = []
    with _bar() as bar:
        parts = _watched(parts_of(year, chapters=wanted), bar, days)
        for file in files_of(parts):
            (out / file.name).write_bytes(file.pdf)
            files.append(_shape(file))
    contents = {
        "learner": name,
        "paper": year.child.look.paper,
        "seed": seed,
        "recorded": record,
        "sides": sum(file["sides"] for file in files),
        "files": files,
    }
    (out / CONTENTS).write_text(json.dumps(contents, ensure_ascii=False, indent=1) + "\n", encoding="utf-8")
    if as_json:
        say_json(contents)
        return
    click.echo(f"{name}: {days} days, {contents['sides']:,} sides in {len(files)} files in {out}")


def _year(
    name: str, *, seed: int | None, paper: str | None, home: Path | None, record: bool, today: date | None
) -> Year:
    """The year of a household's child; with a seed and no home, one without a household."""
    if home is None and seed is not None:
        look = Look(cast("Paper", paper or "letter"))
        check_printable([name], faces=("Lexend",))
        return Year(grade2(), Child(name, look), lambda day: seed_from(seed, day.id))
    folder = home or DEFAULT_HOME
    household = household_in(folder)
    learner = selectors.learner_by_name(household, name)
    scale = printer_scale(folder)
    if record:
        return year_recorded(learner, today=today_at(household, today), paper=paper, scale=scale)
    return year_of(learner, paper=paper, seed=seed, scale=scale)


def _bar() -> Progress:
    columns = (TextColumn("{task.description}"), BarColumn(), MofNCompleteColumn(), TimeRemainingColumn())
    return Progress(*columns, console=Console(stderr=True))


def _watched(parts: Iterable[Part], bar: Progress, days: int) -> Iterator[Part]:
    """The parts, a step of the bar for each day's guide."""
    task = bar.add_task(COURSE, total=days)
    for part in parts:
        bar.update(task, description=f"Chapter {part.chapter}" if part.chapter else COURSE)
        yield part
        if part.kind == "guides":
            bar.advance(task)


def _shape(file: YearFile) -> dict[str, Any]:
    return {
        "file": file.name,
        "kind": file.kind,
        "chapter": file.chapter,
        "sides": file.sides,
        "parts": [{"name": name, "sides": [first, last]} for name, first, last in file.parts],
    }
