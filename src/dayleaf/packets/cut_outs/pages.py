"""A set on paper: pieces laid out, fronts and backs as pictures over the whole side, the check bar at the foot."""

from __future__ import annotations

import textwrap
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

from dayleaf.figures.pen import GREY, escaped, line, num
from dayleaf.figures.pieces import cards
from dayleaf.figures.pieces.bars import check_bar
from dayleaf.figures.pieces.cards import moved
from dayleaf.packets.cut_outs.model import CutSet, NoSuchPiece, Piece
from dayleaf.packets.cut_outs.packing import pack
from dayleaf.sheets.geometry import PAPER
from dayleaf.sheets.true_size import TrueSide

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from dayleaf.packets.cut_outs.model import CutPage
    from dayleaf.sheets.model import Paper

SIDE: Final = 12.7
TOP: Final = 24.0
FOOT: Final = 20.5
"""Millimetres kept free: what printers cannot reach at the sides, the heading above, the check bar below."""
END: Final = 3.0
"""How far the marks of a cut reach out of the pieces."""
LABELS: Final = ((92.0, 42.0), (92.0, 32.0))
"""Sizes of a label lying; either may also stand on its end."""
LABEL_SIGNS: Final = 50
"""Signs to a line of a label."""


@dataclass(frozen=True, slots=True)
class Frame:
    """A paper and the correction for a printer: everything is drawn `scale` times as large as it is to come out."""

    paper: Paper
    scale: float = 1.0

    @property
    def size(self) -> tuple[float, float]:
        """The paper in mm."""
        return PAPER[self.paper]

    @property
    def room(self) -> tuple[float, float]:
        """Width and height of what the pieces may fill, in millimetres of the pieces."""
        width, height = self.size
        return (width - 2 * SIDE) / self.scale, (height - TOP - FOOT) / self.scale

    def picture(self, body: str, said: str) -> str:
        """The whole side as SVG; `body` is drawn around the middle of the paper's width, y = 0 at the room's top.

        The middle stays where it is, so that front and back still meet when both are corrected.
        """
        width, height = self.size
        place = f"translate({num(width / 2)} {num(TOP)}) scale({self.scale:.6g})"
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{num(width)}mm" height="{num(height)}mm" '
            f'viewBox="0 0 {num(width)} {num(height)}" role="img"><title>{escaped(said)}</title>'
            '<g fill="none" stroke="#000" stroke-width="0.5" stroke-linecap="round" stroke-linejoin="round" '
            f'font-family="Lexend" text-anchor="middle" transform="{place}">{body}</g></svg>'
        )

    def bar(self) -> str:
        """The check bar at the foot of the side."""
        art = check_bar()
        foot = (self.size[1] - TOP - 17.5) / self.scale
        return moved(art.body, -art.width / 2, foot)


def pages_of(cut: CutSet, frame: Frame, *, label: bool = True) -> tuple[CutPage, ...]:
    """The set laid out on this paper, with a label for its bag on the first page.

    Raises:
        PieceTooLarge: a piece does not fit on this paper at this scale.
    """
    width, height = frame.room
    if not label:
        return tuple(page for group in cut.groups for page in pack(group, width=width, height=height))
    layouts = [
        tuple(page for group in (first, *cut.groups[1:]) for page in pack(group, width=width, height=height))
        for first in ((*cut.groups[0], one) for one in _labels(cut))
    ]
    return min(layouts, key=lambda pages: (len(pages), sum(len(page.cuts) for page in pages)))


def only(cut: CutSet, wanted: Mapping[str, int]) -> CutSet:
    """The set with only the pieces of these names, so many of each, each on as few pages as can be.

    Raises:
        NoSuchPiece: the set has no piece of a name.
    """
    pieces = [piece for group in cut.groups for piece in group]
    for name in wanted:
        if name not in {piece.name for piece in pieces}:
            raise NoSuchPiece(thing=cut.id, name=name, known=(piece.name for piece in pieces))
    kept = tuple(
        Piece(piece.name, piece.front, piece.back, wanted[piece.name]) for piece in pieces if piece.name in wanted
    )
    return replace(cut, groups=(kept,))


