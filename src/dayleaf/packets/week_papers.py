"""What a week's prep list says to print and to cut, as two files beside its pages."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.packets.binding import bound
from dayleaf.packets.cut_outs.pages import Frame
from dayleaf.packets.cut_outs.sets import SETS
from dayleaf.packets.print_outs import card_sides
from dayleaf.packets.printables import OF_A_CHAPTER, print_cut_outs, print_thing
from dayleaf.plan.week import CARDS
from dayleaf.sheets.true_size import typeset_true

if TYPE_CHECKING:
    from collections.abc import Iterator

    from dayleaf.course.model import Course
    from dayleaf.plan.week import Need, Week
    from dayleaf.sheets.model import Paper


def week_cut_outs(course: Course, week: Week, *, paper: Paper, scale: float = 1.0) -> bytes | None:
    """The sets that the week's prep list says to cut, bound; None where there is nothing new to cut."""
    ids = [need.material.id for need in week.prep if need.kind == "cut" and need.material.id in SETS]
    return print_cut_outs(course, ids, paper=paper, scale=scale) if ids else None


def week_print_outs(course: Course, week: Week, *, paper: Paper, scale: float = 1.0) -> bytes | None:
    """The print-outs on the week's prep list, bound; None where there are none.

    Papers are printed once for each child who needs one; a month's calendar shows the month of the day it is for;
    picture cards stand two to a side.
    """
    wanted = [need for need in week.prep if need.kind == "print"]
    parts = [part for need in wanted for part in _paper(course, week, need, paper=paper, scale=scale)]
    kinds = [need.what for need in wanted if need.material.id == CARDS]
    if kinds:
        sides = card_sides(kinds, Frame(paper, scale))
        parts.append(typeset_true(sides, paper=paper, two_sided=len(sides) > 1))
    return bound(parts)[0] if parts else None


def _paper(course: Course, week: Week, need: Need, *, paper: Paper, scale: float) -> Iterator[bytes]:
    name = need.material.id
    if name == CARDS:
        return
    if name in OF_A_CHAPTER:
        chapters = dict.fromkeys(one.lesson.chapter for one in week.lessons if name in one.lesson.print_outs)
        words = [f"{name}:{chapter}" for chapter in chapters if name != "story-page" or chapter in course.stories]
    else:
        words = [name] * len(need.learners)
    for word in words:
        yield print_thing(course, word, paper=paper, scale=scale, month=need.first).pdf
