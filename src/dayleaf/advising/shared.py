"""What a family shares of one child, as values: the terms, and only the kinds that were ticked.

These classes are also the shape of the file (docs/exchange.md): what does not fit them is refused.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date  # noqa: TC003 -- the reader of files looks the types up
from typing import Any, Final, Literal

Kind = Literal["plan", "progress", "samples", "messages"]
KINDS: Final[tuple[Kind, ...]] = ("plan", "progress", "samples", "messages")
HowFarShared = Literal["done", "half", "not today"]


@dataclass(frozen=True, slots=True)
class Terms:
    """Who shares what with whoever holds the file, and until when (that day included).

    `child` is the same in every file of a child and tells nothing of it; `share` is this one file's.
    `answer_key` is a secret between the file and the home it came from: only an answer sealed with it is let in.
    """

    share: str
    child: str
    family: str
    learner: str
    course: str
    kinds: tuple[Kind, ...]
    made_on: date
    until: date
    answer_key: str


@dataclass(frozen=True, slots=True)
class PlannedDay:
    """One lesson and its day."""

    day: date
    lesson: str
    title: str = ""


@dataclass(frozen=True, slots=True)
class SharedPlan:
    """The plan in force. `then` are the lessons of past days as they were planned on that day's morning.

    `kept` is the whole year as a home keeps it (`plan.codec`), its days off without their names.
    """

    version: str
    days: tuple[PlannedDay, ...]
    then: tuple[PlannedDay, ...]
    kept: dict[str, Any] | None = None


@dataclass(frozen=True, slots=True)
class TaughtDay:
    """How far a lesson went on a day, and the skills that it teaches."""

    day: date
    lesson: str
    how_far: HowFarShared
    skills: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Counts:
    """Answers of one skill on a sheet. `ways` says how many wrong answers are those of an error way."""

    right: int
    of: int
    helped: int = 0
    ways: dict[str, int] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class MarkedSheet:
    """A marked sheet: counts by skill, no single answer."""

    day: date
    lesson: str
    skills: dict[str, Counts]


@dataclass(frozen=True, slots=True)
class SharedProgress:
    """What was done. `there` are days with any record of learning, `written` the dates on which records were written.

    `away` are days of which somebody said that there was no lesson. `known` says in words what each skill is believed
    to be; skills that were never met are left out.
    """

    taught: tuple[TaughtDay, ...] = ()
    marked: tuple[MarkedSheet, ...] = ()
    there: tuple[date, ...] = ()
    away: tuple[date, ...] = ()
    written: tuple[date, ...] = ()
    known: dict[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class SampleItem:
    """One item of a sheet with what the child wrote (empty where nobody typed it)."""

    text: str
    answer: str
    written: str
    state: Literal["right", "wrong", "blank", "not reached"]


@dataclass(frozen=True, slots=True)
class Sample:
    """A marked sheet, item by item."""

    day: date
    lesson: str
    items: tuple[SampleItem, ...]


@dataclass(frozen=True, slots=True)
class Message:
    """The family's own words."""

    day: date
    text: str


@dataclass(frozen=True, slots=True)
class SharedRecords:
    """Everything that one file holds. A kind that was not ticked is None."""

    terms: Terms
    plan: SharedPlan | None = None
    progress: SharedProgress | None = None
    samples: tuple[Sample, ...] | None = None
    messages: tuple[Message, ...] | None = None


@dataclass(frozen=True, slots=True)
class PlanAnswer:
    """A plan sent back to the family: for which share, made from which plan, by whom and why.

    `seal` is the HMAC-SHA256 of all the rest under the share's answer key.
    """

    share: str
    learner: str
    base: str
    sender: str
    words: str
    made_on: date
    kept: dict[str, Any]
    seal: str = ""
