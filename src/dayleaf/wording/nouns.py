"""Nouns: one and many, with their articles."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Final

from dayleaf.wording.tables import NoWords, entry, has

_AN: Final = ("a", "e", "i", "o", "u", "hour", "honest")
_A: Final = ("uni", "use", "eu", "one")


@dataclass(frozen=True, slots=True)
class Noun:
    """A noun in both numbers; `gender` is m or f where the language has one, else empty."""

    one: str
    many: str
    gender: str = ""


@cache
def noun(code: str, lang: str) -> Noun:
    """The noun of a code; a unit is a noun too.

    Raises:
        NoWords: the language has no noun for it.
    """
    section = "noun" if has("noun", code, lang) else "word"
    if not has(section, code, lang):
        raise NoWords(code=f"noun.{code}", lang=lang)
    said = entry(section, code, lang)
    if isinstance(said, str):
        return Noun(said, said)
    return Noun(said["one"], said["many"], said.get("gender", ""))


def counted(n: int, code: str, lang: str) -> str:
    """A number of things: "1 egg", "12 eggs"."""
    said = noun(code, lang)
    return f"{n} {said.one if n == 1 else said.many}"


def with_article(code: str, lang: str, *, definite: bool = False) -> str:
    """One thing with its article: "an egg", "the egg"; "un huevo", "la manzana"."""
    said = noun(code, lang)
    if lang == "es":
        article = {"f": ("una", "la")}.get(said.gender, ("un", "el"))[definite]
        return f"{article} {said.one}"
    if definite:
        return f"the {said.one}"
    vowel = said.one.startswith(_AN) and not said.one.startswith(_A)
    return f"{'an' if vowel else 'a'} {said.one}"
