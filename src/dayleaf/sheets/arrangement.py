"""What stands where on a side, from top to bottom: rows of items, the white between them, and how many fit.

Widths and heights come from `measuring`; everything here is in millimetres.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import accumulate
from typing import TYPE_CHECKING, Any, Final

from dayleaf.sheets.geometry import BODY_BOTTOM, BODY_TOP, MARGIN, NUMBER_GUTTER, PAPER, sizes_of
from dayleaf.sheets.measuring import Wanted, cell_wanted, example_wanted, instruction_wanted, topics_wanted

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from dayleaf.sheets.model import Look

Data = dict[str, Any]

BETWEEN: Final = 6.0
"""White between items side by side."""
INSTRUCTION_GAP: Final = 4.5
"""From an instruction to its item, where it belongs to one item only."""
BELOW_INSTRUCTION: Final = (4.5, 6.0)
BELOW_EXAMPLE: Final = (6.0, 9.0)
"""Least and greatest white."""
MORE_BETWEEN_RUNS: Final = (2.0, 5.0)
"""Added to the white between rows where a new instruction begins."""


@dataclass(frozen=True, slots=True)
class Frame:
    """The room for items on a side, and the white between their rows (least, greatest)."""

    width: float
    height: float
    gaps: tuple[float, float]


@dataclass(frozen=True, slots=True)
class Piece:
    """Something that takes the whole width of a side, with the white above it; `items` says how many it holds."""

    data: Data
    height: float
    above: tuple[float, float]
    items: int = 0


@dataclass(frozen=True, slots=True)
class Arranged:
    """The pieces of a side, spread out.

    `over` is how much too high they are, `fits` how many items, from the first on, do fit.
    """

    pieces: tuple[Data, ...]
    over: float
    fits: int


def frame_of(look: Look) -> Frame:
    """The room that this look's paper leaves between its margins."""
    width, height = PAPER[look.paper]
    return Frame(width - 2 * MARGIN, height - BODY_TOP - BODY_BOTTOM, sizes_of(look).gaps)


@dataclass(frozen=True, slots=True)
class Cell:
    """An item of a run with the widths that it may get, and what is asked about its size."""

    data: Data
    widths: tuple[float, ...]
    wanted: Wanted


@dataclass(frozen=True, slots=True)
class Contents:
    """What a side is to hold: runs of cells, and topics to sort."""

    runs: tuple[tuple[Data, tuple[Cell, ...]], ...]
    topics: tuple[str, ...]


def contents_of(runs: Sequence[Data], topics: Sequence[str], frame: Frame) -> Contents:
    """The contents of a side, ready to be measured."""
    found = []
    for run in runs:
        widths = _widths(run, frame)
        found.append((run, tuple(Cell(cell, widths, cell_wanted(cell, widths)) for cell in run["cells"])))
    return Contents(tuple(found), tuple(topics))


def wanted_of(contents: Contents, frame: Frame) -> Iterator[Wanted]:
    """Everything whose size `arranged` asks for."""
    if contents.topics:
        yield topics_wanted(contents.topics)
    for run, cells in contents.runs:
        if run["example"] is not None:
            yield example_wanted(run["example"])
        if run["instruction"]:
            yield instruction_wanted(run["instruction"], frame.width)
        for cell in cells:
            yield cell.wanted
            if cell.data["instruction"]:
                yield from (instruction_wanted(cell.data["instruction"], width) for width in cell.widths)


def arranged(contents: Contents, frame: Frame, sizes: Mapping[Wanted, Any]) -> Arranged:
    """The side laid out; white is given to the gaps as far as there is any."""
    pieces = _pieces(contents, frame, sizes)
    free = frame.height - sum(piece.height + piece.above[0] for piece in pieces)
    give = sum(piece.above[1] - piece.above[0] for piece in pieces)
    share = max(0.0, min(1.0, free / give)) if give else 0.0
    used = accumulate(piece.height + piece.above[0] for piece in pieces)
    return Arranged(
        tuple(
            {**piece.data, "above": round(low + share * (high - low), 4), "height": piece.height}
            for piece in pieces
            for low, high in (piece.above,)
        ),
        over=-free,
        fits=sum(piece.items for piece, height in zip(pieces, used, strict=True) if height <= frame.height),
    )


