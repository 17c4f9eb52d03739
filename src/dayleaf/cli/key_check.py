"""Items of every skill looked at from outside: solved again, kept to their rule, their pictures told and drawn."""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import dataclass, field
from itertools import combinations
from typing import TYPE_CHECKING

from dayleaf.core.errors import DayleafError, Problem
from dayleaf.figures.draw import draw
from dayleaf.items.built import formats_built
from dayleaf.items.domain import domain_of
from dayleaf.items.draw import draw_items
from dayleaf.items.face import figures_of
from dayleaf.items.model import Question, Story
from dayleaf.items.second import second_answer
from dayleaf.wording.given_away import Told, given_away
from dayleaf.wording.numbers import number_name
from dayleaf.wording.pictures import figure_texts, figure_words
from dayleaf.wording.say import lines_of, option_words, steps_of, text_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from dayleaf.course.model import Skill
    from dayleaf.items.model import Figure, Item, Part

LANG = "en"
NAMED = 200
"""Numbers up to here are sought in words too."""

_NUMERAL = re.compile(r"\d+")
_PRINTED = re.compile(r"<text[^>]*>([^<]+)<")


@dataclass(slots=True)
class Findings:
    """What was looked at, and each thing that is not as it must be, one problem a kind and question."""

    items: int = 0
    pictures: int = 0
    counts: Counter[str] = field(default_factory=Counter)
    problems: list[Problem] = field(default_factory=list)

    def add(self, kind: str, problem: Problem) -> None:
        """Count one finding; the first hundred are kept word for word."""
        self.counts[kind] += 1
        if len(self.problems) < 100:
            self.problems.append(problem)


KINDS = (
    "wrong keys",
    "out of range",
    "without words",
    "alt texts that give the answer away",
    "figures without text",
    "figures that cannot be drawn",
    "figures told alike",
)
"""What can be found. A key is wrong where the second solver has another answer; an item is out of range where its
numbers break the skill's rule; figures are told alike where two different ones to choose from have the same words."""

WRONG, RANGE, WORDLESS, AWAY, UNTOLD, UNDRAWN, ALIKE = KINDS


def check_skill(skill: Skill, count: int, findings: Findings) -> None:
    """Look at `count` items of a skill, spread over its formats; an item that comes again is looked at once."""
    formats = formats_built(skill.id)
    domain = domain_of(skill)
    told: list[Told] = []
    for turn, format_id in enumerate(formats):
        share = count // len(formats) + (turn < count % len(formats))
        items = draw_items(skill, n=share, seed=1, format=format_id)
        findings.items += len(items)
        for item in {item.key: item for item in items}.values():
            if not domain.holds(item.numbers):
                findings.add(RANGE, Problem(item.key, f"the rule {skill.item_rule} does not allow it"))
            _solve_again(item, findings)
            _say(item, findings)
            told += _look(item, findings)
    for one in given_away(told):
        kind, place = one.place
        message = f"the words of the picture say the answer ({kind} {place}): {one.said}"
        findings.add(AWAY, Problem(one.item, message))


def _solve_again(item: Item, findings: Findings) -> None:
    try:
        again = second_answer(item)
    except (DayleafError, LookupError, ValueError, ArithmeticError) as stopped:  # whatever stops it is a finding
        findings.add(WRONG, Problem(item.key, f"answer {item.answer}, not computed: {stopped}"))
        return
    if again != item.answer:
        findings.add(WRONG, Problem(item.key, f"answer {item.answer}, computed {again}"))


def _say(item: Item, findings: Findings) -> None:
    try:
        said = (text_of(item, LANG), *steps_of(item, LANG))
    except DayleafError as wordless:
        findings.add(WORDLESS, Problem(item.key, str(wordless)))
        return
    if not all(said):
        findings.add(WORDLESS, Problem(item.key, "an empty sentence"))


def _look(item: Item, findings: Findings) -> Iterator[Told]:
    """Draw and tell every picture of an item; what is told of the item's own picture, question by question."""
    for figure in figures_of(item):
        findings.pictures += 1
        words = _words(figure, item, findings)
        if words is None:
            continue
        title, desc = words
        try:
            svg = draw(figure, title=title, desc=desc, words=figure_texts(figure, LANG)).svg
        except DayleafError as undrawn:
            findings.add(UNDRAWN, Problem(item.key, str(undrawn)))
            continue
        if figure is item.figure:
            labels = [label.strip() for label in _PRINTED.findall(svg)]
            asked = " ".join(lines_of(item, LANG))
            printed = frozenset(labels).union(*(_NUMERAL.findall(text) for text in (*labels, asked)))
            yield from _told(item, f"{title}. {desc}", printed)
    for part in item.parts:
        pictures = [option.figure for option in part.options if option.figure is not None]
        for one, other in combinations(pictures, 2):
            if one != other and figure_words(one, LANG) == figure_words(other, LANG):
                said = figure_words(one, LANG)[1]
                findings.add(ALIKE, Problem(item.key, f"two different pictures have the same words: {said}"))


def _words(figure: Figure, item: Item, findings: Findings) -> tuple[str, str] | None:
    try:
        title, desc = figure_words(figure, LANG)
    except DayleafError as wordless:
        findings.add(UNTOLD, Problem(item.key, str(wordless)))
        return None
    if not title or not desc:
        findings.add(UNTOLD, Problem(item.key, f"the {figure.kind} is not described"))
    return title, desc


def _told(item: Item, said: str, printed: frozenset[str]) -> Iterator[Told]:
    for part in item.parts:
        if part.kind in {"digits", "choice"} and not any(option.figure for option in part.options):
            question = f"{item.skill}/{item.format}/{_question(item)}/{part.id}"
            yield Told(item.key, question, said, _spellings(part, item), printed)


def _question(item: Item) -> str:
    prompt = item.prompt
    if isinstance(prompt, Question):
        return prompt.code
    return prompt.cell if isinstance(prompt, Story) else type(prompt).__name__


def _spellings(part: Part, item: Item) -> tuple[str, ...]:
    if part.kind == "choice":
        return (option_words(part.answer, LANG, item),)
    if part.answer.isdigit() and int(part.answer) <= NAMED:
        return part.answer, number_name(int(part.answer), LANG)
    return (part.answer,)
