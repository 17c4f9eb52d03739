"""`dayleaf map`: the course map on paper, its totals, and where something is taught, practised and tested."""

from __future__ import annotations

from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from dayleaf.cli.options import writable
from dayleaf.cli.shapes import say_json
from dayleaf.course.finding import days_of_skill, find, index_of
from dayleaf.course.load import grade2
from dayleaf.packets.course_map import (
    chain_words,
    course_map,
    map_svg,
    ordinary_week,
    print_map,
    totals_sentences,
    weeks_of,
)
from dayleaf.packets.front import totals

if TYPE_CHECKING:
    from dayleaf.course.model import Skill


@click.command()
@click.option("--where", "query", help='Where is this taught, practised and tested? As "regrouping".')
@click.option("--out", type=click.Path(path_type=Path, file_okay=False), help="Where course-map.pdf and .svg go.")
@click.option("--paper", type=click.Choice(["letter", "a4"]), default="letter", help="The paper.")
@click.option("--json", "as_json", is_flag=True, help="Print JSON.")
def verb(*, query: str | None, out: Path | None, paper: str, as_json: bool) -> None:
    """Draw the course map with its index; say what a year asks for; or find where something stands."""
    course = grade2()
    if query is not None:
        _where(query, as_json=as_json)
        return
    found = course_map(course)
    if out is not None:
        writable(out)
        (out / "course-map.pdf").write_bytes(print_map(course, paper="a4" if paper == "a4" else "letter"))
        (out / "course-map.svg").write_text(map_svg(found), encoding="utf-8")
    sentences = totals_sentences(totals(course), course)
    week = ordinary_week(course)
    if as_json:
        say_json(
            {
                "chain": list(chain_words(found)),
                "totals": list(sentences),
                "weeks": [asdict(one) for one in weeks_of(course)],
                "ordinary_week": week.number,
                "index": [_row(skill) for skill in course.skills.values()],
            }
        )
        return
    for sentence in sentences:
        click.echo(sentence)
    click.echo(f"An ordinary week is week {week.number}, days {week.first} to {week.last}.")
    click.echo(f"The longest chain: {' → '.join(chain_words(found))}.")
    if out is not None:
        click.echo(f"The map is in {out}.")


def _where(query: str, *, as_json: bool) -> None:
    skills = find(index_of(grade2()), query).skills
    if as_json:
        say_json({"query": query, "skills": [_row(skill) for skill in skills]})
        return
    if not skills:
        click.echo(f"Nothing of the course is called {query}; try another word, such as place value.")
    for skill in skills:
        row = _row(skill)
        days = [
            f"{name} on {', '.join(map(str, row[name]))}" for name in ("taught", "practised", "tested") if row[name]
        ]
        click.echo(f"{skill.title}: {'; '.join(days) or 'not on a day of its own'}")


def _row(skill: Skill) -> dict[str, Any]:
    """The days of a skill by their numbers."""
    found = {name: [day.number for day in days] for name, days in days_of_skill(grade2(), skill.id)}
    kinds = {name: found.get(name, []) for name in ("taught", "practised", "tested")}
    return {"skill": skill.id, "title": skill.title, "strand": skill.strand, **kinds}
