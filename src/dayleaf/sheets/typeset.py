"""Sheets become paper: the child's pages with the map of their boxes, the key to lay beside them, the guide."""

from __future__ import annotations

from dataclasses import asdict, dataclass
from types import MappingProxyType
from typing import TYPE_CHECKING, Any, Final, Literal

from dayleaf.core.errors import DayleafError
from dayleaf.sheets.arrangement import BETWEEN, INSTRUCTION_GAP, Arranged, arranged, contents_of, frame_of, wanted_of
from dayleaf.sheets.cells import Data, page_data, placed_items, steps_data, texts_of
from dayleaf.sheets.corners import code_of, code_svg, mark_svg, marks_of, second_code_at
from dayleaf.sheets.fonts import ADULT_FACES, CHILD_FACE, check_printable
from dayleaf.sheets.geometry import BODY_BOTTOM, BODY_TOP, MARGIN, PAPER
from dayleaf.sheets.guides import TRIES, guide_data, surely_two_sides
from dayleaf.sheets.ids import code_text
from dayleaf.sheets.measuring import frame_data, measured, sorted_words
from dayleaf.sheets.model import Box, MapItem, PageMap, Typeset
from dayleaf.sheets.press import ask, finished, press, sides_of
from dayleaf.wording import page as furniture
from dayleaf.wording import say

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from dayleaf.sheets.asked import Asked
    from dayleaf.sheets.model import GuideSheet, KeyTable, Look, PageSpec, SheetSpec

_SLACK: Final = 0.05
"""Millimetres by which rounding may exceed a side."""


class PageTooFull(DayleafError):
    """A side holds more than fits.

    `page` counts the sides asked for, from 1 (blank backs not counted). `over` says by how many
    millimetres, `items` how many items were asked for and `fits` how many of them, from the first on, do
    fit (0 where that is not known). `room` gives the same number for every side that is too full.
    """

    def __init__(
        self, *, page: int, over: float, items: int, fits: int = 0, room: Mapping[int, int] = MappingProxyType({})
    ) -> None:
        self.page, self.over, self.items, self.fits, self.room = page, over, items, fits, room
        said = f"there is room for {fits}" if fits else "take fewer"
        super().__init__(f"Side {page} is too full by {max(1, round(over))} mm with its {items} items: {said}.")


class NothingToPrint(DayleafError):
    """No sheet was asked for."""

    def __init__(self) -> None:
        super().__init__("There is nothing to print: this day has no sheets.")


@dataclass(frozen=True, slots=True)
class _Side:
    """One side on its way to the press; `spec` None is the blank back of a one-sided sheet."""

    sheet: SheetSpec
    page: int
    spec: PageSpec | None
    runs: list[Data]
    asked: list[Asked]


def typeset_pages(sheets: Sequence[SheetSpec], look: Look) -> Typeset:
    """The child's pages as one file, and the map of every side.

    A sheet always begins on the front of a piece of paper: an odd one is followed by a blank side where
    another sheet comes after it.

    Raises:
        PageTooFull: a side holds more than fits; nothing is cut off silently.
        NothingToPrint: there is no sheet.
        UnprintableText: a text has signs that our typefaces lack.
        NoWords, NotInThisLanguage: wording has no words for an item in this language.
    """
    sides = _sides(sheets, look)
    pdf, found = press("pages", _document(sides, look, mode="child"), labels=("boxes",))
    _check_width(sides, found["boxes"][0], look)
    spots = {(spot["page"], spot["id"]): spot for spot in found["boxes"][0]}
    maps = tuple(_map_of(side, index + 1, look, spots) for index, side in enumerate(sides) if side.spec)
    return Typeset(finished(pdf, two_sided=len(sides) > 1), maps)


def check_room(sheets: Sequence[SheetSpec], look: Look) -> None:
    """Nothing, where every side has room for what it holds; items are measured and nothing is set.

    Raises: as `typeset_pages`.
    """
    _arranged(_sides(sheets, look), look)


def typeset_key(sheets: Sequence[SheetSpec], look: Look, *, tables: Sequence[KeyTable] = ()) -> bytes:
    """The child's own pages with the answers in place, and the steps of every item on the last side.

    `tables` come before the steps, on a side of their own.

    A key carries no corner marks and no code, so that nobody's camera takes it for a child's work.

    Raises: as `typeset_pages`.
    """
    return finished(set_key(sheets, look, tables=tables), two_sided=len(_sides(sheets, look)) > 1)


def set_key(sheets: Sequence[SheetSpec], look: Look, *, tables: Sequence[KeyTable] = (), coded: bool = True) -> bytes:
    """The same, not yet packed as a file of its own; `coded` as the pages are.

    Raises: as `typeset_pages`.
    """
    return press("pages", _document(_sides(sheets, look), look, mode="key", tables=tables, coded=coded))[0]


