"""Options to ring or tick, each wrong one the answer of an error way."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.items.model import Option, Part

if TYPE_CHECKING:
    from collections.abc import Mapping

    from dayleaf.core.ids import ErrorWayId


def ring_one(answer: str, wrong: Mapping[ErrorWayId, str], *, turn: int, part: str = "1") -> Part:
    """A choice of the right answer and each different wrong one.

    `turn` decides where the right answer stands, so that it does not always stand first. Two ways with the
    same wrong answer share one option, named by the first of them.
    """
    codes: dict[str, ErrorWayId | None] = {answer: None}
    for way, code in wrong.items():
        codes.setdefault(code, way)
    options = [Option(code, way) for code, way in codes.items()]
    shift = turn % len(options)
    return Part(part, "choice", answer, options=tuple(options[shift:] + options[:shift]))


def ring_fixed(answer: str, codes: tuple[str, ...], wrong: Mapping[ErrorWayId, str], part: str = "1") -> Part:
    """A choice between options that always stand in the same order (true or not true, even or odd)."""
    by_code = {code: way for way, code in reversed(tuple(wrong.items())) if code != answer}
    return Part(part, "choice", answer, options=tuple(Option(code, by_code.get(code)) for code in codes))
