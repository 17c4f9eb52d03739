"""A round on a child's own page: a few items one after another, whose answers join the record like those of a sheet.

The page is off until an adult asks for it. A round has no clock and no points, and it ends by itself. Each answer is
an event of its own as it is given, so that nothing is lost when a tablet is put away; sending it twice changes nothing.
"""

from __future__ import annotations

import uuid
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from django.db import transaction

from dayleaf.core.errors import BadInput, DayleafError, Problem
from dayleaf.core.ids import FormatId, SheetId, SkillId
from dayleaf.core.seeds import seed_from
from dayleaf.course.load import grade2
from dayleaf.events.model import BoxEvidence, ItemMark, Marked
from dayleaf.items.built import formats_built, is_built
from dayleaf.items.draw import draw_items
from dayleaf.items.make import make
from dayleaf.items.model import Column, Question, Row, Story
from dayleaf.marking.answer import same_answer
from dayleaf.records import selectors, services
from dayleaf.records.coming import coming_lesson, look_ahead
from dayleaf.records.models import EventRow

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from datetime import date, datetime

    from dayleaf.course.model import Skill
    from dayleaf.items.model import Item
    from dayleaf.records.models import Learner

ROUNDS: Final = (5, 8, 10, 12)
"""Items a round may have: at most about ten minutes (common practice, no source)."""
BY: Final = "screen"
"""Stands in the evidence of an answer that was given on the child's page."""
A_SKILL: Final = 2
TRIES: Final = 3
LOOKS_LIKE_PAPER: Final = frozenset({"measure", "draw-len", "build", "oral", "explain", "strip", "group-ring"})
"""Formats that want a ruler, things or a person, or many answers at once."""


class NoPageOfTheirOwn(DayleafError):
    """A child's page was opened that no adult has switched on."""

    def __init__(self, name: str) -> None:
        super().__init__(f"{name} has no page of this kind; a grown-up can switch it on.")


class NothingToAskYet(DayleafError):
    """Nothing was taught so far that a screen could ask."""

    def __init__(self, name: str) -> None:
        super().__init__(f"There is nothing to ask {name} here yet; it begins after the first lessons.")


@dataclass(frozen=True, slots=True)
class Asked:
    """One item of a round as it can be kept between two pages: skill, format and numbers make it again."""

    skill: str
    format: str
    numbers: tuple[tuple[str, int], ...]

    def item(self) -> Item:
        """The item itself."""
        return make(grade2().skills[SkillId(self.skill)], FormatId(self.format), dict(self.numbers))


@transaction.atomic
def screen_switch(*, learner: Learner, items: int) -> Learner:
    """Switch the child's page on with so many items a round, or off with 0. Raises `BadInput`."""
    if items not in (0, *ROUNDS):
        raise BadInput([Problem("items a round", f"is {items}; choose {', '.join(map(str, ROUNDS))}, or 0 for none")])
    learner.on_screen = items
    learner.save(update_fields=["on_screen"])
    return learner


def round_begin(learner: Learner, *, today: date) -> tuple[Asked, ...]:
    """The items of a new round: skills that come back next, then what was printed last, two of a skill at the most.

    Raises:
        NoPageOfTheirOwn: nobody has switched the page on.
        NothingToAskYet: no such skill can be asked on a screen.
    """
    if not learner.on_screen:
        raise NoPageOfTheirOwn(learner.name)
    course = grade2()
    answered = answers_before(learner, today)
    seed = seed_from(learner.id, "screen", today.toordinal(), answered)
    pools = []
    for skill in _skills(learner, today=today):
        items = tuple(_for_screen(course.skills[skill], seed=seed))
        if items:
            pools.append(items)
        if len(pools) >= learner.on_screen:
            break
    turns = [pool[turn] for turn in range(A_SKILL) for pool in pools if turn < len(pool)]
    if not turns:
        raise NothingToAskYet(learner.name)
    return tuple(Asked(one.skill, one.format, tuple(sorted(one.numbers.items()))) for one in turns[: learner.on_screen])


