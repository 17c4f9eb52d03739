"""What is seen on a line of boats, thing by thing, and on lines whose ones are cut into parts."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from dayleaf.wording.seen_things import Look


def scene(look: Look) -> str:
    """Where the bridge stands, then boat after boat from the bridge on."""
    rings, arrow = look.ns("rings"), look.n("arrow")
    told = [
        "boat-ringed" if place in rings else "boat-arrow" if place == arrow else "boat"
        for place in range(1, look.n("n") + 1)
    ]
    side = look.say(f"bridge-{look.word('end', 'left')}")
    return f"{side} {look.say('from-bridge', pieces=look.list(look.piece(code) for code in told))}"


def line_in_parts(look: Look) -> str:
    """A line of whole numbers: the marks inside the first one, where the arrow is, how far along each point is."""
    parts, step = look.n("parts"), look.n("step", 1)
    whole = look.n("hi") // parts
    told = [look.say("line-to", hi=whole)]
    if step < parts:
        told.append(look.say("marks-in-one", pieces=look.pieces(("mark", parts // step - 1))))
    for letter, n in zip("ABCDEFGH", look.ns("points"), strict=False):
        told.append(look.say("point-share", letter=letter, n=round(100 * n / parts)))
    arrow = look.n("arrow", -1)
    if arrow >= 0:
        one, left = divmod(arrow, parts)
        told.append(look.say("arrow-after", label=one, pieces=look.pieces(("mark", left // step))))
    return " ".join(told)


def units_laid(look: Look) -> str:
    """Under a strip: each unit, long or short, and each gap."""
    units = look.ns("units")
    told: list[str] = []
    for unit in units:
        if told and look.n("gap"):
            told.append(look.piece("unit-gap"))
        told.append(look.piece("unit" if unit == min(units) else "long-unit"))
    return look.say("units", pieces=look.list(told))


def share_of(n: int, parts: int) -> str:
    """So many parts of one, as a whole number and a fraction in lowest terms: 10 fourths are 2 1/2."""
    whole, left = divmod(n, parts)
    said = f" {Fraction(left, parts)}" if left else ""
    return f"{whole if whole or not left else ''}{said}".strip()