def first_sides(sheets: Sequence[SheetSpec]) -> tuple[int, ...]:
    """The side on which each sheet begins when all are set together, from 1; then the number of them all plus one."""
    first = [1]
    for index, sheet in enumerate(sheets):
        blank = len(sheet.pages) % 2 and index < len(sheets) - 1
        first.append(first[-1] + len(sheet.pages) + bool(blank))
    return tuple(first)


def set_uncoded(sheets: Sequence[SheetSpec], look: Look) -> bytes:
    """The child's pages without corner marks and code, not yet packed: for paper that no record knows of.

    Raises: as `typeset_pages`.
    """
    return press("pages", _document(_sides(sheets, look), look, mode="child", coded=False))[0]


def typeset_guide(guide: GuideSheet, look: Look) -> bytes:
    """A lesson guide on at most two sides, in the largest of a few type sizes that fits.

    Raises:
        PageTooFull: it needs a third side even in the smallest size.
        UnprintableText: a text has signs that our typefaces lack.
    """
    pdf, sides = set_guide(guide, look)
    return finished(pdf, two_sided=sides > 1)


def set_guide(guide: GuideSheet, look: Look) -> tuple[bytes, int]:
    """The same, not yet packed as a file of its own, and the sides it may take.

    Raises: as `typeset_guide`.
    """
    two = surely_two_sides(guide, look)
    for points, sides, picture in TRIES:
        if sides == 1 and two:
            continue
        data = guide_data(guide, look, points=points, picture=picture)
        check_printable(texts_of(data), faces=ADULT_FACES)
        pdf, _ = press("guide", data)
        if sides_of(pdf) <= sides:
            return pdf, sides
    raise PageTooFull(page=sides + 1, over=ask("guide", data, label="end")["y"], items=len(guide.sections))


def _sides(sheets: Sequence[SheetSpec], look: Look) -> list[_Side]:
    if not sheets:
        raise NothingToPrint
    sides: list[_Side] = []
    for index, sheet in enumerate(sheets):
        for number, spec in enumerate(sheet.pages, start=1):
            runs, asked = page_data(spec, look.lang)
            sides.append(_Side(sheet, number, spec, runs, asked))
        if len(sheet.pages) % 2 and index < len(sheets) - 1:
            sides.append(_Side(sheet, len(sheet.pages) + 1, None, [], []))
    return sides


def _document(
    sides: Sequence[_Side],
    look: Look,
    *,
    mode: Literal["child", "key"],
    tables: Sequence[KeyTable] = (),
    coded: bool = True,
) -> dict[str, Any]:
    size_mm = PAPER[look.paper]
    words = {
        "date": furniture.page_word("Date", look.lang),
        "done": furniture.page_word("You are done", look.lang),
        "key": furniture.page_word("Answer key", look.lang),
        "wrong": furniture.page_word("tell-us", look.lang),
        "how": furniture.page_word("how-each-goes", look.lang),
        "sorted": sorted_words(look.lang),
    }
    how = _steps(sides, look) if mode == "key" else []
    check_printable(texts_of([[side.runs, side.spec.topics] for side in sides if side.spec]), faces=(CHILD_FACE,))
    ends = {_print_of(side): index for index, side in enumerate(sides) if side.spec}
    pages = [
        _page(side, size_mm, one, coded=coded, done=ends[_print_of(side)] == index)
        for index, (side, one) in enumerate(zip(sides, _arranged(sides, look), strict=True))
    ]
    title = ", ".join(dict.fromkeys(side.spec.title for side in sides if side.spec))
    data: dict[str, Any] = {
        "title": f"{words['key']}: {title}" if mode == "key" else title,
        **frame_data(look),
        "mode": mode,
        "coded": coded,
        "between": BETWEEN,
        "instruction_gap": INSTRUCTION_GAP,
        "top": BODY_TOP,
        "bottom": BODY_BOTTOM,
        "words": words,
        "pages": pages,
        "how": how,
        "tables": [asdict(table) for table in tables],
    }
    check_printable(texts_of([how, data["tables"]]), faces=ADULT_FACES)
    check_printable(
        (text for side in sides if side.spec for text in (side.spec.title, side.sheet.child)), faces=(CHILD_FACE,)
    )
    return data


def _print_of(side: _Side) -> tuple[str, str]:
    """The day, and of a test the form, that a side belongs to."""
    return side.sheet.lesson, side.sheet.form


