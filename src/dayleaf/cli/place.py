"""`dayleaf place`: where a child begins, on paper or question by question."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from dayleaf.cli.answers import answers_given
from dayleaf.cli.options import home_option, household_in
from dayleaf.cli.shapes import item_data, say_json
from dayleaf.core.errors import BadInput, Problem
from dayleaf.core.seeds import seed_from
from dayleaf.course.load import grade2
from dayleaf.learner.asking import can_be_read_aloud, item_to_read
from dayleaf.learner.placement import place
from dayleaf.learner.start import placement_map
from dayleaf.learner.states import ground_of_course, number_skills
from dayleaf.packets.placement import ON_PAPER, placement_skills, print_placement
from dayleaf.records import selectors
from dayleaf.records.paper import child_of
from dayleaf.sheets.codec import map_to_data

if TYPE_CHECKING:
    from dayleaf.learner.placement import Placed
    from dayleaf.learner.start import PlacementMap

FILES = ("guide.pdf", "pages.pdf", "key.pdf", "sheets.json")


@click.command()
@click.option("--learner", "name", required=True, help="The child's name.")
@click.option("--out", type=click.Path(path_type=Path, file_okay=False), help="Print the paper into this folder.")
@click.option("--right-except", help="The paper was done: the numbers that are not right, as 7,9,10.")
@click.option("--reached", type=int, help="The last number that was reached.")
@click.option("--answers", help='Answers on screen so far, as [{"skill": "…", "correct": true}, …].')
@click.option("--json", "as_json", is_flag=True, help="Print JSON.")
@home_option
def verb(
    *,
    name: str,
    out: Path | None,
    right_except: str | None,
    reached: int | None,
    answers: str | None,
    as_json: bool,
    home: Path,
) -> None:
    """Say where a child begins, with a map and reasons.

    Print the paper with --out, then tell what was right with --right-except and --reached; or ask question by
    question, with the --answers so far. Nothing is recorded; the paper of one child is always the same.
    """
    learner = selectors.learner_by_name(household_in(home), name)
    course = grade2()
    ground, skills = ground_of_course(course), number_skills(course)
    child = child_of(learner)
    if out is not None or right_except is not None or reached is not None:
        places = {skill: float(day) for skill, day in zip(ground.graph.ids, ground.place, strict=True)}
        asked = placement_skills(course, places, skills=skills, lang=child.look.lang, n=ON_PAPER)
        paper = print_placement(course, asked, child, seed=seed_from("placement", learner.id))
        if out is not None:
            out.mkdir(parents=True, exist_ok=True)
            data = json.dumps(map_to_data(paper.prints.pages.pages), ensure_ascii=False, indent=1).encode()
            contents = (paper.prints.guide, paper.prints.pages.pdf, paper.prints.key, data)
            for file, content in zip(FILES, contents, strict=True):
                (out / file).write_bytes(content)
            click.echo(f"{learner.name}: {len(paper.items)} questions on two sides in {out}")
            return
        heard = paper.answers(wrong=_numbers(right_except or "", len(paper.items)), reached=reached)
        placed = place(ground, heard, judged=skills, most=len(heard))
    else:
        heard = answers_given(answers or "[]", course.skills)
        askable = frozenset(skill for skill in course.skills if can_be_read_aloud(skill))
        placed = place(ground, heard, asks=askable, judged=skills)
    found = placement_map(course, ground, placed, heard, skills=skills)
    if as_json:
        say_json(_shape(placed, found, seed=seed_from("placement", learner.id, len(heard))))
        return
    click.echo("\n".join([*found.reasons, *(start.sentence for start in found.starts)]))


def _numbers(text: str, most: int) -> frozenset[int]:
    pieces = [piece.strip() for piece in text.split(",") if piece.strip()]
    bad = [piece for piece in pieces if not piece.isdigit() or not 1 <= int(piece) <= most]
    if bad:
        raise BadInput([Problem(f"--right-except {piece}", f"give numbers from 1 to {most}") for piece in bad])
    return frozenset(int(piece) for piece in pieces)


def _shape(placed: Placed, found: PlacementMap, *, seed: int) -> dict[str, Any]:
    ask = None
    if placed.ask is not None:
        ask = {"skill": placed.ask, "item": item_data(item_to_read(grade2().skills[placed.ask], seed=seed))}
    return {
        "ask": ask,
        "start": found.start.number if found.start else None,
        "lesson": found.start.id if found.start else None,
        "reasons": list(found.reasons),
        "starts": [
            {
                "day": start.day.number,
                "again": round(start.again, 1),
                "left_out": round(start.left_out, 1),
                "sentence": start.sentence,
            }
            for start in found.starts
        ],
        "map": [
            {
                "skill": entry.skill,
                "title": entry.title,
                "strand": entry.strand,
                "word": entry.word,
                "p": round(entry.p, 3),
                "asked": list(entry.asked),
            }
            for entry in found.entries
        ],
    }
