"""Slots of a guide: found, filled, and refused when they are none."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dayleaf.course.slots import Slot, SlotNotUnderstood, fill, slots_in


def test_slots_are_found_in_their_order_with_their_parts() -> None:
    slots = slots_in("{child}: {show.1.a} − {show.1.b.ones} = {together.12.error.ten-not-reduced}, not {own.3.answer}")

    assert slots == (
        Slot("child"),
        Slot("show", 1, "a"),
        Slot("show", 1, "b.ones"),
        Slot("together", 12, "error.ten-not-reduced"),
        Slot("own", 3, "answer"),
    )
    assert [slot.variable for slot in slots] == [None, "a", "b", None, None]
    assert [slot.piece for slot in slots] == [None, None, "ones", None, None]
    assert [slot.error_way for slot in slots] == [None, None, None, "ten-not-reduced", None]


def test_filling_asks_for_each_slot_and_leaves_the_rest_as_it_stands() -> None:
    values = {"{child}": "Ivo", "{show.1.a}": "62"}

    assert fill("{child} builds {show.1.a}.", lambda slot: values[str(slot)]) == "Ivo builds 62."


def test_what_is_filled_in_is_not_read_again() -> None:
    assert fill("{child}", lambda _: "{show.1.a}") == "{show.1.a}"


@pytest.mark.parametrize(
    "text",
    [
        "{}",
        "{Child}",
        "{child.1}",
        "{show.a}",
        "{show.0.a}",
        "{show.1}",
        "{show.1.A}",
        "{shown.1.a}",
        "{show.1.a.b.c}",
        "{show.1.a",
        "show.1.a}",
        "{{child}}",
        "{ child }",
    ],
)
def test_braces_around_anything_else_are_refused(text: str) -> None:
    with pytest.raises(SlotNotUnderstood, match="is not a slot"):
        slots_in(text)
    with pytest.raises(SlotNotUnderstood):
        fill(text, lambda _: "")


@given(st.text(st.characters(exclude_characters="{}")), st.integers(1, 99), st.sampled_from(["a", "n.tens", "text"]))
def test_text_around_a_slot_survives_any_filling(around: str, n: int, name: str) -> None:
    slot = Slot("show", n, name)

    assert slots_in(f"{around}{slot}{around}") == (slot,)
    assert fill(f"{around}{slot}{around}", lambda _: "7") == f"{around}7{around}"
