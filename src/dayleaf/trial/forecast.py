"""What a plan may come to: virtual children live through it. Every figure is simulated; say so where it is shown."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

import numpy as np

from dayleaf.learner.cohort import Cohort
from dayleaf.learner.outlook import chance, echo, firmness, last_seen
from dayleaf.learner.pacing import FIRM, LEVEL, MOST_REPEATS
from dayleaf.trial.activation import Activation
from dayleaf.trial.believed import Believed
from dayleaf.trial.halflives import Halflives
from dayleaf.trial.policies import Ours
from dayleaf.trial.timescales import Timescales
from dayleaf.trial.year import live

if TYPE_CHECKING:
    from collections.abc import Callable

    from dayleaf.learner.mind import Mind
    from dayleaf.trial.minds import Floats, Memory, Numbers
    from dayleaf.trial.world import World

KINDS: Final[tuple[Callable[[World, int, np.random.Generator], Memory], ...]] = (Activation, Timescales, Halflives)
KNOWN: Final = 0.7
"""A skill counts as firm at the end if a right answer has at least this chance."""


@dataclass(frozen=True, slots=True)
class Forecast:
    """What came of the trial years, one entry a virtual child; simulated.

    `finished` is the day of the last lesson (∞ where the days did not suffice), `firm` how many of the `skills` taught
    have P(right) ≥ .7 on the last day, `repeats` the lessons given again.
    """

    finished: tuple[float, ...]
    firm: tuple[int, ...]
    repeats: tuple[int, ...]
    skills: int

    def finished_by(self, share: float) -> float | None:
        """The day by which this share of the children is through; None where too few are."""
        ordered = sorted(self.finished)
        day = ordered[min(len(ordered) - 1, max(0, int(np.ceil(share * len(ordered))) - 1))]
        return day if np.isfinite(day) else None


def forecast(
    world: World,
    *,
    children: int = 200,
    seed: int,
    mind: Mind | None = None,
    watch: Callable[[int, int], None] | None = None,
) -> Forecast:
    """Let `children` virtual children live through the world's lessons in order.

    With `mind` they are drawn from what is believed of one child, and everything goes on from there; its graph must be
    the world's. Without, they are a third of each kind of memory and begin new.

    A lesson is repeated, at most twice, where the belief is not firm; a missed day moves everything by one; the days
    are those of the world, of which there may be more than lessons. Backs rotate, the longest unseen first: that is
    within two points of the app's own choice and quick. `watch(done, all)` is told after each day.
    """
    kinds: tuple[Callable[[World, int, np.random.Generator], Memory], ...] = KINDS
    if mind is not None:
        kinds = (lambda _world, many, chance: Believed(mind, many, chance),)
    parts = [part for part in np.array_split(np.arange(children), len(kinds)) if len(part)]
    skills = np.unique(world.lessons)
    finished, firm, repeats = [], [], []
    total, done = len(world.days) * len(parts), 0

    def tell(_day: float) -> None:
        nonlocal done
        done += 1
        if watch is not None:
            watch(done, total)

    for place, (kind, part) in enumerate(zip(kinds, parts, strict=False)):
        many = len(part)
        memory = kind(world, many, np.random.default_rng([seed, place]))
        plain = _Rotating(world, many, seed)
        if mind is not None:
            plain.begin_like(mind)
        through = _Through(world, many, plain)
        live(
            replace(world, lessons=()),
            memory,
            plain,
            children=many,
            seed=seed + place,
            lessons=through.lessons,
            watch=tell,
        )
        finished += through.finished.tolist()
        repeats += through.repeats.tolist()
        firm += (memory.chances(world.days[-1])[:, skills] >= KNOWN).sum(axis=1).tolist()
    return Forecast(tuple(finished), tuple(firm), tuple(repeats), len(skills))


class _Rotating(Ours):
    """Believes as ours does, and asks the longest unseen."""

    def begin_like(self, mind: Mind) -> None:
        """Start from what is believed of one child, and from what it met."""
        self.cohort = Cohort.like(mind, len(self.met))
        self.last = last_seen(self.cohort).copy()
        self.met = np.isfinite(self.last)

    def score(self, day: float) -> Floats:
        waited: Floats = day - self.last + 0.5 * self.chance.random(self.met.shape)
        return waited


class _Through:
    """Every lesson in order, repeated where not firm, and the day of each child's last one."""

    def __init__(self, world: World, children: int, ours: Ours) -> None:
        self.order = np.array(world.lessons)
        self.ours = ours
        self.next = np.zeros(children, dtype=np.intp)
        self.times = np.zeros(children, dtype=np.intp)
        self.repeats = np.zeros(children, dtype=np.intp)
        self.finished = np.full(children, np.inf)

    def lessons(self, children: Numbers, number: int, day: float) -> Numbers:
        """What is taught to each child today; -1 where the course is done."""
        place = self.next[children]
        current = self.order[np.maximum(place - 1, 0)]
        again = np.zeros(len(children), dtype=bool)
        if number:
            cohort = self.ours.cohort
            eta, variance = cohort.seen(children, current, day)
            p = chance(cohort.parameters, eta, variance)
            firm = firmness(cohort.parameters, eta, variance, p, echo=echo(cohort)[children, 0], level=LEVEL)
            last = place >= len(self.order)
            again = (place > 0) & (firm < FIRM) & (self.times[children] <= MOST_REPEATS) & ~last
        fresh = ~again & (place < len(self.order))
        chosen = np.where(again, current, np.where(fresh, self.order[np.minimum(place, len(self.order) - 1)], -1))
        self.times[children] = np.where(again, self.times[children] + 1, 1)
        self.repeats[children] += again
        self.next[children] += fresh
        done = (self.next[children] == len(self.order)) & ~np.isfinite(self.finished[children])
        self.finished[children[done]] = day
        return chosen
