"""`dayleaf again`: a skill once more, step by step and in a second way, on paper or as data."""

from __future__ import annotations

from pathlib import Path

import click

from dayleaf.cli.options import writable
from dayleaf.cli.shapes import say_json
from dayleaf.cli.skills import find_skill
from dayleaf.course.load import grade2
from dayleaf.packets.see_again import print_again, see_again
from dayleaf.sheets.model import Look


@click.command()
@click.argument("skill")
@click.option("--out", type=click.Path(path_type=Path, file_okay=False), help="Where again-SKILL.pdf goes.")
@click.option("--seed", type=int, default=0, help="Choose the numbers by this seed.")
@click.option("--paper", type=click.Choice(["letter", "a4"]), default="letter", help="The paper.")
@click.option("--json", "as_json", is_flag=True, help="Print JSON.")
def verb(*, skill: str, out: Path | None, seed: int, paper: str, as_json: bool) -> None:
    """Show SKILL once more: one worked example step by step, then a second way to see it."""
    known = find_skill(skill)
    again = see_again(grade2(), known, seed=seed)
    if out is not None:
        writable(out)
        look = Look("a4" if paper == "a4" else "letter")
        path = out / f"again-{known.id}.pdf"
        path.write_bytes(print_again(grade2(), known, look, seed=seed))
    if as_json:
        say_json(
            {
                "skill": known.id,
                "title": known.title,
                "asked": again.asked.text,
                "pictures": [figure.kind for _, figure in again.asked.pictures],
                "steps": list(again.steps),
                "answer": again.answer,
                "second": {"title": again.second_title, "steps": list(again.second)},
                "screens": [{"heading": heading, "text": shown.text} for heading, shown in again.screens],
            }
        )
    elif out is not None:
        click.echo(f"{known.title}: {path}")
    else:
        before = ""
        for heading, shown in again.screens:
            if heading != before:
                click.echo(heading)
            before = heading
            click.echo(f"  {shown.text}")
