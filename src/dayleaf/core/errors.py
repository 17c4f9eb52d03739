"""The base of every error that has a name at the kitchen table, and problems that come in lists."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing wrong in what we were given: where it stands, and what would mend it."""

    where: str
    message: str

    def __str__(self) -> str:
        return f"{self.where}: {self.message}"


class DayleafError(Exception):
    """Something went wrong that a person can understand; `str()` is the one sentence to show."""


class BadInput(DayleafError):
    """A file or a form with problems; all of them are listed, and nothing was changed."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = tuple(problems)
        super().__init__("\n".join(str(problem) for problem in self.problems))
