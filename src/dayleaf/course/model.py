"""What a course is made of. One type serves our own course and a family's outline."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    from collections.abc import Mapping

    from dayleaf.core.ids import CourseId, ErrorWayId, FormatId, LessonId, SkillId

DayKind = Literal["lesson", "look-back", "test", "project", "spare", "look-back-all"]
Role = Literal["below", "refresh", "core", "extension", "above"]
ShowsAs = Literal["wrong answer", "slow way", "talk", "drawing"]
IfShort = Literal["keep", "drop", "join-next"]
StepKind = Literal["say", "do", "ask", "answer", "if-instead"]
PartName = Literal["open", "show", "together", "alone", "close", "if-there-is-time"]


@dataclass(frozen=True, slots=True)
class ErrorWayNote:
    """How one error way shows in one skill, in words for the parent."""

    id: ErrorWayId
    text: str
    shows_as: ShowsAs


@dataclass(frozen=True, slots=True)
class Skill:
    """One thing a child can learn to do.

    `item_rule` is a range rule such as `a=21..98 b=12..89 | a%10<b%10 and a>b`; `distinct_items` its
    counted size. `format_from_day` holds a format back until the lesson named. `codes` are codes of
    published standards, nearest first; `fit` says how near. `acted_out` says why a skill is done with people or
    things and only a sheet to note it on can be printed; empty for all others.
    """

    id: SkillId
    title: str
    grade: str
    strand: str
    role: Role
    prereqs: tuple[SkillId, ...]
    number_range: str
    item_rule: str | None
    distinct_items: int | None
    formats: tuple[FormatId, ...]
    format_from_day: Mapping[FormatId, LessonId]
    pictures: tuple[str, ...]
    materials: tuple[str, ...]
    codes: tuple[str, ...]
    fit: Literal["exact", "part", "beyond", "none"]
    say: str
    ask: str
    answer: str
    error_ways: tuple[ErrorWayNote, ...]
    acted_out: str = ""


@dataclass(frozen=True, slots=True)
class GuideStep:
    """One line of a guide. `text` may hold slots such as {show.1.a} or {child}."""

    kind: StepKind
    text: str


@dataclass(frozen=True, slots=True)
class GuidePart:
    """One part of a guide; `core` marks the step that no short version may lose."""

    name: PartName
    minutes: int
    steps: tuple[GuideStep, ...]
    core: bool = False


@dataclass(frozen=True, slots=True)
class Guide:
    """A lesson guide. `shown` and `together` say which items the guide works with.

    Each entry of `shown` and `together` is (skill, format): the packet chooses the numbers, and the
    slots {show.N.…} and {together.N.…} name them. `watch` is the one test that decides *alone or one
    more together*; `short` and `bare` are the 10-minute and the no-materials version.
    """

    aim: str
    before: str
    shown: tuple[tuple[SkillId, FormatId], ...]
    together: tuple[tuple[SkillId, FormatId], ...]
    parts: tuple[GuidePart, ...]
    watch: str
    short: str
    bare: str


@dataclass(frozen=True, slots=True)
class Day:
    """One day of the course. Minutes are planning values (common practice, no source).

    `pages` are (book, pages) pairs of a family's own books; `alone` says that the child works the whole day alone.
    """

    id: LessonId
    number: int
    chapter: int
    kind: DayKind
    title: str
    how: str
    new_skills: tuple[SkillId, ...]
    refresh_skills: tuple[SkillId, ...]
    front_skills: tuple[SkillId, ...]
    back_skills: tuple[SkillId, ...]
    stretch_skills: tuple[SkillId, ...]
    fact_warm_up: SkillId | None
    materials: tuple[str, ...]
    print_outs: tuple[str, ...]
    small_task: str
    second_sheet: bool
    parent_minutes: int
    child_minutes: int
    if_short: IfShort
    guide: Guide | None = None
    pages: tuple[tuple[str, str], ...] = ()
    alone: bool = False


@dataclass(frozen=True, slots=True)
class Chapter:
    """Ten days with one big idea."""

    number: int
    title: str
    aim: str
    big_idea: str
    words_taught: tuple[str, ...]
    usual_trouble: tuple[str, ...]
    project: str
    story: str
    stretch_skills: tuple[SkillId, ...]


@dataclass(frozen=True, slots=True)
class Story:
    """The story of a chapter, to read aloud. `drawing` is SVG, `alt` says what it shows; `answer` is for the adult.

    In a paragraph *stars* stand around the names of boats.
    """

    title: str
    minutes: int
    question: str
    answer: str
    alt: str
    paragraphs: tuple[str, ...]
    drawing: str


@dataclass(frozen=True, slots=True)
class RubricRow:
    """What to look for in something drawn, built or told, and how it shows in three steps."""

    look_for: str
    not_yet: str
    nearly: str
    there: str


@dataclass(frozen=True, slots=True)
class Project:
    """What a chapter's tenth day makes.

    `day` and `begins` are numbers of course days: its own, and that on which something must first be noted down for it
    (the same where nothing is). `needs` are ids of materials, or words; `evidence` says what to keep for the folder.
    """

    title: str
    day: int
    begins: int
    needs: tuple[str, ...]
    steps: tuple[GuideStep, ...]
    evidence: str
    cautions: str
    rubric: tuple[RubricRow, ...]


@dataclass(frozen=True, slots=True)
class FrontPage:
    """One page of the front of a course: a sentence that leads, paragraphs, rows of a label and its words."""

    title: str
    lead: str
    paragraphs: tuple[str, ...]
    rows: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Material:
    """A thing to fetch, cut or buy, with its caution and a household substitute."""

    id: str
    title: str
    source: Literal["cut-out set", "print-out", "home", "buy"]
    prep_minutes: int
    small_parts: bool
    scissors: bool
    substitute: str
    how_many: str
    first_day: int | None
    caution: str = ""


@dataclass(frozen=True, slots=True)
class Format:
    """A way to ask: what the child does, how it is marked, how much room it takes.

    `acted_out` formats are done with a person or with things; they can be printed, but not worked alone on a sheet.
    """

    id: FormatId
    name: str
    does: str
    answer: str
    marking: str
    per_side: tuple[int, int]
    instruction: str
    acted_out: bool = False


@dataclass(frozen=True, slots=True)
class Picture:
    """A kind of picture: what it must show, its parameters, and what tells things apart without colour."""

    id: str
    must_show: str
    parameters: tuple[str, ...]
    not_by_colour_alone: str


@dataclass(frozen=True, slots=True)
class ErrorWay:
    """One error way, whatever the skill.

    `phrase` completes "the same habit: ..."; `try_next` is one sentence on what to do about it;
    `goes_to` names the skill that mends it, where there is one.
    """

    id: ErrorWayId
    phrase: str
    try_next: str
    goes_to: SkillId | None = None


@dataclass(frozen=True, slots=True)
class Standard:
    """A code of a published standard with our own paraphrase and its limits; never the standard's wording."""

    code: str
    paraphrase: str
    limits: str


@dataclass(frozen=True, slots=True)
class Course:
    """A whole course. Days are in order; skills are found by id.

    `covers` is the grade whose codes in `standards` the core skills cover together; "" if none is claimed.
    """

    id: CourseId
    title: str
    strands: Mapping[str, str]
    chapters: tuple[Chapter, ...]
    days: tuple[Day, ...]
    skills: Mapping[SkillId, Skill]
    formats: Mapping[FormatId, Format]
    materials: Mapping[str, Material]
    pictures: Mapping[str, Picture] = field(default_factory=dict)
    error_ways: Mapping[ErrorWayId, ErrorWay] = field(default_factory=dict)
    standards: Mapping[str, Standard] = field(default_factory=dict)
    covers: str = ""
    stories: Mapping[int, Story] = field(default_factory=dict)
    projects: Mapping[int, Project] = field(default_factory=dict)
    rubrics: Mapping[FormatId, RubricRow] = field(default_factory=dict)
    front: tuple[FrontPage, ...] = ()
