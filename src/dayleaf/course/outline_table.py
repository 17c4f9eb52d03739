"""An outline written as a table: CSV with any separator, columns known by the words at their head."""

from __future__ import annotations

import csv
import io
import re
from collections import Counter
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Final

from dayleaf.core.ids import SkillId
from dayleaf.course.outline import Outline, OutlineLine
from dayleaf.course.outline_marks import ALONE, NO, YES, book_named, kind_of_title, kind_said, pages_said

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from dayleaf.course.model import DayKind

SEPARATORS: Final = ("\t", ";", "|", ",")
LONGEST_CELL: Final = 4
"""A cell that runs over more lines than this is a quotation mark that was never closed."""
_HEADS: Final[tuple[tuple[str, str], ...]] = (
    ("chapter title", r"(?:chapter|unit|module|section)['’]?s? (?:title|name|topic)"),
    ("days", r"(?:number of )?days|how many days"),
    ("kind", r"(?:day |lesson )?(?:kind|type)(?: of (?:day|lesson))?"),
    ("materials", r"materials?(?: needed)?|supplies|equipment|needs?|things|what you need|manipulatives"),
    ("alone", r"(?:works? |done )?(?:alone|independent(?:ly)?|on (?:his|her|their) own)\??"),
    ("minutes", r"min(?:ute)?s?\.?|time"),
    ("skills", r"dayleaf skills?|skills? ids?"),
    ("title", r"(?:lesson |day )?(?:title|name|topic|content|concept|objective|description|what|focus|skill)s?"),
    ("chapter", r"(?:chapter|unit|module|section|part|term|block|theme)s?(?: (?:no|nr|number|#))?\.?"),
    ("week", r"wks?\.?|weeks?(?: (?:no|nr|number|#))?\.?"),
    ("lesson", r"(?:lesson|day|session)s?(?: (?:no|nr|number|#))?\.?|no\.?|nr\.?|#|number"),
)  # fmt: skip
_NUMBERED: Final = re.compile(r"(?:lesson|day|session)?\s*#?(\d+[a-z]?(?:\.\d+)?)", re.IGNORECASE)


@dataclass(slots=True)
class _Columns:
    """Where each part of a line stands; `books` are the columns of page numbers, by the name of the book."""

    at: dict[str, int] = field(default_factory=dict)
    books: dict[int, str] = field(default_factory=dict)
    width: int = 0

    def cell(self, row: Sequence[str], name: str) -> str:
        place = self.at.get(name)
        return row[place].strip() if place is not None and place < len(row) else ""


def read_table(text: str) -> Outline | None:
    """The outline of a table, or None where the text is none: no line at its head names a title or a lesson."""
    physical = text.split("\n")
    head = next(((n, line) for n, line in enumerate(physical) if line.strip()), None)
    for place in range(head[0], min(head[0] + 4, len(physical))) if head else ():
        line = physical[place]
        for separator in SEPARATORS:
            columns = _columns(next(csv.reader([line], delimiter=separator), []))
            if columns is not None:
                before = tuple((n + 1, each) for n, each in enumerate(physical[:place]) if each.strip())
                return _read("\n".join(physical[place + 1 :]), columns, separator, place + 2, before)
    return None


def _columns(cells: Sequence[str]) -> _Columns | None:
    """The columns that a row of heads names, or None where it is no row of heads."""
    columns = _Columns(width=len(cells))
    if len(cells) < 2:
        return None
    for place, cell in enumerate(cells):
        plain = " ".join(cell.strip().strip("*").casefold().split())
        known = next((name for name, pattern in _HEADS if re.fullmatch(pattern, plain)), None)
        if known and known not in columns.at:
            columns.at[known] = place
        elif plain:
            columns.books[place] = book_named(plain)
    if "title" not in columns.at and "lesson" in columns.at:
        columns.at["title"] = columns.at.pop("lesson")
    if "title" not in columns.at:
        return None
    if "week" in columns.at:
        columns.at.setdefault("chapter", columns.at["week"])
    return columns


def _rows(text: str, separator: str, first: int) -> Iterator[tuple[int, list[str], bool]]:
    """Each row with the number of its first line and whether a quotation mark in it was never closed."""
    reader = csv.reader(io.StringIO(text), delimiter=separator)
    lines, done = text.split("\n"), 0
    for row in reader:
        if reader.line_num - done > LONGEST_CELL:
            rest = "\n".join(lines[done + 1 :])
            yield first + done, next(csv.reader([lines[done].replace('"', "")], delimiter=separator), []), True
            yield from _rows(rest, separator, first + done + 1)
            return
        yield first + done, row, False
        done = reader.line_num


