"""A family's own outline: what a table or a pasted table of contents says, line by line, nothing lost."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

from dayleaf.core.errors import Problem
from dayleaf.course.outline_marks import backward

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from dayleaf.core.ids import SkillId
    from dayleaf.course.model import Course, DayKind

_NUMBERED: Final = re.compile(
    r"^\s*(?:chapter|unit|module|part|section|topic|week|wk|term|block|theme)?\s*#?\d*\b", re.IGNORECASE
)
MOST_LINES: Final = 600
"""Lessons that a course may have, as in a household's file."""


@dataclass(frozen=True, slots=True)
class OutlineLine:
    """One line of an outline. `line` is its number in the file, counted from 1.

    `chapter` is the chapter's title as written, `lesson` the lesson's number as written; both "" where there are none.
    `pages` are (book, pages) pairs; `alone` says that the child works this day wholly alone; `days` is how many days it
    takes. `skills` are those a person confirmed, none before that.
    """

    line: int
    chapter: str
    lesson: str
    title: str
    kind: DayKind = "lesson"
    pages: tuple[tuple[str, str], ...] = ()
    materials: tuple[str, ...] = ()
    alone: bool = False
    minutes: int | None = None
    days: int = 1
    skills: tuple[SkillId, ...] = ()


@dataclass(frozen=True, slots=True)
class Outline:
    """All lines that are days; `other` holds every other line of the file with its number, so that nothing is lost.

    `wrong` are lines to mend, by number: what is wrong with each and what would mend it.
    """

    lines: tuple[OutlineLine, ...]
    other: tuple[tuple[int, str], ...] = ()
    wrong: tuple[tuple[int, str], ...] = ()

    def problems(self, name: str) -> tuple[Problem, ...]:
        """The wrong lines as problems of the file `name`."""
        return tuple(Problem(f"{name}: line {line}", says) for line, says in sorted(self.wrong))


def read_outline(data: bytes | str) -> Outline:
    """Read a table (CSV with any separator, a head that names the columns) or a pasted table of contents.

    Never raises on what a person wrote: a line that cannot be read stands in `wrong`, and as far as it goes in `lines`.
    """
    from dayleaf.course.outline_table import read_table  # noqa: PLC0415 -- the readers build this module's values
    from dayleaf.course.outline_text import read_text  # noqa: PLC0415 -- as above

    text = data if isinstance(data, str) else decoded(data)
    text = text.replace("\r\n", "\n").replace("\r", "\n").removeprefix("\ufeff")
    return checked(read_table(text) or read_text(text))


def decoded(data: bytes) -> str:
    """The text of a file, whatever program wrote it: UTF-8 with or without a mark, UTF-16, or Windows' own."""
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        return data.decode("utf-16", errors="replace")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        return data.decode("cp1252", errors="replace")


def checked(outline: Outline) -> Outline:
    """The outline with what its lines say against each other: pages backward, a lesson's number twice, too many."""
    return replace(outline, wrong=tuple(sorted({*outline.wrong, *_wrong(outline.lines)})))


def _wrong(lines: Sequence[OutlineLine]) -> Iterator[tuple[int, str]]:
    if not lines:
        yield 1, "holds no lesson; write one line for each, with its title"
    if sum(line.days for line in lines) > MOST_LINES:
        yield lines[-1].line, f"is more than {MOST_LINES} days into the course; a course has {MOST_LINES} at most"
    seen: dict[tuple[str, str], OutlineLine] = {}
    for line in lines:
        for book, pages in line.pages:
            for span in backward(pages):
                yield line.line, f"pages {span} of the {book} end before they begin; turn them round"
        if line.lesson:
            first = seen.setdefault((line.chapter, line.lesson.casefold()), line)
            if first is not line and (first.title != line.title or first.kind == line.kind):
                says = f"is the second lesson {line.lesson} (the first is on line {first.line}); number one anew"
                yield line.line, says


def confirmed(outline: Outline, chosen: Iterable[Sequence[SkillId]]) -> Outline:
    """The outline with the skills that a person confirmed, in the order of its lines."""
    pairs = zip(outline.lines, chosen, strict=True)
    return replace(outline, lines=tuple(replace(line, skills=tuple(skills)) for line, skills in pairs))


def suggested(course: Course, outline: Outline) -> tuple[tuple[tuple[SkillId, float], ...], ...]:
    """Three skills of `course` for each line, with how well they fit (0 to 1), the likeliest first.

    A review or a test gets those of the lessons of its chapter.
    """
    from dayleaf.course.suggest import Asked, suggest  # noqa: PLC0415 -- only outlines need the wordings read

    found = suggest(course, [Asked(line.title, named(line.chapter)) for line in outline.lines])
    pairs = [tuple((each.skill, each.score) for each in some) for some in found]
    return tuple(
        some if line.kind == "lesson" else _of_chapter(outline, pairs, line) or some
        for line, some in zip(outline.lines, pairs, strict=True)
    )


def _of_chapter(
    outline: Outline, found: Sequence[Sequence[tuple[SkillId, float]]], line: OutlineLine
) -> tuple[tuple[SkillId, float], ...]:
    """What a review or a test of a chapter is about: the likeliest skills of its lessons, the surest first."""
    best: dict[SkillId, float] = {}
    for other, some in zip(outline.lines, found, strict=True):
        if other.kind == "lesson" and other.chapter == line.chapter:
            skill, score = some[0]
            best[skill] = max(best.get(skill, 0.0), score)
    ranked = sorted(best, key=lambda skill: (-best[skill], skill))[:3]
    return tuple((skill, best[skill]) for skill in ranked) if len(ranked) == 3 else ()


def named(chapter: str) -> str:
    """A chapter's title without its number; "" for one that has nothing else."""
    return _NUMBERED.sub("", chapter).strip(" :.–—-")
