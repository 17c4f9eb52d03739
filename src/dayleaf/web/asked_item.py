"""One item as a child's page shows it: lines, picture, what can be touched, and the words for reading it aloud."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any, Final

from dayleaf.items.model import Column
from dayleaf.web.shelf import inline_figure
from dayleaf.wording.say import instruction_for, lines_of, option_words, steps_of

if TYPE_CHECKING:
    from dayleaf.items.model import Item

GAPS: Final = "□○"
MINUS: Final = "−"
SPOKEN: Final = {
    "en": {"−": "minus", "+": "plus", "=": "equals", "×": "times", "÷": "divided by", "<": "is less than",
           ">": "is greater than", "□": "how many", "○": "what sign"},
    "es": {"−": "menos", "+": "más", "=": "es igual a", "×": "por", "÷": "entre", "<": "es menor que",
           ">": "es mayor que", "□": "cuánto", "○": "qué signo"},
}  # fmt: skip
LETTERS: Final = "ABCDEFGHJK"
DRAWN: Final = ("Draw", "Dibuja")
"""How sentences of an instruction begin that want a pencil; a screen leaves them out."""
RUNG: Final = (("Ring ", "Touch "), ("Rodea ", "Toca "), ("Tick ", "Touch "), ("Marca ", "Toca "))
_SENTENCES: Final = re.compile(r"(?<=\.) ")


def shown_item(item: Item, lang: str) -> dict[str, Any]:
    """Everything the page of one item needs."""
    part = item.parts[0]
    lines = () if isinstance(item.prompt, Column) else lines_of(item, lang)
    return {
        "instruction": on_screen(instruction_for(item, lang)),
        "lines": [_pieces(line) for line in lines],
        "column": _column(item.prompt) if isinstance(item.prompt, Column) else None,
        "figure": inline_figure(item.figure, lang=lang) if _pictured(item) and item.figure else "",
        "kind": part.kind,
        "width": part.width + 1,
        "options": [
            {
                "code": option.code,
                "words": "" if option.figure else option_words(option.code, lang, item) or option.code.upper(),
                "letter": LETTERS[n],
                "figure": inline_figure(option.figure, lang=lang) if option.figure else "",
            }
            for n, option in enumerate(part.options)
        ],
        "spoken": spoken(item, lang),
    }


def shown_steps(item: Item, lang: str) -> tuple[str, ...]:
    """How it goes, step by step."""
    return steps_of(item, lang)


def spoken(item: Item, lang: str) -> str:
    """The item as a voice would say it: signs as words."""
    words = SPOKEN.get(lang, SPOKEN["en"])
    said = " ".join((on_screen(instruction_for(item, lang)), *lines_of(item, lang)))
    for sign, word in words.items():
        said = said.replace(sign, f" {word} ")
    return " ".join(said.split())


def on_screen(instruction: str) -> str:
    """An instruction as a screen says it: nothing is drawn there, and what is rung on paper is touched.

    >>> on_screen("Read the story. Draw it. Write the answer.")
    'Read the story. Write the answer.'
    """
    kept = " ".join(one for one in _SENTENCES.split(instruction) if not one.startswith(DRAWN))
    for on_paper, here in RUNG:
        kept = kept.replace(on_paper, here)
    return kept


def _pieces(line: str) -> list[dict[str, Any]]:
    """A line cut at its gap, so that the gap can be drawn as a box."""
    pieces: list[dict[str, Any]] = []
    text = ""
    for sign in line:
        if sign in GAPS:
            pieces += [{"text": text, "gap": False}, {"text": "", "gap": True}]
            text = ""
        else:
            text += sign
    return [piece for piece in (*pieces, {"text": text, "gap": False}) if piece["gap"] or piece["text"]]


def _column(column: Column) -> dict[str, Any]:
    sign = MINUS if column.sign == "-" else column.sign
    last = len(column.rows) - 1
    return {
        "rows": [{"sign": sign if n == last else "", "number": value} for n, value in enumerate(column.rows)],
        "shown": column.shown,
    }


def _pictured(item: Item) -> bool:
    return item.figure is not None and item.figure.kind != "none"
