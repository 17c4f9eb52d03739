"""A photographed sheet as its page shows it: the side with marks laid over it, the crops to look at, the fields."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from django.urls import reverse

from dayleaf.web.entry import GAP, SIDES, typed_answer

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from django.http import QueryDict

    from dayleaf.reading.answers import Question
    from dayleaf.reading.model import BoxReading
    from dayleaf.records.settling import ItemSeen, SheetSeen
    from dayleaf.sheets.model import Box, PageMap

AROUND: Final = 4.0
"""Millimetres of the page that a crop shows around its boxes."""

EMPTY: Final = "blank"
"""What a choice says for nothing in a box: a field without a word is a field that was not touched."""

HELPED: Final = "helped"
TOLD: Final = (("right", "alone"), (HELPED, "with help"), ("wrong", "not yet"), (EMPTY, "left out"))
STATES: Final = {"right": "true", "wrong": "miss", "blank": "empty", "ask": "ask", "not seen": "unseen"}
WHY: Final = {
    "doubtful": "Not sure what stands here.",
    "would be wrong": "This would count as a miss. Is that what stands there?",
    "gap": "There is a gap in the number. What stands there?",
    "two ringed": "Two seem to be ringed. Which one is meant?",
    "drawn": "Drawn, built or told: how did it go?",
}
SIGNS: Final[dict[str, tuple[tuple[str, str], ...]]] = {
    "circle": (("1", "ringed"), (EMPTY, "not ringed")),
    "tick": (("1", "ticked"), (EMPTY, "not ticked")),
}


@dataclass(frozen=True, slots=True)
class _Side:
    """A side that a photo shows: its map, the address of its picture, its readings by box."""

    page: PageMap
    src: str
    boxes: Mapping[str, BoxReading]


@dataclass(frozen=True, slots=True)
class Crop:
    """A part of a side, in millimetres of the page, with the boxes asked about."""

    src: str
    page: tuple[float, float]
    view: str
    asked: tuple[tuple[float, float, float, float], ...]
    words: str


@dataclass(frozen=True, slots=True)
class Choice:
    """One thing that may be said in a touch."""

    name: str
    value: str
    label: str
    chosen: bool


@dataclass(frozen=True, slots=True)
class Touch:
    """One question: what is seen, and what it may be. Without a crop where nothing on paper can be shown."""

    words: str
    crop: Crop | None
    choices: tuple[Choice, ...]

    @property
    def settled(self) -> bool:
        """Whether one of the choices was made."""
        return any(choice.chosen for choice in self.choices)


@dataclass(frozen=True, slots=True)
class Line:
    """An item with what is asked about it; `typed` is the whole answer that a person typed."""

    n: int
    text: str
    state: str
    reads: str
    right: str
    touches: tuple[Touch, ...]
    typed: str
    numeric: bool
    told: bool
    helped: bool


@dataclass(frozen=True, slots=True)
class Laid:
    """A mark laid over a side, at the top right corner of an item's last box, in millimetres."""

    kind: str
    x: float
    y: float


@dataclass(frozen=True, slots=True)
class SideShown:
    """A side with its marks. `photo` and `number` name its picture."""

    title: str
    src: str
    size: tuple[float, float]
    marks: tuple[Laid, ...]
    words: str
    photo: str


def shown_sides(seen: SheetSeen) -> tuple[SideShown, ...]:
    """The sides that photos show, in the order of the sheet, with the marks as they stand now."""
    states = {item.n: STATES[item.proposal.state] for item in seen.counted}
    shown = []
    for side in _sides(seen):
        page, laid = side.page, []
        for item in page.items:
            places = [_place(side, box) for box in page.boxes if box.item == item.n and box.role == "answer"]
            if places and item.n in states:
                x, y, wide, _ = places[-1]
                laid.append(Laid(states[item.n], round(x + wide, 1), round(y, 1)))
        words = "; ".join(f"item {item.n} {_said_state(states[item.n])}" for item in page.items if item.n in states)
        photo = next(one.photo for one in seen.sides if one.reading.page == page.page)
        title = SIDES[page.kind]
        shown.append(SideShown(title, side.src, page.size_mm, tuple(laid), f"{title}: {words}", photo))
    return tuple(shown)


def shown_lines(seen: SheetSeen) -> tuple[Line, ...]:
    """Every item in order, with its questions where there are any."""
    where = {item.n: side for side in _sides(seen) for item in side.page.items}
    said = seen.settled.said
    lines = []
    for one in seen.counted:
        touches = tuple(_touches(one, where[one.n], said, seen.settled.helped)) if one.n in where else ()
        words = {choice.value for touch in touches for choice in touch.choices if choice.name == f"item-{one.n}"}
        whole = said.get(str(one.n), "")
        lines.append(
            Line(
                n=one.n,
                text=one.asked.item.text.removesuffix(GAP).rstrip(" ="),
                state=STATES[one.proposal.state],
                reads=one.proposal.answer or "",
                right=typed_answer(one.asked, one.asked.item.answer),
                touches=touches,
                typed="" if whole in words or whole in ("right", "wrong", "blank") else whole,
                numeric=all(spot.kind == "digit" for spot in one.asked.spots),
                told=one.told or not one.asked.spots,
                helped=one.n in seen.settled.helped,
            )
        )
    return tuple(lines)


