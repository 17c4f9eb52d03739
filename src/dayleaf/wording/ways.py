"""Error ways in words for the parent: the habit, and what to try next."""

from __future__ import annotations

import tomllib
from functools import cache
from typing import TYPE_CHECKING, Any

from dayleaf.wording.tables import CONTENT, NoWords, has, phrase

if TYPE_CHECKING:
    from collections.abc import Mapping

    from dayleaf.core.ids import ErrorWayId


@cache
def _english() -> Mapping[str, Mapping[str, Any]]:
    return tomllib.loads((CONTENT / "error_ways.toml").read_text("utf-8"))


def _said(error_way: ErrorWayId, field: str, section: str, lang: str) -> str:
    if has(section, error_way, lang):
        return phrase(section, error_way, lang)
    if lang == "en" and error_way in _english():
        return str(_english()[error_way][field])
    raise NoWords(code=error_way, lang=lang)


def way_phrase(error_way: ErrorWayId, lang: str) -> str:
    """Completes "the same habit: …", as in "taking the smaller digit from the larger".

    Raises:
        NoWords: the way has no phrase in this language.
    """
    return _said(error_way, "phrase", "way", lang)


def try_next(error_way: ErrorWayId, lang: str) -> str:
    """One sentence on what to do about it.

    Raises:
        NoWords: the way has none in this language.
    """
    return _said(error_way, "try_next", "try-next", lang)
