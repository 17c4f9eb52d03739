"""`dayleaf day`: one child's day on paper."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click
from rich.console import Console
from rich.progress import track

from dayleaf.cli.options import OneDay, home_option, household_in, today_at, today_option, writable
from dayleaf.cli.shapes import say_json
from dayleaf.core.errors import BadInput, Problem
from dayleaf.records import desk, print_outs, selectors
from dayleaf.records.paper import ForOnce
from dayleaf.records.printer import printer_scale
from dayleaf.sheets.codec import map_to_data

if TYPE_CHECKING:
    from datetime import date

    from dayleaf.records.models import Learner

FILES = ("guide.pdf", "pages.pdf", "key.pdf", "sheets.json")


class Seeds(click.ParamType[range]):
    """A half-open range of seeds written as 1:1001."""

    name = "from:to"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> range:
        """Read the range."""
        if isinstance(value, range):
            return value
        first, colon, last = str(value).partition(":")
        try:
            return range(int(first), int(last) if colon else int(first) + 1)
        except ValueError:
            self.fail(f"{value} is not a range of seeds; write it as 1:101.", param, ctx)


@click.command()
@click.option("--learner", "name", required=True, help="The child's name.")
@click.option("--out", type=click.Path(path_type=Path, file_okay=False), help="Where the files go.")
@click.option("--date", "on", type=OneDay(), help="The lesson planned for this date.")
@click.option("--lesson", help="A lesson by name, as day-084.")
@click.option("--seed", type=int, help="Choose the numbers by this seed.")
@click.option("--seeds", type=Seeds(), help="With --items-only: many seeds, as 1:101 (the last one left out).")
@click.option("--fresh", is_flag=True, help="New numbers for a lesson that was printed before.")
@click.option("--dry", is_flag=True, help="Record nothing.")
@click.option("--lang", help="The language of the child's pages, for once.")
@click.option("--paper", type=click.Choice(["letter", "a4"]), help="The paper, for once.")
@click.option("--hand", type=click.Choice(["right", "left"]), help="The writing hand, for once.")
@click.option("--boxes", type=click.Choice(["standard", "large", "compact"]), help="The answer boxes, for once.")
@click.option("--sheets", type=click.Choice(["one", "two"]), help="Sheets of paper for the day, for once.")
@click.option("--fewer-items", is_flag=True, help="About a third fewer items, every skill kept, for once.")
@click.option("--with-print-outs", is_flag=True, help="Bind the day's mats, cards and pages to read after its pages.")
@click.option("--items-only", is_flag=True, help="Print only the items; nothing is typeset or recorded.")
@click.option("--json", "as_json", is_flag=True, help="Print JSON.")
@home_option
@today_option
def verb(
    *,
    name: str,
    out: Path | None,
    on: date | None,
    lesson: str | None,
    seed: int | None,
    seeds: range | None,
    fresh: bool,
    dry: bool,
    lang: str | None,
    paper: str | None,
    hand: str | None,
    boxes: str | None,
    sheets: str | None,
    fewer_items: bool,
    with_print_outs: bool,
    items_only: bool,
    as_json: bool,
    home: Path,
    today: date | None,
) -> None:
    """Write a day's guide.pdf, pages.pdf, key.pdf and sheets.json.

    Today's lesson of the plan, or the one of --date, or any by --lesson. A lesson printed before comes
    out the same again, unless --fresh or another --seed asks for new numbers.
    """
    household = household_in(home)
    learner = selectors.learner_by_name(household, name)
    once = ForOnce(lang=lang, paper=paper, hand=hand, boxes=boxes, sheets=sheets, fewer_items=fewer_items)
    wish = desk.Wish(today=today_at(household, today), lesson=lesson, on=on, seed=seed, fresh=fresh, once=once)
    if items_only:
        _print_items(learner, wish, seeds)
        return
    if out is None:
        raise BadInput([Problem("--out", "name the folder that the files go to")])
    writable(out)
    if dry:
        prints = desk.day_preview(learner, wish)
        files = (prints.guide, prints.pages.pdf, prints.key)
        pages = prints.pages.pages
        specs = prints.packet.sheets
    else:
        row, _new = desk.day_print(learner, wish)
        files = (bytes(row.guide), bytes(row.pages), bytes(row.key))
        pages = desk.pages_printed(row)
        specs = tuple(selectors.spec_of(sheet) for sheet in row.sheets.all()) if with_print_outs else ()
    if with_print_outs:
        longer = print_outs.with_print_outs(
            files[1],
            learner=learner,
            lesson=pages[0].lesson,
            sheets=specs,
            paper="a4" if (paper or household.paper) == "a4" else "letter",
            scale=printer_scale(home),
            today=wish.today,
        )
        files = (files[0], longer, files[2])
    data = map_to_data(pages)
    for file, content in zip(FILES, (*files, json.dumps(data, ensure_ascii=False, indent=1).encode()), strict=True):
        (out / file).write_bytes(content)
    if as_json:
        say_json(data)
        return
    ids = dict.fromkeys(page.sheet for page in pages)
    click.echo(f"{learner.name}, {pages[0].lesson}: sheets {', '.join(ids)} in {out}")


def _print_items(learner: Learner, wish: desk.Wish, seeds: range | None) -> None:
    wanted = [wish.seed] if seeds is None else list(seeds)
    found = []
    for seed in track(wanted, description="Choosing", console=Console(stderr=True), disable=len(wanted) < 20):
        used, sheets = desk.day_items(learner, wish, seed=seed)
        found.append({"seed": used, "sheets": sheets})
    say_json({"seeds": found})
