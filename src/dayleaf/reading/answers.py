"""From readings to marks: what is sure is proposed, what is doubtful or would count against the child is asked.

The expected answer never makes a doubtful digit right; nothing is wrong before a person has looked at it; a drawn or
told answer is a question; and nothing that is asked counts until it is settled.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final, Literal

from dayleaf.core.errors import Problem
from dayleaf.marking.answer import NotAnAnswer, asked_items, read_typed, same_answer

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from dayleaf.marking.answer import AskedItem, Spot
    from dayleaf.reading.model import BoxReading, PageReading
    from dayleaf.sheets.model import Box, BoxKind, PageMap

Why = Literal["doubtful", "would be wrong", "gap", "drawn", "two ringed"]
ItemState = Literal["right", "wrong", "blank", "ask", "not seen"]
LETTERS: Final = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
SAID: Final[tuple[ItemState, ...]] = ("right", "wrong", "blank")
"""What a person may say of a whole item: of a drawn answer, or wherever that is simpler."""


FITS: Final[Mapping[BoxKind, Sequence[str]]] = {"digit": "0123456789", "compare": "<>=", "tick": "1", "circle": "1"}
WORDS: Final[Mapping[BoxKind, str]] = {"digit": "a digit", "compare": "<, > or =", "tick": "a tick", "circle": "a ring"}


@dataclass(frozen=True, slots=True)
class Question:
    """One box to settle; `box` is "" where the whole item is asked about. `picture` is a PNG file or empty.

    `likely` are what the box may say, the likeliest first.
    """

    box: str
    why: Why
    reading: str = ""
    certainty: float = 0.0
    picture: bytes = b""
    likely: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Proposal:
    """One item as read.

    `answer` is what was written, as a parent would type it, None where it is not known or cannot be typed. `trades`
    gives what stands in the small boxes above a column by place (0 = ones): evidence of the way, never a mark.
    `first_off` is the first place from the ones whose digit is not the key's, None where there is none.
    """

    n: int
    state: ItemState
    answer: str | None = None
    questions: tuple[Question, ...] = ()
    trades: tuple[tuple[int, str], ...] = ()
    first_off: int | None = None


def propose(
    pages: Sequence[PageMap], readings: Iterable[PageReading], *, settled: Mapping[str, str] | None = None
) -> tuple[Proposal, ...]:
    """A proposal for every item of a sheet, in the order of their numbers.

    `pages` are all sides of the sheet, `readings` those of them that were read. `settled` says by box id what a person
    sees in that box ("" for nothing), or by item number one of right, wrong, blank, or the whole answer as a parent
    would type it. What does not fit (`misfits`) is passed over.
    """
    known = dict(settled or {})
    read = {reading.page: reading for reading in readings if reading.status == "read"}
    asked = asked_items(pages)
    proposals = []
    for page in pages:
        reading = read.get(page.page)
        said = {box.id: _settled(box, known) for box in reading.boxes} if reading else {}
        for item in page.items:
            whole = known.get(str(item.n))
            boxes = [box for box in page.boxes if box.item == item.n]
            if whole in SAID:
                proposals.append(Proposal(item.n, whole))
            elif whole is not None and _typeable(asked[item.n], whole):
                state: ItemState = "right" if _is_right(asked[item.n], whole) else "wrong"
                proposals.append(Proposal(item.n, state, whole))
            elif reading is None:
                proposals.append(Proposal(item.n, "not seen"))
            else:
                proposals.append(_proposal(asked[item.n], boxes, said, known))
    return tuple(sorted(proposals, key=lambda one: one.n))


def misfits(pages: Sequence[PageMap], settled: Mapping[str, str]) -> tuple[Problem, ...]:
    """Everything settled that this sheet does not have or that cannot stand there, in the order given."""
    asked = asked_items(pages)
    boxes = {box.id: box for page in pages for box in page.boxes}
    problems = []
    for name, said in settled.items():
        if name in boxes:
            kind = boxes[name].kind
            if said not in ("", *FITS[kind]):
                problems.append(Problem(name, f"{said!r} cannot stand in a box for {WORDS[kind]}"))
        elif not name.isdigit() or int(name) not in asked:
            problems.append(Problem(name, "is no box and no item of this sheet"))
        elif said not in SAID:
            try:
                read_typed(asked[int(name)], said)
            except NotAnAnswer as misfit:
                problems.append(Problem(f"item {name}", str(misfit)))
    return tuple(problems)


def entry_words(pages: Sequence[PageMap], proposals: Iterable[Proposal]) -> tuple[str, str]:
    """(right except, blank): the marking by exception that settled proposals come to, in a parent's words."""
    asked = asked_items(pages)
    wrong, blank = [], []
    for one in proposals:
        if one.state == "blank":
            blank.append(str(one.n))
        elif one.state == "wrong":
            typed = one.answer and _typeable(asked[one.n], one.answer)
            wrong.append(f"{one.n}={one.answer}" if typed else str(one.n))
    return ",".join(wrong), ",".join(blank)


