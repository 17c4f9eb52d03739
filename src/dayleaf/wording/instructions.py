"""What to do, said to the child in at most twelve words, the verb first."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from dayleaf.items.model import Column, Row
from dayleaf.wording.languages import check_language
from dayleaf.wording.tables import has, phrase

if TYPE_CHECKING:
    from collections.abc import Iterable

    from dayleaf.items.model import Item

_SIGNS: Final = frozenset("+-×÷")
_OWN_WORDS: Final = frozenset({"sign", "tf", "match", "oral", "build", "explain"})
"""Formats that are told for themselves, whatever is rung or ticked."""


def _sign(item: Item) -> str:
    """The one sign of a row or column, or nothing."""
    if isinstance(item.prompt, Column):
        return item.prompt.sign
    if isinstance(item.prompt, Row):
        signs = {token for token in item.prompt.tokens if isinstance(token, str) and token in _SIGNS}
        return signs.pop() if len(signs) == 1 else ""
    return ""


def _codes(item: Item) -> tuple[str, ...]:
    """What may stand in the table for this item, most special first."""
    kinds = {part.kind for part in item.parts}
    only = next(iter(kinds)) if len(kinds) == 1 else ""
    sign = _sign(item)
    special = [f"{item.format}.{mark}" for mark in (sign, only) if mark]
    by_kind = [only] if only in {"choice", "many"} and item.format not in _OWN_WORDS else []
    return (f"{item.skill}.{item.format}", *special, *by_kind, item.format, "any")


def instruction_for(item: Item, lang: str) -> str:
    """What to do with one item.

    Raises:
        NotInThisLanguage: the skill has no words in this language.
        NoWords: nor has the format.
    """
    check_language(item.skill, lang)
    code = next((code for code in _codes(item) if has("instruction", code, lang)), item.format)
    return phrase("instruction", code, lang)


def instruction_for_many(items: Iterable[Item], lang: str) -> str:
    """One instruction for all of the items: theirs if they agree, else a wider one."""
    chosen = tuple(items)
    said = dict.fromkeys(instruction_for(item, lang) for item in chosen)
    if len(said) == 1:
        return next(iter(said))
    formats = {item.format for item in chosen}
    wider = f"{formats.pop()}.mixed" if len(formats) == 1 else "any"
    return phrase("instruction", wider if has("instruction", wider, lang) else "any", lang)
