"""A folder of families: their files, or whole homes where a consultant may look into them. Nothing in it is changed.

Beside the files lies what a consultant set aside: which reasons not to be told of again, until when, and why. The notes
are written as if the family will read them.
"""

from __future__ import annotations

import hashlib
from dataclasses import dataclass, field, replace
from datetime import date  # noqa: TC003 -- the reader of files looks the types up
from pathlib import Path  # noqa: TC003 -- the same
from typing import TYPE_CHECKING, Final

import msgspec

from dayleaf.advising.files import MOST_FILE, MOST_MEMBER, SharingHasEnded, current, read_records, unpacked
from dayleaf.advising.shared import SharedRecords
from dayleaf.core.errors import BadInput, DayleafError, Problem
from dayleaf.records import selectors
from dayleaf.records.folder import DATABASE, PRIVATE_FILE
from dayleaf.records.home import visiting
from dayleaf.records.shared import CHILD_SIGNS, shared_of
from dayleaf.records.sharing import SUFFIX, copy_keep

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from dayleaf.advising.calls import Call

FAMILIES: Final = "families"
SET_ASIDE: Final = "set-aside.json"
SUFFIXES: Final = frozenset({SUFFIX, ".dayleaf", ".zip", ".json"})


class NoFamilies(DayleafError):
    """The folder is not there."""

    def __init__(self, folder: Path) -> None:
        super().__init__(f"There is no folder {folder}; `dayleaf open-share FILE` keeps a family's file.")


class NewerFileIsThere(DayleafError):
    """A later file of this child was opened before."""

    def __init__(self, learner: str, made_on: date) -> None:
        super().__init__(f"A later file of {learner}, made on {made_on}, is open already; nothing was changed.")


@dataclass(frozen=True, slots=True)
class Families:
    """What a folder holds: children whose files may be read, and what could not be read."""

    shared: tuple[SharedRecords, ...]
    problems: tuple[Problem, ...]


@dataclass(frozen=True, slots=True)
class SetAside:
    """Reasons of one child that a consultant does not want to be told of until a day (that day included)."""

    child: str
    family: str
    learner: str
    kinds: tuple[str, ...]
    until: date
    note: str
    on: date


@dataclass(frozen=True, slots=True)
class _Notes:
    version: int = 1
    set_aside: tuple[SetAside, ...] = field(default=())


def families_in(
    folder: Path, *, today: date, day_of: date | None = None, watch: Callable[[str], None] | None = None
) -> Families:
    """Every family of a folder: files that were shared (`.shared`, `.zip`), their records alone (`.json`), and homes.

    Of several files of one child the last one made counts. `day_of` takes that day as today in homes; `watch` is told
    each name.

    Raises:
        NoFamilies: the folder is not there.
    """
    if not folder.is_dir():
        raise NoFamilies(folder)
    found: list[SharedRecords] = []
    problems: list[Problem] = []
    for path in sorted(folder.iterdir()):
        if path.name.startswith(".") or path.name == SET_ASIDE:
            continue
        if watch is not None:
            watch(path.name)
        try:
            if (path / DATABASE).is_file():
                found += _of_home(path, day_of or today)
            elif path.is_file() and path.suffix in SUFFIXES:
                found.append(current(_of_file(path), today=today))
        except (DayleafError, OSError) as wrong:
            problems.append(Problem(path.name, str(wrong)))
    newest: dict[tuple[str, str], date] = {}
    for one in found:
        key = (one.terms.child, one.terms.family)
        newest[key] = max(newest.get(key, one.terms.made_on), one.terms.made_on)
    kept = [one for one in found if one.terms.made_on == newest[one.terms.child, one.terms.family]]
    return Families(tuple(kept), tuple(problems))


def family_open(content: SharedRecords, data: bytes, *, home: Path, today: date) -> Path:
    """Keep a family's file in the consultant's home, in place of an earlier one of the same child.

    Raises:
        SharingHasEnded: its last day is over.
        NewerFileIsThere: nothing was changed.
    """
    current(content, today=today)
    folder = home / FAMILIES
    earlier = folder / f"{content.terms.child}{SUFFIX}"
    if earlier.is_file():
        before = unpacked(earlier.read_bytes())
        if isinstance(before, SharedRecords) and before.terms.made_on > content.terms.made_on:
            raise NewerFileIsThere(before.terms.learner, before.terms.made_on)
    return copy_keep(folder, content.terms.child, data)


