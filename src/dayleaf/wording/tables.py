"""The tables of words, one file a language, and the lookups in them."""

from __future__ import annotations

import tomllib
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from dayleaf.core.errors import DayleafError

if TYPE_CHECKING:
    from collections.abc import Mapping

CONTENT: Final = Path(__file__).resolve().parent.parent / "content"
LANGUAGES: Final = ("en", "es")


class NoWords(DayleafError):
    """A code that a language has no words for."""

    def __init__(self, *, code: str, lang: str) -> None:
        self.code, self.lang = code, lang
        super().__init__(f"There are no words for “{code}” in the language “{lang}”.")


class UnknownLanguage(DayleafError):
    """A language that Dayleaf does not speak."""

    def __init__(self, lang: str) -> None:
        self.lang = lang
        super().__init__(f"Dayleaf does not speak “{lang}” yet; it speaks {' and '.join(LANGUAGES)}.")


@cache
def table(lang: str) -> Mapping[str, Mapping[str, Any]]:
    """Everything said in one language, section by section.

    Raises:
        UnknownLanguage: there is no such language.
    """
    if lang not in LANGUAGES:
        raise UnknownLanguage(lang)
    data: dict[str, dict[str, Any]] = tomllib.loads((CONTENT / "wording" / f"{lang}.toml").read_text("utf-8"))
    nouns = tomllib.loads((CONTENT / "nouns" / f"{lang}.toml").read_text("utf-8"))
    data["noun"] = {**nouns, **data.get("noun", {})}
    return data


def has(section: str, code: str, lang: str) -> bool:
    """Whether a section has this code."""
    return code in table(lang).get(section, {})


def entry(section: str, code: str, lang: str) -> Any:
    """What stands under a code: a text, a table or a list.

    Raises:
        NoWords: nothing does.
    """
    try:
        return table(lang)[section][code]
    except KeyError:
        raise NoWords(code=f"{section}.{code}", lang=lang) from None


def phrase(section: str, code: str, lang: str) -> str:
    """The text under a code.

    Raises:
        NoWords: there is none.
    """
    return str(entry(section, code, lang))
