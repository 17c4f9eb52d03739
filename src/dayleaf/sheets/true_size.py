"""Sides at true size: a picture that fills the paper, a line of heading over it, nothing scaled by anybody.

Cut-out sets and papers to work on are one picture a side, placed at the paper's top left corner in its own
millimetres.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from dayleaf.sheets.fonts import ADULT_FACES, check_printable
from dayleaf.sheets.geometry import PAPER
from dayleaf.sheets.press import finished, press

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from dayleaf.sheets.model import Paper


@dataclass(frozen=True, slots=True)
class TrueSide:
    """One side. `svg` fills the whole paper; `said` is its description for people who do not see it.

    `title` and `says` stand at the top left, `corner` at the top right; all may be empty. A quiet side (a back) has
    its heading small and grey.
    """

    svg: str
    said: str
    title: str = ""
    says: str = ""
    corner: str = ""
    quiet: bool = False


def typeset_true(
    sides: Sequence[TrueSide], *, paper: Paper, lang: str = "en", two_sided: bool = False, title: str = ""
) -> bytes:
    """The sides as one file in their order; `two_sided` asks the printer to turn over the long edge.

    Raises:
        UnprintableText: a heading has signs that our typefaces lack.
    """
    check_printable(_words(sides), faces=ADULT_FACES)
    data: dict[str, Any] = {
        "title": title or sides[0].title or sides[0].said,
        "lang": lang,
        "paper": PAPER[paper],
        "sides": [
            {"svg": side.svg, "said": side.said, "title": side.title, "says": side.says, "corner": side.corner,
             "quiet": side.quiet}
            for side in sides
        ],
    }  # fmt: skip
    pdf, _ = press("true_size", data)
    return finished(pdf, two_sided=two_sided)


def _words(sides: Iterable[TrueSide]) -> Iterable[str]:
    for side in sides:
        yield from (side.title, side.says, side.corner)
