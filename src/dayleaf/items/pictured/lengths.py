"""Lengths: compare by eye, measure with a printed ruler, find how much longer."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.core.seeds import seed_from
from dayleaf.items.choices import ring_one
from dayleaf.items.model import Figure, Gap, Option, Part, Question, Row, Step, Word
from dayleaf.items.pictured.letters import LETTERS
from dayleaf.items.pictured.word_stories import LONGER, in_words, solving_steps
from dayleaf.items.rule import Made, SkillRule

if TYPE_CHECKING:
    from collections.abc import Mapping

    from dayleaf.items.model import Token
    from dayleaf.items.rule import Numbers

CHOOSE, MEASURE, ORDER = FormatId("choose"), FormatId("measure"), FormatId("order")
_CM = Word("cm")
_LONGEST_RULER, _LONGEST_STRIP = 16, 15  # a longer ruler would not go between the margins of A4


# three things side by side


def _strips(numbers: Numbers) -> tuple[tuple[int, ...], tuple[int, ...]]:
    """Lengths and starts in centimetres; `s` says which strip is pushed past the end of the longest."""
    lengths = (numbers["a"], numbers["b"], numbers["c"])
    pushed = sorted(lengths)[numbers["s"] - 1] if numbers["s"] else 0
    starts = tuple(max(lengths) + 1 - length if length == pushed else 0 for length in lengths)
    return lengths, starts


def _strip_figure(lengths: tuple[int, ...], starts: tuple[int, ...]) -> Figure:
    return Figure(
        "objects-line",
        {"lengths": tuple(10 * n for n in lengths), "starts": tuple(10 * n for n in starts), "question": 1},
    )


def _ring_strip(numbers: Numbers) -> Made:
    lengths, starts = _strips(numbers)
    ends = tuple(start + length for start, length in zip(starts, lengths, strict=True))
    which = max if numbers["k"] == 0 else min
    right, by_end = LETTERS[lengths.index(which(lengths))], LETTERS[ends.index(which(ends))]
    way = ErrorWayId("ends-not-lined")
    options = tuple(Option(letter, way if letter == by_end != right else None) for letter in LETTERS[:3])
    return Made(
        Question("ring-longest" if numbers["k"] == 0 else "ring-shortest"),
        (Part("1", "choice", right, options=options),),
        (Step("line-up-ends"),),
        {way: by_end},
        _strip_figure(lengths, starts),
        0.2 if not any(starts) else 0.7,
    )


def _ranks(sizes: tuple[int, ...]) -> tuple[str, ...]:
    return tuple(str(sorted(sizes).index(size) + 1) for size in sizes)


def _order_strips(numbers: Numbers) -> Made:
    lengths, starts = _strips(numbers)
    ends = tuple(start + length for start, length in zip(starts, lengths, strict=True))
    tokens: list[Token] = []
    for i in range(3):
        tokens += [LETTERS[i].upper(), Gap(str(i + 1))]
    return Made(
        Row(tuple(tokens)),
        tuple(Part(str(i + 1), "digits", rank, 1) for i, rank in enumerate(_ranks(lengths))),
        (Step("line-up-ends"),),
        {ErrorWayId("ends-not-lined"): " ".join(_ranks(ends))},
        _strip_figure(lengths, starts),
        0.3 if not any(starts) else 0.8,
    )


def _shortest_first(numbers: Numbers) -> bool:
    return numbers["k"] == 0


# a strip above a printed ruler


def _ruler(start: int, end: int) -> Figure:
    length = min(_LONGEST_RULER, max(10, end + 2))
    return Figure("ruler-cm", {"length": length, "start": start, "end": end, "question": 1})


def _measured(start: int, length: int, errors: Mapping[str, int], difficulty: float) -> Made:
    end = start + length
    step = (
        Step("zero-at-end", {"n": length})
        if start == 0
        else Step("from-to-spaces", {"start": start, "end": end, "result": length})
    )
    return Made(
        Row((Gap("1"), _CM)),
        (Part("1", "digits", str(length), 2),),
        (step,),
        {ErrorWayId(way): str(wrong) for way, wrong in errors.items()},
        _ruler(start, end),
        difficulty,
    )


def _measure(numbers: Numbers) -> Made:
    n = numbers["n"]
    return _measured(0, n, {"starts-at-one": n + 1}, 0.2 + 0.03 * n)


def _mend_measure(numbers: Numbers) -> Made:
    n = numbers["n"]
    made = _measured(1, n, {"starts-at-one": n + 1}, 0.7)
    return Made(
        Question("fix-measure", {"shown": n + 1}), made.parts, made.steps, made.errors, made.figure, made.difficulty
    )


def _fits_the_page(numbers: Numbers) -> bool:
    return numbers["n"] <= _LONGEST_STRIP


def _broken_ruler(numbers: Numbers) -> Made:
    s, n = numbers["s"], numbers["n"]
    return _measured(s, n, {"reads-end-mark": s + n, "counts-marks-not-spaces": n + 1}, min(1.0, 0.2 + 0.05 * (s + n)))


def _broken_ruler_ring(numbers: Numbers) -> Made:
    made = _broken_ruler(numbers)
    part = ring_one(made.parts[0].answer, made.errors, turn=seed_from("ends", numbers["s"], numbers["n"]))
    return Made(Question("how-long-cm"), (part,), made.steps, made.errors, made.figure, made.difficulty)


def _starts_past_one(numbers: Numbers) -> bool:
    return numbers["s"] > 1


# draw a line


def _draw_line(numbers: Numbers) -> Made:
    n = numbers["n"]
    return Made(Question("draw-line-cm", {"n": n}), (Part("1", "look", ""),), (Step("zero-at-end", {"n": n}),))


def _stop_mark(numbers: Numbers) -> Made:
    """A line that begins at 2 or 3 on the ruler: where does it stop?"""
    n = numbers["n"]
    start = 2 + n % 2
    errors = {
        ErrorWayId("draws-from-one"): str(n),
        # the same habit as in measuring: n marks have n - 1 spaces, so what is drawn is one short
        ErrorWayId("counts-marks-not-spaces"): str(start + n - 1),
    }
    return Made(
        Question("stop-mark", {"start": start, "n": n}),
        (ring_one(str(start + n), errors, turn=seed_from("stop", n)),),
        (Step("from-to-spaces", {"start": start, "end": start + n, "result": n}),),
        errors,
        Figure("ruler-cm", {"length": min(_LONGEST_RULER, max(10, start + n + 3)), "question": 1}),
        0.6,
    )


def _line_past_start(numbers: Numbers) -> bool:
    return numbers["n"] >= 4


# how much longer


def _two_strips(numbers: Numbers) -> Made:
    a, b = numbers["a"], numbers["b"]
    shown = (a, b) if seed_from("strips", a, b) % 2 else (b, a)
    lengths = " ".join(str(n) for n in shown)
    cell, values = LONGER.tell(numbers)
    tokens: tuple[Token, ...] = ("A", Gap("1"), _CM, "B", Gap("2"), _CM, Word("longer-by"), Gap("3"), _CM)
    return Made(
        Row(tokens),
        tuple(Part(str(i + 1), "digits", str(n), 2) for i, n in enumerate((*shown, a - b))),
        solving_steps(cell, values, "cm"),
        {
            ErrorWayId("gives-longer"): f"{lengths} {a}",
            ErrorWayId("more-means-add"): f"{lengths} {a + b}",
        },
        _strip_figure(shown, (0, 0)),
        min(1.0, 0.3 + 0.02 * (a + b)),
    )


def _strips_fit(numbers: Numbers) -> bool:
    return numbers["a"] <= _LONGEST_STRIP


def _length_row(numbers: Numbers) -> Made:
    a, b = numbers["a"], numbers["b"]
    return Made(
        Row((a, _CM, "-", b, _CM, "=", Gap("1"), _CM)),
        (Part("1", "digits", str(a - b), 2),),
        (Step("write-take-away", {"a": a, "b": b, "result": a - b}),),
        {ErrorWayId("gives-longer"): str(a), ErrorWayId("more-means-add"): str(a + b)},
        None,
        min(1.0, 0.2 + 0.02 * (a + b)),
    )


RULES: tuple[SkillRule, ...] = (
    SkillRule(
        SkillId("length-compare-order"),
        formats={ORDER: _order_strips, CHOOSE: _ring_strip},
        fits={ORDER: _shortest_first},
    ),
    SkillRule(
        SkillId("measure-length-cm"),
        formats={MEASURE: _measure, FormatId("fix"): _mend_measure},
        fits={MEASURE: _fits_the_page, FormatId("fix"): _fits_the_page},
    ),
    SkillRule(
        SkillId("ruler-not-from-zero"),
        formats={MEASURE: _broken_ruler, CHOOSE: _broken_ruler_ring},
        fits={CHOOSE: _starts_past_one},
    ),
    SkillRule(
        SkillId("draw-length-cm"),
        formats={FormatId("draw-len"): _draw_line, CHOOSE: _stop_mark},
        fits={CHOOSE: _line_past_start},
    ),
    SkillRule(
        SkillId("length-difference"),
        formats={MEASURE: _two_strips, FormatId("word1"): in_words(LONGER), FormatId("horiz"): _length_row},
        fits={MEASURE: _strips_fit},
    ),
)