def _settled(box: BoxReading, known: Mapping[str, str]) -> BoxReading:
    """The box as a person sees it, where one has looked."""
    if box.id not in known:
        return box
    return replace(box, reading=known[box.id], certainty=1.0, state="sure" if known[box.id] else "blank")


def _proposal(
    asked: AskedItem, boxes: Sequence[Box], said: Mapping[str, BoxReading], known: Mapping[str, str]
) -> Proposal:
    answer_boxes = [box for box in boxes if box.role == "answer"]
    places = [(int(box.id.rpartition(".")[2]), said[box.id].reading) for box in boxes if box.role == "trade"]
    trades = tuple((place, reading) for place, reading in sorted(places) if reading)
    n = asked.item.n
    if not answer_boxes:
        alone = _ticked_alone([box for box in boxes if box.role == "look"], said)
        return Proposal(n, "right") if alone else Proposal(n, "ask", questions=(Question("", "drawn"),))
    doubtful = [box for box in answer_boxes if said[box.id].state == "ask"]
    if doubtful:
        return Proposal(n, "ask", questions=_questions(doubtful, said, "doubtful"), trades=trades)
    if all(said[box.id].state == "blank" for box in answer_boxes):
        return Proposal(n, "blank", trades=trades)
    words = []
    for spot in asked.spots:
        of_part = [box for box in answer_boxes if box.part == spot.part]
        word, why = _word(spot, [said[box.id].reading for box in of_part])
        if why is not None and not all(box.id in known for box in of_part):
            return Proposal(n, "ask", questions=_questions(of_part, said, why), trades=trades)
        words.append(word)
    typed = " ".join(words) if all(words) else None
    if _is_right(asked, typed):
        return Proposal(n, "right", typed, trades=trades)
    off = [box for box in answer_boxes if said[box.id].reading != box.answer]
    unseen = [box for box in off or answer_boxes if box.id not in known]
    digits = [box for box in off if box.kind == "digit"]
    first_off = min((int(box.id.rpartition(".")[2]) for box in digits), default=None)
    questions = _questions(unseen, said, "would be wrong")
    return Proposal(n, "ask" if questions else "wrong", typed, questions, trades, first_off)


def _ticked_alone(boxes: Sequence[Box], said: Mapping[str, BoxReading]) -> bool:
    """Whether a grown-up has surely ticked the first of the three boxes, alone, and no other."""
    if not boxes or any(said[box.id].state == "ask" for box in boxes):
        return False
    return [bool(said[box.id].reading) for box in boxes] == [True, *[False] * (len(boxes) - 1)]


def _questions(boxes: Iterable[Box], said: Mapping[str, BoxReading], why: Why) -> tuple[Question, ...]:
    readings = [said[box.id] for box in boxes]
    return tuple(
        Question(one.id, why, one.reading, one.certainty, one.picture, one.likely or tuple(one.reading))
        for one in readings
    )


def _word(spot: Spot, readings: Sequence[str]) -> tuple[str, Why | None]:
    """(what a parent would type for one place of an item, what has to be asked about it first)."""
    if spot.kind in ("circle", "tick"):
        chosen = "".join(LETTERS[index] for index, reading in enumerate(readings) if reading)
        return chosen, "two ringed" if spot.kind == "circle" and len(chosen) > 1 else None
    if spot.kind == "compare":
        return readings[0], None
    written = "".join(reading or " " for reading in readings)
    return written.strip().replace(" ", ""), "gap" if " " in written.lstrip() else None


def _is_right(asked: AskedItem, typed: str | None) -> bool:
    if typed is None:
        return False
    try:
        return same_answer(read_typed(asked, typed), asked.item.answer)
    except NotAnAnswer:
        return False


def _typeable(asked: AskedItem, typed: str) -> bool:
    try:
        read_typed(asked, typed)
    except NotAnAnswer:
        return False
    return True
