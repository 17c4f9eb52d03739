"""The skills of the course as the library's pages say them: one example each, how it is asked, what rests on what."""

from __future__ import annotations

from dataclasses import replace
from functools import cache, lru_cache
from typing import TYPE_CHECKING, Any, Final

from dayleaf.course.load import grade2
from dayleaf.items.built import formats_built
from dayleaf.items.draw import draw_items
from dayleaf.items.model import Match, Row, Sort
from dayleaf.sheets.cells import LETTERS, answer_words
from dayleaf.web.shelf import inline_figure
from dayleaf.wording.say import instruction_for, lines_of, option_words, steps_of, text_of

if TYPE_CHECKING:
    from collections.abc import Iterable

    from dayleaf.core.ids import FormatId, SkillId
    from dayleaf.course.model import Day, Skill
    from dayleaf.items.model import Figure, Item, Part

EXAMPLE_SEED: Final = 2027
"""The examples of the catalogue in docs/, so that both show the same items."""

WHERE: Final = ("taught", "practised", "tested")


def skills_by_strand(found: Iterable[SkillId] | None = None) -> list[dict[str, Any]]:
    """Every strand with its skills, each with one example in a line; only those found where a search is on."""
    wanted = None if found is None else set(found)
    strands = []
    for strand, title in grade2().strands.items():
        lines = [one for one in _lines_of_strand(strand) if wanted is None or one["id"] in wanted]
        if lines:
            strands.append({"id": strand, "title": title, "skills": lines})
    return strands


@cache
def _lines_of_strand(strand: str) -> tuple[dict[str, Any], ...]:
    return tuple(
        {"id": skill.id, "title": skill.title, "example": _in_a_line(skill)}
        for skill in grade2().skills.values()
        if skill.strand == strand
    )


def _in_a_line(skill: Skill) -> str:
    """An item that can be said in one short line, or what a grown-up asks."""
    for name in formats_built(skill.id):
        item = draw_items(skill, n=1, seed=EXAMPLE_SEED, format=name)[0]
        if isinstance(item.prompt, Row) and item.figure is None:
            return text_of(item, "en")
    return skill.ask


@lru_cache(maxsize=512)
def shown_skill(skill_id: SkillId) -> dict[str, Any]:
    """One skill with an example of every way to ask it, what rests on what, slips, and the days on which it stands.

    Raises:
        KeyError: the course has no such skill.
    """
    course = grade2()
    skill = course.skills[skill_id]
    return {
        "skill": skill,
        "strand": {"id": skill.strand, "title": course.strands[skill.strand]},
        "examples": [_example(skill, name) for name in skill.formats if name in formats_built(skill_id)],
        "before": [course.skills[one] for one in skill.prereqs],
        "after": [one for one in course.skills.values() if skill_id in one.prereqs],
        "ways": [{"text": note.text, "next": course.error_ways[note.id].try_next} for note in skill.error_ways],
        "days": {word: _days(skill_id, word) for word in WHERE},
    }


def _days(skill_id: SkillId, word: str) -> list[Day]:
    """The days on which it is new, comes on a page, or stands in a chapter's test or look back."""
    found = []
    for day in grade2().days:
        asked = {*day.refresh_skills, *day.front_skills, *day.back_skills}
        last = day.kind in ("test", "look-back", "look-back-all")
        here = {
            "taught": skill_id in day.new_skills,
            "practised": skill_id in asked and skill_id not in day.new_skills and not last,
            "tested": skill_id in asked and last,
        }
        if here[word]:
            found.append(day)
    return found


def _example(skill: Skill, name: FormatId) -> dict[str, Any]:
    """One item as a page shows it: what to do, what is asked, its pictures and options, the answer and the steps."""
    item = draw_items(skill, n=1, seed=EXAMPLE_SEED, format=name)[0]
    listed = isinstance(item.prompt, Match | Sort)
    return {
        "name": grade2().formats[name].name,
        "do": instruction_for(item, "en"),
        "lines": () if listed else lines_of(item, "en"),
        "figure": _picture(item.figure),
        "things": list(_things(item)),
        "options": [option for part in item.parts for option in _options(item, part)] if not listed else [],
        "answer": answer_words(item, "en"),
        "steps": steps_of(item, "en"),
    }


def _picture(figure: Figure | None) -> str:
    return inline_figure(figure) if figure is not None and figure.kind != "none" else ""


def _things(item: Item) -> Iterable[dict[str, str]]:
    """The lines of a match or a sort: a letter and a thing, and what stands across from it."""
    prompt = item.prompt
    if isinstance(prompt, Match):
        for place, (left, right) in enumerate(zip(prompt.left, prompt.right, strict=True)):
            yield {
                "letter": LETTERS[place],
                **_thing(item, left),
                "across": str(place + 1),
                **{f"other_{name}": value for name, value in _thing(item, right).items()},
            }
    elif isinstance(prompt, Sort):
        groups = " · ".join(option_words(group, "en", item) for group in prompt.groups)
        for place, thing in enumerate(prompt.things):
            other = {"across": "", "other_words": groups, "other_svg": ""}
            yield {"letter": LETTERS[place], **_thing(item, thing), **other}


def _thing(item: Item, thing: Row | Figure) -> dict[str, str]:
    if isinstance(thing, Row):
        return {"words": lines_of(replace(item, prompt=thing), "en")[0], "svg": ""}
    return {"words": "", "svg": _picture(thing)}


def _options(item: Item, part: Part) -> Iterable[dict[str, str]]:
    """The options to ring or tick, each with its letter, its words or its picture."""
    for place, option in enumerate(part.options):
        words = "" if option.figure else option_words(option.code, "en", item)
        yield {"letter": LETTERS[place], "words": words, "svg": _picture(option.figure)}
