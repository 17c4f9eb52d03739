"""The model's numbers fitted to the logs of many learners: flat arrays of whole numbers in, numbers out.

Nothing that names a learner, a household or a date is asked for: learners, skills and days are counted from 0.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

import numpy as np

from dayleaf.learner.cohort import Cohort
from dayleaf.learner.parameters import DEFAULT, Parameters

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from numpy.typing import NDArray

    from dayleaf.learner.graph import Graph

    Floats = NDArray[np.float64]
    Numbers = NDArray[np.intp]
    Truths = NDArray[np.bool_]

FITTED: Final = ("base", "wrong", "pause_weight", "beneath_weight", "lesson")
"""What is fitted unless other names are given: each moves the chances by itself."""
NUDGE: Final = 0.02
FIRST_STEP: Final = 0.1


@dataclass(frozen=True, slots=True)
class Answers:
    """A log of many learners as columns of equal length, each learner's rows in order of time.

    `lesson` marks rows that are lessons (their `right` says nothing); `weight` is 1 for an answer alone, .5 with help.
    """

    child: Numbers
    day: Floats
    skill: Numbers
    right: Truths
    weight: Floats
    lesson: Truths

    def of(self, rows: Truths) -> Answers:
        """Only these rows."""
        return Answers(*(getattr(self, name)[rows] for name in self.__slots__))


@dataclass(frozen=True, slots=True)
class Fit:
    """Fitted parameters, with the mean log loss of an answer on those fitted and on those held out."""

    parameters: Parameters
    loss: float
    held_out: float


def replay(answers: Answers, graph: Graph, parameters: Parameters = DEFAULT) -> Floats:
    """P(right) believed before each row was known (of a lesson: not a number); all learners go on together."""
    children = int(answers.child.max(initial=-1)) + 1
    cohort = Cohort(graph, children, parameters)
    chances = np.full(len(answers.child), np.nan)
    for rows in _steps(answers.child):
        lessons, asked = rows[answers.lesson[rows]], rows[~answers.lesson[rows]]
        if len(lessons):
            cohort.teach(answers.child[lessons], answers.skill[lessons], answers.day[lessons])
        if len(asked):
            chances[asked] = cohort.answer(
                answers.child[asked],
                answers.skill[asked],
                answers.day[asked],
                right=answers.right[asked],
                weight=answers.weight[asked],
            )
    return chances


def loss(answers: Answers, graph: Graph, parameters: Parameters = DEFAULT) -> float:
    """The mean of −ln of the chance given to what was answered, lessons left out."""
    asked = ~answers.lesson
    chances, right = replay(answers, graph, parameters)[asked], answers.right[asked]
    return float(-np.log(np.where(right, chances, 1 - chances)).mean())


def fit_parameters(
    answers: Answers,
    graph: Graph,
    *,
    start: Parameters = DEFAULT,
    names: Sequence[str] = FITTED,
    hold_out: float = 0.25,
    rounds: int = 15,
    watch: Callable[[int, int], None] | None = None,
) -> Fit:
    """Parameters by gradient descent on the log loss, the last share of the learners held out.

    The gradient is taken by differences, the length of each number's step by the sign of its last two gradients
    (Riedmiller, Braun 1993). The best found on the learners fitted is given back.
    """
    children = int(answers.child.max()) + 1
    kept = answers.child < max(1, round(children * (1 - hold_out)))
    train, test = answers.of(kept), answers.of(~kept)
    if len(test.child):
        test = replace(test, child=test.child - test.child.min())
    at = np.array([getattr(start, name) for name in names], dtype=np.float64)
    step, before = np.full(len(names), FIRST_STEP), np.zeros(len(names))

    def tried(values: Floats) -> float:
        return loss(train, graph, replace(start, **dict(zip(names, values.tolist(), strict=True))))

    best, best_loss = at.copy(), tried(at)
    for number in range(rounds):
        here = tried(at)
        gradient = np.array([(tried(at + NUDGE * one) - here) / NUDGE for one in np.eye(len(names))])
        step *= np.where(gradient * before > 0, 1.3, np.where(gradient * before < 0, 0.5, 1.0))
        at -= step * np.sign(gradient)
        before = gradient
        now = tried(at)
        if watch is not None:
            watch(number + 1, rounds)
        if now < best_loss:
            best, best_loss = at.copy(), now
    found = replace(start, **dict(zip(names, best.tolist(), strict=True)))
    return Fit(found, best_loss, loss(test, graph, found) if len(test.child) else float("nan"))


def _steps(child: Numbers) -> list[Numbers]:
    """Rows that can go together: the first of each learner, the second of each, and so on."""
    order = np.argsort(child, kind="stable")
    sorted_child = child[order]
    first = np.searchsorted(sorted_child, sorted_child)
    turn = np.empty(len(child), dtype=np.intp)
    turn[order] = np.arange(len(child)) - first
    by_turn = np.argsort(turn, kind="stable")
    ends = np.cumsum(np.bincount(turn)) if len(child) else np.zeros(0, dtype=np.intp)
    return np.split(by_turn, ends[:-1]) if len(ends) else []
