"""Events as plain data and back, so that a log can be kept, sent and opened again in ten years."""

from __future__ import annotations

from collections.abc import Callable, Container, Mapping, Sequence
from dataclasses import fields
from datetime import UTC, date, datetime
from typing import Any, Final, get_args

from dayleaf.core.errors import BadInput, DayleafError, Problem
from dayleaf.events.model import (
    Attended,
    BoxEvidence,
    Event,
    Head,
    HowFar,
    Impression,
    ItemMark,
    ItemState,
    Looked,
    Marked,
    Mended,
    Noted,
    Override,
    PlanChanged,
    Printed,
    Taught,
)

VERSION: Final = 1
MOST_MINUTES: Final = 24 * 60

KINDS: Final[Mapping[str, type[Event]]] = {
    "printed": Printed,
    "taught": Taught,
    "marked": Marked,
    "looked": Looked,
    "mended": Mended,
    "noted": Noted,
    "override": Override,
    "attended": Attended,
    "plan changed": PlanChanged,
}
_KIND_OF: Final = {kind_of: name for name, kind_of in KINDS.items()}

_Reader = Callable[[object], Any]


class UnknownEventKind(DayleafError):
    """The log holds a kind of event that this version does not know."""

    def __init__(self, kind: object) -> None:
        self.kind = kind
        super().__init__(f"This log holds an event of the unknown kind {kind!r}; a newer Dayleaf may have written it.")


class NewerEvent(DayleafError):
    """The event was written in a later form than this version can read."""

    def __init__(self, version: object) -> None:
        self.version = version
        super().__init__(f"This log holds an event of form {version!r}; this Dayleaf reads form {VERSION}.")


class MomentWithoutZone(DayleafError):
    """An event's moment does not say its time zone, so nobody could order it later."""

    def __init__(self, at: datetime) -> None:
        self.at = at
        super().__init__(f"The moment {at.isoformat()} of an event must be given in UTC.")


class _Misfit(ValueError):
    """A value has the wrong shape; each problem's `where` is the path below the field."""

    def __init__(self, *problems: Problem) -> None:
        self.problems = problems
        super().__init__()


def kind_of(event: Event) -> str:
    """The kind's name in the log, as `marked`."""
    return _KIND_OF[type(event)]


def to_data(event: Event) -> dict[str, object]:
    """The event as a dictionary that JSON can hold: version, kind, head and, under `what`, the kind's own fields.

    Raises:
        MomentWithoutZone: `at` is not in UTC.
    """
    head = event.head
    if head.at.utcoffset() != UTC.utcoffset(None):
        raise MomentWithoutZone(head.at)
    return {
        "version": VERSION,
        "kind": kind_of(event),
        "id": head.id,
        "at": head.at.isoformat(),
        "day": head.day.isoformat(),
        "learner": head.learner,
        "what": {
            name: _plain(getattr(event, name))
            for name in _FIELDS[type(event)]
            if name not in _LATER or getattr(event, name) != _LATER[name]
        },
    }


def from_data(data: Mapping[str, object]) -> Event:
    """The event that `to_data` wrote.

    Raises:
        NewerEvent, UnknownEventKind: the form or the kind is not one of ours.
        BadInput: fields are missing, unknown or misshapen; every one is listed.
    """
    if data.get("version") != VERSION:
        raise NewerEvent(data.get("version"))
    name = data.get("kind")
    if not isinstance(name, str) or name not in KINDS:
        raise UnknownEventKind(name)
    shape = KINDS[name]
    problems: list[Problem] = []
    head = _read_fields(data, _HEAD, where="", problems=problems)
    problems += _strangers(data, {"version", "kind", "what", *_HEAD}, where="")
    what = data.get("what")
    own: dict[str, Any] = {}
    if isinstance(what, Mapping):
        own = _read_fields(what, _FIELDS[shape], where="what.", problems=problems)
        problems += _strangers(what, _FIELDS[shape], where="what.")
    else:
        problems.append(Problem("what", f"must hold the fields of a {name} event"))
    if problems:
        raise BadInput(problems)
    return shape(head=Head(**head), **own)


def _strangers(data: Mapping[str, object], known: Container[str], *, where: str) -> list[Problem]:
    return [Problem(where + field, "is not a field of this event") for field in sorted(data) if field not in known]


def _plain(value: object) -> object:
    if isinstance(value, ItemMark | BoxEvidence):
        return {field.name: _plain(getattr(value, field.name)) for field in fields(value)}
    if isinstance(value, tuple):
        return [_plain(part) for part in value]
    return value


def _read_fields(
    data: Mapping[str, object], shape: Mapping[str, _Reader], *, where: str, problems: list[Problem]
) -> dict[str, Any]:
    read: dict[str, Any] = {}
    for field, reader in shape.items():
        if field not in data:
            if field in _LATER:
                continue
            problems.append(Problem(where + field, "is missing"))
            continue
        try:
            read[field] = reader(data[field])
        except _Misfit as misfit:
            problems += [Problem(where + field + problem.where, problem.message) for problem in misfit.problems]
    return read


