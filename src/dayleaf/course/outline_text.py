"""An outline pasted as text: a table of contents with chapters, lessons, weeks and page numbers, in any layout."""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import TYPE_CHECKING, Final

from dayleaf.course.outline import Outline, OutlineLine
from dayleaf.course.outline_marks import (
    ALONE,
    AT_END,
    BOOK,
    IN_BRACKETS,
    LAST_NUMBER,
    book_named,
    kind_of_title,
    pages_said,
)

if TYPE_CHECKING:
    from collections.abc import Sequence

_NUMBER: Final = r"(\d+|[ivxlc]+|[a-h]|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve)"
_UPPER: Final = re.compile(
    rf"(chapter|unit|module|part|term|theme|section|topic|block)\s+#?{_NUMBER}\b\s*[:.)–—-]*\s*(.*)", re.IGNORECASE
)
_WEEK: Final = re.compile(r"(week)s?\s+#?(\d+)(?:\s*[-–]\s*(\d+))?\b\s*[:.)–—-]*\s*(.*)", re.IGNORECASE)
_LESSON: Final = re.compile(
    r"(lesson|day|session|class)s?\s*#?(\d+[a-z]?(?:\.\d+)?)(?:\s*(?:[-–]|to)\s*(\d+))?\b\s*[:.)–—-]*\s*(.*)",
    re.IGNORECASE,
)
_DOTTED: Final = re.compile(r"(\d+)[.-](\d+[a-z]?)[.):]?\s+(\S.*)")
_PLAIN: Final = re.compile(r"(\d+)\s*[.):–—-]?\s+(\S.*)")
_BULLET: Final = re.compile(r"^[\s•*▪◦·‣–—-]*(?:\[[ xX]?\]\s*)?")
_HEADING: Final = re.compile(
    r"(?:table of )?contents|index|scope and sequence|page|pages|chapter\s+page|lesson\s+page", re.IGNORECASE
)
_RULE: Final = re.compile(r"[\W_]*")
_WHOLE_KINDS: Final = re.compile(
    r"(?:chapter|unit|module|topic)\s+(?:\w+\s+)?(?:test|review|check|quiz|assessment|project|revision)", re.IGNORECASE
)
MOSTLY: Final = 0.7
"""A share of lines that makes a habit of the whole outline: a number at their end is then a page."""


@dataclass(frozen=True, slots=True)
class _Row:
    """One line taken apart. `level` is 0 for a chapter, 1 for a week, 2 for a lesson, 3 for a line without a mark."""

    line: int
    raw: str
    indent: int
    level: int
    number: str
    title: str
    pages: tuple[tuple[str, str], ...]
    days: int = 1
    mark: str = ""


def read_text(text: str) -> Outline:
    """The outline of a pasted text."""
    rows: list[_Row] = []
    other: list[tuple[int, str]] = []
    for number, raw in enumerate(text.split("\n"), start=1):
        if not raw.strip():
            continue
        row = _taken_apart(number, raw)
        heading = _HEADING.fullmatch(row.title.strip(" :")) and not row.number
        if heading or _RULE.fullmatch(raw) or (not re.search(r"[^\W\d_]", raw) and not row.mark and not row.pages):
            other.append((number, raw.strip()))
        else:
            rows.append(row)
    rows = _levelled(_paged(_numbered(rows)))
    return _read(rows, other)


def _taken_apart(number: int, raw: str) -> _Row:
    expanded = raw.expandtabs(4)
    indent = len(expanded) - len(expanded.lstrip())
    body = _BULLET.sub("", raw).strip()
    body, pages = _without_pages(body)
    level, mark, own, title, days = 3, "", "", body, 1
    if not _WHOLE_KINDS.match(body):
        if found := _UPPER.fullmatch(body):
            level, mark, own, title = 0, found[1].casefold(), found[2], found[3]
        elif found := _WEEK.fullmatch(body):
            level, mark, own, title = 1, "week", found[2], found[4]
        elif found := _LESSON.fullmatch(body):
            level, mark, own, title = 2, found[1].casefold(), found[2], found[4]
            if found[3] and own.isdecimal() and int(found[3]) > int(own):
                days = min(int(found[3]) - int(own) + 1, 20)
        elif found := _DOTTED.fullmatch(body):
            level, mark, own, title = 2, "dotted", f"{found[1]}.{found[2]}", found[3]
        elif (found := _PLAIN.fullmatch(body)) and not re.match(
            r"(?:digit|and|more|less|to|tens?|hundreds?|times|×|\+)", found[2]
        ):
            level, mark, own, title = 3, "plain", found[1], found[2]
    return _Row(number, raw.strip(), indent, level, own, title.strip(" .:–—-"), pages, days, mark)


