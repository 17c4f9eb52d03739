"""The week sheet: one page for the adult with the days, what to get ready, and what to print."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

from dayleaf.sheets.cells import texts_of
from dayleaf.sheets.fonts import ADULT_FACES, check_printable
from dayleaf.sheets.geometry import PAPER
from dayleaf.sheets.press import finished, press

if TYPE_CHECKING:
    from dayleaf.sheets.model import Look

TRIES: Final = (10.5, 10.0, 9.5, 9.0, 8.5)
"""Sizes in points: the largest that fits on one side is taken."""
TWO_SIDES: Final = 10.0
"""The size where none does."""


@dataclass(frozen=True, slots=True)
class WeekRow:
    """One child's lesson on a day; `strip` is its line of the morning as SVG, `said` the same in words."""

    child: str
    title: str
    minutes: str
    strip: str
    said: str


@dataclass(frozen=True, slots=True)
class WeekDay:
    """A day of the week sheet; `note` is one line below its lessons."""

    weekday: str
    date: str
    rows: tuple[WeekRow, ...]
    note: str


@dataclass(frozen=True, slots=True)
class PrepLine:
    """One thing to tick off: what, how many or instead of what, and by when. `mind` is a caution, or ""."""

    what: str
    more: str
    when: str
    mind: str = ""


@dataclass(frozen=True, slots=True)
class WeekSheet:
    """A week sheet ready to set. `prep` are groups of lines under a heading, `facts` lines of label and words."""

    title: str
    under: str
    lang: str
    key: tuple[str, str]
    days: tuple[WeekDay, ...]
    prep_heading: str
    prep: tuple[tuple[str, tuple[PrepLine, ...]], ...]
    facts: tuple[tuple[str, str], ...]
    foot: str


def typeset_week(sheet: WeekSheet, look: Look) -> bytes:
    """The week sheet as a file, on one side in the largest of a few type sizes that fits, else on two.

    Raises:
        UnprintableText: a text has signs that our typefaces lack.
    """
    check_printable(texts_of(_data(sheet, look, TWO_SIDES)), faces=ADULT_FACES)
    for points in TRIES:
        pdf, found = press("week", _data(sheet, look, points), labels=("end",))
        if found["end"][0]["page"] == 1:
            return finished(pdf, two_sided=False)
    pdf, _ = press("week", _data(sheet, look, TWO_SIDES))
    return finished(pdf, two_sided=True)


def _data(sheet: WeekSheet, look: Look, points: float) -> dict[str, Any]:
    return {
        "title": sheet.title,
        "under": sheet.under,
        "lang": sheet.lang,
        "paper": PAPER[look.paper],
        "points": points,
        "key": list(sheet.key),
        "days": [
            {
                "weekday": day.weekday,
                "date": day.date,
                "note": day.note,
                "rows": [
                    {"child": row.child, "title": row.title, "minutes": row.minutes, "svg": row.strip, "said": row.said}
                    for row in day.rows
                ],
            }
            for day in sheet.days
        ],
        "prep_heading": sheet.prep_heading,
        "prep": [
            {
                "heading": heading,
                "lines": [
                    {"what": line.what, "more": line.more, "when": line.when, "mind": line.mind} for line in lines
                ],
            }
            for heading, lines in sheet.prep
        ],
        "facts": [list(fact) for fact in sheet.facts],
        "foot": sheet.foot,
    }
