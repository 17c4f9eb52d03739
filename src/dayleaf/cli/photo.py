"""Sheets marked from their photos: what is sure, what to ask, and the marking once everything is settled."""

from __future__ import annotations

from base64 import b64encode
from pathlib import Path
from typing import TYPE_CHECKING, Any

from dayleaf.cli.read import page_shape
from dayleaf.core.errors import BadInput, Problem
from dayleaf.reading.answers import entry_words, misfits, propose
from dayleaf.reading.worker import Reader
from dayleaf.records import desk, selectors
from dayleaf.records.errors import NoSuchSheet
from dayleaf.records.settling import evidence_of

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from datetime import date

    from dayleaf.core.ids import SheetId
    from dayleaf.reading.answers import Proposal
    from dayleaf.reading.model import PageReading
    from dayleaf.records.models import Household, SheetRow
    from dayleaf.sheets.model import PageMap

Read = tuple[Path, "PageReading"]
IN_TERMINAL = "the terminal"


def photos_read(household: Household, files: Sequence[str]) -> tuple[list[Read], dict[str, SheetRow]]:
    """(every page of the files, the sheets that they show by id).

    Raises:
        BadInput: a file is not there.
    """
    absent = [name for name in files if not Path(name).is_file()]
    lacking = [Problem(name, "is not a file; name the photos of the sheet") for name in absent]
    if lacking or not files:
        raise BadInput(lacking or [Problem("--photo", "needs the photos of the sheet")])
    rows: dict[str, SheetRow] = {}

    def find(sheet: SheetId, page: int) -> PageMap | None:
        try:
            row = rows.get(sheet) or selectors.sheet_find(household, sheet)
        except NoSuchSheet:
            return None
        rows[sheet] = row
        return next((side for side in selectors.pages_of(row) if side.page == page), None)

    with Reader(find, with_pictures=True) as reader:
        pages = [(Path(name), page) for name in files for page in reader.read(Path(name).read_bytes())]
    return pages, rows


def settled_in(words: str, sheets: Sequence[str]) -> dict[str, dict[str, str]]:
    """What a line such as `3.1.0=4,7.1=,11=right` settles on each of the sheets.

    A piece names a box by its id or a whole item by its number, and where there is more than one sheet, the sheet
    before it: `7KQ2M4D:3.1.0=4`.

    Raises:
        BadInput: a piece settles nothing, or does not say on which of the sheets.
    """
    found: dict[str, dict[str, str]] = {sheet: {} for sheet in sheets}
    problems = []
    for piece in (piece.strip() for piece in words.split(",") if piece.strip()):
        where, _, said = piece.rpartition("=")
        if piece.endswith("=="):
            where, said = piece[:-2], "="
        sheet, _, box = where.rpartition(":")
        if not sheet and len(found) == 1:
            sheet = next(iter(found))
        if not box or sheet not in found:
            problems.append(Problem(piece, "settles nothing; write box=digit or item=right"))
        else:
            found[sheet][box] = said.strip()
    if problems:
        raise BadInput(problems)
    return found


def proposals_of(
    row: SheetRow, pages: Sequence[Read], settled: Mapping[str, str], reached: int | None
) -> tuple[Proposal, ...]:
    """Every item of a sheet as its photos show it; items after the last one reached are left out.

    Raises:
        BadInput: something is settled that this sheet does not have, or that cannot stand there.
    """
    sides = selectors.pages_of(row)
    problems = misfits(sides, settled)
    if problems:
        raise BadInput(problems)
    readings = [page for _, page in pages if page.sheet == row.sheet_id]
    found = propose(sides, readings, settled=settled)
    return tuple(one for one in found if reached is None or one.n <= reached)


def open_items(proposals: Sequence[Proposal]) -> tuple[Proposal, ...]:
    """The items that are not settled."""
    return tuple(one for one in proposals if one.state in ("ask", "not seen"))


def is_empty(proposals: Sequence[Proposal]) -> bool:
    """Whether the child wrote nothing at all: a sheet not begun is not a sheet of wrong answers."""
    return all(one.state == "blank" for one in proposals)


def marked(
    row: SheetRow,
    proposals: Sequence[Proposal],
    pages: Sequence[Read],
    settled: Mapping[str, str],
    *,
    today: date,
    helped: str,
    reached: int | None,
) -> desk.Marking:
    """The sheet marked as settled, with what its photos showed; one transaction."""
    sides = selectors.pages_of(row)
    right_except, blank = entry_words(sides, proposals)
    evidence = evidence_of(
        sides,
        [page for _, page in pages if page.status == "read" and page.sheet == row.sheet_id],
        said=settled,
        by=dict.fromkeys(settled, IN_TERMINAL),
        items=frozenset(one.n for one in proposals),
    )
    return desk.sheet_mark(
        row, today=today, right_except=right_except, reached=reached, helped=helped, blank=blank, evidence=evidence
    )


def photo_shape(
    pages: Sequence[Read], sheets: Mapping[str, tuple[Sequence[Proposal], dict[str, Any] | None]]
) -> dict[str, Any]:
    """All of it for other programs: pages, items with their questions (pictures as base64 PNG), markings."""
    return {
        "pages": [{key: value for key, value in page_shape(*page).items() if key != "boxes"} for page in pages],
        "sheets": [
            {
                "sheet": sheet,
                "recorded": marking is not None,
                "items": [_item_shape(one) for one in proposals],
                "marking": marking,
            }
            for sheet, (proposals, marking) in sheets.items()
        ],
    }


def _item_shape(one: Proposal) -> dict[str, Any]:
    return {
        "n": one.n,
        "state": one.state,
        "answer": one.answer,
        "ask": [
            {
                "box": question.box,
                "why": question.why,
                "reading": question.reading,
                "certainty": round(question.certainty, 4),
                "png": b64encode(question.picture).decode(),
            }
            for question in one.questions
        ],
        "trades": {str(place): reading for place, reading in one.trades},
        "first_off": one.first_off,
    }


def sentences(sheet: str, proposals: Sequence[Proposal]) -> list[str]:
    """What is still to settle, a line an item, and how to say it."""
    asked = open_items(proposals)
    lines = [f"Sheet {sheet}: {len(proposals) - len(asked)} of {len(proposals)} items are settled."]
    for one in asked:
        if one.state == "not seen":
            lines.append(f"  {one.n}: its side is not among the photos; add it, or say where the child stopped.")
        lines += [f"  {one.n}: {_said(ask.box, ask.why, ask.reading)}" for ask in one.questions]
    return [*lines, 'Nothing was written down. Say what you see, as in --settle "3.1.0=4,11=right".']


def _said(box: str, why: str, reading: str) -> str:
    if why == "drawn":
        return "is drawn or told; is it right, wrong or blank?"
    seen = f"reads {reading}" if reading else "reads as empty"
    words = {
        "doubtful": f"box {box} {seen}, not surely.",
        "would be wrong": f"box {box} {seen}, which would be wrong; is that what stands there?",
        "gap": f"box {box} {seen}, and there is a gap in the number.",
        "two ringed": f"option {box} seems to be ringed, and so does another.",
    }
    return words[why]
