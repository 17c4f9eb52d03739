"""Places and things: each place wants one of several things, and no thing is given twice.

References:
    [1] H. W. Kuhn, The Hungarian method for the assignment problem, 1955; here only its augmenting paths.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence


class Matching:
    """Places filled one after another; a place that has a thing always keeps one, though perhaps another."""

    __slots__ = ("_options", "_owner", "given")

    def __init__(self) -> None:
        self._options: list[Sequence[str]] = []
        self._owner: dict[str, int] = {}
        self.given: dict[int, str] = {}
        """The thing of each place that has one; places are counted from 0."""

    def add(self, options: Sequence[str]) -> bool:
        """Add a place that takes any of these things, the first ones rather; False where none can be freed for it."""
        self._options.append(options)
        return self._fill(len(self._options) - 1, set())

    def add_all(self, places: Sequence[Sequence[str]]) -> bool:
        """Add all of these places or none."""
        before = list(self._options), dict(self._owner), dict(self.given)
        if all(self.add(options) for options in places):
            return True
        self._options, self._owner, self.given = before
        return False

    def _fill(self, place: int, tried: set[str]) -> bool:
        for thing in self._options[place]:
            if thing in tried:
                continue
            tried.add(thing)
            if thing not in self._owner or self._fill(self._owner[thing], tried):
                self._owner[thing] = place
                self.given[place] = thing
                return True
        return False


def one_name_each(alike: Iterable[tuple[str, str]]) -> dict[str, str]:
    """One name for all names that are the same thing; each pair says that two names are."""
    parent: dict[str, str] = {}

    def root(name: str) -> str:
        while parent.setdefault(name, name) != name:
            parent[name] = parent[parent[name]]
            name = parent[name]
        return name

    for one, other in alike:
        parent[root(one)] = root(other)
    return {name: root(name) for name in list(parent)}
