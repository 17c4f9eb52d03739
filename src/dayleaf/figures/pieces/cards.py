"""Cards: a number, a sign, a fact, a family, an array, a step, a label; and what stands on the backs."""

from __future__ import annotations

from types import MappingProxyType
from typing import TYPE_CHECKING, Final

from dayleaf.figures.draw import DRAWERS
from dayleaf.figures.grids import one_step
from dayleaf.figures.pen import Art, circle, dot, line, num, rect, text, text_width
from dayleaf.figures.values import values_of

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from dayleaf.items.model import Figure

ROUND_THE_OTHER_WAY: Final = frozenset({"6", "9", "<", ">"})
"""What reads as another sign when the card is turned round: a line at the foot says which way is up."""
READABLE: Final = 1.7
"""Below so many mm a name is set on two lines."""
_NO_WORDS: Final[Mapping[str, str]] = MappingProxyType({})


def fitted(
    figure: Figure, width: float, height: float, *, words: Mapping[str, str] = _NO_WORDS, most: float = 4
) -> str:
    """A picture of another kind in the middle of a box, as large as fits and at most `most` times its own size."""
    art = DRAWERS[figure.kind](values_of(figure), words)
    scale = min(width / art.width, height / art.height, most)
    x, y = (width - scale * art.width) / 2, (height - scale * art.height) / 2
    return f'<g transform="translate({num(x)} {num(y)}) scale({num(scale)})">{art.body}</g>'


def moved(body: str, x: float, y: float) -> str:
    """The drawing pushed to (x, y)."""
    return f'<g transform="translate({num(x)} {num(y)})">{body}</g>'


def upright(art: Art) -> Art:
    """A long piece stood on its end, what was its left end now at the top."""
    body = f'<g transform="translate({num(art.height)} 0) rotate(90)">{art.body}</g>'
    return Art(body, art.height, art.width)


def words_back(words: str, width: float, height: float, *, under: str = "") -> Art:
    """The back of a piece: the name of its set, small, along its longer side, and what else helps to check it.

    Nothing stands near the edges, so that a printer that is a millimetre off cuts no word.
    """
    if height > 2 * width:
        return upright(words_back(words, height, width, under=under))
    room = width - min(4.0, width * 0.12)
    size = min(3.2, height * 0.34, room / max(text_width(words, 1), 0.1))
    body = ""
    if under:
        large = min(9.0, height * 0.3, room / max(text_width(under, 1), 0.1))
        body = text(width / 2, height / 2 - size, under, size=large, weight=500)
        body += text(width / 2, height / 2 + large * 0.75, words, size=min(size, 2.8))
    else:
        body = text(width / 2, height / 2, words, size=size)
        first, space, last = words.partition(" ")
        if size < READABLE and space:
            size = min(height * 0.3, room / max(text_width(first, 1), text_width(last, 1)))
            body = text(width / 2, height / 2 - 0.6 * size, first, size=size)
            body += text(width / 2, height / 2 + 0.6 * size, last, size=size)
    return Art(body, width, height)


def sign_card(sign: str, width: float, height: float) -> Art:
    """One sign or number, large; a line at the foot where it could be read upside down."""
    size = min(height * 0.56, (width - 8) / text_width(sign, 1))
    body = text(width / 2, height / 2, sign, size=size, weight=500)
    if sign in ROUND_THE_OTHER_WAY:
        body += line(width * 0.3, height - 5, width * 0.7, height - 5, w=0.9)
    return Art(body, width, height)


def number_card(n: int, width: float, height: float) -> Art:
    """A number from 0 to 20 with its counters in frames of ten below it."""
    body = text(width / 2, height * 0.33, str(n), size=height * 0.4, weight=500)
    if str(n) in ROUND_THE_OTHER_WAY:
        body += line(width * 0.36, height * 0.545, width * 0.64, height * 0.545, w=0.8)
    cell = min((width - 8) / (10.6 if n > 10 else 5), 3.4 if n > 10 else 4.2)
    frames = 2 if n > 10 else 1
    wide = frames * 5 * cell + (frames - 1) * 1.6
    top = height * 0.66
    for frame in range(frames):
        left = (width - wide) / 2 + frame * (5 * cell + 1.6)
        body += rect(left, top, 5 * cell, 2 * cell, w=0.35) + line(
            left, top + cell, left + 5 * cell, top + cell, w=0.35
        )
        body += "".join(line(left + k * cell, top, left + k * cell, top + 2 * cell, w=0.35) for k in range(1, 5))
        for k in range(min(10, max(0, n - 10 * frame))):
            body += dot(left + (k % 5 + 0.5) * cell, top + (k // 5 + 0.5) * cell, cell * 0.32)
    return Art(body, width, height)


def fact_card(words: str, width: float, height: float) -> Art:
    """A fact to say: one line across the card, as large as fits."""
    size = min(13.0, (width - 10) / text_width(words, 1))
    return Art(text(width / 2, height / 2, words, size=size, weight=400), width, height)


def picture_card(figure: Figure, width: float, height: float, *, most: float = 4) -> Art:
    """A card with one picture and a rim of 5 mm around it; `most` keeps the pictures of a set to one scale."""
    return Art(moved(fitted(figure, width - 10, height - 10, most=most), 5, 5), width, height)


def step_card(step: str, side: float) -> Art:
    """One step of a program on a square card; "blank" is for a step of one's own."""
    art = one_step(step)
    scale = (side - 7) / art.width
    return Art(f'<g transform="translate(3.5 3.5) scale({num(scale)})">{art.body}</g>', side, side)


def lines_back(rows: Sequence[str], under: str, width: float, height: float) -> Art:
    """The back of a card with a few short lines to check by, and the name of its set."""
    step = min(9.5 if len(rows) > 1 else 17, (height - 16) / max(len(rows), 1))
    size = min(step * 0.72, (width - 12) / max(text_width(row, 1) for row in rows))
    top = (height - 6 - step * (len(rows) - 1)) / 2
    body = "".join(text(width / 2, top + k * step, row, size=size) for k, row in enumerate(rows))
    return Art(body + text(width / 2, height - 5.5, under, size=2.6), width, height)


def label(title: str, rows: Sequence[str], width: float, height: float) -> Art:
    """What goes on the bag or the box: the set's name, what belongs in it, what to mind."""
    body = rect(2, 2, width - 4, height - 4, r=2.5, w=0.5)
    body += circle(width - 7, 7, 1.6, w=0.35)
    size = min(6.0, (width - 22) / text_width(title, 1))
    body += text(6, 8, title, size=size, anchor="start", weight=600)
    step = min(4.6, (height - 18) / max(len(rows), 1))
    small = min(3.2, step * 0.75, *((width - 12) / text_width(row, 0.92) for row in rows))
    body += "".join(text(6, 16 + k * step, row, size=small, anchor="start") for k, row in enumerate(rows))
    return Art(body, width, height)
