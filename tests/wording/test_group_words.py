"""Stories about equal groups keep the rules of the house for stories."""

from __future__ import annotations

import re

import pytest

from dayleaf.items.group_stories import GROUP_CELLS, group_story
from dayleaf.wording.stories import story_lines
from dayleaf.wording.tables import entry
from dayleaf.wording.template import places_of


@pytest.mark.parametrize("cell", sorted(GROUP_CELLS))
def test_every_situation_needs_only_its_own_numbers(cell: str) -> None:
    for telling in entry("story", cell, "en"):
        for sentence in telling:
            assert places_of(sentence) <= {*GROUP_CELLS[cell], "p", "noun"}


@pytest.mark.parametrize("cell", sorted(GROUP_CELLS))
def test_numbers_are_told_once_in_short_sentences_and_the_question_comes_last(cell: str) -> None:
    # JOB.md 3.1 and CHECKS G.3: at most twelve words a sentence.
    for n in range(2, 30):
        told = dict(zip(GROUP_CELLS[cell], (6 * n, n), strict=False))
        said = " ".join(story_lines(group_story(cell, told), "en"))

        assert said.endswith("?")
        assert said.count("?") == 1
        assert sorted(int(number) for number in re.findall(r"\d+", said)) == sorted(told.values())
        assert all(len(sentence.split()) <= 12 for sentence in re.split(r"(?<=[.?]) ", said))
