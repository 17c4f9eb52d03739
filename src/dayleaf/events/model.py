"""The kinds of event. `at` is a moment in UTC, `day` the household's own date; neither is read from a clock here."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    from datetime import date, datetime

    from dayleaf.core.ids import (
        ErrorWayId,
        EventId,
        FormatId,
        LearnerId,
        LessonId,
        PlanVersionId,
        SheetId,
        SkillId,
    )

ItemState = Literal["right", "wrong", "blank", "not reached"]
HowFar = Literal["done", "half", "not today", "not said"]
"""`not said` takes back what was said of the lesson that day (undo)."""

Impression = Literal["all fine", "some trouble", "look later"]


@dataclass(frozen=True, slots=True)
class Head:
    """What every event carries. `learner` is None for what concerns the whole household."""

    id: EventId
    at: datetime
    day: date
    learner: LearnerId | None


@dataclass(frozen=True, slots=True)
class Printed:
    """Sheets were frozen and handed to paper."""

    head: Head
    lesson: LessonId
    sheets: tuple[SheetId, ...]
    skills: tuple[SkillId, ...]


@dataclass(frozen=True, slots=True)
class Taught:
    """A lesson was taught, wholly or in part; the last one said for a lesson and day holds."""

    head: Head
    lesson: LessonId
    how_far: HowFar
    skills: tuple[SkillId, ...]


@dataclass(frozen=True, slots=True)
class ItemMark:
    """One item of a marked sheet. `answer` is what the child wrote, None if not keyed."""

    n: int
    skill: SkillId
    format: FormatId
    key: str
    state: ItemState
    answer: str | None
    helped: bool
    errors: tuple[ErrorWayId, ...]
    """The error ways whose answer is the one written; empty where none fits."""


@dataclass(frozen=True, slots=True)
class BoxEvidence:
    """What a picture showed in one answer box, as `box` of the sheet's map, and how certain that was (0 to 1).

    Where a person gave a whole answer, or said right, wrong or blank of it, `box` is the item's number instead.
    `settled` is what a person saw there, None where nobody had to look; `by` says on which device that was said.
    """

    box: str
    reading: str
    certainty: float
    settled: str | None
    by: str


@dataclass(frozen=True, slots=True)
class Marked:
    """A sheet was marked. `replaces` names the earlier marking that this one corrects.

    `evidence` is what its pictures showed, empty where it was marked by hand.
    """

    head: Head
    sheet: SheetId
    lesson: LessonId
    items: tuple[ItemMark, ...]
    replaces: EventId | None = None
    evidence: tuple[BoxEvidence, ...] = ()


@dataclass(frozen=True, slots=True)
class Looked:
    """A sheet was looked over without marks: weak evidence."""

    head: Head
    sheet: SheetId
    lesson: LessonId
    skills: tuple[SkillId, ...]
    impression: Impression


@dataclass(frozen=True, slots=True)
class Mended:
    """The child mended a wrong item at the table; kept beside the first answer. `taken_back` says: it was not so."""

    head: Head
    sheet: SheetId
    n: int
    with_help: bool
    taken_back: bool = False


@dataclass(frozen=True, slots=True)
class Noted:
    """A parent's own words, on a lesson or on the day."""

    head: Head
    lesson: LessonId | None
    text: str


@dataclass(frozen=True, slots=True)
class Override:
    """The parent decided otherwise than advised."""

    head: Head
    lesson: LessonId | None
    advised: str
    chosen: str


@dataclass(frozen=True, slots=True)
class Attended:
    """The child was there, or was not. Attendance is said by a person and never invented.

    With `taken_back` what was said of the day no longer holds, and nothing is known of it. `minutes` are those of this
    course that a person named, None where nobody counts them.
    """

    head: Head
    present: bool
    taken_back: bool = False
    minutes: int | None = None


@dataclass(frozen=True, slots=True)
class PlanChanged:
    """The plan in force is now this version. Undo is a new event that points at an older version.

    Plans of several children that changed in one act carry the same `together`, so that they are undone in one too.
    """

    head: Head
    version: PlanVersionId
    reason: str
    together: str = ""


Event = Printed | Taught | Marked | Looked | Mended | Noted | Override | Attended | PlanChanged
