"""The furniture of a page: headings, margin words, the lines that every sheet has."""

from __future__ import annotations

from dayleaf.wording.tables import phrase


def page_word(code: str, lang: str) -> str:
    """The word of a page for a code such as Date, "You are done", Say or title-own.

    Raises:
        NoWords: the language has none.
    """
    return phrase("page", code, lang)
