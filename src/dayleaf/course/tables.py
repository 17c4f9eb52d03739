"""The tables beside a course: ways to ask, materials, pictures, error ways, standards."""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal, cast

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.course.model import ErrorWay, Format, Material, Picture, Standard

if TYPE_CHECKING:
    from collections.abc import Mapping

    from dayleaf.course.shape import Fields

_FROM = ("cut-out set", "print-out", "home", "buy")


def read_formats(fields: Fields | None) -> dict[FormatId, Format]:
    """Read formats.toml: one row a way to ask. Items a side are a planning value and need their source."""
    found: dict[FormatId, Format] = {}
    if fields is None:
        return found
    fields.source()
    for name, row in fields.rows():
        found[FormatId(name)] = Format(
            id=FormatId(name),
            name=row.text("name"),
            does=row.text("does"),
            answer=row.text("answer"),
            marking=row.text("marking"),
            per_side=row.whole_pair("per_side"),
            instruction=row.text("instruction"),
            acted_out=row.has("acted_out") and row.flag("acted_out"),
        )
        row.done()
    return found


def read_materials(fields: Fields | None, *, first_days: Mapping[str, int]) -> dict[str, Material]:
    """Read materials.toml: one row a thing. Minutes to get it ready need their source.

    `first_days` says on which day of the course a thing is first asked for.
    """
    found: dict[str, Material] = {}
    if fields is None:
        return found
    fields.source()
    for name, row in fields.rows():
        found[name] = Material(
            id=name,
            title=row.text("title"),
            source=cast("Literal['cut-out set', 'print-out', 'home', 'buy']", row.choice("from", _FROM)),
            prep_minutes=row.whole("prep_minutes"),
            small_parts=row.flag("small_parts"),
            scissors=row.flag("scissors"),
            substitute=row.text("substitute", optional=True),
            how_many=row.text("how_many"),
            first_day=first_days.get(name),
            caution=row.text("caution", optional=True),
        )
        row.done()
    return found


def read_pictures(fields: Fields | None) -> dict[str, Picture]:
    """Read pictures.toml: one row a kind of picture."""
    found: dict[str, Picture] = {}
    if fields is None:
        return found
    for name, row in fields.rows():
        found[name] = Picture(
            id=name,
            must_show=row.text("must_show"),
            parameters=row.texts("parameters"),
            not_by_colour_alone=row.text("not_by_colour_alone", optional=True),
        )
        row.done()
    return found


def read_error_ways(fields: Fields | None) -> dict[ErrorWayId, ErrorWay]:
    """Read error_ways.toml: one row an error way, shared by all skills that know it."""
    found: dict[ErrorWayId, ErrorWay] = {}
    if fields is None:
        return found
    for name, row in fields.rows():
        goes_to = row.text("goes_to", optional=True)
        found[ErrorWayId(name)] = ErrorWay(
            id=ErrorWayId(name),
            phrase=row.text("phrase"),
            try_next=row.text("try_next"),
            goes_to=SkillId(goes_to) if goes_to else None,
        )
        row.done()
    return found


def read_standards(fields: Fields | None) -> dict[str, Standard]:
    """Read standards.toml: one row a code, with our paraphrase and the limits a generator needs."""
    found: dict[str, Standard] = {}
    if fields is None:
        return found
    fields.source()
    for code, row in fields.rows():
        found[code] = Standard(code=code, paraphrase=row.text("paraphrase"), limits=row.text("limits", optional=True))
        row.done()
    return found
