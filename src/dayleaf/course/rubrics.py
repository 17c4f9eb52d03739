"""What to look for where no key can tell right from wrong: one row a format, and some rows a project."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from dayleaf.core.ids import FormatId
from dayleaf.course.model import RubricRow

if TYPE_CHECKING:
    from dayleaf.course.shape import Fields


RUBRICS: Final = "rubrics.toml"


def read_rubrics(fields: Fields | None) -> dict[FormatId, RubricRow]:
    """The rows of `content/rubrics.toml`; none where the file could not be read."""
    if fields is None:
        return {}
    fields.source()
    rows = {FormatId(name): read_row(row) for name, row in fields.rows()}
    fields.done()
    return rows


def read_row(fields: Fields) -> RubricRow:
    """One row: what to look for, and how it shows in three steps."""
    row = RubricRow(
        look_for=_line(fields, "look_for"),
        not_yet=_line(fields, "not_yet"),
        nearly=_line(fields, "nearly"),
        there=_line(fields, "there"),
    )
    fields.done()
    return row


def _line(fields: Fields, name: str) -> str:
    return " ".join(fields.text(name).split())
