"""What the records pages show: days of a month, the grade book's form, files to make."""

from __future__ import annotations

from calendar import monthrange
from datetime import date, timedelta
from typing import TYPE_CHECKING, Any, Final

from django.utils.formats import date_format
from django.utils.translation import gettext, gettext_lazy, ngettext

from dayleaf.core.errors import BadInput, Problem
from dayleaf.packets.reports import hours_said
from dayleaf.records.gradebook import LETTERS, WORDS, Scale, grade, said

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from dayleaf.records.attendance import DayThere, Totals
    from dayleaf.records.gradebook import Entry

MOST_LINES: Final = 20


def month_asked(text: str, *, today: date) -> tuple[date, date]:
    """The first and last day of the month written as 2027-01; of today's where it is not one."""
    try:
        first = date.fromisoformat(f"{text}-01") if text else today.replace(day=1)
    except ValueError:
        first = today.replace(day=1)
    return first, first.replace(day=monthrange(first.year, first.month)[1])


def shown_month(days: Sequence[DayThere], found: Totals, *, first: date, last: date, today: date) -> dict[str, Any]:
    """A month of attendance: its sentence, its days, the months beside it."""
    following = last + timedelta(days=1)
    return {
        "heading": f"{date_format(first, 'F Y')}: {days_sentence(found)}",
        "days": [
            {
                "day": one.day,
                "iso": one.day.isoformat(),
                "known": str(KNOWN[one.known]),
                "open": one.known == "not known",
                "because": str(BECAUSE[one.because]),
                "minutes": one.minutes,
                "subjects": one.subjects,
            }
            for one in reversed(days)
        ],
        "sums": [{"title": title, "time": hours_said(total), "days": n} for title, (total, n) in found.minutes.items()],
        "before": f"{first - timedelta(days=1):%Y-%m}",
        "after": f"{following:%Y-%m}" if following <= today else "",
        "month": f"{first:%Y-%m}",
        "newest": min(last, today).isoformat(),
        "today": today.isoformat(),
    }


def days_sentence(found: Totals) -> str:
    """How many days were there, not there and unknown."""
    there = ngettext("%(n)s day there", "%(n)s days there", found.there) % {"n": found.there}
    away = gettext("%(n)s not there") % {"n": found.not_there}
    unknown = ngettext("of %(n)s day nothing is known", "of %(n)s days nothing is known", found.not_known)
    return ", ".join((there, away, *((unknown % {"n": found.not_known},) if found.not_known else ())))


KNOWN: Final = {
    "there": gettext_lazy("there"),
    "not there": gettext_lazy("not there"),
    "not known": gettext_lazy("nothing is known"),
}
BECAUSE: Final = {
    "said": gettext_lazy("as you said"),
    "taught": gettext_lazy("a lesson was done"),
    "marked": gettext_lazy("a sheet was marked"),
    "another subject": gettext_lazy("another subject was done"),
    "": "",
}


def shown_grades(scale: Scale, entries: Sequence[Entry]) -> dict[str, Any]:
    """The grade, its entries, and the form with what holds now."""
    found = grade(scale, entries)
    kinds = (
        ("none", gettext("No grades")),
        ("percent", gettext("Percent")),
        ("letters", gettext("Letters")),
        ("words", gettext("Words")),
    )
    return {
        "said": found.said,
        "kept": scale.kind != "none",
        "kinds": [{"value": value, "title": title, "on": scale.kind == value} for value, title in kinds],
        "scale": scale,
        "letters": steps_written(scale.steps if scale.kind == "letters" else LETTERS),
        "words": steps_written(scale.steps if scale.kind == "words" else WORDS),
        "entries": [
            {
                "id": one.id,
                "day": one.day,
                "title": one.title,
                "test": one.kind == "test",
                "right": one.right,
                "of": one.of,
                "said": said(scale, one.share),
                "counts": one.id not in scale.left_out,
                "dropped": one.id in found.dropped,
            }
            for one in reversed(entries)
        ],
    }


def steps_written(steps: Sequence[tuple[int, str]]) -> str:
    """The steps as a family writes them, one a line: “90 A”."""
    return "\n".join(f"{least} {word}" for least, word in steps)


def scale_asked(form: Mapping[str, Any], ids: Sequence[str], out: Sequence[str]) -> Scale:
    """The scale of a sent form; `out` are the entries that were ticked to be left out.

    Raises:
        BadInput: with every line that cannot be read.
    """
    kind = form.get("kind", "none")
    if kind not in {"none", "percent", "letters", "words"}:
        raise BadInput([Problem(gettext("grades"), gettext("choose one of the four"))])
    problems: list[Problem] = []
    numbers = {name: _whole(str(form.get(name, "")), name, problems) for name in WHOLE}
    steps = _steps(str(form.get(kind, "")), problems) if kind in {"letters", "words"} else ()
    if problems:
        raise BadInput(problems)
    return Scale(kind=kind, steps=steps, left_out=frozenset(set(ids) & set(out)), **numbers)


WHOLE: Final = ("test", "sheet", "drop_test", "drop_sheet")


def _whole(text: str, name: str, problems: list[Problem]) -> int:
    text = text.strip() or "0"
    if text.isascii() and text.isdigit() and len(text) < 6:
        return int(text)
    problems.append(Problem(name.replace("_", " "), gettext("write a whole number")))
    return 0


def _steps(text: str, problems: list[Problem]) -> tuple[tuple[int, str], ...]:
    steps = []
    for line in text.splitlines()[:MOST_LINES]:
        least, _, word = line.strip().partition(" ")
        if not least:
            continue
        if not (least.isascii() and least.isdigit() and len(least) < 4) or not word.strip():
            problems.append(Problem(f"“{line.strip()}”", gettext("write the least percent and then the word, as 90 A")))
            continue
        steps.append((int(least), word.strip()))
    return tuple(steps)