def families_cleared(home: Path, *, today: date) -> int:
    """Delete the files in a consultant's home whose sharing has ended; how many there were."""
    gone = 0
    for path in sorted((home / FAMILIES).glob(f"*{SUFFIX}")):
        try:
            current(_of_file(path), today=today)
        except SharingHasEnded:
            path.unlink(missing_ok=True)
            gone += 1
        except DayleafError:
            continue
    return gone


def set_aside(folder: Path) -> tuple[SetAside, ...]:
    """What was set aside in this folder. Raises `BadInput` where the note of it does not read."""
    file = folder / SET_ASIDE
    if not file.is_file():
        return ()
    try:
        return msgspec.json.decode(file.read_bytes(), type=_Notes).set_aside
    except (msgspec.MsgspecError, OSError) as wrong:
        raise BadInput([Problem(SET_ASIDE, f"it does not read ({wrong}); mend or move it")]) from wrong


def call_set_aside(
    folder: Path, call: Call, *, until: date, note: str, today: date, kinds: Iterable[str] = ()
) -> SetAside:
    """Set a call aside until a day, with a note; all its reasons, or those of these kinds. Raises `BadInput`."""
    chosen = tuple(kinds) or tuple(reason.kind for reason in call.reasons)
    problems = []
    if until < today:
        problems.append(Problem("until", f"it lies before today, {today}"))
    if not note.strip():
        problems.append(Problem("note", "say in a few words why; the family may read it"))
    if problems:
        raise BadInput(problems)
    one = SetAside(call.child, call.family, call.learner, chosen, until, note.strip()[:400], today)
    _notes_keep(folder, (*(old for old in set_aside(folder) if old.until >= today), one))
    return one


def call_told_again(folder: Path, child: str) -> None:
    """Undo: nothing of this child is set aside any more."""
    _notes_keep(folder, (one for one in set_aside(folder) if one.child != child))


def left_to_call(calls: Iterable[Call], aside: Iterable[SetAside], *, today: date) -> tuple[Call, ...]:
    """The calls without what is set aside today, in their order; another reason of the same child is still told."""
    hushed = {(one.child, kind) for one in aside if one.until >= today for kind in one.kinds}
    left = (
        replace(call, reasons=tuple(one for one in call.reasons if (call.child, one.kind) not in hushed))
        for call in calls
    )
    return tuple(sorted((call for call in left if call.reasons), key=lambda call: -call.weight))


def _notes_keep(folder: Path, notes: Iterable[SetAside]) -> None:
    """Write what is set aside, whole or not at all."""
    text = msgspec.json.format(msgspec.json.encode(_Notes(set_aside=tuple(notes))), indent=1)
    scratch = folder / f".{SET_ASIDE}.part"
    scratch.write_bytes(text + b"\n")
    scratch.chmod(PRIVATE_FILE)
    scratch.replace(folder / SET_ASIDE)


def _of_file(path: Path) -> SharedRecords:
    most = MOST_MEMBER if path.suffix == ".json" else MOST_FILE
    if path.stat().st_size > most:
        raise BadInput([Problem(path.name, f"it has {path.stat().st_size:,} bytes, more than any family's file")])
    data = path.read_bytes()
    content = read_records(data) if path.suffix == ".json" else unpacked(data)
    if not isinstance(content, SharedRecords):
        raise BadInput([Problem(path.name, "it is a suggested plan, not a family's records")])
    return content


def _of_home(path: Path, today: date) -> list[SharedRecords]:
    """All children of a home as if everything but samples were shared; copies stay apart by their folder."""
    with visiting(path):
        household = selectors.household()
        children = [
            shared_of(learner, kinds=("plan", "progress", "messages"), today=today, until=today, with_beliefs=False)
            for learner in selectors.learners(household)
        ]
    return [replace(one, terms=replace(one.terms, child=_in_folder(path.name, one.terms.child))) for one in children]


def _in_folder(name: str, child: str) -> str:
    return hashlib.sha256(f"{name} {child}".encode()).hexdigest()[:CHILD_SIGNS]
