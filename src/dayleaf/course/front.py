"""The front of a course: a few pages for the adult who begins, in `front.toml`."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final

from dayleaf.core.errors import Problem
from dayleaf.course.model import FrontPage
from dayleaf.course.stories import paragraphs_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from dayleaf.course.model import Course
    from dayleaf.course.shape import Fields

FRONT: Final = "front.toml"
PAGES: Final = 4
SLOTS: Final = ("days", "chapters", "adult", "alone")
"""What the words may name in braces: counts of the course and the mean minutes of a lesson."""
_SLOT = re.compile(r"\{([^{}]*)\}")


def read_front(fields: Fields) -> tuple[FrontPage, ...]:
    """Every page in order."""
    pages = []
    for page in fields.tables("pages"):
        pages.append(
            FrontPage(
                title=page.text("title"),
                lead=page.text("lead"),
                paragraphs=paragraphs_of(page.text("text")),
                rows=page.pairs("rows", first="label", second="words"),
            )
        )
        page.done()
    fields.done()
    return tuple(pages)


def texts_of_page(page: FrontPage) -> tuple[str, ...]:
    """Everything a page says, in order."""
    return (page.lead, *page.paragraphs, *(words for _, words in page.rows))


def check_front(course: Course) -> Iterator[Problem]:
    """Check how many pages there are and that each slot is one that can be filled."""
    where = f"{course.id}/{FRONT}"
    if course.front and len(course.front) != PAGES:
        yield Problem(f"{where}: pages", f"are {len(course.front)}; the front of a course has {PAGES}")
    for number, page in enumerate(course.front, start=1):
        for words in texts_of_page(page):
            for slot in _SLOT.findall(words):
                if slot not in SLOTS:
                    yield Problem(f"{where}: pages[{number}]", f"{{{slot}}} is not known; use {', '.join(SLOTS)}")
