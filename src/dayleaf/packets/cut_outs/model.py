"""A set to cut out, its pieces, and where they lie on paper."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from dayleaf.core.errors import DayleafError

if TYPE_CHECKING:
    from collections.abc import Iterable

    from dayleaf.figures.pen import Art

Cut = tuple[float, float, float, float]
"""A straight cut from (x1, y1) to (x2, y2) in mm."""


@dataclass(frozen=True, slots=True)
class Piece:
    """One kind of piece, `count` times. `back` is None where the back stays empty."""

    name: str
    front: Art
    back: Art | None
    count: int = 1


@dataclass(frozen=True, slots=True)
class CutSet:
    """Everything of one set. `says` is the line beside its name on paper; label lists `contents` and `caution`.

    `groups` are laid out one after the other, each begun on a page of its own; most sets have one.
    """

    id: str
    title: str
    says: str
    contents: tuple[str, ...]
    groups: tuple[tuple[Piece, ...], ...]
    one_sided: bool = False
    caution: str = ""


@dataclass(frozen=True, slots=True)
class Laid:
    """A piece on a page, its top left corner at (x, y) mm from the top left of the room for pieces."""

    piece: Piece
    x: float
    y: float


@dataclass(frozen=True, slots=True)
class CutPage:
    """One side of paper: the pieces, and the cuts in the order in which they are made.

    Each cut runs from edge to edge of the part of the paper it divides.
    """

    laid: tuple[Laid, ...]
    cuts: tuple[Cut, ...]


class PieceTooLarge(DayleafError):
    """A piece is larger than the paper has room for at this scale."""

    def __init__(self, *, name: str, width: float, height: float) -> None:
        self.name = name
        super().__init__(f"“{name}” is {width:.0f} × {height:.0f} mm, more than this paper has room for.")


class NoSuchPiece(DayleafError):
    """A piece was asked for by a name that its set does not have."""

    def __init__(self, *, thing: str, name: str, known: Iterable[str]) -> None:
        super().__init__(f"“{thing}” has no piece “{name}”; its pieces are {', '.join(dict.fromkeys(known))}.")


class NothingPrintable(DayleafError):
    """A word that names nothing to print."""

    def __init__(self, word: str, *, close: Iterable[str] = (), why: str = "") -> None:
        self.word = word
        near = ", ".join(close)
        tail = f"; did you mean {near}?" if near else "."
        super().__init__(f"“{word}” names nothing to print{': ' + why if why else ''}{tail}")
