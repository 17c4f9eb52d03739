"""The one file in which shared records and answers travel: JSON that people can read, in a zip, with checksums.

Bytes in, values out. Nothing in a file is trusted: it is unpacked in memory up to a limit, every member is weighed
against its SHA-256, and what does not have the shape of `advising.shared` is refused. A checksum tells damage; that an
answer comes from somebody who holds the file is told by its seal (HMAC, RFC 2104).
"""

from __future__ import annotations

import hashlib
import hmac
import json
import unicodedata
import zipfile
import zlib
from dataclasses import asdict, dataclass, replace
from io import BytesIO
from typing import TYPE_CHECKING, Any, Final, TypeVar

import msgspec

from dayleaf.advising.shared import KINDS, PlanAnswer, SharedRecords
from dayleaf.core.errors import DayleafError

if TYPE_CHECKING:
    from datetime import date

VERSION: Final = 1
MANIFEST: Final = "manifest.json"
README: Final = "READ-ME.txt"
RECORDS: Final = "records.json"
ANSWER: Final = "plan.json"
MOST_FILE: Final = 16 << 20
MOST_MEMBER: Final = 32 << 20
"""Bytes. A year with all samples is about half a megabyte (counted on the demo household)."""
MOST_TEXT: Final = 4000
MOST_DAYS: Final = 366 * 4
_CHUNK: Final = 1 << 16

T = TypeVar("T", SharedRecords, PlanAnswer)


class NotAnExchangeFile(DayleafError):
    """The file is none of ours, or somebody has added to it."""

    def __init__(self, why: str) -> None:
        super().__init__(f"This is not a file that Dayleaf wrote for sharing: {why}. Nothing was changed.")


class ExchangeFileIsDamaged(DayleafError):
    """The file was one of ours once."""

    def __init__(self, why: str) -> None:
        super().__init__(f"The file is damaged: {why}. Ask for it again; nothing was changed.")


class OtherVersion(DayleafError):
    """Another Dayleaf wrote the file in a form that this one does not read."""

    def __init__(self, version: object) -> None:
        super().__init__(
            f"The file has form {str(version)[:20]}, and this Dayleaf reads form {VERSION}. Nothing was changed."
        )


class SharingHasEnded(DayleafError):
    """The family shared this until a day that is over."""

    def __init__(self, until: date) -> None:
        self.until = until
        super().__init__(f"What this file shares ended on {until:%-d %B %Y}; ask the family for a new one.")


@dataclass(frozen=True, slots=True)
class _Manifest:
    format: str
    version: int
    made_by: str
    members: dict[str, str]


def packed(content: SharedRecords | PlanAnswer, *, made_by: str) -> bytes:
    """The file's bytes; the same content gives the same bytes."""
    name = RECORDS if isinstance(content, SharedRecords) else ANSWER
    plain = {part: value for part, value in msgspec.to_builtins(content).items() if value is not None}
    text = json.dumps(plain, ensure_ascii=False, indent=1, sort_keys=True) + "\n"
    members = {README: _words(content).encode(), name: text.encode()}
    sums = {one: hashlib.sha256(data).hexdigest() for one, data in members.items()}
    manifest = json.dumps(asdict(_Manifest("dayleaf exchange", VERSION, made_by, sums)), indent=1, sort_keys=True)
    buffer = BytesIO()
    with zipfile.ZipFile(buffer, "w", zipfile.ZIP_DEFLATED) as pack:
        for one, data in (*members.items(), (MANIFEST, manifest.encode())):
            entry = zipfile.ZipInfo(one, date_time=(1980, 1, 1, 0, 0, 0))
            entry.compress_type = zipfile.ZIP_DEFLATED
            pack.writestr(entry, data)
    return buffer.getvalue()


