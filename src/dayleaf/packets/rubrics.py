"""What to look for, as a table beside a key: for items that are drawn, built or told, and for projects."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.sheets.model import KeyTable

if TYPE_CHECKING:
    from collections.abc import Sequence

    from dayleaf.course.model import Course, RubricRow
    from dayleaf.sheets.model import Placed

HEADS = ("Look for", "Not yet", "Nearly", "There")


def rubric_table(course: Course, placed: Sequence[Placed]) -> KeyTable | None:
    """One row for each format among the items that a grown-up judges by eye; None where there is no such item."""
    judged = [one for one in placed if any(part.kind == "look" for part in one.item.parts)]
    rows = []
    for name in dict.fromkeys(one.item.format for one in judged):
        if name in course.rubrics:
            numbers = ", ".join(str(one.n) for one in judged if one.item.format == name)
            rows.append(_row(course.rubrics[name], f"{numbers} · {course.formats[name].name}: "))
    return KeyTable("What to look for", HEADS, tuple(rows), "“There” counts as right.", wide=-1) if rows else None


def project_table(rubric: Sequence[RubricRow]) -> KeyTable:
    """A project's rubric; nothing is counted, it is something to talk about."""
    return KeyTable("What to look for", HEADS, tuple(_row(row, "") for row in rubric), wide=-1)


def _row(row: RubricRow, before: str) -> tuple[str, ...]:
    return f"{before}{row.look_for}", row.not_yet, row.nearly, row.there
