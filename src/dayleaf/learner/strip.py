"""Three short days with one skill once more: with things, with things and a drawing, with a drawing and in columns.

The first two days use the same four numbers in another order, the third day the same four and two new ones (JOB 1.10).
Where a habit is suspected the numbers are such that the habit shows on each of them and no other way writes the same.
"""

from __future__ import annotations

from dataclasses import dataclass
from random import Random
from typing import TYPE_CHECKING, Final

from dayleaf.core.ids import FormatId
from dayleaf.core.seeds import seed_from
from dayleaf.items.built import rule_of
from dayleaf.items.choose import choose_items
from dayleaf.learner.asking import candidates, formats_to_ask, item_of
from dayleaf.learner.columns import one_name
from dayleaf.learner.words import count_word

if TYPE_CHECKING:
    from dayleaf.core.ids import ErrorWayId
    from dayleaf.course.model import Course, Skill
    from dayleaf.items.model import Item
    from dayleaf.learner.asking import Candidate

IN_COLUMNS: Final = FormatId("vert")
A_DAY: Final = 4
NEW: Final = 2
ENOUGH: Final = 5
"""So many of the last day's six right, without the habit, end the strip."""


@dataclass(frozen=True, slots=True)
class StripDay:
    """One short day: what is used, what the parent does, and the child's items."""

    title: str
    does: str
    items: tuple[Item, ...]


@dataclass(frozen=True, slots=True)
class Strip:
    """The three days, what to say and ask, what to watch with the eyes, and what ends it.

    `goes_to` is the skill that mends the habit where the course names one: the first day may begin there.
    """

    skill: Skill
    way: ErrorWayId | None
    say: str
    ask: str
    answer: str
    days: tuple[StripDay, ...]
    watch: str
    ends: str
    otherwise: str
    goes_to: Skill | None


def strip_for(course: Course, skill: Skill, *, way: ErrorWayId | None = None, seed: int) -> Strip:
    """The strip for one skill; the same arguments give the same one.

    Raises:
        NotBuilt: no item of the skill can be made.
    """
    plain, columns = _formats(skill)
    chosen = _numbers(skill, plain, way, seed)
    four, new = chosen[:A_DAY], chosen[A_DAY:]
    chance = Random(seed_from("strip", skill.id, seed))
    again = chance.sample(four, len(four))
    last = chance.sample([*four, *new], len(chosen))
    note = course.error_ways.get(way) if way else None
    wrong = f"; a wrong one that comes from {note.phrase} does not count" if note else ""
    return Strip(
        skill=skill,
        way=way,
        say=skill.say,
        ask=skill.ask,
        answer=skill.answer,
        days=(
            StripDay("Day one: with things", _with_things(note.try_next if note else ""), tuple(four)),
            StripDay(
                "Day two: things, then a drawing",
                "Lay the first two with things and let the child draw what lies there. The other two are drawn only.",
                tuple(again),
            ),
            StripDay(
                "Day three: a drawing, then on paper",
                "Draw the first one beside the page. The others are worked on paper; the drawing may be asked for.",
                tuple(_as(skill, columns, one) for one in last),
            ),
        ),
        watch=f"The hands, not the answers: look out for {note.phrase}." if note else "The hands, not the answers.",
        ends=f"{count_word(ENOUGH).capitalize()} of the last six right end it: back to the lesson of the day{wrong}.",
        otherwise="Two short days without a change: show it in another way and leave the amount as it is.",
        goes_to=course.skills.get(note.goes_to) if note and note.goes_to else None,
    )


def _with_things(first: str) -> str:
    begin = f"{first} " if first else ""
    return f"{begin}Every one of the four is laid with things; the child says what happens before writing it."


def _formats(skill: Skill) -> tuple[FormatId, FormatId]:
    """The format of the first two days and that of the third: a row, then columns, where the skill has both."""
    plain = formats_to_ask(skill.id) or tuple(rule_of(skill.id).formats)
    rows = [one for one in plain if one != IN_COLUMNS]
    return (rows[0] if rows else plain[0]), (IN_COLUMNS if IN_COLUMNS in plain else plain[0])


def _numbers(skill: Skill, plain: FormatId, way: ErrorWayId | None, seed: int) -> list[Item]:
    """Six items, the surest first; each of them shows the way and it alone, where there are enough such items."""
    n = A_DAY + NEW
    telling = []
    if way is not None:
        own = one_name(way)
        telling = [one for one in candidates(skill) if one.in_rule and own not in one.doubtful and _alone(one, own)]
    if len(telling) < n:
        return list(choose_items(skill, n=n, seed=seed, formats=(plain,)))
    drawn = Random(seed_from("telling", skill.id, str(way), seed)).sample(telling, n)
    return [_as(skill, plain, one) for one in sorted((one.item for one in drawn), key=lambda one: one.difficulty)]


def _alone(candidate: Candidate, way: ErrorWayId) -> bool:
    """Whether the way writes a wrong answer here that no other way writes."""
    group = candidate.groups.get(way)
    return group is not None and list(candidate.groups.values()).count(group) == 1


def _as(skill: Skill, format_id: FormatId, item: Item) -> Item:
    """The same numbers in another format, where that format can use them."""
    narrow = rule_of(skill.id).fits.get(format_id)
    fits = item.format != format_id and (narrow is None or narrow(item.numbers))
    return item_of(skill.id, format_id, item.numbers) if fits else item