def sides_of(cut: CutSet, pages: Sequence[CutPage], frame: Frame, *, one_sided: bool = False) -> tuple[TrueSide, ...]:
    """Front, back, front, back …; fronts alone where the set is printed on one side only."""
    title = cut.title[:1].upper() + cut.title[1:]
    sides = []
    for number, page in enumerate(pages, start=1):
        corner = f"sheet {number} of {len(pages)}" if len(pages) > 1 else ""
        said = _said(cut, page)
        front = _front(page) + frame.bar()
        sides.append(TrueSide(frame.picture(front, said), said, title, cut.says, corner))
        if not (one_sided or cut.one_sided):
            words = f"{title}, back of sheet {number}"
            sides.append(TrueSide(frame.picture(_back(page), words), words, words, quiet=True))
    return tuple(sides)


def _labels(cut: CutSet) -> Iterator[Piece]:
    """The label in every size, lying and standing: the one that needs no page of its own is taken."""
    title = cut.title[:1].upper() + cut.title[1:]
    mind = textwrap.wrap(cut.caution or "Count the pieces back in.", LABEL_SIGNS)
    rows = (*cut.contents, *mind, "One lost? It can be printed alone.")
    for size in LABELS:
        front = cards.label(title, rows, *size)
        for art in (front, cards.upright(front)):
            yield Piece("label", art, cards.words_back("label", art.width, art.height))


def _width(page: CutPage) -> float:
    return max(one.x + one.piece.front.width for one in page.laid)


def _front(page: CutPage) -> str:
    """Cuts as dashed lines, pieces over them; the block stands in the middle of the paper's width."""
    left = -_width(page) / 2
    dashed = "".join(line(x1, y1, x2, y2, w=0.3, dash="1.6 1.4", stroke=GREY) for x1, y1, x2, y2 in page.cuts)
    pieces = "".join(moved(one.piece.front.body, one.x, one.y) for one in page.laid)
    return moved(dashed + pieces + _ends(page, back=False), left, 0)


def _back(page: CutPage) -> str:
    """The page seen from its back: left and right changed over, every back the right way up."""
    left, width = -_width(page) / 2, _width(page)
    backs = "".join(
        moved(one.piece.back.body, width - one.x - one.piece.front.width, one.y)
        for one in page.laid
        if one.piece.back is not None
    )
    return moved(backs + _ends(page, back=True), left, 0)


def _ends(page: CutPage, *, back: bool) -> str:
    """Short marks outside the pieces where long cuts begin and end; the same on both sides, so that they meet."""
    width = _width(page)
    foot = max(one.y + one.piece.front.height for one in page.laid)
    marks = []
    for x1, y1, x2, y2 in page.cuts:
        if y1 == y2 and x1 == 0 and x2 == width:
            marks += [(-END - 0.8, y1, -0.8, y1), (width + 0.8, y1, width + END + 0.8, y1)]
        elif x1 == x2:
            x = width - x1 if back else x1
            marks += [(x, -END - 0.8, x, -0.8)] if y1 == 0 else []
            marks += [(x, foot + 0.8, x, foot + END + 0.8)] if y2 == foot else []
    return "".join(line(*mark, w=0.3) for mark in marks)


def _said(cut: CutSet, page: CutPage) -> str:
    """What lies on the page, counted by name."""
    counts: dict[str, int] = {}
    for one in page.laid:
        counts[one.piece.name] = counts.get(one.piece.name, 0) + 1
    listed = _joined(f"{n} × {name}" if n > 1 else name for name, n in counts.items())
    return f"{cut.title}, pieces to cut out: {listed}."


def _joined(words: Iterable[str]) -> str:
    return ", ".join(words)
