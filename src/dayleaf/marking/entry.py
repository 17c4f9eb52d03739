"""What a parent says about a sheet: all right, except these; these with help; this one left out; stopped here."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from dayleaf.core.errors import BadInput, Problem
from dayleaf.marking.answer import NotAnAnswer, asked_items, read_typed, same_answer

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from dayleaf.marking.answer import AskedItem
    from dayleaf.sheets.model import PageMap


@dataclass(frozen=True, slots=True)
class Entry:
    """A marking by exception: every item is right but those named here.

    `wrong` gives what the child wrote, as typed, None where only the number was said. `reached` is the
    last item the child came to; None means that the child came to the end.
    """

    wrong: Mapping[int, str | None] = field(default_factory=dict)
    blank: frozenset[int] = frozenset()
    helped: frozenset[int] = frozenset()
    reached: int | None = None


def parse_entry(
    pages: Sequence[PageMap], *, right_except: str = "", reached: int | None = None, helped: str = "", blank: str = ""
) -> Entry:
    """The entry that a line such as `3=36,7=66` and its companions mean for this sheet.

    `right_except` lists numbers with or without what was written; `helped` and `blank` list numbers. Commas,
    semicolons and line ends part them.

    Raises:
        BadInput: something does not fit the sheet; every problem is listed.
    """
    problems: list[Problem] = []
    wrong: dict[int, str | None] = {}
    for chunk in _chunks(right_except):
        number, sign, typed = chunk.partition("=")
        n = _number(number, where="right except", problems=problems)
        if n is None:
            continue
        if n in wrong:
            problems.append(Problem(f"item {n}", "is named twice among the wrong ones; keep one"))
            continue
        if sign and not typed.strip():
            problems.append(Problem(f"item {n}", f"says nothing after “=”; write {n} alone or what the child wrote"))
        wrong[n] = typed.strip() or None
    entry = Entry(
        wrong=wrong,
        blank=_numbers(blank, where="blank", problems=problems),
        helped=_numbers(helped, where="helped", problems=problems),
        reached=reached,
    )
    problems += entry_problems(pages, entry)
    if problems:
        raise BadInput(problems)
    return entry


def entry_problems(pages: Iterable[PageMap], entry: Entry) -> tuple[Problem, ...]:
    """Everything in the entry that cannot be so on this sheet, in the order of the items."""
    asked = asked_items(pages)
    problems: list[Problem] = []
    if entry.reached is not None and not 0 <= entry.reached <= max(asked, default=0):
        problems.append(Problem("reached", f"is {entry.reached}; this sheet has the items {_range(asked)}"))
    for n in sorted({*entry.wrong, *entry.blank, *entry.helped}):
        problems += [Problem(f"item {n}", message) for message in _item_problems(n, asked=asked, entry=entry)]
    return tuple(problems)


def _item_problems(n: int, *, asked: Mapping[int, AskedItem], entry: Entry) -> list[str]:
    if n not in asked:
        return [f"is not on this sheet; it has the items {_range(asked)}"]
    found = []
    if n in entry.wrong and n in entry.blank:
        found.append("is both answered and blank; keep one")
    if n in entry.helped and n in entry.blank:
        found.append("is both helped and blank; keep one")
    if entry.reached is not None and 0 <= entry.reached < n:
        found.append(f"comes after the last item reached, {entry.reached}")
    typed = entry.wrong.get(n)
    if typed is not None:
        try:
            if same_answer(read_typed(asked[n], typed), asked[n].item.answer):
                found.append(f"{typed} is the right answer; leave the item out if the child wrote it")
        except NotAnAnswer as misfit:
            found.append(str(misfit))
    return found


def _range(asked: Mapping[int, AskedItem]) -> str:
    return f"{min(asked)} to {max(asked)}" if asked else "of no number"


def _chunks(text: str) -> list[str]:
    return [chunk.strip() for chunk in text.replace(";", ",").replace("\n", ",").split(",") if chunk.strip()]


def _number(text: str, *, where: str, problems: list[Problem]) -> int | None:
    word = text.strip()
    if not (word.isascii() and word.isdigit()):
        problems.append(Problem(where, f"“{word}” is not an item's number"))
        return None
    return int(word)


def _numbers(text: str, *, where: str, problems: list[Problem]) -> frozenset[int]:
    read = [_number(chunk, where=where, problems=problems) for chunk in _chunks(text)]
    return frozenset(n for n in read if n is not None)