def said_in(posted: QueryDict) -> tuple[dict[str, str], frozenset[int], int | None]:
    """(what was said of boxes and items, items done with help, the last item reached) in the page's fields."""
    said: dict[str, str] = {}
    helped = {int(n) for n in posted.getlist(HELPED) if n.isdigit()}
    for name in posted:
        kind, _, of = name.partition("-")
        word = posted.get(name, "").strip()
        if kind == "box" and word:
            said[of] = "" if word == EMPTY else word
        elif kind == "item" and word == HELPED and of.isdigit():
            said[of] = "right"
            helped.add(int(of))
        elif kind == "item" and word:
            said[of] = word
    for name in posted:
        kind, _, of = name.partition("-")
        if kind == "typed" and (word := " ".join(posted.get(name, "").split())):
            said[of] = word
    reached = posted.get("reached", "").strip()
    return said, frozenset(helped), int(reached) if reached.isascii() and reached.isdigit() else None


def _touches(one: ItemSeen, side: _Side, said: Mapping[str, str], helped: frozenset[int]) -> Iterable[Touch]:
    of_item = {box.id: box for box in side.page.boxes if box.item == one.n and box.role == "answer"}
    for question in one.doubtful:
        box = of_item[question.box]
        crop = _crop(side, [box], f"What stands in a box of item {one.n}")
        yield Touch(WHY["doubtful"], crop, tuple(_box_choices(box, question, said)))
    name, whole = f"item-{one.n}", said.get(str(one.n))
    if one.told:
        now = HELPED if whole == "right" and one.n in helped else whole
        yield Touch(WHY["drawn"], None, tuple(Choice(name, word, label, word == now) for word, label in TOLD))
    elif one.as_read is not None:
        crop = _crop(side, list(of_item.values()), f"What stands as the answer of item {one.n}")
        yield Touch(WHY[_why(one)], crop, tuple(_answer_choices(one, name, whole)))


def _why(one: ItemSeen) -> str:
    return next((question.why for question in one.proposal.questions if question.why != "doubtful"), "would be wrong")


def _box_choices(box: Box, question: Question, said: Mapping[str, str]) -> Iterable[Choice]:
    now = said.get(box.id)
    words: tuple[tuple[str, str], ...]
    if box.kind in SIGNS:
        words = SIGNS[box.kind]
    elif box.kind == "compare":
        words = (("<", "<"), ("=", "="), (">", ">"), (EMPTY, "nothing"))
    else:
        words = (*((digit, digit) for digit in question.likely), (EMPTY, "nothing"))
    for value, label in words:
        yield Choice(f"box-{box.id}", value, label, now is not None and value == (now or EMPTY))


def _answer_choices(one: ItemSeen, name: str, whole: str | None) -> Iterable[Choice]:
    if _why(one) == "two ringed":
        letters = [chr(ord("A") + n) for n, _ in enumerate(one.asked.spots[0].options)]
        for letter in letters:
            yield Choice(name, letter, letter, whole == letter)
        yield Choice(name, "wrong", "both", whole == "wrong")
        return
    if one.as_read:
        yield Choice(name, one.as_read, f"yes, {one.as_read}", whole == one.as_read)
    else:
        yield Choice(name, "wrong", "yes, a miss", whole == "wrong")
    yield Choice(name, EMPTY, "nothing", whole == EMPTY)


def _sides(seen: SheetSeen) -> Iterable[_Side]:
    for page in seen.pages:
        for side in seen.sides:
            if side.reading.page == page.page:
                src = reverse("photo-side", args=[side.photo, side.number])
                yield _Side(page, src, {box.id: box for box in side.reading.boxes})


def _place(side: _Side, box: Box) -> tuple[float, float, float, float]:
    """Where a box lies on the picture of its side: x, y, width, height in millimetres."""
    right, down = side.boxes[box.id].shift if box.id in side.boxes else (0.0, 0.0)
    return round(box.x + right, 2), round(box.y + down, 2), box.w, box.h


def _crop(side: _Side, of: list[Box], words: str) -> Crop:
    places = [_place(side, box) for box in of]
    left, top = min(place[0] for place in places) - AROUND, min(place[1] for place in places) - AROUND
    right = max(place[0] + place[2] for place in places) + AROUND
    bottom = max(place[1] + place[3] for place in places) + AROUND
    view = f"{left:.1f} {top:.1f} {right - left:.1f} {bottom - top:.1f}"
    return Crop(side.src, side.page.size_mm, view, tuple(places) if len(places) == 1 else (), words)


def _said_state(kind: str) -> str:
    return {"true": "right", "miss": "a miss", "empty": "empty", "ask": "to look at", "unseen": "not seen"}[kind]
