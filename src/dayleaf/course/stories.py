"""The stories to read aloud, one a chapter: `chapters/NN/story.toml` and the line drawing `story.svg` beside it."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final
from xml.etree import ElementTree as ET

from dayleaf.core.errors import Problem
from dayleaf.course.model import Story

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from dayleaf.course.model import Course
    from dayleaf.course.shape import Fields

STORY: Final = "story.toml"
DRAWING: Final = "story.svg"
WORDS: Final = (400, 700)
"""Three to five minutes read aloud at about 140 words a minute (common practice, no source)."""
MINUTES: Final = (3, 5)
_SVG: Final = "{http://www.w3.org/2000/svg}"
_REFUSED: Final = frozenset({"text", "tspan", "image", "script", "style", "foreignObject", "a"})
"""Words belong to the page and not into the drawing, and nothing may come from outside the file."""


def read_story(fields: Fields, drawing: str) -> Story:
    """One story from its file; `drawing` is the text of the SVG beside it, "" where there is none yet."""
    story = Story(
        title=fields.text("title"),
        minutes=fields.whole("minutes", least=1),
        question=fields.text("question").strip(),
        answer=" ".join(fields.text("answer").split()),
        alt=" ".join(fields.text("alt").split()),
        paragraphs=paragraphs_of(fields.text("text")),
        drawing=drawing,
    )
    fields.done()
    return story


def paragraphs_of(text: str) -> tuple[str, ...]:
    """The paragraphs of a text, which are parted by empty lines, each in one line."""
    return tuple(" ".join(part.split()) for part in re.split(r"\n\s*\n", text) if part.strip())


def drawing_beside(path: Path) -> str:
    """The drawing beside a story's file, "" where there is none or it is no text."""
    try:
        return path.with_name(DRAWING).read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError):
        return ""


def words_of(story: Story) -> int:
    """How many words are read aloud, the question included."""
    return sum(len(part.split()) for part in (*story.paragraphs, story.question))


def check_stories(course: Course) -> Iterator[Problem]:
    """Check length, title and drawing of every story."""
    titles = {chapter.number: chapter.story for chapter in course.chapters}
    for number, title in titles.items():
        if course.stories and number not in course.stories:
            where = f"{course.id}/chapters/{number:02}/{STORY}"
            yield Problem(where, f'is missing; write the story "{title}" that chapter.toml names')
    for number, story in course.stories.items():
        where = f"{course.id}/chapters/{number:02}/{STORY}"
        if number in titles and story.title != titles[number]:
            message = f'is "{story.title}" where chapter.toml says "{titles[number]}"; write the same'
            yield Problem(f"{where}: title", message)
        if not WORDS[0] <= (n := words_of(story)) <= WORDS[1]:
            yield Problem(f"{where}: text", f"has {n} words; a story has {WORDS[0]} to {WORDS[1]}")
        if not MINUTES[0] <= story.minutes <= MINUTES[1]:
            yield Problem(f"{where}: minutes", f"is {story.minutes}; a story takes {MINUTES[0]} to {MINUTES[1]}")
        if not story.question.endswith("?"):
            yield Problem(f"{where}: question", "does not end with a question mark; write a question")
        for message in svg_problems(story.drawing) if story.drawing else ("is missing; draw what `alt` tells",):
            yield Problem(f"{course.id}/chapters/{number:02}/{DRAWING}", message)


def svg_problems(svg: str) -> Iterator[str]:
    """What keeps a drawing from being printed: no size in mm, words in it, or anything from outside the file."""
    if "<!DOCTYPE" in svg or "<!ENTITY" in svg:
        yield "holds a document type, which could pull in other files; take it out"
        return
    try:
        root = ET.fromstring(svg)  # noqa: S314 -- no document type, so no entities to expand
    except ET.ParseError as error:
        yield f"is not SVG: {error}; mend that line"
        return
    box = (root.get("viewBox") or "").replace(",", " ").split()
    if root.tag != f"{_SVG}svg" or len(box) != 4:
        yield 'has no viewBox; write viewBox="0 0 120 70", in millimetres'
    for element in root.iter():
        name = str(element.tag).removeprefix(_SVG)
        if name in _REFUSED:
            yield f"holds <{name}>; draw with lines and shapes only"
        for attribute, value in element.attrib.items():
            outside = attribute.endswith("href") and not value.startswith("#")
            if outside or attribute.startswith("on") or "url(" in value.replace("url(#", ""):
                yield f"has {attribute} on <{name}>, which points elsewhere; take it out"
