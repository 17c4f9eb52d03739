"""The map of boxes as data: what stands in `sheets.json` beside a print, and in the records."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final, TypeVar

from dayleaf.core.errors import BadInput, Problem
from dayleaf.core.ids import ErrorWayId, FormatId, LessonId, SheetId, SkillId
from dayleaf.sheets.model import Box, MapItem, Mark, PageMap, Qr

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping

VERSION: Final = 1

Read = TypeVar("Read")


def map_to_data(pages: Iterable[PageMap]) -> dict[str, Any]:
    """The map as JSON-able data: `{"version": 1, "sheets": [one entry a side]}`, millimetres, y down.

    Names inside an item stand in the order of the alphabet, so that a map read back from the records gives the
    same text as the one before printing.
    """
    return {"version": VERSION, "sheets": [_page_to_data(page) for page in pages]}


def map_from_data(data: Mapping[str, Any]) -> tuple[PageMap, ...]:
    """The same map back; the exact reverse of `map_to_data`.

    Raises:
        BadInput: the version is another one, or a side's entry lacks a field or has one of a wrong type;
            every such side is listed.
    """
    if data.get("version") != VERSION:
        raise BadInput([Problem("version", f"{data.get('version')!r} is not {VERSION}; print the sheets again")])
    pages: list[PageMap] = []
    problems: list[Problem] = []
    for index, entry in enumerate(data.get("sheets", ())):
        try:
            pages.append(_page_from_data(entry))
        except KeyError as lacking:
            problems.append(Problem(f"sheets[{index}]", f"the field {lacking} is missing"))
        except (TypeError, ValueError, AttributeError) as wrong:
            problems.append(Problem(f"sheets[{index}]", f"a field has a wrong type: {wrong}"))
    if problems:
        raise BadInput(problems)
    return tuple(pages)


def _page_to_data(page: PageMap) -> dict[str, Any]:
    return {
        "sheet": page.sheet,
        "page": page.page,
        "pdf_page": page.pdf_page,
        "kind": page.kind,
        "lesson": page.lesson,
        "lang": page.lang,
        "size_mm": list(page.size_mm),
        "qr": {"x": page.qr.x, "y": page.qr.y, "size": page.qr.size, "text": page.qr.text},
        "marks": [{"id": mark.id, "x": mark.x, "y": mark.y, "size": mark.size} for mark in page.marks],
        "boxes": [
            {
                "id": box.id, "item": box.item, "part": box.part, "role": box.role, "kind": box.kind,
                "x": box.x, "y": box.y, "w": box.w, "h": box.h, "answer": box.answer,
            }
            for box in page.boxes
        ],
        "items": [
            {
                "n": item.n, "key": item.key, "skill": item.skill, "format": item.format,
                "numbers": dict(sorted(item.numbers.items())), "text": item.text, "answer": item.answer,
                "errors": dict(sorted(item.errors.items())),
            }
            for item in page.items
        ],
    }  # fmt: skip


def _page_from_data(entry: Mapping[str, Any]) -> PageMap:
    width, height = entry["size_mm"]
    return PageMap(
        sheet=SheetId(_text(entry["sheet"])),
        page=int(entry["page"]),
        pdf_page=int(entry["pdf_page"]),
        kind=_one_of(entry["kind"], ("together", "own", "front", "back")),
        lesson=LessonId(_text(entry["lesson"])),
        lang=_text(entry["lang"]),
        size_mm=(float(width), float(height)),
        qr=_qr(entry["qr"]),
        marks=_each(entry["marks"], _mark),
        boxes=_each(entry["boxes"], _box),
        items=_each(entry["items"], _item),
    )


def _each(entries: Iterable[Any], read: Callable[[Any], Read]) -> tuple[Read, ...]:
    return tuple(read(entry) for entry in entries)


def _qr(entry: Mapping[str, Any]) -> Qr:
    return Qr(float(entry["x"]), float(entry["y"]), float(entry["size"]), _text(entry["text"]))


def _mark(entry: Mapping[str, Any]) -> Mark:
    return Mark(int(entry["id"]), float(entry["x"]), float(entry["y"]), float(entry["size"]))


def _box(entry: Mapping[str, Any]) -> Box:
    return Box(
        id=_text(entry["id"]),
        item=int(entry["item"]),
        part=_text(entry["part"]),
        role=_one_of(entry["role"], ("answer", "trade", "look")),
        kind=_one_of(entry["kind"], ("digit", "tick", "circle", "compare")),
        x=float(entry["x"]),
        y=float(entry["y"]),
        w=float(entry["w"]),
        h=float(entry["h"]),
        answer=_text(entry["answer"]),
    )


def _item(entry: Mapping[str, Any]) -> MapItem:
    return MapItem(
        n=int(entry["n"]),
        key=_text(entry["key"]),
        skill=SkillId(_text(entry["skill"])),
        format=FormatId(_text(entry["format"])),
        numbers={_text(name): int(value) for name, value in entry["numbers"].items()},
        text=_text(entry["text"]),
        answer=_text(entry["answer"]),
        errors={ErrorWayId(_text(way)): _text(wrong) for way, wrong in entry["errors"].items()},
    )


def _text(value: object) -> str:
    if not isinstance(value, str):
        raise TypeError(f"{value!r} is not a text")
    return value


def _one_of(value: object, allowed: tuple[Any, ...]) -> Any:
    if value not in allowed:
        raise ValueError(f"{value!r} is none of {', '.join(allowed)}")
    return value
