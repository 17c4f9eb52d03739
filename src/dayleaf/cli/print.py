"""`dayleaf print`: sets to cut out, papers, stories, the front of the course, each by its name."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any, cast

import click
from rich.console import Console
from rich.progress import track

from dayleaf.cli.options import home_option, household_in, writable
from dayleaf.cli.shapes import say_json
from dayleaf.core.errors import BadInput, Problem
from dayleaf.course.load import grade2
from dayleaf.packets.cut_outs.sets import SETS
from dayleaf.packets.print_outs import PICTURE_CARD
from dayleaf.packets.printables import print_thing
from dayleaf.packets.printables import things as everything
from dayleaf.records.folder import DATABASE
from dayleaf.records.printer import printer_scale

if TYPE_CHECKING:
    from dayleaf.course.model import Course
    from dayleaf.packets.printables import Printed
    from dayleaf.sheets.model import Paper

CUT_OUTS = "cut-outs"


class Wanted(click.ParamType[tuple[str, int]]):
    """A piece and how many of it, written as ten or ten=3."""

    name = "piece"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> tuple[str, int]:
        """Read name and number."""
        if isinstance(value, tuple):
            return value
        name, equals, number = str(value).rpartition("=")
        if not equals:
            return str(value), 1
        if not number.isdecimal() or not 1 <= int(number) <= 200:
            self.fail(f"{value} names no number of pieces from 1 to 200; write ten=3.", param, ctx)
        return name, int(number)


@click.command()
@click.argument("things", metavar="THINGS...", nargs=-1)
@click.option("--out", type=click.Path(path_type=Path, file_okay=False), help="Where the files go.")
@click.option("--piece", "pieces", type=Wanted(), multiple=True, help="Only this piece of a set, as ten or ten=3.")
@click.option("--paper", type=click.Choice(["letter", "a4"]), help="The paper; the household's own otherwise.")
@click.option("--one-sided", is_flag=True, help="Leave out the backs of pieces.")
@click.option("--list", "listing", is_flag=True, help="Name everything that can be printed.")
@click.option("--json", "as_json", is_flag=True, help="Print JSON.")
@home_option
def verb(
    *,
    things: tuple[str, ...],
    out: Path | None,
    pieces: tuple[tuple[str, int], ...],
    paper: str | None,
    one_sided: bool,
    listing: bool,
    as_json: bool,
    home: Path,
) -> None:
    """Print THINGS by name into --out, one file each: base-ten-blocks, pv-mat, story-page:9, front, day-084.

    A day's name prints its print-outs, `cut-outs` every set. Everything is at true size, corrected by what
    `dayleaf calibrate` was told.
    """
    course = grade2()
    if listing:
        _say_names(course, as_json=as_json)
        return
    if not things:
        raise BadInput([Problem("THINGS", "name what to print; --list names everything")])
    if out is None:
        raise BadInput([Problem("--out", "name the folder that the files go to")])
    chosen = cast("Paper", paper or paper_at(home))
    scale = printer_scale(home)
    meant = tuple(dict.fromkeys(each for word in things for each in _meant(course, word)))
    printed = [
        print_thing(course, word, paper=chosen, scale=scale, one_sided=one_sided, pieces=dict(pieces))
        for word in track(meant, description="Printing", console=Console(stderr=True), disable=len(meant) < 8)
    ]
    writable(out)
    for one in printed:
        (out / _file(one)).write_bytes(one.pdf)
    if as_json:
        say_json({"paper": chosen, "scale": scale, "printed": [_shape(one) for one in printed]})
        return
    for one in printed:
        click.echo(_line(one))


def paper_at(home: Path) -> str:
    """The paper of the household in this folder; letter where there is none."""
    return household_in(home).paper if (home.expanduser() / DATABASE).exists() else "letter"


def _meant(course: Course, word: str) -> tuple[str, ...]:
    """What a word stands for: a day for its print-outs, `cut-outs` for every set, anything else for itself."""
    if word == CUT_OUTS:
        return tuple(SETS)
    day = next((day for day in course.days if day.id == word), None)
    if day is None:
        return (word,)
    return tuple(f"{one}:{day.chapter}" if one in ("chapter-page", "story-page") else one for one in day.print_outs)


def _say_names(course: Course, *, as_json: bool) -> None:
    names = everything(course)
    if as_json:
        say_json({"things": list(names), "sets": list(SETS)})
        return
    for name in names:
        material = course.materials.get(name)
        note = f"  {material.how_many}" if material else ""
        click.echo(f"{name}{'' if name.startswith(PICTURE_CARD) else note}")


def _file(one: Printed) -> str:
    return f"{one.word.replace(':', '-')}.pdf"


def _shape(one: Printed) -> dict[str, Any]:
    return {
        "thing": one.word, "file": _file(one), "sides": one.sides, "sheets": one.sheets, "pieces": one.pieces,
        "cuts": one.cuts,
    }  # fmt: skip


def _line(one: Printed) -> str:
    sheets = "1 sheet" if one.sheets == 1 else f"{one.sheets} sheets"
    cut = f", {one.pieces} pieces, {one.cuts} straight cuts" if one.cuts else ""
    return f"{_file(one)}: {sheets}{cut}"
