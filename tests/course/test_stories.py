"""The stories to read aloud: length, reading level, drawings."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
import textstat  # type: ignore[import-untyped]  # it ships no types

from dayleaf.course.load import grade2
from dayleaf.course.stories import check_stories, svg_problems, words_of

if TYPE_CHECKING:
    from dayleaf.course.model import Story

STORIES = grade2().stories
GOOD = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 120 70"><path d="M0 0h5"/></svg>'


@pytest.fixture(params=sorted(STORIES), ids=lambda number: f"chapter-{number:02d}")
def story(request: pytest.FixtureRequest) -> Story:
    return STORIES[int(request.param)]


def test_a_story_reads_aloud_in_three_to_five_minutes_at_grade_two_or_below(story: Story) -> None:
    """Flesch and Kincaid's grade by textstat; 400 to 700 words: three to five minutes (common practice, no source)."""
    text = " ".join(story.paragraphs).replace("*", "")

    assert 400 <= words_of(story) <= 700
    assert textstat.flesch_kincaid_grade(text) < 3


def test_a_drawing_holds_lines_and_shapes_and_no_words_of_its_own(story: Story) -> None:
    assert list(svg_problems(story.drawing)) == []
    assert story.alt


@pytest.mark.parametrize(
    ("svg", "said"),
    [
        (GOOD.replace("<path", "<text>Hi</text><path"), "holds <text>"),
        (GOOD.replace("<path", '<image href="cat.png"/><path'), "holds <image>"),
        (GOOD.replace("<path", '<path onclick="x()"'), "has onclick"),
        (GOOD.replace("<path", '<path fill="url(http://there/x)"'), "has fill"),
        (GOOD.replace("</svg>", ""), "is not SVG"),
        (GOOD.replace(' viewBox="0 0 120 70"', ""), "has no viewBox"),
        ('<!DOCTYPE svg [<!ENTITY a "b">]>' + GOOD, "document type"),
    ],
)
def test_a_drawing_that_could_not_be_printed_safely_is_named(svg: str, said: str) -> None:
    assert list(svg_problems(GOOD)) == []
    assert said in " ".join(svg_problems(svg))


def test_a_story_that_is_too_short_or_asks_nothing_is_named() -> None:
    number, story = next(iter(STORIES.items()))
    changed = replace(story, paragraphs=("Short.",), question="Well.", title="Another", minutes=9)
    course = replace(grade2(), stories={**STORIES, number: changed})

    found = [str(problem) for problem in check_stories(course)]

    assert [field.split(": ")[1] for field in found] == ["title", "text", "minutes", "question"]


def test_a_chapter_without_its_story_and_a_story_without_its_drawing_are_named() -> None:
    without = {number: replace(story, drawing="") if number == 2 else story for number, story in STORIES.items()}
    del without[5]

    found = [str(problem) for problem in check_stories(replace(grade2(), stories=without))]

    assert [problem.split(": ")[0] for problem in found] == [
        "grade2/chapters/05/story.toml",
        "grade2/chapters/02/story.svg",
    ]
