"""Shape of a data file: the right fields with the right types. Every slip is collected, none stops the reading."""

from __future__ import annotations

import difflib
import tomllib
from datetime import date, datetime
from typing import TYPE_CHECKING

from dayleaf.core.errors import Problem

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping
    from pathlib import Path

NO_SOURCE = "common practice, no source"


class Fields:
    """Takes typed fields out of one TOML table and collects what is wrong with them.

    A getter that finds a problem notes it and returns an empty value, so that one reading lists
    everything. `done` notes every field nobody asked for.
    """

    __slots__ = ("_asked", "_data", "_path", "_problems", "_where")

    def __init__(self, data: Mapping[str, object], *, where: str, problems: list[Problem], path: str = "") -> None:
        self._data = data
        self._where = where
        self._path = path
        self._problems = problems
        self._asked: set[str] = set()

    def problem(self, name: str, message: str) -> None:
        """Note one thing wrong with the field `name` of this table."""
        self._problems.append(Problem(f"{self._where}: {self._path}{name}", message))

    def nothing(self) -> Fields:
        """Stand in for a table whose absence was noted already: it holds nothing and notes nothing."""
        return Fields({}, where=self._where, problems=[])

    def has(self, name: str) -> bool:
        """Say whether the field stands in the file at all."""
        return name in self._data

    def _get(self, name: str, *, example: str, optional: bool) -> object:
        self._asked.add(name)
        value = self._data.get(name)
        if value is None and not optional:
            self.problem(name, f"is missing; write {name} = {example}")
        return value

    def _wrong_type(self, name: str, value: object, *, wanted: str, example: str) -> None:
        self.problem(name, f"holds {_spoken(value)} where {wanted} is wanted; write {name} = {example}")

    def text(self, name: str, *, optional: bool = False, empty_ok: bool = False) -> str:
        """Return a text; a missing optional one is ""."""
        value = self._get(name, example='"…"', optional=optional)
        if value is None:
            return ""
        if not isinstance(value, str):
            self._wrong_type(name, value, wanted="a text", example='"…"')
            return ""
        if not value.strip() and not empty_ok:
            self.problem(name, "is empty; write a text" + (" or leave the line out" if optional else ""))
        return value

    def whole(self, name: str, *, optional: bool = False, least: int = 0) -> int:
        """Return a whole number of at least `least`; a missing optional one is `least`."""
        value = self._get(name, example=str(max(least, 1)), optional=optional)
        if value is None:
            return least
        if isinstance(value, bool) or not isinstance(value, int):
            self._wrong_type(name, value, wanted="a whole number", example=str(max(least, 1)))
            return least
        if value < least:
            self.problem(name, f"is {value}; the least it can be is {least}")
        return value

    def day(self, name: str, *, optional: bool = False) -> date | None:
        """Return a date, written bare or as a text; None where it is missing or wrong."""
        value = self._get(name, example="2026-08-17", optional=optional)
        if value is None or (found := _date_in(value)) is not None:
            return None if value is None else found
        self._wrong_type(name, value, wanted="a date", example="2026-08-17")
        return None

    def days(self, name: str) -> tuple[date, ...]:
        """Return a list of dates; a missing one is empty."""
        value = self._get(name, example="[2026-08-17]", optional=True)
        if value is None:
            return ()
        found = [_date_in(each) for each in value] if isinstance(value, list) else [None]
        if None in found:
            self._wrong_type(name, value, wanted="a list of dates", example="[2026-08-17]")
        return tuple(each for each in found if each is not None)

    def raw(self, name: str) -> object:
        """Return what stands under the name as it is, for a reader of its own; None where nothing does."""
        return self._get(name, example="…", optional=True)

    def flag(self, name: str) -> bool:
        """Return a yes or no."""
        value = self._get(name, example="true or false", optional=False)
        if value is not None and not isinstance(value, bool):
            self._wrong_type(name, value, wanted="true or false", example="true")
        return value is True

    def texts(self, name: str, *, optional: bool = False) -> tuple[str, ...]:
        """Return a list of texts; a missing optional one is empty."""
        value = self._get(name, example='["…"]', optional=optional)
        if value is None:
            return ()
        if not isinstance(value, list) or not all(isinstance(each, str) for each in value):
            self._wrong_type(name, value, wanted="a list of texts", example='["…"]')
            return ()
        return tuple(value)

    def pairs(self, name: str, *, first: str, second: str) -> tuple[tuple[str, str], ...]:
        """Return a list of pairs of texts; `first` and `second` say what they are."""
        example = f'[["{first}", "{second}"]]'
        value = self._get(name, example=example, optional=True)
        if value is None:
            return ()
        if not isinstance(value, list) or not all(
            isinstance(pair, list) and len(pair) == 2 and all(isinstance(each, str) for each in pair) for pair in value
        ):
            self._wrong_type(name, value, wanted=f"a list of pairs ({first}, {second})", example=example)
            return ()
        return tuple((pair[0], pair[1]) for pair in value)

    def whole_pair(self, name: str) -> tuple[int, int]:
        """Return two whole numbers, the lower first."""
        value = self._get(name, example="[4, 6]", optional=False)
        if value is None:
            return (0, 0)
        if not isinstance(value, list) or len(value) != 2 or not all(type(each) is int for each in value):
            self._wrong_type(name, value, wanted="a pair of whole numbers", example="[4, 6]")
            return (0, 0)
        if value[0] > value[1]:
            self.problem(name, f"runs from {value[0]} down to {value[1]}; write the lower number first")
        return (value[0], value[1])

    def table(self, name: str, *, optional: bool = False) -> Fields | None:
        """Return an inner table as fields of its own."""
        value = self._get(name, example="{ … } or start a part with its name in brackets", optional=optional)
        if value is None:
            return None
        if not isinstance(value, dict):
            self._wrong_type(name, value, wanted="a table", example="{ … }")
            return None
        return Fields(value, where=self._where, problems=self._problems, path=f"{self._path}{name}.")

    def tables(self, name: str) -> tuple[Fields, ...]:
        """Return a list of tables, each as fields of its own, numbered from 1 in what is said of them."""
        value = self._get(name, example="[…]", optional=True)
        if value is None:
            return ()
        if not isinstance(value, list) or not all(isinstance(each, dict) for each in value):
            self._wrong_type(name, value, wanted=f"a list of tables, each begun by [[{name}]],", example="[…]")
            return ()
        return tuple(
            Fields(each, where=self._where, problems=self._problems, path=f"{self._path}{name}[{n}].")
            for n, each in enumerate(value, start=1)
        )

    def rows(self) -> Iterator[tuple[str, Fields]]:
        """Yield every inner table not yet asked for with its name: a file that is one table of rows."""
        for name in self._data:
            if name not in self._asked and (row := self.table(name)) is not None:
                yield name, row

    def text_rows(self) -> dict[str, str]:
        """Return every field not yet asked for as a text under its name."""
        return {name: self.text(name) for name in self._data if name not in self._asked}

    def source(self) -> str:
        """Return where the numbers beside it came from; a missing source is refused."""
        self._asked.add("source")
        value = self._data.get("source")
        if not isinstance(value, str) or not value.strip():
            self.problem("source", f'is missing; say where the numbers come from, or write source = "{NO_SOURCE}"')
            return ""
        return value

    def choice(self, name: str, known: tuple[str, ...], *, optional: str | None = None) -> str:
        """Return one of the known words; a missing optional one is the word given."""
        value = self._get(name, example=f'"{known[0]}"', optional=optional is not None)
        if value is None:
            return optional or known[0]
        if value not in known or not isinstance(value, str):
            self.problem(name, f"is {_spoken(value)}; it can be {', '.join(known)}")
            return known[0]
        return value

    def done(self) -> None:
        """Note every field that nobody asked for."""
        for name in (name for name in self._data if name not in self._asked):
            close = difflib.get_close_matches(name, self._asked, n=1)
            meant = f"did you mean {close[0]}" if close else "the fields are " + ", ".join(sorted(self._asked))
            self.problem(name, f"is not a field here; {meant}")


