"""What a home gives away and what comes back: files to a consultant, plans from one.

A copy of every file given away lies in the home's `shared` folder until the sharing is stopped or has ended: it shows
what was given, and only an answer to one of these files is let in. What somebody holds already cannot be called back.
"""

from __future__ import annotations

import secrets
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from django.db import transaction

from dayleaf import __version__
from dayleaf.advising.answers import answer_problems, as_year, moved, own_names
from dayleaf.advising.files import (
    ExchangeFileIsDamaged,
    NotAnExchangeFile,
    current,
    is_sealed,
    packed,
    unpacked,
)
from dayleaf.advising.shared import KINDS, SharedRecords
from dayleaf.core.errors import BadInput, DayleafError, Problem
from dayleaf.core.ids import LearnerId
from dayleaf.plan.codec import PlanNotReadable, to_json
from dayleaf.records import selectors, services
from dayleaf.records.feeds import feed_turned
from dayleaf.records.folder import PRIVATE_FILE, PRIVATE_FOLDER
from dayleaf.records.naming import name_problems
from dayleaf.records.plans import kept_year, kept_year_or_none
from dayleaf.records.shared import child_id, shared_of

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date
    from pathlib import Path

    from dayleaf.advising.answers import Moved
    from dayleaf.advising.shared import PlanAnswer, Terms
    from dayleaf.plan.kept import KeptYear
    from dayleaf.records.models import Household, Learner

SHARED: Final = "shared"
SUFFIX: Final = ".shared"
LONGEST: Final = 366
"""Days for which something may be shared at most; share it again if it is wanted longer."""


class NotShared(DayleafError):
    """An answer to something that this home does not share, or no longer."""

    def __init__(self) -> None:
        super().__init__("This plan answers nothing that this home shares now. Nothing was changed.")


class PlanHasChanged(DayleafError):
    """The plan in force is not the one that the suggestion was made from."""

    def __init__(self, name: str) -> None:
        super().__init__(
            f"{name}'s plan has changed since it was shared; share it again and ask for a fresh suggestion. "
            "Nothing was changed."
        )


@dataclass(frozen=True, slots=True)
class Suggestion:
    """A plan that came back, ready to be looked at: who suggests it and why, and which dates it moves."""

    learner: Learner
    year: KeptYear
    sender: str
    words: str
    moved: tuple[Moved, ...]


def kinds_asked(text: str) -> tuple[str, ...]:
    """The kinds of a list such as `plan,progress`. Raises `BadInput` for another kind, or for none."""
    kinds = [one.strip() for one in text.split(",") if one.strip()]
    strange = [one for one in kinds if one not in KINDS]
    if strange or not kinds:
        what = f"{strange[0]!r} is no kind of record" if strange else "nothing was ticked"
        raise BadInput([Problem("kinds", f"{what}; choose from {', '.join(KINDS)}")])
    return tuple(one for one in KINDS if one in kinds)


def share_make(
    learner: Learner, *, kinds: Sequence[str], until: date, today: date, folder: Path, family: str = ""
) -> tuple[Terms, bytes]:
    """The terms and the file with these kinds, readable until that day; a copy stays in the home's folder.

    `family` is the name by which the consultant lists the family.

    Raises:
        BadInput: the end lies before today or more than a year ahead; a plan is ticked and there is none; the name
            holds signs that cannot be seen.
    """
    problems = name_problems("as", family, longest=80) if family else []
    if not 0 <= (until - today).days <= LONGEST:
        problems.append(Problem("until", f"choose a day from {today} on, at most a year ahead"))
    if "plan" in kinds and kept_year_or_none(learner) is None:
        problems.append(Problem("kinds", f"{learner.name} has no plan yet"))
    if problems:
        raise BadInput(problems)
    shared = shared_of(
        learner,
        kinds=[kind for kind in KINDS if kind in kinds],
        today=today,
        until=until,
        share=secrets.token_hex(8),
        answer_key=secrets.token_hex(32),
        family=family.strip(),
    )
    content = packed(shared, made_by=__version__)
    copy_keep(folder / SHARED, shared.terms.share, content)
    return shared.terms, content


def shares_of(folder: Path, *, today: date) -> tuple[SharedRecords, ...]:
    """What this home shares now, the newest first; what has ended is cleared away."""
    found = []
    for file in sorted((folder / SHARED).glob(f"*{SUFFIX}")):
        try:
            content = unpacked(file.read_bytes())
        except (NotAnExchangeFile, ExchangeFileIsDamaged):
            continue
        if isinstance(content, SharedRecords):
            if content.terms.until < today:
                file.unlink(missing_ok=True)
            else:
                found.append(content)
    return tuple(sorted(found, key=lambda one: (one.terms.made_on, one.terms.share), reverse=True))


def share_stop(folder: Path, share: str, *, today: date) -> None:
    """Let in no answer to this share any more. Raises `NotShared` where there is none of that name."""
    if share not in {one.terms.share for one in shares_of(folder, today=today)}:
        raise NotShared
    (folder / SHARED / f"{share}{SUFFIX}").unlink(missing_ok=True)


def suggestion(household: Household, answer: PlanAnswer, *, folder: Path, today: date) -> Suggestion:
    """What an answer would change, with nothing changed.

    Raises:
        NotShared: it answers no share of this home, or one that was stopped, or its seal is not that share's.
        SharingHasEnded: the share's last day is over.
        PlanHasChanged: it was made from another plan than the one in force.
        NotAnExchangeFile: its plan does not read.
        BadInput: its plan is none of this child's, or breaks the household's rules.
    """
    file = folder / SHARED / f"{answer.share}{SUFFIX}"
    shared = unpacked(file.read_bytes()) if file.is_file() else None
    if not isinstance(shared, SharedRecords) or not is_sealed(answer, key=shared.terms.answer_key):
        raise NotShared
    current(shared, today=today)
    if "plan" not in shared.terms.kinds:
        raise NotShared
    learner = _child(household, shared.terms.child)
    if answer.base != selectors.plan_version(learner).version_id:
        raise PlanHasChanged(learner.name)
    own = kept_year(learner)
    try:
        year = own_names(as_year(answer.kept, learner=LearnerId(learner.id)), own)
    except PlanNotReadable as wrong:
        raise NotAnExchangeFile("its plan does not read") from wrong
    others = [kept_year_or_none(one) for one in selectors.learners(household) if one.id != learner.id]
    problems = answer_problems(own, year, [one for one in others if one is not None], today=today)
    if problems:
        raise BadInput(problems)
    return Suggestion(learner, year, answer.sender, answer.words, moved(own, year))


@transaction.atomic
def suggestion_accept(found: Suggestion, *, day: date) -> None:
    """Put the suggested plan in force; `dayleaf plan --undo` gives the one before back."""
    words = f": {found.words}" if found.words else ""
    feed_turned(found.learner, day=day)
    services.plan_set(
        learner=found.learner, plan=to_json(found.year), reason=f"suggested by {found.sender}{words}"[:200], day=day
    )


def copy_keep(folder: Path, name: str, content: bytes) -> Path:
    """Keep a file in a private folder of the home, whole or not at all."""
    folder.mkdir(mode=PRIVATE_FOLDER, parents=True, exist_ok=True)
    file, scratch = folder / f"{name}{SUFFIX}", folder / f".{name}.part"
    scratch.write_bytes(content)
    scratch.chmod(PRIVATE_FILE)
    scratch.replace(file)
    return file


def _child(household: Household, child: str) -> Learner:
    for learner in selectors.learners(household):
        if child_id(learner) == child:
            return learner
    raise NotShared
