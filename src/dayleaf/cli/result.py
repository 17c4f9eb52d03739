"""`dayleaf result`: what a marked chapter test says, skill by skill, and what to do next."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from dayleaf.cli.options import home_option, household_in
from dayleaf.cli.shapes import say_json
from dayleaf.course.load import grade2
from dayleaf.records import selectors
from dayleaf.records.results import test_result

if TYPE_CHECKING:
    from pathlib import Path

    from dayleaf.records.results import TestResult


@click.command()
@click.argument("chapter", type=int)
@click.option("--learner", "name", required=True, help="The child's name.")
@click.option("--json", "as_json", is_flag=True, help="Print JSON.")
@home_option
def verb(*, chapter: int, name: str, as_json: bool, home: Path) -> None:
    """Say what the test of CHAPTER showed: marks by skill, and go on, fix up, try the other form or teach again."""
    household = household_in(home)
    learner = selectors.learner_by_name(household, name)
    result = test_result(household, learner, chapter)
    if as_json:
        say_json({"result": result_shape(result) if result else None})
    elif result is None:
        click.echo(f"{learner.name} has no marked test of chapter {chapter} yet.")
    else:
        for line in result_lines(result):
            click.echo(line)


def result_lines(result: TestResult) -> list[str]:
    """Skill by skill, then what to do."""
    skills = grade2().skills
    wide = max(len(skills[one.skill].title) for one in result.advice.results)
    by_skill = [
        f"  {skills[one.skill].title:<{wide}}  {one.right} of {one.of}  {'holds' if one.holds else 'not yet'}"
        for one in result.advice.results
    ]
    return [result.sentences[0], *by_skill, *result.sentences[1:]]


def result_shape(result: TestResult) -> dict[str, Any]:
    """The result for other programs."""
    advice = result.advice
    return {
        "chapter": result.test.chapter,
        "lesson": result.test.id,
        "form": result.form,
        "marked_on": result.marked_on.isoformat(),
        "step": advice.step,
        "minutes": advice.minutes,
        "from_lesson": advice.from_lesson,
        "when": result.when.isoformat() if result.when else None,
        "skills": [
            {"skill": one.skill, "right": one.right, "of": one.of, "holds": one.holds} for one in advice.results
        ],
        "evidence": advice.evidence,
        "change": advice.change,
        "waiting": list(result.waiting),
        "said": list(result.sentences),
    }
