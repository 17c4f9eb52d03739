"""A whole course on paper for one child: what every day needs, bound by chapter and kind of paper.

What can be bound stands in `SOURCES`; each gives its parts chapter by chapter.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field, replace
from itertools import chain, groupby
from typing import TYPE_CHECKING, Final

from dayleaf.items.built import is_built
from dayleaf.learner.review import Back
from dayleaf.packets.binding import bound
from dayleaf.packets.cut_outs.sets import SETS
from dayleaf.packets.day import fit_packet, key_tables, prepare_day
from dayleaf.packets.guide import compose_guide
from dayleaf.packets.print_outs import PAPERS, PICTURE_CARD
from dayleaf.packets.printables import OF_A_CHAPTER, OF_THE_COURSE, print_outs_of, print_thing
from dayleaf.packets.project import print_project
from dayleaf.sheets.press import sides_of
from dayleaf.sheets.typeset import first_sides, set_guide, set_key, set_uncoded

if TYPE_CHECKING:
    from collections.abc import Iterable

    from dayleaf.core.ids import LessonId
    from dayleaf.course.model import Course, Day
    from dayleaf.packets.model import Child, Packet

LATELY: Final = 40
"""Items of so many sheets before are not asked again (common practice, no source)."""
ON_THE_LIST: Final = "on the course's list"
FORMS: Final = ("A", "B")
STEPS: Final = "how each item goes"
KINDS: Final = ("front", "cut-outs", "papers", "reading", "guides", "pages", "tests", "keys", "picture-cards")
"""The kinds of files, in the order in which they are written."""


OnPaper = tuple[bytes, bytes, bytes]
"""The guide, the pages and the key of a day that is printed for good."""


@dataclass(frozen=True, slots=True)
class Year:
    """A course for one child. `seed_of` gives the seed of a day's numbers.

    `scale` corrects a printer that does not keep the size of what is cut out. `recorded` prints a day, or a form of a
    test, for good; without it pages carry neither corner marks nor codes, since no record knows of them. `only` names
    the days to print; None prints them all.
    """

    course: Course
    child: Child
    seed_of: Callable[[Day], int]
    younger_child: bool = False
    scale: float = 1.0
    recorded: Callable[[Day, str], OnPaper] | None = None
    only: frozenset[LessonId] | None = None
    lately: deque[tuple[str, ...]] = field(default_factory=lambda: deque(maxlen=LATELY))


@dataclass(frozen=True, slots=True)
class Part:
    """Sides that were set together, not yet bound: by name, the side on which each thing begins, counted from 1.

    Chapter 0 is what belongs to the whole course.
    """

    chapter: int
    kind: str
    begins: tuple[tuple[str, int], ...]
    pdf: bytes


@dataclass(frozen=True, slots=True)
class YearFile:
    """A finished file; `parts` are names with their first and last side in it, counted from 1."""

    name: str
    kind: str
    chapter: int
    pdf: bytes
    sides: int
    parts: tuple[tuple[str, int, int], ...]


def parts_of(year: Year, *, chapters: Iterable[int] | None = None) -> Iterator[Part]:
    """Every part of the course, or of some of its chapters (0: what belongs to the whole course), chapter by chapter.

    Raises:
        NotBuiltYet, DoesNotFit: a day that cannot be printed.
    """
    numbers = chapters if chapters is not None else (0, *(chapter.number for chapter in year.course.chapters))
    for number in numbers:
        for source in SOURCES if number else WHOLE:
            yield from source(year, number)


def files_of(parts: Iterable[Part]) -> Iterator[YearFile]:
    """The parts bound, one file a chapter and kind of paper; each part begins on the front of a piece of paper."""
    for chapter, of_chapter in groupby(parts, key=lambda part: part.chapter):
        kinds: dict[str, list[Part]] = {}
        for part in of_chapter:
            kinds.setdefault(part.kind, []).append(part)
        for kind in sorted(kinds, key=KINDS.index):
            yield _bound_file(chapter, kind, kinds[kind])


def _bound_file(chapter: int, kind: str, parts: list[Part]) -> YearFile:
    pdf, before = bound([part.pdf for part in parts])
    sides = before[-1] + sides_of(parts[-1].pdf)
    begun = [(name, shift + first) for part, shift in zip(parts, before, strict=True) for name, first in part.begins]
    ends = (*(first - 1 for _, first in begun[1:]), sides)
    found = tuple((name, first, end) for (name, first), end in zip(begun, ends, strict=True))
    name = f"chapter-{chapter:02}-{kind}.pdf" if chapter else f"{kind}.pdf"
    return YearFile(name, kind, chapter, pdf, sides, found)


def _front(year: Year, _number: int) -> Iterator[Part]:
    wanted = {word for day in year.course.days for word in day.print_outs}
    papers = tuple(word for word in PAPERS if word in wanted)
    for kind, words in (("front", OF_THE_COURSE), ("cut-outs", SETS), ("papers", papers)):
        for word in words:
            printed = print_thing(year.course, word, paper=year.child.look.paper, scale=year.scale)
            yield _single(0, kind, word, printed.pdf)


def _reading(year: Year, number: int) -> Iterator[Part]:
    for word, printed in OF_A_CHAPTER.items():
        if word != "story-page" or number in year.course.stories:
            yield _single(number, "reading", word, printed(year.course, number, paper=year.child.look.paper))


def _days(year: Year, number: int) -> Iterator[Part]:
    """Guides, pages and keys of a chapter's days, and both forms of its test.

    Pages, and keys, of all the days are set together: that takes less paper and less time than one by one.
    """
    packets: dict[str, list[Packet]] = {"pages": [], "tests": []}
    for day in year.course.days:
        if day.chapter != number or (year.only is not None and day.id not in year.only):
            continue
        kind = "tests" if day.kind == "test" else "pages"
        for form in FORMS if kind == "tests" else FORMS[:1]:
            if year.recorded:
                yield from _recorded(year, day, form, kind)
                continue
            packet = _packet(year, day, form=form)
            packets[kind].append(packet)
            if form == FORMS[0]:
                yield _single(number, "guides", day.id, _guide(year, packet))
        yield from _cards(year, day)
    for kind, some in packets.items():
        yield from _together(year, number, kind, [packet for packet in some if packet.sheets])


def _single(chapter: int, kind: str, name: str, pdf: bytes) -> Part:
    return Part(chapter, kind, ((name, 1),), pdf)


def _recorded(year: Year, day: Day, form: str, kind: str) -> Iterator[Part]:
    assert year.recorded is not None  # noqa: S101 - asked only then
    guide, pages, key = year.recorded(day, form)
    if form == FORMS[0]:
        yield _single(day.chapter, "guides", day.id, guide)
    yield _single(day.chapter, kind, _name(day, form), pages)
    yield _single(day.chapter, "keys", _name(day, form), key)


def _name(day: Day, form: str) -> str:
    return f"{day.id} form {form}" if day.kind == "test" else day.id


def _guide(year: Year, packet: Packet) -> bytes:
    """The day's guide; behind a project's, the project's own page."""
    guide = set_guide(compose_guide(year.course, packet), year.child.look)[0]
    project = year.course.projects.get(packet.day.chapter) if packet.day.kind == "project" else None
    return guide if project is None else bound([guide, print_project(year.course, project, year.child.look)])[0]