def unpacked(content: bytes) -> SharedRecords | PlanAnswer:
    """What a file holds.

    Raises:
        NotAnExchangeFile, ExchangeFileIsDamaged, OtherVersion: one sentence each.
    """
    if len(content) > MOST_FILE:
        raise NotAnExchangeFile(f"it has {len(content):,} bytes")
    try:
        with zipfile.ZipFile(BytesIO(content)) as pack:
            members = _members(pack)
    except (zipfile.BadZipFile, zlib.error, EOFError, NotImplementedError, RuntimeError, OSError, ValueError) as wrong:
        if content[:2] != b"PK":
            raise NotAnExchangeFile("it is no zip file") from wrong
        raise ExchangeFileIsDamaged("it does not unpack") from wrong
    return _read(members)


def read_records(text: bytes) -> SharedRecords:
    """Shared records from their JSON alone, as it stands in the file. Raises `NotAnExchangeFile`."""
    if len(text) > MOST_MEMBER:
        raise NotAnExchangeFile(f"it has {len(text):,} bytes")
    found = _decoded(text, SharedRecords)
    _check_records(found)
    return found


def current(shared: SharedRecords, *, today: date) -> SharedRecords:
    """The same records while they may be read. Raises `SharingHasEnded` from the day after `until` on."""
    if today > shared.terms.until:
        raise SharingHasEnded(shared.terms.until)
    return shared


def sealed(answer: PlanAnswer, *, key: str) -> PlanAnswer:
    """The answer with its seal."""
    return replace(answer, seal=_seal(answer, key))


def is_sealed(answer: PlanAnswer, *, key: str) -> bool:
    """Whether nothing was changed in it since somebody who holds `key` sealed it."""
    return bool(key) and hmac.compare_digest(answer.seal.encode(), _seal(answer, key).encode())


