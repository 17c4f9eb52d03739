"""Who is with the adult when, as one strip: a line for each child, dark where it is led, open where it works alone."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from dayleaf.figures.pen import escaped, num
from dayleaf.plan.morning_words import moment

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from dayleaf.core.ids import LearnerId
    from dayleaf.plan.morning_model import MorningPlan, Session

INK: Final = "#1e2722"
SOFT: Final = "#57625b"
RULE: Final = "#9aa39c"
LANE: Final = 5.0
"""Millimetres from one child's line to the next."""
BAR: Final = 2.9
LABELS: Final = 18.0
"""Millimetres for the names at the left."""
AXIS: Final = 5.0
TEXT: Final = 2.75
STEPS: Final = (5, 10, 15, 30, 60, 120)
MOST_MARKS: Final = 7


def lane(plan: MorningPlan, learner: LearnerId, *, name: str, width: float, length: int) -> str:
    """One child's line alone, `width` mm for `length` minutes, as SVG with its words."""
    own = [one for one in plan.sessions if one.learner == learner]
    bars = _bars(own, x=0, y=(LANE - BAR) / 2, scale=width / max(length, 1))
    line = f'<path d="M0 {num(LANE / 2)}H{num(width)}" stroke="{RULE}" stroke-width="0.2"/>'
    return _svg(name, _said(plan, own), width, LANE, line + bars)


def morning_strip(
    plan: MorningPlan, names: Mapping[LearnerId, str], *, width: float = 160.0, title: str = "The morning"
) -> str:
    """The whole morning as SVG, `width` mm wide: names at the left, minutes or clock times above."""
    children = list(dict.fromkeys(one.learner for one in plan.sessions))
    height = AXIS + LANE * len(children)
    scale = (width - LABELS - 6) / max(plan.minutes, 1)
    parts = [_axis(plan, scale, height)]
    for place, child in enumerate(children):
        own = [one for one in plan.sessions if one.learner == child]
        y = AXIS + LANE * place
        parts.append(_text(names.get(child, child), 0, y + LANE / 2 + TEXT * 0.35, fill=INK))
        parts.append(_bars(own, x=LABELS, y=y + (LANE - BAR) / 2, scale=scale))
    said = " ".join(
        f"{names.get(child, child)}: {_said(plan, [one for one in plan.sessions if one.learner == child])}"
        for child in children
    )
    return _svg(title, said, width, height, "".join(parts))


def _bars(sessions: Sequence[Session], *, x: float, y: float, scale: float) -> str:
    drawn = []
    for one in sessions:
        left, wide = x + one.start * scale, max(one.minutes * scale - 0.3, 0.4)
        style = f'fill="{INK}" stroke="{INK}"' if one.kind == "led" else f'fill="#ffffff" stroke="{INK}"'
        drawn.append(
            f'<rect x="{num(left + 0.15)}" y="{num(y)}" width="{num(wide)}" height="{num(BAR)}" rx="0.5" {style} '
            'stroke-width="0.3"/>'
        )
    return "".join(drawn)


def _axis(plan: MorningPlan, scale: float, height: float) -> str:
    step = next((step for step in STEPS if plan.minutes / step <= MOST_MARKS), STEPS[-1])
    drawn = []
    for minute in range(0, plan.minutes + 1, step):
        x = LABELS + minute * scale
        said = str(minute) if plan.start is None else moment(plan.start, minute)
        lower = f"M{num(x)} {num(AXIS - 0.6)}V{num(height)}"
        drawn.append(f'<path d="{lower}" stroke="{RULE}" stroke-width="0.2"/>')
        drawn.append(_text(said, x, AXIS - 1.4, fill=SOFT, anchor="middle" if minute else "start"))
    return "".join(drawn)


def _said(plan: MorningPlan, own: Sequence[Session]) -> str:
    """The line in words: every stretch with its beginning and its length."""
    parts = [
        f"{'with you' if one.kind == 'led' else 'alone'} from {moment(plan.start, one.start)}, {one.minutes} minutes"
        for one in own
    ]
    return "; ".join(parts) + "."


def _text(words: str, x: float, y: float, *, fill: str, anchor: str = "start") -> str:
    # A family name with a digit in it is quoted, or the typesetter takes another face without a word.
    return (
        f'<text x="{num(x)}" y="{num(y)}" font-family="\'Source Sans 3\'" font-size="{num(TEXT)}" fill="{fill}" '
        f'text-anchor="{anchor}">{escaped(words)}</text>'
    )


def _svg(title: str, said: str, width: float, height: float, body: str) -> str:
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{num(width)}mm" height="{num(height)}mm" '
        f'viewBox="0 0 {num(width)} {num(height)}" role="img"><title>{escaped(title)}</title>'
        f"<desc>{escaped(said)}</desc>{body}</svg>"
    )
