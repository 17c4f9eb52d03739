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
from dayleaf.sheets.typeset import set_guide, set_key, set_uncoded

if TYPE_CHECKING:
    from collections.abc import Iterable

    from dayleaf.course.model import Course, Day
    from dayleaf.packets.model import Child, Packet

LATELY: Final = 40
"""Items of so many sheets before are not asked again (common practice, no source)."""
ON_THE_LIST: Final = "on the course's list"
FORMS: Final = ("A", "B")
KINDS: Final = ("front", "cut-outs", "papers", "reading", "guides", "pages", "tests", "keys", "picture-cards")
"""The kinds of files, in the order in which they are written."""


OnPaper = tuple[bytes, bytes, bytes]
"""The guide, the pages and the key of a day that is printed for good."""


@dataclass(frozen=True, slots=True)
class Year:
    """A course for one child. `seed_of` gives the seed of a day's numbers.

    `scale` corrects a printer that does not keep the size of what is cut out. `recorded` prints a day, or a form of a
    test, for good; without it pages carry neither corner marks nor codes, since no record knows of them.
    """

    course: Course
    child: Child
    seed_of: Callable[[Day], int]
    younger_child: bool = False
    scale: float = 1.0
    recorded: Callable[[Day, str], OnPaper] | None = None
    lately: deque[tuple[str, ...]] = field(default_factory=lambda: deque(maxlen=LATELY))


@dataclass(frozen=True, slots=True)
class Part:
    """Sides that belong together, not yet bound. Chapter 0 is what belongs to the whole course."""

    chapter: int
    kind: str
    name: str
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
    found = tuple(
        (part.name, first + 1, end) for part, first, end in zip(parts, before, (*before[1:], sides), strict=True)
    )
    name = f"chapter-{chapter:02}-{kind}.pdf" if chapter else f"{kind}.pdf"
    return YearFile(name, kind, chapter, pdf, sides, found)


def _front(year: Year, _number: int) -> Iterator[Part]:
    wanted = {word for day in year.course.days for word in day.print_outs}
    papers = tuple(word for word in PAPERS if word in wanted)
    for kind, words in (("front", OF_THE_COURSE), ("cut-outs", SETS), ("papers", papers)):
        for word in words:
            printed = print_thing(year.course, word, paper=year.child.look.paper, scale=year.scale)
            yield Part(0, kind, word, printed.pdf)


def _reading(year: Year, number: int) -> Iterator[Part]:
    for word, printed in OF_A_CHAPTER.items():
        if word != "story-page" or number in year.course.stories:
            yield Part(number, "reading", word, printed(year.course, number, paper=year.child.look.paper))


def _days(year: Year, number: int) -> Iterator[Part]:
    for day in year.course.days:
        if day.chapter == number:
            yield from _day(year, day)


def _day(year: Year, day: Day) -> Iterator[Part]:
    """The guide, the pages and the key of a day; of a test both forms, and one guide."""
    test = day.kind == "test"
    for form in FORMS if test else FORMS[:1]:
        guide, pages, key = year.recorded(day, form) if year.recorded else _made(year, day, form)
        name = f"{day.id} form {form}" if test else day.id
        if form == FORMS[0]:
            yield Part(day.chapter, "guides", day.id, guide)
        if pages:
            yield Part(day.chapter, "tests" if test else "pages", name, pages)
            yield Part(day.chapter, "keys", name, key)
    yield from _cards(year, day)


def _made(year: Year, day: Day, form: str) -> OnPaper:
    packet = _packet(year, day, form=form)
    look = packet.child.look
    guide = set_guide(compose_guide(year.course, packet), look)[0] if form == FORMS[0] else b""
    project = year.course.projects.get(day.chapter) if day.kind == "project" else None
    if project is not None:
        guide, _ = bound([guide, print_project(year.course, project, look)])
    if not packet.sheets:
        return guide, b"", b""
    key = set_key(packet.sheets, look, tables=key_tables(year.course, packet), coded=False)
    return guide, set_uncoded(packet.sheets, look), key


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
            yield Part(day.chapter, "picture-cards", day.id, pdf)


Source = Callable[[Year, int], Iterator[Part]]
WHOLE: Final[tuple[Source, ...]] = (_front,)
SOURCES: Final[tuple[Source, ...]] = (_reading, _days)
"""What is bound, in the order made; another kind of paper is one more line here and its name in `KINDS`."""
