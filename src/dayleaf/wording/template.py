"""Sentences with places to fill. The grammar of the places stands at the top of content/wording/en.toml."""

from __future__ import annotations

import re
from functools import cache
from typing import TYPE_CHECKING, Final

from dayleaf.wording.nouns import noun, with_article
from dayleaf.wording.numbers import number_name
from dayleaf.wording.tables import NoWords, phrase

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

MINUS: Final = "−"
_PLACE = re.compile(r"\{(\w+)(?::([^}]*))?\}")


def numeral(value: int | str) -> str:
    """A value as it is printed: a minus sign is a true one."""
    return str(value).replace("-", MINUS) if isinstance(value, int) else value


@cache
def _pieces(template: str) -> tuple[tuple[str, str, str], ...]:
    """(text before, name, form) for each place, the rest last with an empty name."""
    pieces, end = [], 0
    for found in _PLACE.finditer(template):
        pieces.append((template[end : found.start()], found[1], found[2] or ""))
        end = found.end()
    return (*pieces, (template[end:], "", ""))


@cache
def _plain(template: str) -> str | None:
    """The sentence for `str.format_map` where every place is only printed; None where one asks for a form."""
    said = ""
    for before, name, form in _pieces(template):
        if form:
            return None
        said += before.replace("{", "{{").replace("}", "}}") + (f"{{{name}}}" if name else "")
    return said


def places_of(template: str) -> frozenset[str]:
    """The names of the values that a sentence needs."""
    return frozenset(name for _, name, _ in _pieces(template) if name)


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]


_FORMS: Final[Mapping[str, Callable[[str, str], str]]] = {
    "one": lambda code, lang: noun(code, lang).one,
    "many": lambda code, lang: noun(code, lang).many,
    "Many": lambda code, lang: _capital(noun(code, lang).many),
    "a": with_article,
    "the": lambda code, lang: with_article(code, lang, definite=True),
    "a-solid": lambda code, lang: with_article("solid-box" if code == "box" else code, lang),
    "minutes": lambda code, _lang: code.zfill(2),
    "number": lambda code, lang: number_name(int(code), lang),
}
"""What a place may ask of its value, given as text; any other form is a section to look the value up in."""


def _picked(value: int | str, choices: str, lang: str) -> str:
    first, second = choices.split("/")
    other = value != 1 if isinstance(value, int) else noun(value, lang).gender == "f"
    return second if other else first


def _said(value: int | str, form: str, values: Mapping[str, int | str], lang: str) -> str:
    if not form:
        return numeral(value)
    if "/" in form:
        return _picked(value, form, lang)
    if form == "noun":
        return _FORMS["one" if value == 1 else "many"](str(values["noun"]), lang)
    if form in _FORMS:
        return _FORMS[form](str(value), lang)
    return phrase(form, str(value), lang)


def fill(template: str, values: Mapping[str, int | str], lang: str) -> str:
    """The sentence with its places filled; it begins with a capital letter if it began with a place.

    Raises:
        NoWords: a value is missing, or has no words in this language.
    """
    plain = _plain(template)
    if plain is not None and all(isinstance(value, str) or value >= 0 for value in values.values()):
        try:
            said = plain.format_map(values)
        except KeyError as missing:
            raise NoWords(code=f"{template}: {missing.args[0]}", lang=lang) from None
        return _capital(said) if template.startswith("{") else said
    said = ""
    for before, name, form in _pieces(template):
        said += before
        if name:
            if name not in values:
                raise NoWords(code=f"{template}: {name}", lang=lang)
            said += _said(values[name], form, values, lang)
    return _capital(said) if template.startswith("{") else said