def _text(value: object) -> str:
    if not isinstance(value, str):
        raise _Misfit(Problem("", "must be text"))
    return value


def _text_or_none(value: object) -> str | None:
    return None if value is None else _text(value)


def _yes_or_no(value: object) -> bool:
    if not isinstance(value, bool):
        raise _Misfit(Problem("", "must be true or false"))
    return value


def _whole(value: object) -> int:
    if not isinstance(value, int) or isinstance(value, bool):
        raise _Misfit(Problem("", "must be a whole number"))
    return value


def _minutes_or_none(value: object) -> int | None:
    minutes = None if value is None else _whole(value)
    if minutes is not None and not 0 <= minutes <= MOST_MINUTES:
        raise _Misfit(Problem("", f"must be from 0 to {MOST_MINUTES}"))
    return minutes


def _day(value: object) -> date:
    try:
        return date.fromisoformat(_text(value))
    except ValueError:
        raise _Misfit(Problem("", "must be a date such as 2027-01-12")) from None


def _moment(value: object) -> datetime:
    try:
        at = datetime.fromisoformat(_text(value))
    except ValueError:
        raise _Misfit(Problem("", "must be a moment in UTC such as 2027-01-12T20:10:00+00:00")) from None
    if at.utcoffset() != UTC.utcoffset(None):
        raise _Misfit(Problem("", "must be a moment in UTC, ending in +00:00"))
    return at.astimezone(UTC)


def _list(value: object) -> Sequence[object]:
    if not isinstance(value, list | tuple):
        raise _Misfit(Problem("", "must be a list"))
    return value


def _texts(value: object) -> tuple[str, ...]:
    return tuple(_text(part) for part in _list(value))


def _one_of(words: Sequence[str]) -> _Reader:
    def read(value: object) -> str:
        if value not in words:
            raise _Misfit(Problem("", "must be one of " + ", ".join(words)))
        return _text(value)

    return read


def _share(value: object) -> float:
    if not isinstance(value, int | float) or isinstance(value, bool) or not 0 <= value <= 1:
        raise _Misfit(Problem("", "must be a number from 0 to 1"))
    return float(value)


def _each(shape: type[Any], fields_of: Mapping[str, _Reader], what: str) -> _Reader:
    """Reads a list of one kind of part; every problem of every part is listed."""

    def read(value: object) -> tuple[Any, ...]:
        parts: list[Any] = []
        problems: list[Problem] = []
        for index, part in enumerate(_list(value)):
            if not isinstance(part, Mapping):
                problems.append(Problem(f"[{index}]", f"must be {what}"))
                continue
            found = len(problems)
            own = _read_fields(part, fields_of, where=f"[{index}].", problems=problems)
            if len(problems) == found:
                parts.append(shape(**own))
        if problems:
            raise _Misfit(*problems)
        return tuple(parts)

    return read


_HEAD: Final[Mapping[str, _Reader]] = {"id": _text, "at": _moment, "day": _day, "learner": _text_or_none}
_ITEM_MARK: Final[Mapping[str, _Reader]] = {
    "n": _whole,
    "skill": _text,
    "format": _text,
    "key": _text,
    "state": _one_of(get_args(ItemState)),
    "answer": _text_or_none,
    "helped": _yes_or_no,
    "errors": _texts,
}
_EVIDENCE: Final[Mapping[str, _Reader]] = {
    "box": _text,
    "reading": _text,
    "certainty": _share,
    "settled": _text_or_none,
    "by": _text,
}
_LATER: Final[Mapping[str, object]] = {"evidence": (), "taken_back": False, "together": "", "minutes": None}
"""Fields that came after the first logs were kept: absent means this, and this is not written down."""

_FIELDS: Final[Mapping[type[Event], Mapping[str, _Reader]]] = {
    Printed: {"lesson": _text, "sheets": _texts, "skills": _texts},
    Taught: {"lesson": _text, "how_far": _one_of(get_args(HowFar)), "skills": _texts},
    Marked: {
        "sheet": _text,
        "lesson": _text,
        "items": _each(ItemMark, _ITEM_MARK, "an item's mark"),
        "replaces": _text_or_none,
        "evidence": _each(BoxEvidence, _EVIDENCE, "what stood in a box"),
    },
    Looked: {"sheet": _text, "lesson": _text, "skills": _texts, "impression": _one_of(get_args(Impression))},
    Mended: {"sheet": _text, "n": _whole, "with_help": _yes_or_no, "taken_back": _yes_or_no},
    Noted: {"lesson": _text_or_none, "text": _text},
    Override: {"lesson": _text_or_none, "advised": _text, "chosen": _text},
    Attended: {"present": _yes_or_no, "taken_back": _yes_or_no, "minutes": _minutes_or_none},
    PlanChanged: {"version": _text, "reason": _text, "together": _text},
}
