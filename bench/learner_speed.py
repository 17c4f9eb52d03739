"""Figures of the learner model: one more answer, many children at once, the line protocol."""

from __future__ import annotations

import json
from itertools import count
from typing import TYPE_CHECKING

import numpy as np
from timed import Figure, median_ms

from dayleaf.cli.advise import replies
from dayleaf.core.ids import SkillId
from dayleaf.course.load import grade2
from dayleaf.learner.cohort import Cohort
from dayleaf.learner.graph import graph_of
from dayleaf.learner.mind import Mind
from dayleaf.learner.tracing import Tracing, trace

if TYPE_CHECKING:
    from collections.abc import Iterator

CHILDREN = 4000
SKILL = SkillId("sub-2digit-regroup")
LINES = 5000


def learner_figures() -> Iterator[Figure]:
    """One answer alone, an answer in bulk, a line answered."""
    graph = graph_of(grade2())
    mind, days = Mind(graph), count()
    skill = graph.number[SKILL]
    tracing = Tracing(known=0.3, learn=0.1, slip=0.1, guess=0.2)
    yield Figure(
        "one more answer of one child",
        median_ms(lambda: mind.answer(skill, float(next(days)), right=True), times=2000),
        "knowledge tracing, one answer",
        median_ms(lambda: trace((True,), tracing), times=2000),
        "no forgetting, no uncertainty, nothing beneath",
        limit_ms=0.1,
    )
    cohort, chance = Cohort(graph, CHILDREN), np.random.default_rng(1)
    everybody, right = np.arange(CHILDREN), chance.random(CHILDREN) < 0.8
    bulk = median_ms(
        lambda: cohort.answer(everybody, np.full(CHILDREN, skill), float(next(days)), right=right), times=20
    )
    yield Figure(
        "1,000 answers of 1,000 children in bulk",
        bulk * 1000 / CHILDREN,
        "the same one after another",
        median_ms(lambda: [mind.answer(skill, float(next(days)), right=True) for _ in range(1000)]),
        "nothing: both engines believe the same to nine digits",
    )
    line = {"op": "answer", "learner": 1, "day": 1, "skill": SKILL, "correct": True, "choices": None, "help": False}
    lines = [json.dumps(line).encode()] * LINES
    yield Figure(
        f"{LINES:,} lines of dayleaf advise answered",
        median_ms(lambda: sum(1 for _ in replies(lines)), repeats=3),
        "the same lines only parsed and written",
        median_ms(lambda: [json.dumps(json.loads(one)) for one in lines], repeats=3),
        "no belief",
        limit_ms=500,
    )
