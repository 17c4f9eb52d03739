"""The file that travels: what it holds, and everything that is refused. Nothing here touches a disk."""

from __future__ import annotations

import hashlib
import json
import zipfile
from dataclasses import replace
from datetime import date, timedelta
from io import BytesIO
from typing import Any

import pytest

from dayleaf.advising.files import (
    ANSWER,
    MANIFEST,
    MOST_MEMBER,
    README,
    RECORDS,
    ExchangeFileIsDamaged,
    NotAnExchangeFile,
    OtherVersion,
    SharingHasEnded,
    current,
    is_sealed,
    packed,
    sealed,
    unpacked,
)
from dayleaf.advising.shared import (
    Counts,
    MarkedSheet,
    Message,
    PlanAnswer,
    SharedProgress,
    SharedRecords,
    TaughtDay,
    Terms,
)

DAY = date(2027, 1, 12)
TERMS = Terms(
    "0a1b", "5c6d", "The Wherrow family", "Wren", "grade2", ("progress", "messages"), DAY, date(2027, 3, 1), "k"
)
SHEET = MarkedSheet(DAY, "day-084", {"sub-2digit-regroup": Counts(3, 8, 1, {"smaller-from-larger": 4})})
SHARED = SharedRecords(
    TERMS,
    progress=SharedProgress(taught=(TaughtDay(DAY, "day-084", "done"),), marked=(SHEET,), there=(DAY,), written=(DAY,)),
    messages=(Message(DAY, "Bundles on the deck in the sun.\nOpen the ten first."),),
)
ANSWERED = PlanAnswer("0a1b", "Wren", "v1", "Tobin", "a week for the locks", DAY, {"version": 2})


def rewritten(
    changes: dict[str, Any], *, drop: tuple[str, ...] = (), sums: bool = True, of: bytes | None = None
) -> bytes:
    """A file of ours with some members changed, the checksums as they would be (or not)."""
    with zipfile.ZipFile(BytesIO(of or packed(SHARED, made_by="test"))) as pack:
        members = {name: pack.read(name) for name in pack.namelist()}
    manifest = json.loads(members.pop(MANIFEST))
    for name, value in changes.items():
        if name == MANIFEST:
            manifest |= value
        else:
            members[name] = value if isinstance(value, bytes) else json.dumps(value).encode()
    if sums:
        manifest["members"] = {name: hashlib.sha256(data).hexdigest() for name, data in members.items()}
    members[MANIFEST] = json.dumps(manifest).encode()
    buffer = BytesIO()
    with zipfile.ZipFile(buffer, "w", zipfile.ZIP_DEFLATED) as pack:
        for name, data in members.items():
            if name not in drop:
                pack.writestr(name, data)
    return buffer.getvalue()


def records(**changes: Any) -> dict[str, Any]:
    """Our records as plain data with some parts another way."""
    with zipfile.ZipFile(BytesIO(packed(SHARED, made_by="test"))) as pack:
        plain: dict[str, Any] = json.loads(pack.read(RECORDS))
    return plain | changes


def test_what_was_packed_comes_out_again_and_the_same_content_is_the_same_bytes() -> None:
    assert unpacked(packed(SHARED, made_by="test")) == SHARED
    assert packed(SHARED, made_by="test") == packed(SHARED, made_by="test")
    assert unpacked(packed(ANSWERED, made_by="test")) == ANSWERED


def test_a_person_without_dayleaf_reads_what_it_is_and_until_when() -> None:
    with zipfile.ZipFile(BytesIO(packed(SHARED, made_by="test"))) as pack:
        words = pack.read(README).decode()
        plain = pack.read(RECORDS).decode()

    assert "Wren: progress, messages" in words
    assert "2027-03-01" in words
    assert "\n" in plain.strip(), "one value a line, so that an editor shows it"


def test_it_may_be_read_on_its_last_day_and_not_on_the_next() -> None:
    assert current(SHARED, today=TERMS.until) is SHARED
    with pytest.raises(SharingHasEnded, match="1 March 2027"):
        current(SHARED, today=TERMS.until + timedelta(days=1))


def test_a_flipped_bit_anywhere_is_noticed() -> None:
    """Every byte of the file in turn: it is refused, or what comes out is what went in (unused zip fields)."""
    whole = packed(SHARED, made_by="test")
    for place in range(0, len(whole), 7):
        broken = whole[:place] + bytes([whole[place] ^ 0x10]) + whole[place + 1 :]
        try:
            assert unpacked(broken) == SHARED
        except (NotAnExchangeFile, ExchangeFileIsDamaged, OtherVersion):
            continue


