"""What a day's packet is made of, before and after printing."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from dayleaf.core.errors import DayleafError
from dayleaf.sheets.model import Look

if TYPE_CHECKING:
    from collections.abc import Iterable

    from dayleaf.core.ids import LessonId, SkillId
    from dayleaf.course.model import Day
    from dayleaf.items.model import Item
    from dayleaf.learner.review import Back
    from dayleaf.sheets.model import SheetSpec, Typeset


@dataclass(frozen=True, slots=True)
class Child:
    """What a packet needs of a child.

    `two_sheets` is None where the course decides day by day. `fewer_items` takes about a third of the
    items away and keeps every skill.
    """

    name: str
    look: Look = field(default_factory=Look)
    two_sheets: bool | None = None
    fewer_items: bool = False


@dataclass(frozen=True, slots=True)
class GuideItems:
    """The items a guide works with, by the names its slots use."""

    show: tuple[Item, ...] = ()
    together: tuple[Item, ...] = ()
    warm_up: tuple[Item, ...] = ()


@dataclass(frozen=True, slots=True)
class Packet:
    """Everything one child needs on one day, not yet on paper.

    `fix_up` are skills that the last test named; `family` are the family's own lines, each with `open` or `close`.
    """

    day: Day
    child: Child
    sheets: tuple[SheetSpec, ...]
    guide_items: GuideItems
    backs: tuple[Back, ...]
    fetch: tuple[str, ...]
    cautions: tuple[str, ...]
    yesterday: str = ""
    fix_up: tuple[SkillId, ...] = ()
    family: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class Prints:
    """A day on paper: the guide, the child's pages with their map, the key; and the packet as it came to fit."""

    guide: bytes
    pages: Typeset
    key: bytes
    packet: Packet


class NotBuiltYet(DayleafError):
    """A lesson asks for skills whose items cannot be made yet; nothing is printed."""

    def __init__(self, lesson: LessonId, skills: Iterable[SkillId]) -> None:
        self.lesson = lesson
        self.skills = tuple(skills)
        super().__init__(f"{lesson} cannot be printed yet: no items are built for {', '.join(self.skills)}.")


class AllInTheBook(NotBuiltYet):
    """A day of a family's own course that asks for none of our skills and has nothing that comes back yet."""

    def __init__(self, day: Day) -> None:
        super().__init__(day.id, ())
        self.args = (f"{day.id} has no sheet of ours: it is all in the family's own book. {day.how}".strip(),)
