"""The steps of a key. Their codes and the names of their values stand in `items.codes`."""

from __future__ import annotations

from functools import lru_cache

from dayleaf.items.codes import STEPS
from dayleaf.items.model import Step


@lru_cache(maxsize=16384)
def step(code: str, *values: int) -> Step:
    """One step; the values come in the order in which `codes.STEPS` names them.

    Steps are remembered because most of them speak of single digits and come again and again.
    """
    return Step(code, dict(zip(STEPS[code], values, strict=True)))


@lru_cache(maxsize=16384)
def adding_digits(a: int, b: int) -> tuple[Step, ...]:
    """The written way to add two numbers of at most two digits: ones, trade if there is a ten, tens."""
    ones = a % 10 + b % 10
    tens_a, tens_b = a // 10, b // 10
    first = step("add-ones", a % 10, b % 10, ones)
    if ones < 10:
        then = step("add-tens", tens_a, tens_b, tens_a + tens_b) if tens_b else step("tens-stay", tens_a)
        return (first, then, step("sum-is", a, b, a + b))
    return (
        first,
        step("trade-ten", ones, ones - 10),
        step("add-tens-and-new", tens_a, tens_b, tens_a + tens_b + 1),
        step("sum-is", a, b, a + b),
    )


@lru_cache(maxsize=16384)
def taking_digits(top: int, bottom: int) -> tuple[Step, ...]:
    """The written way to take away: look at the ones, open a ten if they are too few, ones, tens, check."""
    tens, ones = divmod(top, 10)
    take_tens, take_ones = divmod(bottom, 10)
    looked: tuple[Step, ...]
    if ones >= take_ones:
        looked = (step("enough-ones", ones, take_ones),)
    else:
        looked = (step("too-few-ones", ones, take_ones), step("open-ten", tens, tens - 1, ones + 10))
        tens, ones = tens - 1, ones + 10
    return (
        *looked,
        step("take-ones", ones, take_ones, ones - take_ones),
        step("take-tens", tens, take_tens, tens - take_tens) if take_tens else step("tens-stay", tens),
        step("check-by-adding", top - bottom, bottom, top),
    )
