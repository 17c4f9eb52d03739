"""An outline as JSON, to look over, to mend and to read back."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any, Final, cast, get_args

from dayleaf.core.errors import BadInput, Problem
from dayleaf.core.ids import SkillId
from dayleaf.course.model import DayKind
from dayleaf.course.outline import Outline, OutlineLine

if TYPE_CHECKING:
    from collections.abc import Sequence

    from dayleaf.course.model import Course

SURE: Final = 0.35
"""A suggestion that fits at least so well is taken where nobody chose; four in five such were right
(docs/outline-format.md)."""


def outline_data(course: Course, outline: Outline, suggestions: Sequence[Sequence[tuple[SkillId, float]]]) -> Any:
    """The document of docs/outline-format.md: every line with three suggested skills, and those chosen so far."""
    return {
        "version": 1,
        "books": list(dict.fromkeys(book for line in outline.lines for book, _ in line.pages)),
        "lines": [
            {
                "line": line.line,
                "chapter": line.chapter,
                "lesson": line.lesson,
                "title": line.title,
                "kind": line.kind,
                "pages": dict(line.pages),
                "materials": list(line.materials),
                "alone": line.alone,
                "minutes": line.minutes,
                "days": line.days,
                "skills": [
                    {"skill": skill, "title": course.skills[skill].title, "score": score} for skill, score in some
                ],
                "chosen": list(line.skills or chosen(line, some)),
            }
            for line, some in zip(outline.lines, suggestions, strict=True)
        ],
        "other": [{"line": number, "text": text} for number, text in outline.other],
        "wrong": [{"line": number, "says": says} for number, says in outline.wrong],
    }


def chosen(line: OutlineLine, suggestions: Sequence[tuple[SkillId, float]]) -> tuple[SkillId, ...]:
    """The skill taken for a line where nobody chose: the likeliest, if it fits well enough and the day is a lesson."""
    if line.kind != "lesson" or not suggestions or suggestions[0][1] < SURE:
        return ()
    return (suggestions[0][0],)


def outline_from_json(text: str) -> Outline:
    """The outline of a document as `outline_data` makes it, with what a person chose.

    Raises:
        BadInput: it is no such document.
    """
    try:
        data = json.loads(text)
        lines = tuple(_line(row) for row in data["lines"])
        other = tuple((int(row["line"]), str(row["text"])) for row in data.get("other", ()))
    except (KeyError, TypeError, ValueError, AttributeError) as wrong:
        message = f"is no outline ({type(wrong).__name__}: {wrong}); docs/outline-format.md shows one"
        raise BadInput([Problem("outline", message)]) from wrong
    return Outline(lines, other)


def _line(row: Any) -> OutlineLine:
    kind = str(row.get("kind", "lesson"))
    if kind not in get_args(DayKind):
        raise ValueError(f"line {row['line']} has the kind {kind}")
    minutes = row.get("minutes")
    return OutlineLine(
        line=int(row["line"]),
        chapter=str(row.get("chapter", "")),
        lesson=str(row.get("lesson", "")),
        title=str(row["title"]),
        kind=cast("DayKind", kind),
        pages=tuple((str(book), str(pages)) for book, pages in row.get("pages", {}).items()),
        materials=tuple(map(str, row.get("materials", ()))),
        alone=bool(row.get("alone", False)),
        minutes=None if minutes is None else int(minutes),
        days=int(row.get("days", 1)),
        skills=tuple(SkillId(str(one)) for one in row.get("chosen", ())),
    )
