"""Names of whole numbers, as a child says them in school."""

from __future__ import annotations

from functools import cache

from dayleaf.wording.tables import NoWords, entry


def _words(kind: str, lang: str) -> list[str]:
    return list(entry("number", kind, lang))


def _english(n: int) -> str:
    ones, tens = _words("ones", "en"), _words("tens", "en")
    if n < 20:
        return ones[n]
    if n < 100:
        ten, one = divmod(n, 10)
        return tens[ten] + (f"-{ones[one]}" if one else "")
    unit, name = (100, "hundred") if n < 1000 else (1000, "thousand")
    head, rest = divmod(n, unit)
    return f"{_english(head)} {name}" + (f" {_english(rest)}" if rest else "")


def _spanish(n: int) -> str:
    ones = _words("ones", "es")
    if n < 30:
        return ones[n]
    if n < 100:
        ten, one = divmod(n, 10)
        return _words("tens", "es")[ten] + (f" y {ones[one]}" if one else "")
    if n == 100:
        return "cien"
    if n < 1000:
        head, rest = divmod(n, 100)
        return _words("hundreds", "es")[head] + (f" {_spanish(rest)}" if rest else "")
    head, rest = divmod(n, 1000)
    return ("mil" if head == 1 else f"{ones[head]} mil") + (f" {_spanish(rest)}" if rest else "")


@cache
def number_name(n: int, lang: str) -> str:
    """The name of a whole number from 0 to 9999, in English to 99999.

    English as US schools say it, with a hyphen and without "and": three hundred forty-two. Spanish
    as the counting word that stands alone: treinta y uno.

    Raises:
        NoWords: the number is outside that range, or there is no such language.

    >>> number_name(342, "en")
    'three hundred forty-two'
    """
    names = {"en": _english, "es": _spanish}
    most = {"en": 99_999, "es": 9999}
    if lang not in names or not 0 <= n <= most[lang]:
        raise NoWords(code=f"number {n}", lang=lang)
    return names[lang](n)
