"""A figure's parameters, checked against the table and read by type."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, cast

from dayleaf.core.errors import DayleafError
from dayleaf.figures.params import PARAMS

if TYPE_CHECKING:
    from collections.abc import Mapping

    from dayleaf.figures.params import Type, Value
    from dayleaf.items.model import Figure


class UnknownFigure(DayleafError):
    """A picture of a kind that nobody has drawn."""

    def __init__(self, *, kind: str) -> None:
        self.kind = kind
        super().__init__(f"There is no picture of the kind “{kind}”.")


class WrongParameter(DayleafError):
    """A picture is asked for with a parameter it cannot be drawn from."""

    def __init__(self, *, kind: str, name: str, why: str) -> None:
        self.kind, self.name, self.why = kind, name, why
        super().__init__(f"The picture “{kind}” cannot be drawn: {name} {why}.")


@dataclass(frozen=True, slots=True)
class Values:
    """A figure's parameters with the defaults filled in, read by type (`values_of` has checked the types)."""

    kind: str
    all: Mapping[str, Value]

    def number(self, name: str) -> int:
        """The whole number called `name`."""
        return cast("int", self.all[name])

    def within(self, name: str, lo: int, hi: int) -> int:
        """The whole number called `name`, which must lie in lo … hi.

        Raises:
            WrongParameter: it does not.
        """
        value = self.number(name)
        if not lo <= value <= hi:
            raise WrongParameter(kind=self.kind, name=name, why=f"is {value}, not within {lo} … {hi}")
        return value

    def one_of(self, name: str, *known: str) -> str:
        """The word called `name`, which must be one of `known`.

        Raises:
            WrongParameter: it is not.
        """
        value = self.word(name)
        if value not in known:
            raise WrongParameter(kind=self.kind, name=name, why=f"is “{value}”, not one of {', '.join(known)}")
        return value

    def on(self, name: str) -> bool:
        """Whether the switch called `name` is on."""
        return self.number(name) != 0

    def word(self, name: str) -> str:
        """The word called `name`."""
        return cast("str", self.all[name])

    def numbers(self, name: str) -> tuple[int, ...]:
        """The whole numbers called `name`."""
        return cast("tuple[int, ...]", self.all[name])

    def words(self, name: str) -> tuple[str, ...]:
        """The words called `name`."""
        return cast("tuple[str, ...]", self.all[name])


def _fits(value: Value, kind: Type) -> bool:
    if kind == "int":
        return isinstance(value, int)
    if kind == "str":
        return isinstance(value, str)
    member = int if kind == "ints" else str
    return isinstance(value, tuple) and all(isinstance(one, member) for one in value)


def values_of(figure: Figure) -> Values:
    """The figure's parameters with defaults filled in.

    Raises:
        UnknownFigure: the kind is not in `PARAMS`.
        WrongParameter: a parameter is missing, unknown or of another type.
    """
    known = PARAMS.get(figure.kind)
    if known is None:
        raise UnknownFigure(kind=figure.kind)
    names = {param.name for param in known}
    for name in figure.params:
        if name not in names:
            raise WrongParameter(kind=figure.kind, name=name, why="is not a parameter of this picture")
    values: dict[str, Value] = {}
    for param in known:
        value = figure.params.get(param.name, param.default)
        if value is None:
            raise WrongParameter(kind=figure.kind, name=param.name, why="is missing")
        if not _fits(value, param.type):
            raise WrongParameter(kind=figure.kind, name=param.name, why=f"is not of the type {param.type}")
        values[param.name] = value
    return Values(figure.kind, values)
