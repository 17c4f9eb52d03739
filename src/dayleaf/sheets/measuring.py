"""How wide and how high things come out, asked of the typesetter before anything is set.

Only `typst/measures.typ` knows widths of texts. What was measured once is remembered, so that a side that is
too full, the key of a print and the next day's instructions cost nothing more.
"""

from __future__ import annotations

import json
import re
from dataclasses import asdict, dataclass
from typing import TYPE_CHECKING, Any, Final

from dayleaf.sheets.geometry import MARGIN, NUMBER_GUTTER, PAPER, sizes_of
from dayleaf.sheets.press import ask
from dayleaf.wording.page import page_word

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from dayleaf.sheets.model import Look

SORTED_BY: Final = ("sort-topics", "sort-sure", "sort-nearly", "sort-help")
"""What to do with the topics, and the words over the three boxes beside each."""

REMEMBERED: Final = 8_192
"""How many sizes of a look are remembered; about 10 MB."""

_PICTURE: Final = re.compile(r'"svg": "(?:[^"\\]|\\.)*"')
_NO_PICTURE: Final = "\"svg\": \"<svg xmlns='http://www.w3.org/2000/svg' width='1' height='1'></svg>\""
"""A picture's strokes do not change its size."""

_known: dict[str, dict[Wanted, Any]] = {}
"""By look."""


@dataclass(frozen=True, slots=True)
class Wanted:
    """A thing whose size is wanted: what it is, and its data as JSON."""

    what: str
    data: str


def cell_wanted(cell: Mapping[str, Any], widths: Sequence[float]) -> Wanted:
    """An item without its instruction: the least width it needs, and its height in each of these widths."""
    numbered = {name: value for name, value in cell.items() if name not in ("n", "instruction")}
    text = json.dumps([numbered, list(widths)], ensure_ascii=False).replace(f'"id": "{cell["n"]}.', '"id": "')
    return Wanted("cell", _PICTURE.sub(_NO_PICTURE, text))


def example_wanted(example: Mapping[str, Any]) -> Wanted:
    """A worked example in its frame: its height."""
    return Wanted("example", json.dumps(example, ensure_ascii=False))


def instruction_wanted(words: str, width: float) -> Wanted:
    """An instruction in this width: its height."""
    return Wanted("instruction", json.dumps([words, width], ensure_ascii=False))


def topics_wanted(topics: Sequence[str]) -> Wanted:
    """A table of topics to sort: its height."""
    return Wanted("topics", json.dumps(list(topics), ensure_ascii=False))


def frame_data(look: Look) -> dict[str, Any]:
    """What the typesetter must know of a look before it measures or prints."""
    return {
        "lang": look.lang,
        "mode": "child",
        "left": look.left_handed,
        "paper": PAPER[look.paper],
        "margin": MARGIN,
        "gutter": NUMBER_GUTTER,
        "size": asdict(sizes_of(look)),
    }


def sorted_words(lang: str) -> list[str]:
    """What stands over the boxes of a table of topics."""
    return [page_word(code, lang) for code in SORTED_BY]


def measured(wanted: Iterable[Wanted], look: Look) -> dict[Wanted, Any]:
    """The sizes of all these things in this look, in millimetres."""
    frame = frame_data(look) | {"words": {"sorted": sorted_words(look.lang)}}
    within = json.dumps(frame)
    known = _known.setdefault(within, {})
    every = dict.fromkeys(wanted)
    found = {one: size for one in every if (size := known.get(one)) is not None}  # another thread may forget them
    new = [one for one in every if one not in found]
    if new:
        asked = [{"what": one.what, "data": json.loads(one.data)} for one in new]
        found |= zip(new, ask("measure", frame | {"wanted": asked}, label="measured"), strict=True)
        if len(known) > REMEMBERED:
            known.clear()
        known.update({one: found[one] for one in new})
    return found
