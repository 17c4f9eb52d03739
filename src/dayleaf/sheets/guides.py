"""A lesson guide as plain data for the typesetter."""

from __future__ import annotations

from dataclasses import asdict
from math import ceil
from typing import TYPE_CHECKING, Any, Final

from dayleaf.sheets.cells import TRUE_SIZE, figure_data
from dayleaf.sheets.geometry import PAPER
from dayleaf.wording.page import page_word

if TYPE_CHECKING:
    from dayleaf.items.model import Figure
    from dayleaf.sheets.model import GuideSheet, Look

MARGIN_WORDS: Final = {
    "say": "Say",
    "do": "Do",
    "ask": "Ask",
    "answer": "Answer",
    "if-instead": "If instead",
    "watch": "Alone now?",
}
SPOKEN: Final = frozenset({"say", "ask"})
TRIES: Final = ((11.0, 1, 34.0), (10.5, 1, 30.0), (12.0, 2, 38.0), (11.0, 2, 30.0), (10.0, 2, 22.0))
"""(points, sides, millimetres a picture stands high at the most) in the order tried: one side if it fits comfortably,
else two in the largest type."""
WIDEST_MM: Final = 120.0


LINE_MM, TEXT_MM, SECTION_MM, HEAD_MM = 4.3, 0.9, 10.4, 23.0
"""About what a line of 88 signs, a text, a section and the head take at 11 points: fitted to the guides of our course
by least squares, never 17 mm out."""
PICTURE_MM: Final = 20.0
"""A row of pictures is seldom lower."""
SIGNS_A_LINE: Final = 88
CERTAIN_MM: Final = 45.0
"""An estimate that is so much over a side is over it in 10.5 points too."""
GUIDE_MARGINS: Final = 37.0


def surely_two_sides(guide: GuideSheet, look: Look) -> bool:
    """Whether a guide cannot fit on one side, so that setting it there is not tried."""
    texts = [line.text for section in guide.sections for line in section.lines]
    texts += [words for _, words in guide.facts] + [words for words in (guide.short, guide.bare) if words]
    texts += ["   ".join(values) for _, values in guide.answers]
    lines = sum(ceil(len(text) / SIGNS_A_LINE) for text in texts)
    pictured = sum(bool(line.pictures) for section in guide.sections for line in section.lines)
    height = PICTURE_MM * pictured + LINE_MM * lines + TEXT_MM * len(texts) + SECTION_MM * len(guide.sections) + HEAD_MM
    return height > PAPER[look.paper][1] - GUIDE_MARGINS + CERTAIN_MM


def guide_data(guide: GuideSheet, look: Look, *, points: float, picture: float) -> dict[str, Any]:
    """Everything a guide prints, with text of `points` and pictures of up to `picture` millimetres."""
    lang = look.lang
    minutes = page_word("minutes", lang)
    return {
        "title": guide.title,
        "under": guide.under_title,
        "lang": lang,
        "paper": PAPER[look.paper],
        "points": points,
        "foot": f"{guide.lesson} · {guide.title}",
        "facts": [list(fact) for fact in guide.facts],
        "sections": [
            {
                "heading": section.heading,
                "minutes": "" if section.minutes is None else f"{section.minutes} {minutes}",
                "core": section.core,
                "lines": [
                    {
                        "label": page_word(MARGIN_WORDS[line.kind], lang) if line.kind else "",
                        "text": line.text,
                        "spoken": line.kind in SPOKEN,
                        "pictures": [_pictured(letter, one, lang, most=picture) for letter, one in line.pictures],
                    }
                    for line in section.lines
                ],
            }
            for section in guide.sections
        ],
        "short": guide.short,
        "bare": guide.bare,
        "answers": [[heading, list(values)] for heading, values in guide.answers],
        "tables": [asdict(table) for table in guide.tables],
        "words": {"short": page_word("short", lang), "bare": page_word("bare", lang)},
    }


def _pictured(letter: str, figure: Figure, lang: str, *, most: float) -> dict[str, Any]:
    """A picture made small enough to stand under its line; things of true size stay so."""
    data = figure_data(figure, lang)
    scale = 1.0 if figure.kind in TRUE_SIZE else min(1.0, most / data["h"], WIDEST_MM / data["w"])
    return {"letter": letter, "svg": data["svg"], "alt": data["alt"], "w": data["w"] * scale, "h": data["h"] * scale}