def _together(year: Year, chapter: int, kind: str, packets: list[Packet]) -> Iterator[Part]:
    """The pages of several days as one part, and their keys as another, with how each item goes at its end."""
    if not packets:
        return
    look = year.child.look
    sheets = [sheet for packet in packets for sheet in packet.sheets]
    first = dict(zip([sheet.id for sheet in sheets], first_sides(sheets), strict=False))
    begins = tuple((_name(packet.day, packet.sheets[0].form), first[packet.sheets[0].id]) for packet in packets)
    yield Part(chapter, kind, begins, set_uncoded(sheets, look))
    tables = [table for packet in packets for table in key_tables(year.course, packet)]
    key = set_key(sheets, look, tables=tables, coded=False)
    yield Part(chapter, "keys", (*begins, (STEPS, first_sides(sheets)[-1])), key)


def _packet(year: Year, day: Day, *, form: str) -> Packet:
    """The day as its own print would be, with the course's list for its back; nothing asked lately comes again."""
    packet = fit_packet(
        prepare_day(
            year.course,
            day,
            year.child,
            seed=year.seed_of(day),
            backs=[Back(skill, ON_THE_LIST) for skill in day.back_skills if is_built(skill)],
            avoid=frozenset(chain.from_iterable(year.lately)),
            younger_child=year.younger_child,
            form=form,
        )
    )
    for sheet in packet.sheets:
        items = (placed.item for side in sheet.pages for block in side.blocks for placed in block.items)
        year.lately.append(tuple(item.key for item in items))
    return packet


def _cards(year: Year, day: Day) -> Iterator[Part]:
    """The picture cards of a day; mats and charts stand once in a file of the whole course."""
    cards = tuple(word for word in day.print_outs if word.startswith(PICTURE_CARD))
    if cards:
        for pdf in print_outs_of(year.course, replace(day, print_outs=cards), paper=year.child.look.paper):
            yield _single(day.chapter, "picture-cards", day.id, pdf)


Source = Callable[[Year, int], Iterator[Part]]
WHOLE: Final[tuple[Source, ...]] = (_front,)
SOURCES: Final[tuple[Source, ...]] = (_reading, _days)
"""What is bound, in the order made; another kind of paper is one more line here and its name in `KINDS`."""
