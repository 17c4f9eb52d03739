"""What outlines are written with: page numbers, kinds of day, names of books, in the words that people use for them."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final, cast, get_args

from dayleaf.course.model import DayKind

if TYPE_CHECKING:
    from collections.abc import Iterator

_ONE_RANGE: Final = r"[A-Z]{0,2}\d{1,4}(?:\s*(?:[-–—]|to)\s*[A-Z]{0,2}\d{1,4}|\s*ff?\.?)?"
_PAGES: Final = re.compile(
    rf"(?:pages?|pp?\.?|pgs?\.?|S\.)?\s*({_ONE_RANGE}(?:\s*(?:,|;|&|and|\+)\s*{_ONE_RANGE})*)", re.IGNORECASE
)
_RANGE: Final = re.compile(r"([A-Z]{0,2})(\d+)\s*(?:[-–—]|to)\s*([A-Z]{0,2})(\d+)", re.IGNORECASE)
_BOOKS: Final = (
    r"(?:(?:teacher|parent|child|student|pupil)(?:['’]?s)?['’]?\s+)?"
    r"(?:guide|manual|text\s?book|work\s?book|exercise book|practice book|activity book|review book|"
    r"review|tests?|book|text|reader)"
)
IN_BRACKETS: Final = re.compile(
    rf"[(\[]?\b({_BOOKS})?,?:?\s*\b(?:pages?|pp?\.|pgs?\.?)\s*({_ONE_RANGE}(?:\s*,\s*{_ONE_RANGE})*)[)\]]?",
    re.IGNORECASE,
)
AT_END: Final = re.compile(rf"(?:\s*[.…·_\-]{{2,}}\s*|\t+\s*|\s{{2,}}|\s*[.…]\s+)({_ONE_RANGE})\s*$")
LAST_NUMBER: Final = re.compile(r"\s(\d{1,4})\s*$")
BOOK: Final = "book"
"""What the family's book is called where the outline has only one and does not name it."""

_KINDS: Final[tuple[tuple[DayKind, str], ...]] = (
    (
        "look-back-all",
        r"cumulative (?:review|look|revision)|(?:mid-?year|end.of.year|year.end|final|term) (?:review|revision)",
    ),
    (
        "test",
        (
            r"\b(?:tests?|quiz(?:zes)?|exams?|examination|assessments?|evaluation|mastery check|"
            r"(?:end.of.\w+|unit|chapter|module|topic|mid-?\w+|progress) check)\b"
        ),
    ),
    (
        "look-back",
        (
            r"^(?:\W*(?:chapter|unit|module|topic|week)\s*\w*\W*)?(?:mixed |spiral |quick )?"
            r"(?:reviews?|revision|recap|look back|check.?ups?|check.?points?|wrap.?up|going over|consolidation)\b"
            r"(?!\s+of\b)(?! (?:the )?\w+ facts)"
        ),
    ),
    ("look-back", r"\b(?:chapter|unit|module|topic|week(?:ly)?) (?:\w+ )?(?:review|revision|recap|check.?up)\b"),
    ("project", r"\bprojects?\b|\binvestigation\b|\bgame day\b|\bactivity day\b|\bfield trip\b"),
    (
        "spare",
        (
            r"\bcatch.?up\b|\bspare\b|\bflex(?:ible)? day\b|\bfree day\b|\bbuffer\b|"
            r"\bmake.?up day\b|\bno lesson\b|\brest day\b"
        ),
    ),
)
_SAID: Final[dict[str, DayKind]] = {
    "lesson": "lesson", "lessons": "lesson", "new": "lesson", "teach": "lesson", "practice": "lesson", "": "lesson",
    "standard": "lesson", "instruction": "lesson", "regular": "lesson", "work": "lesson", "day": "lesson",
    "review": "look-back", "check-up": "look-back", "checkup": "look-back", "revision": "look-back",
}  # fmt: skip
ALONE: Final = re.compile(
    r"\b(?:alone|independent(?:ly)?|on (?:his|her|their) own|by (?:him|her|them)sel(?:f|ves)|self-?taught)\b",
    re.IGNORECASE,
)
YES: Final = frozenset({"y", "yes", "x", "1", "true", "alone", "independent", "independently", "✓", "ja", "self"})
NO: Final = frozenset({"", "n", "no", "0", "false", "-", "–", "with", "together", "led"})


def kind_of_title(title: str) -> DayKind:
    """The kind of day that a title says: a unit test, a review, a catch-up day; a lesson where it says nothing."""
    plain = title.casefold()
    return next((kind for kind, pattern in _KINDS if re.search(pattern, plain)), "lesson")


def kind_said(word: str) -> DayKind | None:
    """The kind that a word in a column of kinds means; None where it means none that we know."""
    plain = word.strip().casefold()
    if plain in get_args(DayKind):
        return cast("DayKind", plain)
    if plain in _SAID:
        return _SAID[plain]
    found = kind_of_title(plain)
    return found if found != "lesson" else None


def pages_said(cell: str) -> str | None:
    """Page numbers as we write them (`114–115`, `12, 14`), or None where a cell holds none.

    >>> pages_said("pp. 114-115")
    '114–115'
    >>> pages_said("ask Tobin") is None
    True
    """
    whole = _PAGES.fullmatch(cell.strip().rstrip("."))
    if whole is None:
        return None
    tidy = re.sub(r"\s*(?:[-—–]|\bto\b)\s*", "–", whole[1])
    return re.sub(r"\s*(?:;|&|\band\b|\+|,)\s*", ", ", tidy).strip()


def backward(pages: str) -> Iterator[str]:
    """The ranges of pages that end before they begin."""
    for found in _RANGE.finditer(pages):
        if found[1].casefold() == found[3].casefold() and int(found[4]) < int(found[2]):
            yield found[0]


def book_named(words: str) -> str:
    """What a book is called after the head of its column: the head without *pages*."""
    plain = re.sub(r"\b(?:pages?|pp?\.?|pgs?\.?|nos?\.?)(?!\w)", " ", words, flags=re.IGNORECASE)
    return " ".join(re.sub(r"[():#]", " ", plain).split()).casefold() or BOOK
