"""Graphs, tallies, clocks and scales read again from the picture's parameters."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.items.model import Question, Row, Word
from dayleaf.items.second.pictured_params import number, numbers, word, words

if TYPE_CHECKING:
    from dayleaf.items.model import Item


def data_answer(item: Item) -> str | None:
    """The answer read from a graph, tally, clock or thermometer; None for other items."""
    if item.figure is None:
        return None
    match item.figure.kind:
        case "tally" | "picture-graph" | "bar-graph":
            return _graph(item)
        case "clock":
            return _clock(item)
        case "thermometer":
            return _thermometer(item)
    return None


def _heights(item: Item) -> dict[str, int]:
    """How many marks or squares stand at each label, counted one by one."""
    kind = item.figure.kind if item.figure else ""
    counts = numbers(item, "counts" if kind == "tally" else "data")
    labels = words(item, "labels") or ("",)
    found = {}
    for label, count in zip(labels, counts, strict=True):
        bundles = ["|" * 5] * (count // 5) + ["|" * (count % 5)]
        found[label] = sum(bundle.count("|") for bundle in bundles)
    return found


def _graph(item: Item) -> str | None:
    height = _heights(item)
    prompt = item.prompt
    if isinstance(prompt, Row):
        asked = [token.code for token in prompt.tokens if isinstance(token, Word)]
        return " ".join(str(height[code]) for code in asked)
    if not isinstance(prompt, Question):
        return None
    if not prompt.values:
        return str(height[""])
    bars = [height[str(code)] for code in prompt.values.values()]
    if len(bars) == 1 or prompt.code == "graph-how-many-both":
        return str(sum(bars))
    # the part of the longer bar that sticks out; the bar that has more is named first where more is asked
    sticks_out = str(len(range(min(bars), max(bars))))
    return sticks_out if (bars[0] > bars[1]) == prompt.code.endswith("more") else None


def _clock(item: Item) -> str | None:
    """The time whose hands stand as drawn: hour hand 30·(h mod 12) + m/2 degrees, minute hand 6·m degrees."""
    if not isinstance(item.prompt, Row):
        return ""
    h, m = number(item, "h"), number(item, "m")
    hour_hand, minute_hand = 30 * (h % 12) + m / 2, 6 * m
    minute = round(minute_hand / 6)
    hour = (hour_hand - minute / 2) / 30
    return f"{12 if hour == 0 else round(hour)} {minute:02}"


def _thermometer(item: Item) -> str:
    """Climb from the lowest mark, one mark after another, to the top of the liquid."""
    degrees, level, step = number(item, "lo"), number(item, "level"), number(item, "step")
    while degrees < level:
        degrees += step
    return word(item, "unit") and str(degrees)
