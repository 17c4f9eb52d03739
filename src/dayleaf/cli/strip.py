"""`dayleaf strip`: three short days with one skill once more, on paper."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING

import click

from dayleaf.cli.options import home_option, household_in
from dayleaf.cli.skills import find_skill
from dayleaf.core.errors import BadInput, Problem
from dayleaf.core.ids import ErrorWayId
from dayleaf.core.seeds import seed_from
from dayleaf.course.load import grade2
from dayleaf.events.model import Marked
from dayleaf.learner.habits import named, odds_in
from dayleaf.learner.seen import habits_in_marks
from dayleaf.learner.strip import strip_for
from dayleaf.packets.strip import print_strip
from dayleaf.records import selectors
from dayleaf.records.paper import child_of
from dayleaf.sheets.codec import map_to_data

if TYPE_CHECKING:
    from dayleaf.course.model import Skill
    from dayleaf.records.models import Learner

FILES = ("guide.pdf", "pages.pdf", "key.pdf", "sheets.json")


@click.command()
@click.option("--learner", "name", required=True, help="The child's name.")
@click.option("--skill", "skill_id", required=True, help="The skill to take once more.")
@click.option("--error", "way", help="The habit to work on; else the one that the marks show.")
@click.option("--seed", type=int, default=0, help="Other numbers for another seed.")
@click.option("--out", type=click.Path(path_type=Path, file_okay=False), required=True, help="Where the files go.")
@home_option
def verb(*, name: str, skill_id: str, way: str | None, seed: int, out: Path, home: Path) -> None:
    """Print three short days: with things, with a drawing, on paper. Nothing is recorded."""
    learner = selectors.learner_by_name(household_in(home), name)
    skill = find_skill(skill_id)
    course = grade2()
    if way is not None and way not in course.error_ways:
        raise BadInput([Problem("--error", f"there is no error way {way}; `dayleaf items SKILL --json` lists them")])
    habit = ErrorWayId(way) if way else _habit(learner, skill)
    strip = strip_for(course, skill, way=habit, seed=seed_from("strip", learner.id, seed))
    prints = print_strip(strip, child_of(learner), id_parts=(learner.id, "strip", skill.id, seed))
    out.mkdir(parents=True, exist_ok=True)
    data = json.dumps(map_to_data(prints.pages.pages), ensure_ascii=False, indent=1).encode()
    for file, content in zip(FILES, (prints.guide, prints.pages.pdf, prints.key, data), strict=True):
        (out / file).write_bytes(content)
    click.echo(f"{learner.name}, “{skill.title}”: three short days in {out}")


def _habit(learner: Learner, skill: Skill) -> ErrorWayId | None:
    """The habit that all marks so far show in the skill's strand, if they show one."""
    marked = selectors.events_of(learner, Marked)
    replaced = {event.replaces for event in marked if isinstance(event, Marked)}
    kept = [event for event in marked if isinstance(event, Marked) and event.sheet and event.head.id not in replaced]
    pages = [page for one in kept for page in selectors.pages_of(selectors.sheet_find(learner.household, one.sheet))]
    habits = habits_in_marks(grade2(), [mark for one in kept for mark in one.items], pages)
    return named(odds_in(habits, skill.strand)).habit
