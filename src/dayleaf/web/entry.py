"""The marking page's fields: what they show of a sheet, and what was typed into them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from dayleaf.course.load import grade2
from dayleaf.marking.answer import asked_items
from dayleaf.records import selectors

if TYPE_CHECKING:
    from collections.abc import Mapping
    from typing import TypedDict

    from django.http import QueryDict

    from dayleaf.course.model import RubricRow
    from dayleaf.events.model import ItemMark, Marked
    from dayleaf.marking.answer import AskedItem
    from dayleaf.records.models import SheetRow

    class MarkArguments(TypedDict):
        """What `desk.sheet_mark` asks for."""

        right_except: str
        reached: int | None
        helped: str
        blank: str


SIDES = {
    "together": "Together page",
    "own": "Own page",
    "front": "Practice sheet, front",
    "back": "Practice sheet, back",
}
UNREADABLE = "?"
GAP = "□"
LOOKED_AT = "fine"
"""Stands for the answer of an item that is drawn, built or told."""
SEEN = ("alone", "with help", "not yet")
"""What a grown-up says of such an item; the first one is taken where nothing is said."""


@dataclass(frozen=True, slots=True)
class Line:
    """One item on the marking page: the right answer as it would be typed, and what stands in its field.

    An item that is drawn, built or told has no field: `seen` is one of `SEEN`, and `rubric` says what to look for,
    None where nobody has written it.
    """

    n: int
    text: str
    answer: str
    numeric: bool
    typed: str
    blank: bool
    helped: bool
    seen: str = ""
    rubric: RubricRow | None = None


@dataclass(frozen=True, slots=True)
class Side:
    """One printed side."""

    title: str
    lines: tuple[Line, ...]


def shown_sides(sheet: SheetRow, before: Marked | None, posted: QueryDict | None = None) -> tuple[Side, ...]:
    """The sheet's items side by side with what was typed just now, or else with what was marked before."""
    marks = {mark.n: mark for mark in before.items} if before else {}
    sides = []
    pages = selectors.pages_of(sheet)
    asked = asked_items(pages)
    for side in pages:
        lines = []
        for item in side.items:
            mark = marks.get(item.n)
            if posted is not None:
                typed = posted.get(f"wrong-{item.n}", "").strip()
                blank, helped = str(item.n) in posted.getlist("blank"), str(item.n) in posted.getlist("helped")
            else:
                wrong = mark is not None and mark.state == "wrong"
                typed = typed_answer(asked[item.n], mark.answer or UNREADABLE) if mark is not None and wrong else ""
                blank = mark is not None and mark.state == "blank"
                helped = mark is not None and mark.helped and side.kind != "together"
            place = asked[item.n]
            numeric = all(spot.kind == "digit" for spot in place.spots)
            seen = "" if place.spots else _seen(item.n, mark, posted)
            rubric = grade2().rubrics.get(item.format) if seen else None
            answer = typed_answer(place, item.answer)
            lines.append(Line(item.n, _text(item.text), answer, numeric, typed, blank, helped, seen, rubric))
        sides.append(Side(SIDES[side.kind], tuple(lines)))
    return tuple(sides)


def entry_from(posted: QueryDict) -> MarkArguments:
    """The page's fields in the words of the command line: `3=36,7`, `4,5`, `9`, and the last item reached."""
    wrong = []
    for field, value in _wrong(posted).items():
        wrong.append(field if value == UNREADABLE else f"{field}={value}")
    looked = {field.removeprefix("look-"): how for field in posted if (how := posted.get(field)) in SEEN[1:]}
    wrong += [n for n, how in looked.items() if how == SEEN[2]]
    helped = [n for n, how in looked.items() if how == SEEN[1]]
    reached = posted.get("reached", "").strip()
    return {
        "right_except": ",".join(wrong),
        "reached": int(reached) if reached.isascii() and reached.isdigit() else None,
        "helped": ",".join(dict.fromkeys((*posted.getlist("helped"), *helped))),
        "blank": ",".join(posted.getlist("blank")),
    }


def typed_answer(asked: AskedItem, answer: str) -> str:
    """An answer as a parent would type it: the letter of an option instead of its code."""
    if not asked.spots:
        return answer or LOOKED_AT
    words = answer.split()
    letters = {code: chr(ord("A") + n) for spot in asked.spots for n, code in enumerate(spot.options)}
    return " ".join(letters.get(word, word) for word in words)


def _seen(n: int, mark: ItemMark | None, posted: QueryDict | None) -> str:
    """What was said just now, or else what the marks before say, of an item that is looked at."""
    if posted is not None:
        said = posted.get(f"look-{n}")
        return said if said in SEEN else SEEN[0]
    if mark is None or mark.state != "wrong":
        return SEEN[1] if mark is not None and mark.helped else SEEN[0]
    return SEEN[2]


def _text(text: str) -> str:
    """An item's words without the empty box at the end: the field stands in its place."""
    return text.removesuffix(GAP).rstrip()


def _wrong(posted: QueryDict) -> Mapping[str, str]:
    """Item number → what was typed, without the signs that part one item from the next."""
    typed = {}
    for field in posted:
        value = " ".join(posted.get(field, "").replace(",", " ").replace(";", " ").replace("=", " = ").split())
        if field.startswith("wrong-") and value:
            typed[field.removeprefix("wrong-")] = value
    return typed
