"""Coins as plain circles at true size, bills as invented rectangles; no likeness of either."""

from __future__ import annotations

from types import MappingProxyType
from typing import TYPE_CHECKING, Final

from dayleaf.figures.pen import Art, circle, num, rect, text
from dayleaf.figures.values import Values, WrongParameter

if TYPE_CHECKING:
    from collections.abc import Mapping

COIN_MM: Final[Mapping[int, float]] = MappingProxyType(
    {1: 19.05, 5: 21.21, 10: 17.91, 25: 24.26, 50: 30.61, 100: 26.49}
)
"""Diameters in mm by value in cents. Source: US Mint coin specifications (1 ¢ to 50 ¢: 0.750, 0.835, 0.705, 0.955,
1.205 in; dollar 1.043 in)."""

BILL_MM: Final = (72.0, 30.0)
"""A bill's size: plainly under three quarters of a true note (155.96 mm), as 31 CFR 411.1 asks of a picture."""

_LINE_MM = 165.0


def coins(v: Values, words: Mapping[str, str]) -> Art:
    """Coins in the order given, in rows: the value in figures and the name, or the name alone."""
    values = v.numbers("coins")
    if not values or any(value not in COIN_MM for value in values):
        raise WrongParameter(kind=v.kind, name="coins", why="holds no coin, or one that there is not")
    body, x, y, width, tall = "", 0.5, 0.5, 0.0, max(COIN_MM[value] for value in values)
    for value in values:
        d = COIN_MM[value]
        if x + d > _LINE_MM:
            x, y = 0.5, y + tall + 3
        middle = (x + d / 2, y + tall / 2)
        body += circle(*middle, d / 2, w=0.6) + circle(*middle, d / 2 - 1.1)
        name = words.get(f"coin-{value}", "")
        if v.on("show_value"):
            label = "$1" if value == 100 else f"{value}¢"
            body += text(middle[0], middle[1] - (1.4 if name else 0), label, size=5.6, weight=600)
            body += text(middle[0], middle[1] + 4, name, size=2.8) if name else ""
        else:
            body += text(*middle, name, size=3.4)
        width = max(width, x + d)
        x += d + 3
    return Art(body, width + 0.5, y + tall + 0.5)


def bills(v: Values, words: Mapping[str, str]) -> Art:
    """Bills of our own drawing: a rectangle with its value."""
    values = v.numbers("bills")
    if not values or any(value not in {1, 5, 10, 20, 50, 100} for value in values):
        raise WrongParameter(kind=v.kind, name="bills", why="holds no bill, or one that there is not")
    wide, tall = BILL_MM
    body = ""
    for k, value in enumerate(values):
        x, y = 0.5 + (k % 2) * (wide + 4), 0.5 + (k // 2) * (tall + 4)
        body += rect(x, y, wide, tall, w=0.6) + rect(x + 2, y + 2, wide - 4, tall - 4, r=4, w=0.35)
        body += text(x + wide / 2, y + tall / 2 - 1.5, f"${value}", size=10, weight=600)
        body += text(x + wide / 2, y + tall - 6.5, words.get("play-money", "play money"), size=3)
    width, height = min(len(values), 2) * (wide + 4) - 3, -(-len(values) // 2) * (tall + 4) - 3
    if v.numbers("coins"):
        under = coins(Values(v.kind, {**v.all, "show_value": 1}), words)
        body += f'<g transform="translate(0 {num(height + 3)})">{under.body}</g>'
        width, height = max(width, under.width), height + 3 + under.height
    return Art(body, width, height)
