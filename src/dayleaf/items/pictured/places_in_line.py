"""Place words: boats in a line counted from a bridge, and the place words of dates."""

from __future__ import annotations

from calendar import monthrange, weekday
from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.core.seeds import seed_from
from dayleaf.items.choices import ring_fixed
from dayleaf.items.model import Figure, Gap, Option, Part, Question, Row, Step, Word
from dayleaf.items.pictured.almanac_codes import WEEKDAYS
from dayleaf.items.pictured.letters import LETTERS
from dayleaf.items.pictured.months import MONTHS
from dayleaf.items.rule import Made, SkillRule

if TYPE_CHECKING:
    from collections.abc import Iterable

    from dayleaf.items.rule import Numbers

WRONG_END, AS_COUNT = ErrorWayId("wrong-end"), ErrorWayId("ordinal-as-count")
ENDING = ErrorWayId("ending-wrong")
_SIDES = ("left", "right")
ENDINGS = ("st", "nd", "rd", "th")


def from_other_end(n: int, *, of: int) -> int:
    """The place that the n-th thing has when it is counted from the wrong end.

    >>> from_other_end(4, of=9)
    6
    """
    return of + 1 - n


def ending(n: int) -> str:
    """What is written after the numeral of a place: 1st, 2nd, 3rd, 4th, but 11th, 12th, 13th."""
    if n % 100 in {11, 12, 13}:
        return "th"
    return {1: "st", 2: "nd", 3: "rd"}.get(n % 10, "th")


def _boats(numbers: Numbers, *, rings: Iterable[int] = (), arrow: int = 0) -> Figure:
    """Rings and arrow are counted from the bridge, wherever it stands."""
    params: dict[str, int | str | tuple[int, ...]] = {"n": numbers["m"], "end": _SIDES[numbers["e"]]}
    return Figure("scene", {**params, "rings": tuple(rings), "arrow": arrow, "question": 1})


def _which_boat(numbers: Numbers) -> Made:
    m, n = numbers["m"], numbers["n"]
    return Made(
        Question("which-from-bridge"),
        (Part("1", "digits", str(n), 2),),
        (Step("count-from-bridge", {"n": n}),),
        {WRONG_END: str(from_other_end(n, of=m))},
        _boats(numbers, arrow=n),
        min(1.0, 0.1 + 0.03 * n + 0.2 * numbers["e"]),
    )


def _which_picture(numbers: Numbers) -> Made:
    """The boat asked for ringed, the one at the same place from the other end, and as many boats as the word says."""
    m, n = numbers["m"], numbers["n"]
    shown: dict[tuple[int, ...], ErrorWayId | None] = {
        (n,): None,
        (from_other_end(n, of=m),): WRONG_END,
        tuple(range(1, n + 1)): AS_COUNT,
    }
    order = sorted(shown, key=lambda rings: seed_from("ringed", m, n, numbers["e"], *rings))
    letter = dict(zip(order, LETTERS, strict=False))
    return Made(
        Question("ringed-from-bridge", {"n": n, "m": m, "e": numbers["e"]}),
        (
            Part(
                "1",
                "choice",
                letter[(n,)],
                options=tuple(Option(letter[rings], shown[rings], _boats(numbers, rings=rings)) for rings in order),
            ),
        ),
        (Step("count-from-bridge", {"n": n}),),
        {way: letter[rings] for rings, way in shown.items() if way is not None},
        None,
        min(1.0, 0.2 + 0.04 * n),
    )


def ends_differ(numbers: Numbers) -> bool:
    """Short lines, so that three of them stand under each other; the place is not the same from both ends."""
    m, n = numbers["m"], numbers["n"]
    return m <= 10 and n >= 2 and 2 * n != m + 1


# dates


def _in_digits(numbers: Numbers) -> Made:
    """twenty-third = [2][3], and the ending to ring."""
    n = numbers["n"]
    right = ending(n)
    errors = {ENDING: f"{n} th"}
    return Made(
        Row((Word("order-name", n), "=", Gap("1"), Gap("2"))),
        (Part("1", "digits", str(n), 2), ring_fixed(right, ENDINGS, {ENDING: "th"}, "2")),
        (Step("ending-of", {"n": n, "ending": right}),),
        errors,
        None,
        0.2 + 0.3 * (right != "th") + 0.2 * (n > 20),
    )


def _on_the_page(numbers: Numbers) -> Made:
    """Which day of the week a date is, in a month where counting from the end would give another day."""
    n = numbers["n"]
    months = [
        (year, month)
        for year, month in MONTHS
        if n <= monthrange(year, month)[1] and (2 * n - monthrange(year, month)[1] - 1) % 7
    ]
    year, month = months[seed_from("page", n) % len(months)]
    day = weekday(year, month, n)
    wrong = weekday(year, month, from_other_end(n, of=monthrange(year, month)[1]))
    errors = {WRONG_END: WEEKDAYS[wrong]}
    return Made(
        Question("weekday-of-date", {"n": n}),
        (ring_fixed(WEEKDAYS[day], (*WEEKDAYS[6:], *WEEKDAYS[:6]), errors),),
        (Step("top-of-column", {"date": n, "w": WEEKDAYS[day]}),),
        errors,
        Figure("calendar", {"year": year, "month": month}),
        0.3 + 0.01 * n,
    )


_LABEL, _CHOOSE, _ORAL = FormatId("label"), FormatId("choose"), FormatId("oral")

RULES: tuple[SkillRule, ...] = (
    SkillRule(
        SkillId("ordinals-to-20"),
        formats={_LABEL: _which_boat, _ORAL: _which_boat, _CHOOSE: _which_picture},
        fits={_CHOOSE: ends_differ},
    ),
    SkillRule(
        SkillId("ordinals-dates-31"), formats={FormatId("words"): _in_digits, FormatId("calendar"): _on_the_page}
    ),
)
