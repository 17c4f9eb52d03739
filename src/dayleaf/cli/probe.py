"""`dayleaf probe`: down the chain under a skill to the first weak link."""

from __future__ import annotations

import click

from dayleaf.cli.answers import answers_given
from dayleaf.cli.shapes import item_data, say_json
from dayleaf.cli.skills import find_skill
from dayleaf.core.seeds import seed_from
from dayleaf.course.load import grade2
from dayleaf.learner.asking import can_be_read_aloud, item_to_read
from dayleaf.learner.probe import probe
from dayleaf.wording.say import text_of


@click.command()
@click.option("--skill", "skill_id", required=True, help="The skill that a child is stuck with.")
@click.option("--answers", default="[]", help='Answers so far, as [{"skill": "…", "correct": true}, …].')
@click.option("--json", "as_json", is_flag=True, help="Print JSON.")
def verb(*, skill_id: str, answers: str, as_json: bool) -> None:
    """Ask down the chain under a skill, at most six questions, for the first link that is not there yet."""
    course, stuck = grade2(), find_skill(skill_id)
    heard = answers_given(answers, course.skills)
    links = {skill.id: skill.prereqs for skill in course.skills.values()}
    found = probe(links, stuck.id, heard, may_ask={one for one in links if can_be_read_aloud(one)})
    asked = None
    if found.ask is not None:
        asked = item_to_read(course.skills[found.ask], seed=seed_from("probe", found.ask, len(heard)))
    if as_json:
        ask = {"skill": found.ask, "item": item_data(asked)} if asked else None
        say_json({"ask": ask, "link": found.link, "p": round(found.p, 4)})
        return
    if asked is not None:
        click.echo(f"Ask ({asked.skill}): {' '.join(text_of(asked, 'en').split())}")
        return
    click.echo(f"Take “{course.skills[found.link].title}” first ({found.link}).")
