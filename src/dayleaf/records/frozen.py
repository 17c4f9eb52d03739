"""Sheets as they went to paper, as JSON that says what each thing is, and back again without loss.

The page maps have the shape others read (`sheets.codec`); this is the fuller record beside them: every
prompt, part, picture and step, so that a sheet can be explained in ten years by the numbers it was made of.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from typing import Any

from dayleaf.core.errors import DayleafError
from dayleaf.items import model as items
from dayleaf.sheets import model as sheets

Plain = None | bool | int | float | str | list[Any] | dict[str, Any]

_IS = "is"
_VALUES: dict[str, type[Any]] = {
    value.__name__: value
    for value in (
        items.Option,
        items.Part,
        items.Gap,
        items.Word,
        items.Row,
        items.Column,
        items.Question,
        items.Story,
        items.Match,
        items.Sort,
        items.Figure,
        items.Step,
        items.Item,
        sheets.Placed,
        sheets.Block,
        sheets.PageSpec,
        sheets.SheetSpec,
    )
}


class NotAFrozenSheet(DayleafError):
    """A kept sheet does not read as one."""

    def __init__(self, what: str) -> None:
        super().__init__(f"A kept sheet cannot be read: {what}.")


def to_plain(value: object) -> Plain:
    """The value as JSON-able data; each dataclass becomes an object whose `is` names it."""
    if value is None or isinstance(value, bool | int | float | str):
        return value
    if isinstance(value, Mapping):
        return {"is": "map", "of": {str(name): to_plain(inner) for name, inner in value.items()}}
    if isinstance(value, tuple | list):
        return [to_plain(inner) for inner in value]
    if is_dataclass(value) and type(value).__name__ in _VALUES:
        data: dict[str, Any] = {_IS: type(value).__name__}
        data.update((field.name, to_plain(getattr(value, field.name))) for field in fields(value))
        return data
    raise TypeError(f"{type(value).__name__} is not part of a sheet")


def from_plain(data: Plain) -> Any:
    """The value that `to_plain` was given; lists come back as tuples. Raises `NotAFrozenSheet`."""
    if isinstance(data, list):
        return tuple(from_plain(inner) for inner in data)
    if not isinstance(data, dict):
        return data
    what = data.get(_IS)
    if what == "map":
        return {name: from_plain(inner) for name, inner in data["of"].items()}
    value = _VALUES.get(str(what))
    if value is None:
        raise NotAFrozenSheet(f"{what!r} is unknown")
    try:
        return value(**{name: from_plain(inner) for name, inner in data.items() if name != _IS})
    except TypeError as error:
        raise NotAFrozenSheet(f"{what} does not have these parts") from error


def sheet_from(data: Plain) -> sheets.SheetSpec:
    """A whole sheet. Raises `NotAFrozenSheet`."""
    sheet = from_plain(data)
    if not isinstance(sheet, sheets.SheetSpec):
        raise NotAFrozenSheet("it is not a sheet")
    return sheet
