"""Every answer again, by separate code that sees only what is printed.

Nothing here imports a maker, an error way or a step: a mistake there cannot repeat itself here.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.errors import DayleafError
from dayleaf.items.second.daily import daily_answer
from dayleaf.items.second.group_stories import group_story_answer
from dayleaf.items.second.groups import groups_answer
from dayleaf.items.second.large_numbers import large_answer
from dayleaf.items.second.large_questions import large_question_answer
from dayleaf.items.second.matched import matched_answer
from dayleaf.items.second.parts import parts_answer
from dayleaf.items.second.pictured import pictured_answer
from dayleaf.items.second.questions import question_answer
from dayleaf.items.second.sums import sum_answer

if TYPE_CHECKING:
    from dayleaf.items.model import Item

_SOLVERS = (
    parts_answer,
    groups_answer,
    group_story_answer,
    daily_answer,
    large_question_answer,
    large_answer,
    sum_answer,
    question_answer,
    pictured_answer,
    matched_answer,
)


class NoSecondSolver(DayleafError):
    """An item of a kind that is answered only once."""

    def __init__(self, *, key: str) -> None:
        self.key = key
        super().__init__(f"The answer of {key} cannot be checked a second time.")


def second_answer(item: Item) -> str:
    """The canonical answer, worked out again from the prompt and the picture.

    Raises:
        NoSecondSolver: no separate code reads items of this kind.
    """
    for solve in _SOLVERS:
        answer = solve(item)
        if answer is not None:
            return answer
    raise NoSecondSolver(key=item.key)
