"""One table of a family's file, read field by field; what is wrong is noted and the reading goes on."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date, datetime, time
from difflib import get_close_matches
from typing import TYPE_CHECKING, Any

from dayleaf.core.errors import Problem
from dayleaf.plan.calendar import WEEKDAYS

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

DAY_MINUTES = 24 * 60


@dataclass(slots=True)
class Table:
    """A table under its name. Every reading method gives the value, or `None` and a problem."""

    where: str
    data: Mapping[str, Any]
    problems: list[Problem]
    known: set[str] = field(default_factory=set)

    def says(self, key: str, message: str) -> None:
        """Note what is wrong with a field."""
        self.problems.append(Problem(f"{self.where}.{key}" if key else self.where, message))

    def take(self, key: str) -> Any:
        """The raw value, None where there is none."""
        self.known.add(key)
        return self.data.get(key)

    def text(self, key: str) -> str | None:
        """Words."""
        value = self.take(key)
        if value is None:
            return None
        if not isinstance(value, str) or not value.strip():
            self.says(key, "write words in quotes")
            return None
        return value.strip()

    def whole(self, key: str, *, least: int = 0, most: int = DAY_MINUTES) -> int | None:
        """A whole number in `least` .. `most`, both included."""
        value = self.take(key)
        if value is None:
            return None
        if isinstance(value, bool) or not isinstance(value, int) or not least <= value <= most:
            self.says(key, f"{value!r} is not a whole number from {least} to {most}")
            return None
        return value

    def flag(self, key: str) -> bool:
        """Yes or no; no where it is not said."""
        value = self.take(key)
        if value is not None and not isinstance(value, bool):
            self.says(key, f"{value!r} is neither true nor false")
        return value is True

    def names(self, key: str) -> tuple[str, ...] | None:
        """A list of words."""
        value = self.take(key)
        if value is None:
            return None
        if not isinstance(value, list) or not all(isinstance(one, str) and one for one in value):
            self.says(key, 'write a list of words, as ["tablet"]')
            return None
        return tuple(value)

    def clock(self, key: str) -> time | None:
        """A clock time, written "9:05" or as TOML's own 09:05:00."""
        value = self.take(key)
        if value is None or (isinstance(value, time) and value.tzinfo is None):
            return value
        try:
            return datetime.strptime(value, "%H:%M").time()  # noqa: DTZ007 -- a clock time on a kitchen wall has no zone
        except (TypeError, ValueError):
            self.says(key, f'{value!r} is not a clock time; write it as "9:05"')
            return None

    def day(self, key: str) -> date | None:
        """A date, written as TOML's own 2027-01-12 or in quotes."""
        value = self.take(key)
        if value is None or (isinstance(value, date) and not isinstance(value, datetime)):
            return value
        try:
            return date.fromisoformat(value)
        except (TypeError, ValueError):
            self.says(key, f"{value!r} is not a date; write it as 2027-01-12")
            return None

    def weekdays(self, key: str) -> frozenset[int] | None:
        """Weekdays by name (monday or mon), 0 = Monday."""
        value = self.names(key)
        if value is None:
            return None
        found = [weekday_of(one) for one in value]
        for one, number in zip(value, found, strict=True):
            if number is None:
                self.says(key, f"{one!r} is no weekday; write monday or mon")
        return frozenset(number for number in found if number is not None)

    def tables(self, key: str) -> Iterable[Table]:
        """A list of tables under this one."""
        value = self.take(key)
        if value is None:
            return
        if not isinstance(value, list):
            self.says(key, f"write it as [[{self.where + '.' if self.where else ''}{key}]]")
            return
        for n, one in enumerate(value, start=1):
            where = f"{self.where}.{key}[{n}]" if self.where else f"{key}[{n}]"
            if isinstance(one, dict):
                yield Table(where, one, self.problems)
            else:
                self.problems.append(Problem(where, "it is not a table"))

    def close(self) -> None:
        """Note every field that nobody asked for."""
        for key in self.data:
            if key not in self.known:
                near = get_close_matches(key, self.known, n=1)
                self.says(key, f"nothing is called so here{f'; did you mean {near[0]}' if near else ''}")


def weekday_of(name: str) -> int | None:
    """The number of a weekday called by its name or by its first three letters."""
    for number, full in enumerate(WEEKDAYS):
        if name.casefold() in (full.casefold(), full[:3].casefold()):
            return number
    return None


def minutes_between(start: time, end: time) -> int:
    """Whole minutes from one clock time to another of the same day; below 0 where it is earlier."""
    return (end.hour - start.hour) * 60 + end.minute - start.minute