def _without_pages(body: str) -> tuple[str, tuple[tuple[str, str], ...]]:
    """The line without its page numbers, and those: in brackets or after *p.* with a book's name, or after dots."""
    pages = [(book_named(found[1] or BOOK), pages_said(found[2]) or found[2]) for found in IN_BRACKETS.finditer(body)]
    if pages:
        return IN_BRACKETS.sub(" ", body).strip(" ,;()[]·.-–"), tuple(pages)
    end = AT_END.search(body)
    if end and re.search(r"\w", body[: end.start()]):
        return body[: end.start()].strip(), ((BOOK, pages_said(end[1]) or end[1]),)
    return body, ()


def _paged(rows: Sequence[_Row]) -> list[_Row]:
    """The rows with the number at their end as a page, where most rows end so and the numbers climb."""
    ends = [LAST_NUMBER.search(row.title) for row in rows]
    found = [int(end[1]) for end in ends if end]
    climbs = sum(a <= b for a, b in pairwise(found))
    days = sum(row.level > 0 for row in rows)
    if any(row.pages for row in rows) or len(found) < MOSTLY * days or len(found) < 4:
        return list(rows)
    if climbs < 0.9 * (len(found) - 1) or len(set(found)) < len(found) / 2:
        return list(rows)
    return [
        replace(row, title=row.title[: end.start()].strip(" ."), pages=((BOOK, end[1]),)) if end else row
        for row, end in zip(rows, ends, strict=True)
    ]


def _numbered(rows: Sequence[_Row]) -> list[_Row]:
    """Rows that begin with a bare number: chapters where lessons are dotted (3.1), lessons where nothing else is."""
    marks = Counter(row.mark for row in rows)
    if marks["dotted"]:
        return [replace(row, level=0) if row.mark == "plain" else row for row in rows]
    if marks["plain"] * 2 < len(rows) and (marks["lesson"] or marks["day"]):
        return [
            replace(row, title=f"{row.number} {row.title}", number="") if row.mark == "plain" else row for row in rows
        ]
    return [replace(row, level=2) if row.mark == "plain" else row for row in rows]


def _levelled(rows: Sequence[_Row]) -> list[_Row]:
    """The rows with headings among the unmarked ones found, and the deepest marks made lessons where there are none."""
    marked_lessons = any(row.level == 2 for row in rows)
    found: list[_Row] = []
    for place, row in enumerate(rows):
        following = rows[place + 1] if place + 1 < len(rows) else None
        if (
            row.level == 3
            and following is not None
            and not row.pages
            and _is_heading(row, following, marked_lessons=marked_lessons)
        ):
            found.append(replace(row, level=0))
        else:
            found.append(replace(row, level=2) if row.level == 3 else row)
    if any(row.level == 2 for row in found):
        return found
    deepest = max((row.level for row in found), default=2)
    return [replace(row, level=2) if row.level == deepest else row for row in found]


def _is_heading(row: _Row, following: _Row, *, marked_lessons: bool) -> bool:
    if kind_of_title(row.title) != "lesson":
        return False
    letters = [sign for sign in row.title if sign.isalpha()]
    capitals = len(letters) > 3 and all(sign.isupper() for sign in letters)
    deeper = following.level >= 2 and following.indent > row.indent
    before_lessons = marked_lessons and following.level == 2
    return row.raw.endswith(":") or capitals or deeper or before_lessons


def _read(rows: Sequence[_Row], other: list[tuple[int, str]]) -> Outline:
    lines: list[OutlineLine] = []
    wrong: list[tuple[int, str]] = []
    chapter = ""
    weeks_too = any(row.level == 0 for row in rows)
    for place, row in enumerate(rows):
        if row.level == 0 or (row.level == 1 and not weeks_too):
            chapter = row.title or row.raw.split(":")[0]
            if not row.title:
                chapter = f"{row.mark.capitalize()} {row.number}"
            continue
        if weeks_too and not chapter and not row.number and not row.pages:
            other.append((row.line, row.raw))
            continue
        if row.level == 1:
            follows = rows[place + 1].level if place + 1 < len(rows) else 0
            if follows == 2 or not row.title:
                other.append((row.line, row.raw))
                continue
        title = row.title
        if not re.search(r"[^\W\d_]", title):
            wrong.append((row.line, f"“{row.raw}” has no title; write what the lesson is about"))
            title = row.raw
        alone = bool(ALONE.search(title)) and bool(re.search(r"[(\[].*" + ALONE.pattern, title, re.IGNORECASE))
        bare = (
            re.sub(r"\s*[(\[][^)\]]*" + ALONE.pattern + r"[^)\]]*[)\]]", "", title, flags=re.IGNORECASE)
            if alone
            else title
        )
        lines.append(
            OutlineLine(
                line=row.line,
                chapter=chapter,
                lesson=row.number,
                title=bare,
                kind=kind_of_title(bare),
                pages=row.pages,
                alone=alone,
                days=row.days,
            )
        )
    return Outline(tuple(lines), tuple(other), tuple(wrong))
