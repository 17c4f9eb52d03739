"""A year lived: lessons, fronts, backs chosen by a policy, and what is known 1 and 60 days after it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Protocol

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Callable

    from dayleaf.trial.minds import Floats, Memory, Numbers, Truths
    from dayleaf.trial.world import World

AFTER = (1, 60)
"""Days after the year's last day on which is looked what is known."""


class Policy(Protocol):
    """Chooses the skills of a back for many children. Sees answers, never what a child knows."""

    def taught(self, children: Numbers, skills: Numbers, day: float) -> None:
        """A lesson was taught."""

    def answered(self, children: Numbers, skills: Numbers, day: float, *, right: Truths, helped: Truths) -> None:
        """An answer of each of these children."""

    def choose(self, children: Numbers, today: Numbers, day: float, n: int) -> Numbers:
        """`n` skills for each child, children in rows, −1 for none; none is `today`'s of the child."""


@dataclass(frozen=True, slots=True)
class Log:
    """Every answer of a trial in order, as flat arrays."""

    child: Numbers
    day: Floats
    skill: Numbers
    right: Truths
    helped: Truths
    chance: Floats
    """P(right) as it was when the question was asked."""


@dataclass(frozen=True, slots=True)
class Year:
    """What came of a year: P(right) by child and skill 1 and 60 days after it, and the log."""

    after: tuple[Floats, ...]
    log: Log


def live(
    world: World,
    memory: Memory,
    policy: Policy,
    *,
    children: int,
    seed: int,
    lessons: Callable[[Numbers, int, float], Numbers] | None = None,
    watch: Callable[[float], None] | None = None,
) -> Year:
    """Let children live through the world's year; `watch` is called after each day.

    `lessons(children, number, day)` says what is taught to each child on the day of that number (-1: nothing); left
    out, every lesson has its fixed day. A child that misses a day misses its lesson and its back. Items are answered
    one after another.
    """
    chance = np.random.default_rng(seed)
    traits = memory.traits  # type: ignore[attr-defined]  # every memory of ours has them
    rows: list[tuple[Numbers, Floats, Numbers, Truths, Truths, Floats]] = []

    def ask(who: Numbers, skills: Numbers, day: float) -> None:
        true = memory.chance(who, skills, day)
        helped = chance.random(len(who)) < traits.helped[who]
        right = chance.random(len(who)) < np.where(helped, true + 0.6 * (1 - true), true)
        memory.practise(who, skills, day, right)
        policy.answered(who, skills, day, right=right, helped=helped)
        rows.append((who, np.full(len(who), day), skills, right, helped, true))

    for number, day in enumerate(world.days):
        here = np.flatnonzero(chance.random(children) >= traits.missed)
        today = _fixed(world, here, number) if lessons is None else lessons(here, number, day)
        taught = today >= 0
        if taught.any():
            memory.teach(here[taught], today[taught], day)
            policy.taught(here[taught], today[taught], day)
            for _ in range(world.front):
                ask(here[taught], today[taught], day)
        backs = policy.choose(here, today, day, world.back)
        for place in range(backs.shape[1]):
            some = backs[:, place] >= 0
            if some.any():
                ask(here[some], backs[some, place], day)
        if watch is not None:
            watch(day)
    end = world.days[-1]
    after = tuple(memory.chances(end + days) for days in AFTER)
    columns = [np.concatenate(column) for column in zip(*rows, strict=True)]
    return Year(after=after, log=Log(*columns))


def _fixed(world: World, children: Numbers, number: int) -> Numbers:
    return np.full(len(children), world.lessons[number] if number < len(world.lessons) else -1)