@pytest.mark.parametrize("length", [0, 1, 30, 200, 700])
def test_a_file_cut_short_is_refused(length: int) -> None:
    with pytest.raises((NotAnExchangeFile, ExchangeFileIsDamaged)):
        unpacked(packed(SHARED, made_by="test")[:length])


@pytest.mark.parametrize("version", [2, 0, "1", None, True])
def test_another_version_is_named_as_such(version: object) -> None:
    with pytest.raises(OtherVersion):
        unpacked(rewritten({MANIFEST: {"version": version}}))


@pytest.mark.parametrize("name", ["../evil.json", "/etc/passwd", "records.json/../x", "..\\evil", "more.txt"])
def test_a_member_of_another_name_is_refused_and_nothing_is_written_anywhere(name: str) -> None:
    with pytest.raises(NotAnExchangeFile, match="it holds"):
        unpacked(rewritten({name: b"{}"}))


def test_a_file_that_unpacks_to_far_more_is_stopped_at_the_limit() -> None:
    bomb = rewritten({RECORDS: b" " * (MOST_MEMBER + 1)})
    assert len(bomb) < MOST_MEMBER // 100

    with pytest.raises(NotAnExchangeFile, match="unpacks to more"):
        unpacked(bomb)


def test_a_member_there_twice_or_missing_is_refused() -> None:
    with pytest.raises(NotAnExchangeFile, match="missing or there twice"):
        unpacked(rewritten({}, drop=(README,)))
    with pytest.raises(NotAnExchangeFile, match="missing or there twice"):
        unpacked(rewritten({ANSWER: {}}))


@pytest.mark.parametrize(
    "plain",
    [
        pytest.param([], id="a list"),
        pytest.param(records(more=1), id="another name"),
        pytest.param(records(terms=None), id="no terms"),
        pytest.param(records(plan={"version": "v", "days": [], "then": []}), id="a kind that was not ticked"),
        pytest.param(records(messages=None), id="a ticked kind that is not there"),
        pytest.param(records(messages=[{"day": "soon", "text": "x"}]), id="a day that is none"),
        pytest.param(records(messages=[{"day": "2027-01-12", "text": 5}]), id="a number for a text"),
        pytest.param(records(messages=[{"day": "2027-01-12", "text": "\x1b[2J"}]), id="signs for a terminal"),
        pytest.param(records(messages=[{"day": "2027-01-12", "text": "a\u202eb"}]), id="signs that turn text round"),
        pytest.param(records(messages=[{"day": "2027-01-12", "text": "x" * 5000}]), id="a text without end"),
        pytest.param(b'{"terms":' + b"[" * 100_000, id="nested without end"),
        pytest.param(b"\xff\xfe", id="no text"),
        pytest.param(b'{"terms": NaN}', id="no JSON"),
    ],
)
def test_records_of_another_shape_are_refused_with_a_sentence(plain: object) -> None:
    with pytest.raises(NotAnExchangeFile) as refused:
        unpacked(rewritten({RECORDS: plain}))
    assert str(refused.value).endswith("Nothing was changed.")
    assert len(str(refused.value)) < 300


@pytest.mark.parametrize("counts", [Counts(9, 8), Counts(-1, 8), Counts(3, 8, 9), Counts(3, 8, 0, {"w": 6})])
def test_counts_that_cannot_be_are_refused(counts: Counts) -> None:
    sheet = replace(SHEET, skills={"s": counts})
    wrong = replace(SHARED, progress=SharedProgress(marked=(sheet,)))

    with pytest.raises(NotAnExchangeFile, match="do not add up"):
        unpacked(packed(wrong, made_by="test"))


def test_a_changed_member_under_old_sums_is_damage() -> None:
    with pytest.raises(ExchangeFileIsDamaged, match="not what was written"):
        unpacked(rewritten({RECORDS: records(messages=[])}, sums=False))


def test_a_seal_holds_only_for_its_key_and_its_words() -> None:
    """HMAC-SHA256 of RFC 2104; that another key or another word breaks it is all a family needs."""
    done = sealed(ANSWERED, key="secret")

    assert is_sealed(done, key="secret")
    assert not is_sealed(done, key="another")
    assert not is_sealed(done, key="")
    assert not is_sealed(replace(done, words="two weeks"), key="secret")
    assert not is_sealed(ANSWERED, key="secret")