def _steps(sides: Sequence[_Side], look: Look) -> list[Data]:
    """How the items of each side go; where sides of several days stand together each says its day."""
    several = len({_print_of(side) for side in sides}) > 1
    steps = []
    for side in sides:
        if side.spec:
            said = steps_data(side.spec, look.lang)
            day = " ".join(one for one in _print_of(side) if one)
            steps.append({**said, "title": f"{day} · {said['title']}"} if several else said)
    return steps


def _page(side: _Side, size_mm: tuple[float, float], arranged_side: Arranged, *, coded: bool, done: bool) -> Data:
    if side.spec is None:
        return {"blank": True}
    text = code_text(side.sheet.id, side.page)
    code = code_of(text, size_mm)
    svg = code_svg(text) if coded else ""
    x2, y2 = second_code_at(size_mm)
    return {
        "blank": False,
        "done": done,
        "title": side.spec.title,
        "child": side.sheet.child,
        "marks": [
            {"x": mark.x, "y": mark.y, "size": mark.size, "svg": mark_svg(mark.id)}
            for mark in marks_of(side.page, size_mm)
        ],
        "qr": {"x": code.x, "y": code.y, "size": code.size, "text": text, "x2": x2, "y2": y2, "svg": svg},
        "pieces": list(arranged_side.pieces),
    }


def _arranged(sides: Sequence[_Side], look: Look) -> list[Arranged]:
    """Where everything stands on every side; blank backs hold nothing."""
    frame = frame_of(look)
    contents = [contents_of(side.runs, side.spec.topics if side.spec else (), frame) for side in sides]
    sizes = measured((wanted for one in contents for wanted in wanted_of(one, frame)), look)
    found = [arranged(one, frame, sizes) for one in contents]
    full: dict[int, tuple[float, int, int]] = {}
    printed = [(side, one) for side, one in zip(sides, found, strict=True) if side.spec]
    for number, (side, one) in enumerate(printed, start=1):
        over = max(one.over, _widest_picture(side) - frame.width)
        if over > _SLACK:
            full[number] = over, sum(len(run["cells"]) for run in side.runs), one.fits if one.over > _SLACK else 0
    _raise_if_full(full)
    return found


def _raise_if_full(full: Mapping[int, tuple[float, int, int]]) -> None:
    for page, (over, items, fits) in full.items():
        raise PageTooFull(
            page=page, over=over, items=items, fits=fits, room={side: room for side, (_, _, room) in full.items()}
        )


def _widest_picture(side: _Side) -> float:
    figures = [cell["figure"] for run in side.runs for cell in run["cells"] if cell["figure"]]
    return max((figure["w"] * figure["least"] for figure in figures), default=0.0)


def _check_width(sides: Sequence[_Side], boxes: Sequence[dict[str, Any]], look: Look) -> None:
    """No box may reach over the margin at the side."""
    right = PAPER[look.paper][0] - MARGIN
    full: dict[int, tuple[float, int, int]] = {}
    printed = 0
    for index, side in enumerate(sides, start=1):
        printed += side.spec is not None
        over = max((box["x"] + box["w"] - right for box in boxes if box["page"] == index), default=0.0)
        if side.spec and over > _SLACK:
            full[printed] = over, len(placed_items(side.spec)), 0
    _raise_if_full(full)


def _map_of(side: _Side, pdf_page: int, look: Look, spots: dict[tuple[int, str], dict[str, Any]]) -> PageMap:
    assert side.spec is not None  # noqa: S101 - only printed sides are mapped
    size_mm = PAPER[look.paper]
    boxes = tuple(_box_of(asked, spots[pdf_page, asked.id]) for asked in side.asked)
    items = tuple(
        MapItem(
            placed.n,
            placed.item.key,
            placed.item.skill,
            placed.item.format,
            dict(placed.item.numbers),
            say.text_of(placed.item, look.lang),
            placed.item.answer,
            dict(placed.item.errors),
        )
        for placed in placed_items(side.spec)
    )
    return PageMap(
        sheet=side.sheet.id,
        page=side.page,
        pdf_page=pdf_page,
        kind=side.spec.kind,
        lesson=side.sheet.lesson,
        lang=look.lang,
        size_mm=size_mm,
        qr=code_of(code_text(side.sheet.id, side.page), size_mm),
        marks=marks_of(side.page, size_mm),
        boxes=boxes,
        items=items,
    )


def _box_of(asked: Asked, spot: dict[str, Any]) -> Box:
    x, y, w, h = (round(float(spot[name]), 3) for name in "xywh")
    return Box(
        id=asked.id, item=asked.item, part=asked.part, role=asked.role, kind=asked.kind, x=x, y=y, w=w, h=h,
        answer=asked.answer,
    )  # fmt: skip