def answers_before(learner: Learner, today: date) -> int:
    """How many answers the child gave on the page that day, so that each round has other numbers."""
    rows = EventRow.objects.filter(learner=learner, kind="marked", sheet="", day=today)
    return rows.count()


def fits_screen(item: Item) -> bool:
    """Whether an item can be asked on a screen: one place to answer, in digits, by a sign or by one of a few options.

    >>> from dayleaf.items.model import Gap, Part
    >>> row = Row((62, "-", 38, "=", Gap("1")))
    >>> one = Item(SkillId("s"), FormatId("horiz"), {}, row, (Part("1", "digits", "24", 2),), (), {})
    >>> fits_screen(one)
    True
    """
    if len(item.parts) != 1 or item.format in LOOKS_LIKE_PAPER:
        return False
    if not isinstance(item.prompt, Row | Column | Question | Story):
        return False
    if isinstance(item.prompt, Column) and item.prompt.hidden:
        return False
    return item.parts[0].kind in ("digits", "choice", "compare")


def read_answer(item: Item, typed: str) -> str:
    """The canonical answer that was typed or touched. Raises `BadInput` for what cannot stand there."""
    part, said = item.parts[0], typed.strip()
    codes = [option.code for option in part.options]
    fits = {
        "digits": said.isascii() and said.isdigit() and len(said) <= max(part.width, 1) + 1,
        "choice": said in codes,
        "compare": said in ("<", ">", "="),
    }
    if not fits.get(part.kind, False):
        raise BadInput([Problem("answer", "cannot stand here; choose again")])
    return said


def screen_answer(
    *, learner: Learner, round_id: str, n: int, item: Item, answer: str, day: date, at: datetime | None = None
) -> ItemMark:
    """Write one answer of a round down, once; the mark it got. Sent again, the first answer stays."""
    wrong = not same_answer(answer, item.answer)
    ways = tuple(way for way, given in item.errors.items() if same_answer(answer, given)) if wrong else ()
    mark = ItemMark(n, item.skill, item.format, item.key, "wrong" if wrong else "right", answer, False, ways)  # noqa: FBT003 -- not helped
    id_ = uuid.uuid5(uuid.NAMESPACE_URL, f"dayleaf:{learner.id}:{round_id}:{n}").hex
    lesson = coming_lesson(learner, after=day)
    with transaction.atomic():
        if EventRow.objects.filter(household_id=learner.household_id, event_id=id_).exists():
            return mark
        marked = Marked(
            services.head(learner, day=day, at=at, id=id_),
            SheetId(""),
            (lesson or grade2().days[0]).id,
            (mark,),
            evidence=(BoxEvidence(str(n), answer, 1.0, None, BY),),
        )
        services.event_append(household=learner.household, event=marked)
    return mark


def _skills(learner: Learner, *, today: date) -> Iterator[SkillId]:
    """Skills that come back with the next lesson, then those printed last, each once."""
    seen: set[SkillId] = set()
    lesson = coming_lesson(learner, after=today)
    chosen: Sequence[SkillId] = (
        [back.skill for back in look_ahead(learner, lesson, today=today).choices] if lesson else []
    )
    printed = [skill for event in reversed(selectors.prints_said(learner)[-6:]) for skill in event.skills]
    for skill in (*chosen, *printed):
        if skill not in seen and skill in grade2().skills and is_built(skill):
            seen.add(skill)
            yield skill


def _for_screen(skill: Skill, *, seed: int) -> Iterator[Item]:
    """Up to two items of a skill that a screen can ask, in two formats where there are two."""
    found: list[Item] = []
    for name in formats_built(skill.id):
        if len(found) == A_SKILL:
            return
        if name in LOOKS_LIKE_PAPER:
            continue
        one = next((item for item in draw_items(skill, n=TRIES, seed=seed, format=name) if fits_screen(item)), None)
        if one is not None:
            found.append(one)
            yield one
    if len(found) == 1:
        more = draw_items(skill, n=TRIES + 1, seed=seed + 1, format=found[0].format)
        yield from [item for item in more if fits_screen(item) and item.key != found[0].key][:1]