def _read(text: str, columns: _Columns, separator: str, first: int, before: Sequence[tuple[int, str]]) -> Outline:
    lines: list[OutlineLine] = []
    wrong: list[tuple[int, str]] = []
    other = list(before)
    rows = [(n, row, torn) for n, row, torn in _rows(text, separator, first)]
    books = _books([row for _, row, _ in rows], columns)
    chapter = ""
    for number, row, torn in rows:
        if not any(cell.strip() for cell in row):
            continue
        if torn:
            wrong.append((number, "has a quotation mark that is never closed; close it or take it out"))
        said = columns.cell(row, "chapter title")
        own = columns.cell(row, "chapter")
        chapter = (f"{own} {said}".strip() if said and said not in own else own) or chapter
        title = columns.cell(row, "title")
        if not title:
            title, says = _untitled(row, columns, chapter)
            if not title:
                other.append((number, separator.join(row)))
                continue
            wrong.append((number, says))
        wrong.extend((number, says) for says in _too_many(row, columns))
        line, problems = _line(number, row, columns, books, chapter=chapter, title=title)
        lines.append(line)
        wrong.extend((number, says) for says in problems)
    return Outline(tuple(lines), tuple(other), tuple(wrong))


def _untitled(row: Sequence[str], columns: _Columns, chapter: str) -> tuple[str, str]:
    """What to call a row without a title, "" for one that only names a chapter; and what to say of it."""
    filled = [n for n, cell in enumerate(row) if cell.strip()]
    if {columns.at.get("chapter"), columns.at.get("chapter title")} >= set(filled):
        return "", ""
    lesson = columns.cell(row, "lesson")
    kind = columns.cell(row, "kind")
    return (kind or f"{chapter} {lesson}".strip() or "?"), "has no title; write what the lesson is about"


def _too_many(row: Sequence[str], columns: _Columns) -> Iterator[str]:
    more = [cell for cell in row[columns.width :] if cell.strip()]
    if more:
        says = "put a title with a comma in quotation marks"
        yield f"has more cells than the head has columns (“{more[0].strip()}”); {says}"


def _books(rows: Sequence[Sequence[str]], columns: _Columns) -> dict[int, str]:
    """The columns that hold pages: named for it, or mostly page numbers; two books of one name are numbered."""
    named: dict[int, str] = {}
    for place, book in columns.books.items():
        cells = [row[place].strip() for row in rows if place < len(row) and row[place].strip()]
        if sum(pages_said(cell) is not None for cell in cells) * 2 >= len(cells) and cells:
            named[place] = book
    twice = Counter(named.values())
    return {
        place: book if twice[book] == 1 else f"{book} {list(named).index(place) + 1}" for place, book in named.items()
    }


def _line(
    number: int, row: Sequence[str], columns: _Columns, books: dict[int, str], *, chapter: str, title: str
) -> tuple[OutlineLine, list[str]]:
    says: list[str] = []
    pages: list[tuple[str, str]] = []
    for place, book in books.items():
        cell = row[place].strip() if place < len(row) else ""
        if cell and cell not in "-–—":
            found = pages_said(cell)
            pages.append((book, found or cell))
            if found is None:
                says.append(f"“{cell}” is no page of the {book}; write such as 114–115")
    kind, unknown = _kind(columns.cell(row, "kind"), title)
    says += unknown
    minutes = columns.cell(row, "minutes")
    whole = re.match(r"\d+", minutes)
    if minutes and not whole:
        says.append(f"“{minutes}” is no number of minutes; write such as 30")
    days = columns.cell(row, "days")
    alone = columns.cell(row, "alone").casefold()
    if alone not in YES | NO:
        says.append(f"“{alone}” under alone is neither yes nor no; write one of them")
    lesson = columns.cell(row, "lesson")
    bare = _NUMBERED.fullmatch(lesson)
    line = OutlineLine(
        line=number,
        chapter=chapter,
        lesson=bare[1] if bare else lesson,
        title=title,
        kind=kind,
        pages=tuple(pages),
        materials=tuple(
            each.strip() for each in re.split(r"[;,/\n]| and ", columns.cell(row, "materials")) if each.strip(" -–")
        ),
        alone=alone in YES - NO or bool(ALONE.search(columns.cell(row, "kind"))),
        minutes=int(whole[0]) if whole and 0 < int(whole[0]) <= 600 else None,
        days=int(days) if days.isdecimal() and 0 < int(days) <= 20 else 1,
        skills=tuple(SkillId(one) for one in columns.cell(row, "skills").replace(",", " ").split()),
    )
    return line, says


def _kind(cell: str, title: str) -> tuple[DayKind, list[str]]:
    if not cell:
        return kind_of_title(title), []
    plain = ALONE.sub("", cell).strip(" ,")
    kind = kind_said(plain)
    if kind is None:
        return kind_of_title(title), [
            f"“{cell}” is no kind of day we know; write lesson, review, test, project or catch-up"
        ]
    return kind, []
