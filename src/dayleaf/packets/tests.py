"""A chapter test, form by form: put together as the day that it is, and printed with its guide and its key."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.packets.blueprint import day_of_test
from dayleaf.packets.day import prepare_day, print_packet

if TYPE_CHECKING:
    from collections.abc import Sequence

    from dayleaf.course.model import Course
    from dayleaf.packets.model import Child, Packet, Prints


def prepare_test(
    course: Course, chapter: int, child: Child, *, form: str = "A", seed: int, id_parts: Sequence[str | int] = ()
) -> Packet:
    """One form of a chapter's test, not yet on paper. Forms of one seed differ; the same arguments give the same form.

    Raises:
        NotATest: the chapter has no test.
        NotBuiltYet: a skill of it has no printed items.
        NoSuchForm: the letter is none of A to H.
    """
    day = day_of_test(course, chapter)
    return prepare_day(course, day, child, seed=seed, backs=(), id_parts=id_parts, form=form)


def print_test(
    course: Course, chapter: int, child: Child, *, form: str = "A", seed: int, id_parts: Sequence[str | int] = ()
) -> Prints:
    """The same on paper: guide, pages with their map, key with marks by skill.

    Raises:
        DoesNotFit: one item alone is too much for a side.
        NotATest, NotBuiltYet, NoSuchForm: as `prepare_test`.
    """
    return print_packet(course, prepare_test(course, chapter, child, form=form, seed=seed, id_parts=id_parts))