def _seal(answer: PlanAnswer, key: str) -> str:
    plain = msgspec.to_builtins(replace(answer, seal=""))
    text = json.dumps(plain, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    return hmac.new(key.encode(), text.encode(), hashlib.sha256).hexdigest()


def _members(pack: zipfile.ZipFile) -> dict[str, bytes]:
    """The members, never more than the limit whatever the file says of their sizes."""
    names = [entry.filename for entry in pack.infolist()]
    strange = sorted(set(names) - {MANIFEST, README, RECORDS, ANSWER})
    if strange:
        raise NotAnExchangeFile(f"it holds {strange[0][:60]!r}")
    if len(names) != len(set(names)) or len(names) != 3 or MANIFEST not in names or README not in names:
        raise NotAnExchangeFile("a part is missing or there twice")
    found = {}
    for entry in pack.infolist():
        if entry.flag_bits & 1:
            raise NotAnExchangeFile("it is locked with a password")
        pieces, left = [], MOST_MEMBER
        with pack.open(entry) as stream:
            while piece := stream.read(_CHUNK):
                left -= len(piece)
                if left < 0:
                    raise NotAnExchangeFile(f"{entry.filename} unpacks to more than {MOST_MEMBER >> 20} MB")
                pieces.append(piece)
        found[entry.filename] = b"".join(pieces)
    return found


def _read(members: dict[str, bytes]) -> SharedRecords | PlanAnswer:
    try:
        head = msgspec.json.decode(members[MANIFEST], type=dict[str, Any])
    except (msgspec.MsgspecError, RecursionError) as wrong:
        raise NotAnExchangeFile("its manifest does not read") from wrong
    if head.get("format") != "dayleaf exchange":
        raise NotAnExchangeFile("its manifest is another program’s")
    if head.get("version") != VERSION or isinstance(head.get("version"), bool):
        raise OtherVersion(head.get("version"))
    try:
        manifest = msgspec.convert(head, _Manifest)
    except msgspec.ValidationError as wrong:
        raise NotAnExchangeFile("its manifest does not read") from wrong
    rest = {name: data for name, data in members.items() if name != MANIFEST}
    if set(manifest.members) != set(rest):
        raise ExchangeFileIsDamaged("its parts are not those that its manifest names")
    for name, data in rest.items():
        if hashlib.sha256(data).hexdigest() != manifest.members[name]:
            raise ExchangeFileIsDamaged(f"{name} is not what was written")
    if RECORDS in rest:
        return read_records(rest[RECORDS])
    answer = _decoded(rest[ANSWER], PlanAnswer)
    if not answer.share.isascii() or not answer.share.isalnum() or len(answer.share) > 40:
        raise NotAnExchangeFile("it answers no share")
    return answer


def _decoded(text: bytes, shape: type[T]) -> T:
    """The value of that shape; unknown names, wrong types and signs that nobody sees are refused."""
    try:
        plain = msgspec.json.decode(text)
        _check_texts(plain)
        _no_more_names(plain, shape)
        return msgspec.convert(plain, shape)
    except (msgspec.MsgspecError, RecursionError, UnicodeDecodeError) as wrong:
        raise NotAnExchangeFile(f"its records do not read ({str(wrong)[:120]})") from wrong


def _no_more_names(plain: Any, shape: type[Any]) -> None:
    known = set(shape.__dataclass_fields__)
    if isinstance(plain, dict) and (more := sorted(map(str, set(plain) - known))):
        raise NotAnExchangeFile(f"it holds {more[0][:40]!r}")


def _check_texts(plain: Any) -> None:
    if isinstance(plain, str):
        if len(plain) > MOST_TEXT:
            raise NotAnExchangeFile(f"a text in it has {len(plain):,} signs")
        if any(unicodedata.category(sign) in {"Cc", "Cf", "Cs", "Zl", "Zp"} and sign != "\n" for sign in plain):
            raise NotAnExchangeFile("a text in it holds signs that cannot be seen")
    elif isinstance(plain, dict):
        for name, value in plain.items():
            _check_texts(name)
            _check_texts(value)
    elif isinstance(plain, list):
        for value in plain:
            _check_texts(value)


def _check_records(shared: SharedRecords) -> None:
    """What the types do not say: kinds that were ticked and those that are there are the same, counts are possible."""
    terms = shared.terms
    if any(not one.isascii() or not one.isalnum() or len(one) > 40 for one in (terms.share, terms.child)):
        raise NotAnExchangeFile("its share or its child has no usable id")
    if not terms.family.strip() or not terms.learner.strip() or "\n" in terms.family + terms.learner:
        raise NotAnExchangeFile("it names no family or no child")
    there = {kind for kind in KINDS if getattr(shared, kind) is not None}
    if there != set(terms.kinds):
        raise NotAnExchangeFile("it holds other kinds of records than it says")
    if shared.plan is not None and max(len(shared.plan.days), len(shared.plan.then)) > MOST_DAYS:
        raise NotAnExchangeFile("its plan is longer than four years")
    for sheet in shared.progress.marked if shared.progress else ():
        for skill, one in sheet.skills.items():
            wrong = one.of - one.right
            fits = 0 <= one.right <= one.of and 0 <= one.helped <= one.of
            if not fits or any(not 0 <= many <= wrong for many in one.ways.values()):
                raise NotAnExchangeFile(f"the counts of {skill[:40]} on {sheet.day} do not add up")


def _words(content: SharedRecords | PlanAnswer) -> str:
    """What a person reads who opens the zip without Dayleaf."""
    if isinstance(content, PlanAnswer):
        return (
            f"A plan for {content.learner}, suggested by {content.sender} on {content.made_on}.\n"
            f"{content.words}\nIt changes nothing until the family accepts it: dayleaf open-share FILE\n"
        )
    terms = content.terms
    return (
        f"{terms.family} shares of {terms.learner}: {', '.join(terms.kinds)}.\n"
        f"Made on {terms.made_on}. Please read it until {terms.until} and delete it then.\n"
        "What was not ticked is not in this file. To read it: dayleaf open-share FILE\n"
    )
