"""A sheet's pages as plain data for the typesetter, and the boxes that the data asks for.

Everything printed passes through here as a value; the typesetter receives it as JSON and never as source.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any, Final

from dayleaf.figures.draw import draw
from dayleaf.items.model import Column, Gap, Match, Row, Sort, Story, Word
from dayleaf.sheets.asked import LOOKED, boxes_of, digit_at, option_is_right
from dayleaf.sheets.columns import SIGNS, Cell, lines_of_column, trades_of
from dayleaf.sheets.joined import joined
from dayleaf.wording import pictures, say
from dayleaf.wording.page import page_word

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from dayleaf.items.model import Figure, Item, Option, Part, Token
    from dayleaf.sheets.asked import Asked
    from dayleaf.sheets.model import PageSpec, Placed

Data = dict[str, Any]
LETTERS: Final = "ABCDEFGHJK"
TRUE_SIZE: Final = frozenset({"coins", "ruler-cm", "ruler-in", "objects-line"})
"""Pictures that are measured on paper: never scaled."""

WITHOUT_ROOM: Final = frozenset({"build", "oral", "measure"})
"""Looked at as well, but nothing is drawn."""

SHORT_LABEL: Final = 3
"""Labels of at most so many letters stand side by side, longer ones under each other."""

COUNTED: Final = {"groups-number": "bag", "array-rows": "row", "put-together-both": "way"}
"""What is counted in stories that do not ask for the things they are about."""

TOGETHER: Final = frozenset({*SIGNS, ":"})
"""A row with one of these signs is not cut."""

OPERATION: Final = re.compile(r"(?<=\d) ([+−×÷=<>]) (?=[\d□])")
UNBROKEN: Final = "\u00a0\\1\u00a0"
LAST_NUMBER: Final = re.compile(r" (?=\$?\d+¢?[.?]$)")
"""A sum in a sentence is not broken at the end of a line, and a number that ends it does not stand alone."""

SHRINKS_TO: Final = 0.8
"""Other pictures may shrink to this part of their size to stand beside one another."""

TALLEST: Final = 75.0
"""Millimetres; taller pictures shrink to this where they may."""

THING: Final = (95.0, 30.0)
"""How wide and how high things to match or to sort may be, which stand under each other."""


REMEMBERED: Final = 1_024
"""How many pictures are remembered: a side, its key and what is measured show the same ones."""

_drawn: dict[str, Data] = {}


def page_data(page: PageSpec, lang: str) -> tuple[list[Data], list[Asked]]:
    """The runs of one side, and its boxes in reading order.

    A run is one or more items under one instruction. Blocks of a single item that follow one another become
    one run whose cells carry their own instructions, so that small items can stand side by side.
    """
    asked: list[Asked] = []
    runs: list[Data] = []
    for block in page.blocks:
        cells = [_cell(placed, lang, asked, pictures_on=block.pictures) for placed in block.items]
        single = len(block.items) == 1 and block.example is None
        if single:
            cells[0]["instruction"] = block.instruction
        if single and runs and runs[-1]["single"]:
            runs[-1]["cells"] += cells
            continue
        runs.append(
            {
                "single": single,
                "instruction": "" if single else block.instruction,
                "example": _example(block.example, lang) if block.example else None,
                "cells": cells,
            }
        )
    return runs, asked


def _cell(placed: Placed, lang: str, asked: list[Asked], *, pictures_on: bool) -> Data:
    item = placed.item
    asked += boxes_of(placed.n, item)
    return {"n": placed.n, "instruction": "", **_item(str(placed.n), item, lang, pictures_on=pictures_on)}


def _example(item: Item, lang: str) -> Data:
    return {**_item("example", item, lang, pictures_on=True), "steps": list(say.steps_of(item, lang))}


def _item(prefix: str, item: Item, lang: str, *, pictures_on: bool) -> Data:
    shown = pictures_on or not isinstance(item.prompt, Row | Column)
    return {
        **_prompt(prefix, item, lang),
        "figure": figure_data(item.figure, lang) if item.figure and item.figure.kind != "none" and shown else None,
        "after": [_part(prefix, item, part, lang) for part in _parts_after(item)],
        "room": item.figure is None and item.format not in WITHOUT_ROOM,
    }


def figure_data(figure: Figure, lang: str) -> Data:
    """A picture as SVG with its size and its alternative text; the last ones drawn stay at hand."""
    key = f"{lang}:{figure!r}"
    found = _drawn.get(key)
    if found is None:
        if len(_drawn) >= REMEMBERED:
            _drawn.clear()
        found = _drawn[key] = _figure_data(figure, lang)
    return dict(found)


def _figure_data(figure: Figure, lang: str) -> Data:
    title, desc = pictures.figure_words(figure, lang)
    drawing = draw(figure, title=title, desc=desc, words=pictures.figure_texts(figure, lang))
    w, h = drawing.width, drawing.height
    least = 1.0 if figure.kind in TRUE_SIZE else SHRINKS_TO
    if h * least < TALLEST < h:
        w, h, least = w * TALLEST / h, TALLEST, least * h / TALLEST
    return {"svg": drawing.svg, "w": w, "h": h, "least": least, "alt": f"{title}. {desc}" if desc else title}


def _prompt(prefix: str, item: Item, lang: str) -> Data:
    prompt = item.prompt
    if isinstance(prompt, Row):
        groups = [_stacked([_token(prefix, item, token, lang) for token in group]) for group in groups_of(prompt)]
        words = [token["v"] for group in groups for token in group if token["t"] in ("word", "sign")]
        return {"kind": "row", "groups": groups, "stacked": len(groups) > 1 and max(map(len, words)) > SHORT_LABEL}
    if isinstance(prompt, Column):
        trades = trades_of(prompt)
        lines = [
            {"ruled": line.ruled, "cells": [_column_cell(prefix, item, cell, trades) for cell in line.cells]}
            for line in lines_of_column(item, prompt)
        ]
        return {"kind": "column", "lines": lines}
    if isinstance(prompt, Match):
        return {"kind": "match", "rows": _matched(prefix, item, prompt, lang)}
    if isinstance(prompt, Sort):
        return {"kind": "sort", **_sorted(prefix, item, prompt, lang)}
    lines_said = [LAST_NUMBER.sub("\u00a0", OPERATION.sub(UNBROKEN, line)) for line in say.lines_of(item, lang)]
    if isinstance(prompt, Story):
        return {"kind": "story", "lines": lines_said, "unit": _unit(prompt, item, lang)}
    return {"kind": "question", "lines": lines_said}


def _stacked(tokens: list[Data]) -> list[Data]:
    """The tokens of a line with each a / b as one stacked fraction."""
    found: list[Data] = []
    for token in tokens:
        before = found[-2:]
        if len(before) == 2 and before[1].get("v") == "/" and before[1]["t"] == "sign":
            found[-2:] = [{"t": "fraction", "top": before[0], "bottom": token}]
        else:
            found.append(token)
    return found


def _thing(prefix: str, item: Item, thing: Row | Figure, lang: str) -> Data:
    """One thing to match or to sort."""
    if isinstance(thing, Row):
        return {"figure": None, "groups": [_stacked([_token(prefix, item, token, lang) for token in thing.tokens])]}
    figure = figure_data(thing, lang)
    scale = min(1.0, THING[0] / figure["w"], THING[1] / figure["h"])
    return {"figure": {**figure, "w": scale * figure["w"], "h": scale * figure["h"]}, "groups": []}


def _matched(prefix: str, item: Item, match: Match, lang: str) -> list[Data]:
    """The lines of a match: a lettered thing with its box, and whatever numbered thing stands across."""
    return [
        {
            "letter": LETTERS[index],
            "left": _thing(prefix, item, left, lang),
            "part": _part(prefix, item, part, lang),
            "n": str(index + 1),
            "right": _thing(prefix, item, right, lang),
        }
        for index, (left, right, part) in enumerate(zip(match.left, match.right, item.parts, strict=True))
    ]


def _sorted(prefix: str, item: Item, sort: Sort, lang: str) -> Data:
    """The table of a sort: a line of groups, then a line of boxes for each lettered thing."""
    return {
        "groups_said": [say.option_words(group, lang, item) for group in sort.groups],
        "rows": [
            {
                "letter": LETTERS[index],
                "thing": _thing(prefix, item, thing, lang),
                "boxes": [
                    {"id": f"{prefix}.{part.id}.{option.code}", "right": option_is_right(part, option)}
                    for option in part.options
                ],
            }
            for index, (thing, part) in enumerate(zip(sort.things, item.parts, strict=True))
        ],
    }


def groups_of(row: Row) -> list[list[Token]]:
    """A row cut into pieces that stay together: a blank with its label, or a blank with the sentence after it.

    An equation or a pattern is one piece; only a list of labels and blanks without any sign is cut.
    """
    tokens = list(row.tokens)
    blanks = sum(isinstance(token, Gap) for token in tokens)
    if blanks < 2 or any(isinstance(token, str) and token in TOGETHER for token in tokens):
        return [tokens]
    groups: list[list[Token]] = [[]]
    for index, token in enumerate(tokens):
        before_blank = index + 1 < len(tokens) and isinstance(tokens[index + 1], Gap)
        begins = isinstance(token, Gap) if isinstance(tokens[0], Gap) else before_blank
        if begins and any(isinstance(one, Gap) for one in groups[-1]):
            groups.append([])
        groups[-1].append(token)
    return groups


def _unit(story: Story, item: Item, lang: str) -> str:
    """The word after the answer boxes, for many: for one it would tell the answer. None where one is ringed."""
    if any(part.kind == "choice" for part in item.parts):
        return ""
    return say.word_of(story.unit or COUNTED.get(story.cell, story.noun), lang, 2)


def _token(prefix: str, item: Item, token: object, lang: str) -> Data:
    if isinstance(token, Gap):
        part = next(part for part in item.parts if part.id == token.part)
        return {"t": "part", "part": _part(prefix, item, part, lang)}
    if isinstance(token, Word):
        return {"t": "word", "v": say.word_of(token.code, lang, token.count)}
    if isinstance(token, int):
        return {"t": "number", "v": str(token)}
    return {"t": "sign", "v": SIGNS.get(str(token), str(token))}


def _column_cell(prefix: str, item: Item, cell: Cell, trades: dict[int, str]) -> Data:
    if cell.kind == "box":
        part = next(part for part in item.parts if part.id == cell.part)
        return {"t": "box", "id": f"{prefix}.{part.id}.{cell.place}", "v": digit_at(part, cell.place)}
    if cell.kind == "trade":
        return {"t": "trade", "id": f"{prefix}.trade.{cell.place}", "v": trades.get(cell.place, "")}
    return {"t": cell.kind, "v": cell.text}


def _parts_after(item: Item) -> list[Part]:
    """The parts that do not stand inside the row or the column."""
    if isinstance(item.prompt, Row):
        inside = {token.part for token in item.prompt.tokens if isinstance(token, Gap)}
        return [part for part in item.parts if part.id not in inside or part.kind in ("choice", "many")]
    if isinstance(item.prompt, Column):
        return [part for part in item.parts if part.kind != "digits"]
    if isinstance(item.prompt, Match | Sort):
        return []
    return list(item.parts)


def _part(prefix: str, item: Item, part: Part, lang: str) -> Data:
    start = f"{prefix}.{part.id}"
    if part.kind == "digits":
        boxes = [{"id": f"{start}.{place}", "v": digit_at(part, place)} for place in range(part.width - 1, -1, -1)]
        return {"kind": "digits", "boxes": boxes}
    if part.kind == "compare":
        return {"kind": "compare", "id": start, "v": part.answer}
    if part.kind == "look":
        return {"kind": "look", "ticks": [{"id": f"{start}.{code}", "said": page_word(code, lang)} for code in LOOKED]}
    return {"kind": part.kind, "options": [_option(start, item, part, n, lang) for n in range(len(part.options))]}


def _option(start: str, item: Item, part: Part, index: int, lang: str) -> Data:
    """One option; where it only names a letter of the picture, the letter itself is what is ringed."""
    option = part.options[index]
    words = "" if option.figure else _option_text(option, lang, item)
    bare = words in ("", LETTERS[index]) and not option.figure
    return {
        "id": f"{start}.{option.code}",
        "letter": "" if bare else LETTERS[index],
        "text": LETTERS[index] if bare else words,
        "figure": figure_data(option.figure, lang) if option.figure else None,
        "right": option_is_right(part, option),
    }


def _option_text(option: Option, lang: str, item: Item) -> str:
    words = say.option_words(option.code, lang, item)
    return SIGNS.get(words, words)


def steps_data(page: PageSpec, lang: str) -> Data:
    """How each item of one side goes: its line, its answer in words and its steps."""
    items = [
        {
            "n": placed.n,
            "text": say.text_of(placed.item, lang),
            "answer": answer_words(placed.item, lang),
            "steps": list(say.steps_of(placed.item, lang)),
        }
        for placed in placed_items(page)
    ]
    return {"title": page.title, "items": items}


def answer_words(item: Item, lang: str, *, letters: bool = True) -> str:
    """The right answer as a person reads it: digits, signs, or the letter of an option (or just its words)."""
    said: list[str] = []
    if isinstance(item.prompt, Sort):
        return ", ".join(f"{letter} {say.option_words(part.answer, lang, item)}" for letter, part in _lettered(item))
    if isinstance(item.prompt, Match):
        return ", ".join(f"{letter} {part.answer}" for letter, part in _lettered(item))
    for part in item.parts:
        if part.kind in ("choice", "many"):
            right = [
                _option_said(LETTERS[index], "" if option.figure else _option_text(option, lang, item), letters=letters)
                for index, option in enumerate(part.options)
                if option_is_right(part, option)
            ]
            said.append(", ".join(right))
        else:
            said.append(part.answer)
    return joined(item, said) if all(said) else ", ".join(answer for answer in said if answer)


def _option_said(letter: str, words: str, *, letters: bool) -> str:
    return f"{letter} {words}".strip() if letters or not words else words


def _lettered(item: Item) -> Iterator[tuple[str, Part]]:
    return zip(LETTERS, item.parts, strict=False)


def texts_of(data: object) -> Iterator[str]:
    """Every text that the data would print, without pictures' sources."""
    if isinstance(data, str):
        yield data
    elif isinstance(data, dict):
        for key, value in data.items():
            if key not in ("svg", "id", "kind", "t", "qr", "marks"):
                yield from texts_of(value)
    elif isinstance(data, list | tuple):
        for value in data:
            yield from texts_of(value)


def placed_items(page: PageSpec) -> Sequence[Placed]:
    """The items of one side, in printed order."""
    return [placed for block in page.blocks for placed in block.items]
