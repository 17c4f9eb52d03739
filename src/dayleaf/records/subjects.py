"""Other subjects as plain lines: a title, minutes if somebody counts them, done or not."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.db import transaction

from dayleaf.core.errors import BadInput, DayleafError, Problem
from dayleaf.records.ledgers import MOST_MINUTES, SubjectRow
from dayleaf.records.services import new_id
from dayleaf.sheets.fonts import ADULT_FACES, unprintable

if TYPE_CHECKING:
    from datetime import date

    from dayleaf.records.models import Learner

LONGEST = 80


class NoSuchLine(DayleafError):
    """No line of this child has that name."""

    def __init__(self) -> None:
        super().__init__("This line is not here any more.")


def subjects_of(learner: Learner, *, first: date, last: date) -> tuple[SubjectRow, ...]:
    """The lines from the day `first` to the day `last`, in order; those taken away are left out."""
    return tuple(SubjectRow.objects.filter(learner=learner, day__gte=first, day__lte=last, away=False))


@transaction.atomic
def subject_add(
    *,
    learner: Learner,
    day: date,
    title: str,
    minutes: int | None = None,
    done: bool = True,
    id: str | None = None,  # noqa: A002 -- it is the row's own name for it
) -> SubjectRow:
    """Keep one line. Raises `BadInput` with all problems."""
    problems = [*_title_problems(title), *minutes_problems(minutes)]
    if problems:
        raise BadInput(problems)
    return SubjectRow.objects.create(
        household_id=learner.household_id,
        learner=learner,
        line_id=id or new_id(),
        day=day,
        title=title.strip(),
        minutes=minutes,
        done=done,
    )


@transaction.atomic
def subject_away(*, learner: Learner, line: str, back: bool = False) -> SubjectRow:
    """Take a line away, or bring it back. Raises `NoSuchLine`."""
    row = SubjectRow.objects.filter(learner=learner, line_id=line).first()
    if row is None:
        raise NoSuchLine
    row.away = not back
    row.save(update_fields=["away"])
    return row


def minutes_problems(minutes: int | None) -> list[Problem]:
    """What is wrong with a number of minutes of one day; nothing where none is named."""
    if minutes is None or 0 <= minutes <= MOST_MINUTES:
        return []
    return [Problem("minutes", f"{minutes} do not fit in a day; write a number from 0 to {MOST_MINUTES}")]


def _title_problems(title: str) -> list[Problem]:
    title = title.strip()
    if not title:
        return [Problem("subject", "is empty; write what it was, as Reading or Piano")]
    if len(title) > LONGEST:
        return [Problem("subject", f"is longer than {LONGEST} signs; shorten it")]
    if signs := unprintable(title, faces=ADULT_FACES):
        return [Problem("subject", f"cannot be printed with {' '.join(signs)}; write it another way")]
    return []
