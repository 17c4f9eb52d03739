"""Sheets to typeset, made by hand; and plain stand-ins for the sentences, which other rooms test."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pypdfium2 as pdfium
import pytest

from dayleaf.core.ids import ErrorWayId, FormatId, LessonId, SkillId
from dayleaf.items.model import Column, Figure, Gap, Item, Option, Part, Question, Row, Step, Story
from dayleaf.sheets import cells, typeset
from dayleaf.sheets.ids import sheet_id
from dayleaf.sheets.model import Block, Look, PageSpec, Placed, SheetSpec

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    import numpy as np
    from numpy.typing import NDArray


class PlainSay:
    """Sentences for the hand-made items: the question's own words, and steps as they are."""

    @staticmethod
    def lines_of(item: Item, lang: str) -> tuple[str, ...]:
        assert lang == "en"
        return tuple(str(item.prompt.values["said"]).split("|")) if isinstance(item.prompt, Question) else STORY

    @staticmethod
    def steps_of(item: Item, lang: str) -> tuple[str, ...]:
        assert lang == "en"
        return tuple(step.code for step in item.steps)

    @staticmethod
    def option_words(code: str, lang: str, item: Item | None = None) -> str:
        assert lang == "en"
        assert item is not None
        return code

    @staticmethod
    def word_of(code: str, lang: str, count: int | None = None) -> str:
        assert lang == "en"
        return code if count == 1 else f"{code}s"

    @staticmethod
    def text_of(item: Item, lang: str) -> str:
        assert lang == "en"
        return item.key.split("/")[0]


STORY = ("Wren has 62 bricks.", "She gives 38 bricks to the lock-keeper.", "How many bricks are left?")


@pytest.fixture(autouse=True, scope="module")
def plain_words() -> Iterator[None]:
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(cells, "say", PlainSay)
        patch.setattr(typeset, "say", PlainSay)
        yield


def _item(kind: str, prompt: Row | Column | Question | Story, *parts: Part, figure: Figure | None = None) -> Item:
    steps = (Step("2 ones, 8 to take: too few."), Step("Open a ten: 5 tens, 12 ones."), Step("12 − 8 = 4, 5 − 3 = 2."))
    wrong = {ErrorWayId("smaller-from-larger"): "36"}
    return Item(SkillId("skill-made-by-hand"), FormatId(kind), {"a": 62}, prompt, parts, steps, wrong, figure)


def column(a: int, b: int, *, width: int = 2, shown: int | None = None, picture: bool = False) -> Item:
    figure = Figure("base-ten", {"t": a // 10, "o": a % 10}) if picture else None
    part = Part("1", "digits", str(a - b), width)
    return _item("vert", Column((a, b), "-", trades=shown is None, shown=shown), part, figure=figure)


def row(a: int, b: int, *, width: int = 2) -> Item:
    return _item("horiz", Row((a, "-", b, "=", Gap("1"))), Part("1", "digits", str(a - b), width))


def compare(a: int, b: int) -> Item:
    return _item("cmp", Row((a, Gap("1"), b)), Part("1", "compare", "<" if a < b else ">" if a > b else "="))


def choice(said: str, *codes: str, right: str) -> Item:
    options = tuple(Option(code) for code in codes)
    return _item("choose", Question("made-by-hand", {"said": said}), Part("1", "choice", right, 0, options))


def many(said: str, *codes: str, right: str) -> Item:
    options = tuple(Option(code) for code in codes)
    return _item("tick-many", Question("made-by-hand", {"said": said}), Part("1", "many", right, 0, options))


def count(said: str, answer: int, figure: Figure) -> Item:
    part = Part("1", "digits", str(answer), 2)
    return _item("count-pic", Question("made-by-hand", {"said": said}), part, figure=figure)


def story() -> Item:
    return _item("word1", Story("take-from", ("child",), "brick", {"a": 62, "b": 38}), Part("1", "digits", "24", 2))


def block(instruction: str, start: int, *items: Item, example: Item | None = None) -> Block:
    return Block(instruction, tuple(Placed(start + i, item) for i, item in enumerate(items)), example)


FRAME = Figure("ten-frame", {"a": 8, "b": 3})


def a_day(*, child: str = "Wren", few: bool = False) -> tuple[SheetSpec, ...]:
    """A two-sheet day: together and own page, front and back; `few` has about two thirds of the items."""
    sums = [column(*pair) for pair in ((62, 38), (71, 47), (84, 29), (53, 17), (90, 36), (65, 21))]
    together = PageSpec(
        "together",
        "Together",
        (
            block("Build it. Then write what you did.", 1, column(62, 38, picture=True), column(71, 47, picture=True)),
            block("Now without the picture.", 3, *sums[2:4]),
        ),
    )
    own = PageSpec("own", "Not enough ones", (block("Take away.", 1, *sums[: 4 if few else 6], example=sums[0]),))
    front = PageSpec(
        "front",
        "Practice: today",
        (
            block("Take away.", 1, *sums[: 2 if few else 3]),
            block("Write the number that is left.", 4, row(53, 17), row(90, 36, width=3)),
            block("Find the mistake and mend it.", 6, column(81, 44, shown=43)),
            block("Write the sign.", 7, compare(62, 26)),
        ),
    )
    back = PageSpec(
        "back",
        "Practice: earlier",
        (
            block("Fill the ten.", 8, row(18, 5)),
            block("How many?", 9, count("How many counters are there?", 11, FRAME)),
            block("About how much? Ring one.", 10, choice("62 − 38 is about", "20", "30", "100", right="20")),
            block("Tick all that fit.", 11, many("Which are even?", "4", "7", "12", right="4 12")),
        ),
    )
    stories = PageSpec("own", "Stories", (block("Read. Draw. Write the sum.", 1, story(), story()),))
    return (
        SheetSpec(sheet_id(child, 1), LessonId("day-084"), child, (together, own)),
        SheetSpec(sheet_id(child, 2), LessonId("day-084"), child, (front, back)),
        SheetSpec(sheet_id(child, 3), LessonId("day-084"), child, (stories,)),
    )


@pytest.fixture(scope="package")
def day() -> Callable[..., tuple[SheetSpec, ...]]:
    return a_day


@pytest.fixture
def make_block() -> Callable[..., Block]:
    return block


@pytest.fixture
def sums() -> Callable[[int], list[Item]]:
    """N take-aways in columns, all different."""
    return lambda n: [column(62 + i, 28 + i) for i in range(n)]


LOOKS = {
    "letter": Look(),
    "a4": Look(paper="a4"),
    "left": Look(left_handed=True),
    "large": Look(large_boxes=True),
    "compact": Look(compact=True, paper="a4"),
}


@pytest.fixture(params=sorted(LOOKS), scope="package")
def look(request: pytest.FixtureRequest) -> Look:
    return LOOKS[str(request.param)]


@pytest.fixture(scope="package")
def pictures() -> Callable[[bytes], tuple[NDArray[np.uint8], ...]]:
    """Sides of a file as grey pictures of 200 dots an inch."""
    return render


def render(pdf: bytes) -> tuple[NDArray[np.uint8], ...]:
    document = pdfium.PdfDocument(pdf)
    return tuple(side.render(scale=200 / 72, grayscale=True).to_numpy().squeeze() for side in document)
