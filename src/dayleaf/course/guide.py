"""The guide of a day as it stands in a day file (docs/guide-format.md), read into values."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, cast, get_args

from dayleaf.core.ids import FormatId, SkillId
from dayleaf.course.model import Guide, GuidePart, GuideStep, PartName, StepKind

if TYPE_CHECKING:
    from dayleaf.course.shape import Fields

PART_NAMES: tuple[PartName, ...] = get_args(PartName)
STEP_LABELS: dict[str, StepKind] = {
    "say": "say",
    "do": "do",
    "ask": "ask",
    "answer": "answer",
    "if instead": "if-instead",
}
_LABEL = re.compile(r"(say|do|ask|answer|if instead):\s*(.*)", re.DOTALL)
_LOOKS_LIKE_A_LABEL = re.compile(r"([A-Za-z][A-Za-z -]{0,14}):\s")


def read_guide(fields: Fields) -> Guide:
    """Read the `[guide]` table of a day file; what is wrong is noted in `fields`."""
    guide = Guide(
        aim=fields.text("aim"),
        before=fields.text("before"),
        shown=_items(fields, "shown"),
        together=_items(fields, "together"),
        parts=tuple(_part(part) for part in fields.tables("parts")),
        watch=fields.text("watch"),
        short=fields.text("short"),
        bare=fields.text("bare"),
    )
    if not guide.parts:
        fields.problem("parts", "are missing; begin the first with [[guide.parts]]")
    fields.done()
    return guide


def _items(fields: Fields, name: str) -> tuple[tuple[SkillId, FormatId], ...]:
    return tuple((SkillId(skill), FormatId(form)) for skill, form in fields.pairs(name, first="skill", second="format"))


def _part(fields: Fields) -> GuidePart:
    part = GuidePart(
        name=cast("PartName", fields.choice("name", PART_NAMES)),
        minutes=fields.whole("minutes"),
        steps=read_steps(fields),
        core=fields.flag("core") if fields.has("core") else False,
    )
    fields.done()
    return part


def read_steps(fields: Fields) -> tuple[GuideStep, ...]:
    """Split the script of a part: a line that begins with a label begins a step, other lines go on with it."""
    steps: list[tuple[StepKind, list[str]]] = []
    for line in fields.text("steps").splitlines():
        text = line.strip()
        if not text:
            continue
        if match := _LABEL.fullmatch(text):
            steps.append((STEP_LABELS[match[1]], [match[2]] if match[2] else []))
        elif not steps:
            fields.problem("steps", f'begins with "{text[:30]}"; begin with say:, do:, ask:, answer: or if instead:')
            return ()
        else:
            if (label := _LOOKS_LIKE_A_LABEL.match(text)) and label[1].lower().replace("-", " ") in STEP_LABELS:
                wanted = label[1].lower().replace("-", " ")
                fields.problem("steps", f'has the label "{label[1]}:"; write it as "{wanted}:"')
            steps[-1][1].append(text)
    for kind, lines in steps:
        if not lines:
            fields.problem("steps", f'has a "{kind.replace("-", " ")}:" with nothing after it; write its text')
    return tuple(GuideStep(kind, " ".join(lines)) for kind, lines in steps)
