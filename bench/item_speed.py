"""How fast complete items are made, over every plain pair of skill and format alike.

Plain is an item whose prompt is a row or a column and which has no picture. Complete is one with its text, its answer,
its steps and the answer of every error way. Of each pair as many are made as of any other.
"""

from __future__ import annotations

from itertools import islice
from random import Random
from time import process_time
from typing import TYPE_CHECKING

from timed import Figure, median_ms

from dayleaf.course.load import grade2
from dayleaf.items.built import rules
from dayleaf.items.domain import domain_of
from dayleaf.items.draw import draw_items
from dayleaf.items.face import figures_of
from dayleaf.items.make import make
from dayleaf.items.model import Column, Row
from dayleaf.wording.say import steps_of, text_of

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping

    from dayleaf.core.ids import FormatId
    from dayleaf.course.model import Skill

EACH = 40
LANG = "en"


def item_figures() -> Iterator[Figure]:
    """One figure for all plain pairs, beside the bare sums."""
    wanted = [
        (skill, format_id, tuple(numbers))
        for skill, format_id in _plain()
        if (numbers := list(_numbers(skill, format_id)))
    ]
    count = sum(len(numbers) for _, _, numbers in wanted)
    sums = [(format_id, one) for _, format_id, numbers in wanted for one in numbers]

    def every_one() -> list[int]:
        return [_complete(skill, name, one) for skill, name, rows in wanted for one in rows]

    yield Figure(
        f"{count:,} plain items of {len(wanted)} pairs, complete: {count / _worked(every_one):,.0f} a second a core",
        median_ms(every_one),
        "their numbers alone, formatted",
        median_ms(lambda: [" ".join(map(str, one.values())) for _, one in sums]),
        "no text, answer, steps or error ways",
    )


def _worked(do: Callable[[], object]) -> float:
    """Seconds that the core itself worked, whatever else the machine had to do; the best of five."""
    taken = []
    for _ in range(5):
        start = process_time()
        do()
        taken.append(process_time() - start)
    return min(taken)


def _plain() -> Iterator[tuple[Skill, FormatId]]:
    skills = grade2().skills
    for skill_id, rule in rules().items():
        for format_id in rule.formats:
            item = draw_items(skills[skill_id], n=1, seed=1, format=format_id)[0]
            if isinstance(item.prompt, Row | Column) and not list(figures_of(item)):
                yield skills[skill_id], format_id


def _numbers(skill: Skill, format_id: FormatId) -> Iterator[Mapping[str, int]]:
    fits = rules()[skill.id].fits.get(format_id)
    shuffled = domain_of(skill).shuffled(Random(1), about=4 * EACH)
    yield from islice((one for one in islice(shuffled, 40 * EACH) if fits is None or fits(one)), EACH)


def _complete(skill: Skill, format_id: FormatId, numbers: Mapping[str, int]) -> int:
    item = make(skill, format_id, numbers)
    return len(text_of(item, LANG)) + len(steps_of(item, LANG)) + len(item.answer) + len(item.errors)
