"""What children may know: thousands of invented states of knowledge that obey the prerequisites.

A state says of each skill whether the child has it; whoever has a skill has what lies beneath it. The states come
from five stories of growth, mixed, so that placement leans on no single one:

- a child has got about as far as some day of the plan, evenly;
- the same with many single gaps;
- each skill was learnt some time after what lies beneath it, in an order that has nothing to do with the plan;
- each strand (or region of the graph) has come to a place of its own;
- each skill is had with the same chance by whoever has what lies beneath it.

All of them are assumptions without a source.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Final

import numpy as np

from dayleaf.learner.graph import graph_of

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from numpy.typing import NDArray

    from dayleaf.core.ids import SkillId
    from dayleaf.course.model import Course
    from dayleaf.learner.graph import Graph

NUMBER_STRANDS: Final = frozenset({"count", "pv", "addfact", "subfact", "add", "sub"})
"""The strands of our course in which a place is looked for; of others only what decides the start is asked."""

STATES: Final = 15_000
LEAST_STATES: Final = 1_000
ROOM: Final = 7_500_000
"""States times skills at the most."""
BEFORE: Final = 6.0
"""Days of the plan by which a skill that no day brings is taken to lie before the first one that stands on it."""
REACHES_OVER: Final = 40.0
"""Days before the first and after the last day of the plan at which a child may stand."""
KIN: Final = 0.85
"""How much of its lead a skill has from those beneath it."""


@dataclass(frozen=True, slots=True)
class Ground:
    """The skills by number, the day of the plan that brings each, and the invented states (states × skills)."""

    graph: Graph = field(repr=False)
    place: NDArray[np.float64] = field(repr=False)
    days: tuple[tuple[float, tuple[int, ...]], ...] = field(repr=False)
    states: NDArray[np.float32] = field(repr=False)
    starts: NDArray[np.float64] = field(repr=False)
    """The day each state would best begin with; empty where the plan brings no skill."""


TOO_LATE: Final = 3.0
"""A skill left out that the child lacks costs so much more than one begun again that it has (DESIGN 9)."""


def start_costs(
    days: Sequence[tuple[float, tuple[int, ...]]], known: NDArray[np.floating]
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """The days that bring skills for the first time, and what each would cost as a start, for every row of `known`.

    A skill begun again that is known costs one, a skill left out that is not costs three; `known` may hold
    probabilities (rows × skills).
    """
    seen: set[int] = set()
    first: list[tuple[float, list[int]]] = []
    for day, skills in days:
        new = [skill for skill in dict.fromkeys(skills) if skill not in seen]
        seen.update(new)
        if new:
            first.append((day, new))
    if not first:
        return np.zeros(0), np.zeros((len(known), 0))
    have = np.stack([known[:, new].sum(axis=1) for _, new in first], axis=1).astype(np.float64)
    lack = np.array([len(new) for _, new in first]) - have
    left_out = np.cumsum(lack, axis=1) - lack
    again = np.cumsum(have[:, ::-1], axis=1)[:, ::-1]
    return np.array([day for day, _ in first]), TOO_LATE * left_out + again


def ground_of(
    graph: Graph,
    plan: Sequence[tuple[float, Sequence[int]]],
    *,
    strands: Mapping[SkillId, str] | None = None,
    seed: int = 0,
    n: int | None = None,
) -> Ground:
    """The ground on which children are placed: a course graph, and a plan of (day, skill numbers) in any order.

    `strands` may say which skills belong together. The same arguments give the same states; there are fewer of them
    where a course has very many skills.
    """
    n = n or max(LEAST_STATES, min(STATES, ROOM // max(1, len(graph.ids))))
    days = tuple(sorted((day, tuple(skills)) for day, skills in plan))
    order = _upward(graph)
    place = _places(graph, days, order)
    chance = np.random.default_rng(seed)
    kin = _strands(graph, strands or {})
    share = n // 5
    known = [
        _by_lead(graph, place, order, kin, chance, n=share, spread=(3.0, 45.0), rough=(1.0, 12.0)),
        _by_lead(graph, place, order, kin, chance, n=share, spread=(3.0, 25.0), rough=(10.0, 40.0)),
        _by_time(graph, order, chance, n=share),
        _by_luck(graph, order, chance, n=share),
        _by_lead(graph, place, order, kin, chance, n=n - 4 * share, spread=(45.0, 120.0), rough=(1.0, 12.0)),
    ]
    states = np.concatenate(known).astype(np.float32)
    dates, costs = start_costs(days, states)
    starts = dates[np.argmin(costs, axis=1)] if len(dates) else np.zeros(0)
    return Ground(graph=graph, place=place, days=days, states=states, starts=starts)


def ground_of_course(course: Course) -> Ground:
    """The ground of a course of ours: its graph, the days that bring its skills, its strands."""
    graph = graph_of(course)
    days = [(float(day.number), [graph.number[skill] for skill in day.new_skills]) for day in course.days]
    strands = {skill.id: skill.strand for skill in course.skills.values()}
    return ground_of(graph, [(day, skills) for day, skills in days if skills], strands=strands)


def number_skills(course: Course) -> frozenset[SkillId]:
    """The skills that placement is about; all else is asked in the first week of its own chapter (JOB 1.2)."""
    return frozenset(skill.id for skill in course.skills.values() if skill.strand in NUMBER_STRANDS)


def _places(graph: Graph, days: Sequence[tuple[float, tuple[int, ...]]], order: Sequence[int]) -> NDArray[np.float64]:
    """The first day that brings each skill; for others a place before what stands on them, or after all."""
    place: dict[int, float] = {}
    for day, skills in days:
        for skill in skills:
            place.setdefault(skill, day)
    last = max(place.values(), default=0.0)
    above: dict[int, list[int]] = {skill: [] for skill in order}
    for skill in order:
        for lower in graph.beneath[skill]:
            above[lower].append(skill)
    for skill in reversed(order):
        later = [place[upper] for upper in above[skill] if upper in place]
        if skill not in place and later:
            place[skill] = min(later) - BEFORE
    for skill in order:
        if skill not in place:
            place[skill] = max([last, *(place[lower] for lower in graph.beneath[skill] if lower in place)]) + BEFORE
    return np.array([place[skill] for skill in range(len(graph.ids))])


def _upward(graph: Graph) -> tuple[int, ...]:
    """The skills, each after those beneath it; skills that go in a ring keep their order."""
    done: dict[int, None] = {}
    waiting = list(range(len(graph.ids)))
    while waiting:
        ready = [skill for skill in waiting if all(lower in done for lower in graph.beneath[skill])]
        done.update(dict.fromkeys(ready or waiting))
        waiting = [skill for skill in waiting if skill not in done]
    return tuple(done)


def _by_lead(
    graph: Graph,
    place: NDArray[np.float64],
    order: Sequence[int],
    kin: Sequence[int],
    chance: np.random.Generator,
    *,
    n: int,
    spread: tuple[float, float],
    rough: tuple[float, float],
) -> NDArray[np.bool_]:
    """Children who stand about at a day of the plan: leads by strand and by kinship in the graph, and single gaps."""
    reached = chance.uniform(place.min() - REACHES_OVER / 4, place.max() + REACHES_OVER, n)
    wide = np.exp(chance.uniform(np.log(spread[0]), np.log(spread[1]), n))
    uneven = np.exp(chance.uniform(np.log(rough[0]), np.log(rough[1]), n))
    by_strand = chance.standard_normal((max(kin, default=0) + 1, n))
    lead = np.empty((len(order), n))
    known = np.empty((len(order), n), dtype=bool)
    for skill in order:
        below = graph.beneath[skill]
        own = chance.standard_normal(n)
        lead[skill] = KIN * lead[list(below)].mean(axis=0) + np.sqrt(1 - KIN**2) * own if below else own
        ahead = (by_strand[kin[skill]] + lead[skill]) * np.sqrt(0.5)
        gap = chance.logistic(size=n)
        wants = reached + wide * ahead + uneven * gap > place[skill]
        known[skill] = wants & known[list(below)].all(axis=0) if below else wants
    return known.T


def _by_time(graph: Graph, order: Sequence[int], chance: np.random.Generator, *, n: int) -> NDArray[np.bool_]:
    """Children who learnt each skill a random time after those beneath it, looked at at a random moment."""
    learnt = np.empty((len(order), n))
    for skill in order:
        below = graph.beneath[skill]
        waits = chance.exponential(size=n)
        learnt[skill] = learnt[list(below)].max(axis=0) + waits if below else waits
    ranked = np.sort(learnt, axis=0)
    moment = ranked[chance.integers(0, len(order), n), np.arange(n)]
    return (learnt <= moment).T


def _by_luck(graph: Graph, order: Sequence[int], chance: np.random.Generator, *, n: int) -> NDArray[np.bool_]:
    """Children who have each skill with a chance of their own once they have what lies beneath it."""
    share = chance.uniform(0.5, 1.0, n)
    known = np.empty((len(order), n), dtype=bool)
    for skill in order:
        below = graph.beneath[skill]
        has = chance.uniform(size=n) < share
        known[skill] = has & known[list(below)].all(axis=0) if below else has
    return known.T


def _strands(graph: Graph, strands: Mapping[SkillId, str]) -> tuple[int, ...]:
    names = {name: number for number, name in enumerate(dict.fromkeys(strands.get(one, "") for one in graph.ids))}
    return tuple(names[strands.get(one, "")] for one in graph.ids)
