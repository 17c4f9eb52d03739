"""Graphs ask for the first numbers of their rule, wherever these stand in the picture."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

import pytest

from dayleaf.core.ids import FormatId, SkillId
from dayleaf.course.load import grade2
from dayleaf.items.domain import domain_of
from dayleaf.items.make import make
from dayleaf.items.model import Question

if TYPE_CHECKING:
    from collections.abc import Iterator

    from dayleaf.items.model import Item

READ = FormatId("graph-read")


def every_seventh(skill_id: str) -> Iterator[Item]:
    skill = grade2().skills[SkillId(skill_id)]
    domain = domain_of(skill)
    return (make(skill, READ, domain.numbers(i)) for i in range(0, len(domain), 7))


@pytest.mark.parametrize("skill_id", ["picture-graph-single-unit", "bar-graph-single-unit"])
def test_one_group_is_asked_and_stands_anywhere_in_the_graph(skill_id: str) -> None:
    places: Counter[int] = Counter()

    for item in every_seventh(skill_id):
        assert item.figure is not None
        assert isinstance(item.prompt, Question)
        labels, data = item.figure.params["labels"], item.figure.params["data"]
        assert isinstance(labels, tuple)
        assert isinstance(data, tuple)
        place = [str(label) for label in labels].index(str(item.prompt.values["group"]))
        places[place] += 1
        assert item.answer == str(data[place]) == str(item.numbers["a"])
        assert sorted(data) == sorted(item.numbers.values())

    assert len(places) == 4
    assert min(places.values()) > 0.15 * sum(places.values())


# CHECKS A.4, 2.MD.D.10: put-together, take-apart and compare questions about a graph with up to four groups.
def test_compare_questions_are_about_the_first_two_numbers() -> None:
    asked: Counter[str] = Counter()

    for item in every_seventh("graph-compare-questions"):
        assert isinstance(item.prompt, Question)
        a, b = item.numbers["a"], item.numbers["b"]
        asked[item.prompt.code] += 1
        assert int(item.answer) == (a + b if item.prompt.code.endswith("both") else abs(a - b))
        assert int(item.answer) <= 20

    assert set(asked) == {"graph-how-many-more", "graph-how-many-fewer", "graph-how-many-both"}
