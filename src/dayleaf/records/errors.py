"""What a household can ask for that is not there."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.errors import DayleafError

if TYPE_CHECKING:
    from collections.abc import Iterable


class NoHousehold(DayleafError):
    """The folder has no household yet."""

    def __init__(self) -> None:
        super().__init__("There is no household in this folder yet; `dayleaf start` or `dayleaf demo` makes one.")


class NoSuchChild(DayleafError):
    """No child of this household has that name."""

    def __init__(self, name: str, names: Iterable[str]) -> None:
        self.name = name
        self.names = tuple(names)
        known = f"the children here are {', '.join(self.names)}" if self.names else "no child has been added yet"
        super().__init__(f"There is no child called {name!r}; {known}.")


class NoSuchSheet(DayleafError):
    """No sheet of this household has that id. A sheet of another household gets the same words."""

    def __init__(self, sheet: str) -> None:
        self.sheet = sheet
        super().__init__(f"No sheet {sheet!r} was printed here; its seven signs stand at the top of the page.")


class NoPlan(DayleafError):
    """The child has no plan yet."""

    def __init__(self, name: str) -> None:
        super().__init__(f"{name} has no plan yet; `dayleaf plan` makes one.")


class NothingToUndo(DayleafError):
    """The plan in force is the first one."""

    def __init__(self, name: str) -> None:
        super().__init__(f"{name}'s plan is the first one, so there is nothing to undo.")


class NotThisHousehold(DayleafError):
    """Rows of two households were handed over together."""

    def __init__(self) -> None:
        super().__init__("The child and the household do not belong together.")