def _pieces(contents: Contents, frame: Frame, sizes: Mapping[Wanted, Any]) -> list[Piece]:
    pieces: list[Piece] = []
    topics = contents.topics
    if topics:
        pieces.append(Piece({"what": "topics", "topics": list(topics)}, sizes[topics_wanted(topics)], (0.0, 0.0)))
    low, high = frame.gaps
    for run, cells in contents.runs:
        above = (low + MORE_BETWEEN_RUNS[0], high + MORE_BETWEEN_RUNS[1]) if pieces else (0.0, 0.0)
        if run["example"] is not None:
            height = sizes[example_wanted(run["example"])]
            pieces.append(Piece({"what": "example", "example": run["example"]}, height, above))
            above = BELOW_EXAMPLE
        if run["instruction"]:
            height = sizes[instruction_wanted(run["instruction"], frame.width)]
            pieces.append(Piece({"what": "instruction", "words": run["instruction"]}, height, above))
            above = BELOW_INSTRUCTION
        for row in _rows(run, cells, frame, sizes):
            printed = [{"width": width, "cell": cell.data} for cell, width in row]
            height = max(_height(cell, width, sizes) for cell, width in row)
            pieces.append(Piece({"what": "row", "cells": printed}, height, above, len(row)))
            above = frame.gaps
    return pieces


def _height(cell: Cell, width: float, sizes: Mapping[Wanted, Any]) -> float:
    """How high a cell stands in this width, its own instruction included."""
    tall: float = sizes[cell.wanted]["tall"][cell.widths.index(width)]
    if not cell.data["instruction"]:
        return tall
    said: float = sizes[instruction_wanted(cell.data["instruction"], width)]
    return said + INSTRUCTION_GAP + tall


def _fraction(frame: Frame, n: int) -> float:
    """The width of one of n cells side by side."""
    return (frame.width - (n - 1) * BETWEEN) / n


def _most_abreast(run: Data) -> int:
    """Items under an instruction of their own, and questions, stand two abreast at most."""
    return 2 if run["single"] or any(cell["kind"] == "question" for cell in run["cells"]) else 3


def _widths(run: Data, frame: Frame) -> tuple[float, ...]:
    """The widths that a cell of this run may get."""
    if len(run["cells"]) == 1:
        return (frame.width,)
    return tuple(_fraction(frame, n) for n in range(1, _most_abreast(run) + 1))


def _rows(
    run: Data, cells: Sequence[Cell], frame: Frame, sizes: Mapping[Wanted, Any]
) -> list[list[tuple[Cell, float]]]:
    """The rows of a run: as many cells side by side as all of them allow, a wide one alone."""
    needed = [_needed(cell, frame, sizes) for cell in cells]
    abreast = _abreast(run, needed, frame)
    width = _fraction(frame, abreast)
    rows: list[list[tuple[Cell, float]]] = []
    open_row: list[tuple[Cell, float]] = []
    for cell, need in zip(cells, needed, strict=True):
        if need > width:
            if open_row:
                rows.append(open_row)
                open_row = []
            rows.append([(cell, frame.width)])
            continue
        open_row.append((cell, width))
        if len(open_row) == abreast:
            rows.append(open_row)
            open_row = []
    if open_row:
        rows.append(open_row)
    # A question that is left alone in its row takes the whole width: its words and options then need less height.
    alone = [len(row) == 1 and row[0][0].data["kind"] == "question" for row in rows]
    return [[(row[0][0], frame.width)] if one else row for row, one in zip(rows, alone, strict=True)]


def _needed(cell: Cell, frame: Frame, sizes: Mapping[Wanted, Any]) -> float:
    if cell.data["kind"] == "story":
        return frame.width
    return NUMBER_GUTTER + float(sizes[cell.wanted]["needed"])


def _abreast(run: Data, needed: Sequence[float], frame: Frame) -> int:
    """How many cells stand side by side."""
    n = _most_abreast(run)
    while n > 1:
        width = _fraction(frame, n)
        two_do = n == 2 and sum(need <= width for need in needed) >= 2
        if len(needed) >= n and (two_do or all(need <= width for need in needed)):
            break
        n -= 1
    return 2 if n == 3 and len(needed) % 3 and len(needed) % 2 == 0 else n
