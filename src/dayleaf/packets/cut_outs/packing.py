"""Pieces laid on paper so that few straight cuts take them apart.

Rows, then columns in a row, then pieces in a column: three stages of cuts from edge to edge (a guillotine layout in
three stages; Gilmore and Gomory 1965 describe it). Neighbours share their edge, so that one cut frees both. Tallest
rows first, widest columns first (the usual "next fit, decreasing height" order), which keeps equal pieces together.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from dayleaf.packets.cut_outs.model import CutPage, Laid, PieceTooLarge

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from dayleaf.packets.cut_outs.model import Cut, Piece

_NEAR = 1e-6


@dataclass(slots=True)
class _Column:
    width: float
    pieces: list[Piece] = field(default_factory=list)

    @property
    def height(self) -> float:
        return sum(piece.front.height for piece in self.pieces)


@dataclass(slots=True)
class _Row:
    height: float
    columns: list[_Column] = field(default_factory=list)

    @property
    def width(self) -> float:
        return sum(column.width for column in self.columns)


def pack(pieces: Iterable[Piece], *, width: float, height: float) -> tuple[CutPage, ...]:
    """Pages of `width` × `height` mm with every piece as often as it is counted.

    Raises:
        PieceTooLarge: a piece does not fit on an empty page.
    """
    waiting = [replace(piece, count=1) for piece in pieces for _ in range(piece.count)]
    for piece in waiting:
        if piece.front.width > width + _NEAR or piece.front.height > height + _NEAR:
            raise PieceTooLarge(name=piece.name, width=piece.front.width, height=piece.front.height)
    waiting.sort(key=lambda piece: (-piece.front.height, -piece.front.width))
    pages: list[CutPage] = []
    while waiting:
        rows: list[_Row] = []
        left = height
        while (tallest := _first(waiting, width=width, height=left)) is not None:
            row = _filled(waiting, waiting[tallest].front.height, width)
            rows.append(row)
            left -= row.height
        pages.append(_page(rows))
    return tuple(pages)


def _first(waiting: Sequence[Piece], *, width: float, height: float) -> int | None:
    """The place of the first piece that fits, pieces being in order of height, then of width."""
    for place, piece in enumerate(waiting):
        if piece.front.width <= width + _NEAR and piece.front.height <= height + _NEAR:
            return place
    return None


def _filled(waiting: list[Piece], height: float, width: float) -> _Row:
    """A row of this height, filled from what waits; in a column pieces of one width stand on each other."""
    row = _Row(height)
    while (place := _first(waiting, width=width - row.width, height=height)) is not None:
        column = _Column(waiting[place].front.width, [waiting.pop(place)])
        row.columns.append(column)
        while (more := _same_width(waiting, column.width, height - column.height)) is not None:
            column.pieces.append(waiting.pop(more))
    return row


def _same_width(waiting: Sequence[Piece], width: float, height: float) -> int | None:
    for place, piece in enumerate(waiting):
        if abs(piece.front.width - width) < _NEAR and piece.front.height <= height + _NEAR:
            return place
    return None


def _page(rows: Sequence[_Row]) -> CutPage:
    laid: list[Laid] = []
    widest = max(row.width for row in rows)
    foot = sum(row.height for row in rows)
    cuts: list[Cut] = [(0, 0, widest, 0), (0, foot, widest, foot), (0, 0, 0, foot), (widest, 0, widest, foot)]
    top, across, down, single = 0.0, [], [], []
    for row in rows:
        bottom = top + row.height
        if bottom < foot - _NEAR:
            across.append((0.0, bottom, widest, bottom))
        x = 0.0
        for column in row.columns:
            right, y = x + column.width, top
            if right < widest - _NEAR:
                down.append((right, top, right, bottom))
            for piece in column.pieces:
                laid.append(Laid(piece, x, y))
                y += piece.front.height
                if y < bottom - _NEAR:
                    single.append((x, y, right, y))
            x = right
        top = bottom
    return CutPage(tuple(laid), (*cuts, *across, *down, *single))
