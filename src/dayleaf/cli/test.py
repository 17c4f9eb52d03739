"""`dayleaf test`: a chapter test on paper, its key with marks by skill, and its blueprint."""

from __future__ import annotations

import json
from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from dayleaf.cli.options import home_option, household_in, today_at, today_option, writable
from dayleaf.cli.shapes import say_json
from dayleaf.course.load import grade2
from dayleaf.packets.blueprint import blueprint_of, day_of_test
from dayleaf.packets.day import print_packet
from dayleaf.packets.features import features_of
from dayleaf.packets.forms import LETTERS
from dayleaf.packets.model import Child
from dayleaf.packets.tests import prepare_test
from dayleaf.records import desk, selectors
from dayleaf.records.courses import course_of
from dayleaf.records.paper import ForOnce
from dayleaf.sheets.codec import map_to_data
from dayleaf.sheets.model import Look
from dayleaf.wording.say import text_of

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from dayleaf.packets.blueprint import Blueprint
    from dayleaf.sheets.model import Paper, SheetSpec

FILES = ("guide.pdf", "pages.pdf", "key.pdf", "sheets.json")


@click.command()
@click.argument("chapter", type=int)
@click.option("--form", type=click.Choice(list(LETTERS), case_sensitive=False), default="A", help="Which form.")
@click.option("--learner", "name", help="The child whose test it is; it is written down as printed.")
@click.option("--seed", type=int, help="Choose the numbers by this seed.")
@click.option("--out", type=click.Path(path_type=Path, file_okay=False), help="Where the files go.")
@click.option("--paper", type=click.Choice(["letter", "a4"]), help="The paper, for once.")
@click.option("--json", "as_json", is_flag=True, help="Print the blueprint and every item as JSON.")
@home_option
@today_option
def verb(
    *,
    chapter: int,
    form: str,
    name: str | None,
    seed: int | None,
    out: Path | None,
    paper: Paper | None,
    as_json: bool,
    home: Path,
    today: date | None,
) -> None:
    """Print the test of CHAPTER: guide.pdf, pages.pdf, key.pdf and sheets.json; or show what it asks.

    Forms A and B have the same skills, formats and kinds of numbers, and no item in common where a rule has 25 or
    more. C to H are further forms. With --learner the test is that child's own and is marked like any sheet.
    """
    household = household_in(home) if name is not None else None
    learner = selectors.learner_by_name(household, name) if household is not None and name is not None else None
    course = grade2() if learner is None else course_of(learner)
    blueprint = blueprint_of(course, day_of_test(course, chapter))
    if out is not None:
        writable(out)
    if household is not None and learner is not None and out is not None:
        wish = desk.Wish(
            today=today_at(household, today), lesson=blueprint.day.id, seed=seed, once=ForOnce(paper=paper), form=form
        )
        row, _new = desk.day_print(learner, wish)
        sheets: Sequence[SheetSpec] = [selectors.spec_of(sheet) for sheet in row.sheets.order_by("place")]
        files = (bytes(row.guide), bytes(row.pages), bytes(row.key), desk.pages_printed(row))
        seed = row.seed
    else:
        packet = prepare_test(
            course, chapter, Child(name or "", Look(paper=paper or "letter")), form=form, seed=seed or 0
        )
        prints = print_packet(course, packet) if out is not None else None
        sheets = prints.packet.sheets if prints else packet.sheets
        if prints:
            files = (prints.guide, prints.pages.pdf, prints.key, prints.pages.pages)
    if out is not None:
        data = json.dumps(map_to_data(files[3]), ensure_ascii=False, indent=1).encode()
        for file, content in zip(FILES, (*files[:3], data), strict=True):
            (out / file).write_bytes(content)
    if as_json:
        say_json(_shape(blueprint, sheets, form=form.upper(), seed=seed or 0))
    elif out is not None:
        ids = ", ".join(sheet.id for sheet in sheets)
        click.echo(f"Chapter {chapter}, form {form.upper()}: sheets {ids} in {out}")
    else:
        _say(blueprint)


def _say(blueprint: Blueprint) -> None:
    """The blueprint as a table."""
    formats = grade2().formats
    wide = max(len(plan.skill.title) for plan in blueprint.skills)
    click.echo(f"{blueprint.day.title}: {blueprint.items} items, about {blueprint.minutes:.0f} minutes")
    for plan in blueprint.skills:
        asked = ", ".join(f"{n} × {formats[name].name.lower()}" for name, n in plan.formats.items())  # type: ignore[index] # plain text
        bands = " ".join(place.band for place in plan.places)
        click.echo(f"  {plan.skill.title:<{wide}}  {len(plan.places)}  {plan.minutes:4.1f} min  {asked} · {bands}")


def _shape(blueprint: Blueprint, sheets: Sequence[SheetSpec], *, form: str, seed: int) -> dict[str, Any]:
    course = grade2()
    return {
        "chapter": blueprint.day.chapter,
        "lesson": blueprint.day.id,
        "title": blueprint.day.title,
        "form": form,
        "seed": seed,
        "minutes": round(blueprint.minutes, 1),
        "blueprint": [
            {
                "skill": plan.skill.id,
                "title": plan.skill.title,
                "distinct_items": plan.skill.distinct_items,
                "items": len(plan.places),
                "minutes": round(plan.minutes, 2),
                "formats": dict(plan.formats),
                "difficulty": [place.band for place in plan.places],
            }
            for plan in blueprint.skills
        ],
        "items": [
            {
                "n": placed.n,
                "sheet": sheet.id,
                "page": number,
                "key": placed.item.key,
                "skill": placed.item.skill,
                "format": placed.item.format,
                "numbers": dict(placed.item.numbers),
                "text": text_of(placed.item, "en"),
                "answer": placed.item.answer,
                "errors": dict(placed.item.errors),
                "features": asdict(features_of(course.skills[placed.item.skill], placed.item)),
            }
            for sheet in sheets
            for number, page in enumerate(sheet.pages, start=1)
            for block in page.blocks
            for placed in block.items
        ],
    }