def read_toml(path: Path, *, where: str, problems: list[Problem]) -> Fields | None:
    """Parse one file. A file that is missing, not text or not TOML gives one problem and None."""
    try:
        data = tomllib.loads(path.read_text(encoding="utf-8"))
    except FileNotFoundError:
        problems.append(Problem(where, "the file is missing; put it back from the course you started from"))
    except UnicodeDecodeError as error:
        problems.append(Problem(where, f"byte {error.start} is not UTF-8 text; save the file as UTF-8"))
    except OSError as error:
        problems.append(Problem(where, f"cannot be read ({error.strerror}); check that the file is yours to read"))
    except tomllib.TOMLDecodeError as error:
        problems.append(Problem(where, f"is not TOML: {error}; mend that line"))
    else:
        return Fields(data, where=where, problems=problems)
    return None


def _date_in(value: object) -> date | None:
    """The date that a value holds; a time of day is not wanted with it."""
    if isinstance(value, str):
        try:
            return date.fromisoformat(value)
        except ValueError:
            return None
    return value if isinstance(value, date) and not isinstance(value, datetime) else None


def _spoken(value: object) -> str:
    """Say what kind of value a file holds, in plain words."""
    match value:
        case str():
            return f'the text "{value}"' if len(value) <= 40 else "a text"
        case bool():
            return str(value).lower()
        case int() | float():
            return f"the number {value}"
        case list():
            return "a list"
        case dict():
            return "a table"
        case _:
            return f"a {type(value).__name__}"
