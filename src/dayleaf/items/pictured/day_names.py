"""Days of the week and months in their order."""

from __future__ import annotations

from itertools import permutations
from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.core.seeds import seed_from
from dayleaf.items.choices import ring_fixed, ring_one
from dayleaf.items.model import Gap, Part, Question, Row, Step, Word
from dayleaf.items.pictured.almanac_codes import MONTHS, WEEKDAYS
from dayleaf.items.rule import Made, SkillRule

if TYPE_CHECKING:
    from dayleaf.items.model import Token
    from dayleaf.items.rule import Numbers

SWAPPED, LEFT_OUT = ErrorWayId("yesterday-tomorrow-swapped"), ErrorWayId("month-gap")
_FROM_SUNDAY = (*WEEKDAYS[6:], *WEEKDAYS[:6])
_CARDS = 4


def _names(numbers: Numbers) -> tuple[str, ...]:
    """k: the days from Sunday on, or the months."""
    return MONTHS if numbers["k"] else _FROM_SUNDAY


def _neighbour(numbers: Numbers) -> Made:
    """The day before or after a day (q), or the month before or after a month."""
    names, at = _names(numbers), numbers["n"] - 1
    step = 1 if numbers["q"] else -1
    right, other = names[(at + step) % len(names)], names[(at - step) % len(names)]
    errors = {SWAPPED: other}
    kind = "month" if numbers["k"] else "day"
    if numbers["k"]:
        errors[LEFT_OUT] = names[(at + 2 * step) % len(names)]
        part = ring_one(right, errors, turn=seed_from("month", at, step))
    else:
        part = ring_fixed(right, names, errors)
    before, after = (names[at], right) if step > 0 else (right, names[at])
    return Made(
        Question(f"{kind}-{'after' if step > 0 else 'before'}", {"name": names[at]}),
        (part,),
        (Step("months-go-on" if numbers["k"] else "day-names-go-on", {"name": before, "next": after}),),
        errors,
        None,
        0.2 + 0.2 * (step < 0) + 0.2 * numbers["k"],
    )


def _order(numbers: Numbers) -> Made:
    """Four names in a row of the week or the year, mixed: 1 for the first of them."""
    names, first = _names(numbers), numbers["n"] - 1
    mixes = [mix for mix in permutations(range(_CARDS)) if mix[0] != 0 and mix[-1] != _CARDS - 1]
    mix = mixes[(seed_from("mix", numbers["k"], first) + 5 * numbers["q"]) % len(mixes)]
    tokens: list[Token] = []
    for gap, place in enumerate(mix, start=1):
        tokens += [Gap(str(gap)), Word(names[first + place])]
    return Made(
        Row(tuple(tokens)),
        tuple(Part(str(gap), "digits", str(place + 1), 1) for gap, place in enumerate(mix, start=1)),
        (
            Step("first-is", {"name": names[first]}),
            *(
                Step(
                    "months-go-on" if numbers["k"] else "day-names-go-on",
                    {"name": names[first + place], "next": names[first + place + 1]},
                )
                for place in range(_CARDS - 1)
            ),
        ),
        {SWAPPED: " ".join(str(_CARDS - place) for place in mix)},
        None,
        0.4 + 0.2 * numbers["k"],
    )


def inside_week_or_year(numbers: Numbers) -> bool:
    """Four names that do not run past Saturday or December."""
    return numbers["n"] + _CARDS - 1 <= (12 if numbers["k"] else 7)


_ORDER, _MISSING, _ORAL = FormatId("order"), FormatId("missing"), FormatId("oral")

RULES: tuple[SkillRule, ...] = (
    SkillRule(
        SkillId("days-months-order"),
        formats={_ORDER: _order, _ORAL: _neighbour, _MISSING: _neighbour},
        fits={_ORDER: inside_week_or_year},
    ),
)
