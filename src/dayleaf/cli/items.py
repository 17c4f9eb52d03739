"""`dayleaf items`: items of one skill, complete, by seed."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from dayleaf.cli.shapes import item_data, say_json
from dayleaf.cli.skills import find_skill
from dayleaf.core.errors import DayleafError
from dayleaf.core.ids import FormatId
from dayleaf.course.load import grade2
from dayleaf.items.built import formats_built
from dayleaf.items.draw import draw_items
from dayleaf.items.parting import set_apart

if TYPE_CHECKING:
    from dayleaf.items.parting import Apart, Pair


class NotAskedThatWay(DayleafError):
    """The skill is not asked in that format."""

    def __init__(self, skill: str, name: str, built: tuple[str, ...]) -> None:
        super().__init__(f"{skill} is not asked as {name}; it is asked as {', '.join(built)}.")


class NoItemsYet(DayleafError):
    """No items can be made for the skill yet."""

    def __init__(self, skill: str) -> None:
        super().__init__(f"No items are built for {skill} yet.")


@click.command()
@click.argument("skill", required=False)
@click.option("--format", "name", help="Only this format.")
@click.option("--n", "count", type=click.IntRange(1, 1_000_000), default=10, show_default=True)
@click.option("--seed", type=int, default=1, show_default=True)
@click.option("--lang", default="en", show_default=True)
@click.option("--apart", is_flag=True, help="Choose items that tell the error ways apart; say which pairs stay.")
@click.option("--list", "listing", is_flag=True, help="Every skill with its formats, and whether it is built.")
@click.option("--json", "as_json", is_flag=True, help="Print JSON.")
def verb(
    *, skill: str | None, name: str | None, count: int, seed: int, lang: str, apart: bool, listing: bool, as_json: bool
) -> None:
    """Make items of one SKILL, with answers, steps and the error ways' answers.

    Items are drawn by seed. With --apart they are chosen: as few as tell all error ways apart that can be told apart,
    the others tell them a second time.
    """
    if listing:
        _list_skills(as_json=as_json)
        return
    if skill is None:
        raise click.UsageError("Name a skill, or ask for --list.")
    known = find_skill(skill)
    built = formats_built(known.id)
    if not built:
        raise NoItemsYet(skill)
    if name is not None and name not in built:
        raise NotAskedThatWay(skill, name, built)
    format_id = FormatId(name) if name else None
    parting = set_apart(known, n=count, seed=seed, formats=[format_id] if format_id else None) if apart else None
    made = parting.items if parting else draw_items(known, n=count, seed=seed, format=format_id)
    if as_json:
        told = {"apart": _apart_data(parting)} if parting else {}
        say_json({"items": [item_data(item, lang) for item in made], **told})
        return
    for item in made:
        click.echo(f"{item_data(item, lang)['text']}   →   {item.answer or 'look'}")
    if parting:
        _say_apart(parting)


def _apart_data(parting: Apart) -> dict[str, object]:
    return {
        "pairs": parting.pairs,
        "told": parting.told,
        "never": [_named(pair) for pair in parting.never],
        "not here": [_named(pair) for pair in parting.not_here],
        "looked at": parting.looked_at,
        "whole rule": parting.whole,
    }


def _named(pair: Pair) -> list[str]:
    return [way or "right" for way in pair]


def _say_apart(parting: Apart) -> None:
    click.echo(f"{parting.told} of {parting.pairs} pairs of error ways are told apart.")
    seen = "no item of the skill" if parting.whole else f"no item of {parting.looked_at:,} sets of numbers looked at"
    for why, pairs in ((f"By {seen}", parting.never), ("Not by these, but by others", parting.not_here)):
        for pair in pairs:
            click.echo(f"{why}: {' and '.join(_named(pair))}")


def _list_skills(*, as_json: bool) -> None:
    skills = grade2().skills.values()
    built = {skill.id: formats_built(skill.id) for skill in skills}
    if as_json:
        rows = [
            {
                "skill": skill.id,
                "title": skill.title,
                "formats": list(built[skill.id] or skill.formats),
                "built": bool(built[skill.id]),
                "acted_out": skill.acted_out,
            }
            for skill in skills
        ]
        say_json({"skills": rows})
        return
    for skill in skills:
        acted = f" Acted out: {skill.acted_out}" if skill.acted_out else ""
        click.echo(f"{skill.id}: {skill.title} ({', '.join(built[skill.id]) or 'not built yet'}){acted}")
