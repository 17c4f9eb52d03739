"""One file and back: equal records, and every hostile or damaged file refused in one sentence with nothing changed.

Traps tried here are the public ones for archives and databases: paths that climb out, absolute paths, links, double
names, bombs, foreign triggers, views and virtual tables (SQLite's own "defense against the dark arts" page).
"""

from __future__ import annotations

import hashlib
import json
import sqlite3
import stat
import threading
import zipfile
from contextlib import closing
from datetime import UTC, date, datetime
from typing import TYPE_CHECKING, Any

import pytest
from django.core.management import call_command
from django.db import IntegrityError, connection, connections

from dayleaf.records import selectors, services
from dayleaf.records.backup import CannotWrite, FileIsThere, NothingToBackUp, backup, contents_of
from dayleaf.records.home import open_home
from dayleaf.records.restore import BackupIsDamaged, BackupIsNewer, FolderIsTaken, NotABackup, restore
from dayleaf.records.triggers import TRIGGERS

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping
    from pathlib import Path

    from dayleaf.core.errors import DayleafError
    from dayleaf.events.model import ItemMark
    from dayleaf.records.home import Home
    from dayleaf.records.models import Learner, PrintRow

TUESDAY = date(2027, 1, 12)
EVENING = datetime(2027, 1, 12, 20, 10, tzinfo=UTC)


@pytest.fixture
def full(home: Home, wren: Learner, print_day: Callable[..., PrintRow], marks: tuple[ItemMark, ...]) -> Home:
    print_day(wren)
    sheet = selectors.sheet_find(wren.household, "4C7Q2MX")
    services.sheet_mark(sheet=sheet, items=marks, day=TUESDAY)
    services.plan_set(learner=wren, plan='{"days":[]}', reason="first", day=TUESDAY)
    services.cache_keep(learner=wren, kind="beliefs", model_version="1", payload={})
    return home


@pytest.fixture
def file(full: Home, tmp_path: Path) -> Path:
    path = tmp_path / "dayleaf.backup"
    backup(full.folder, path, at=EVENING)
    return path


def repacked(file: Path, to: Path, *, manifest: Mapping[str, Any] | None = None, change: str = "") -> Path:
    """The backup again, with the manifest's fields replaced or a statement run on its database (hashes made right)."""
    with zipfile.ZipFile(file) as pack:
        fields = json.loads(pack.read("manifest.json"))
        snapshot = to.with_suffix(".sqlite3")
        snapshot.write_bytes(pack.read("records.sqlite3"))
    if change:
        with closing(sqlite3.connect(snapshot)) as database:
            database.executescript(change)
        contents, counts = contents_of(snapshot)
        data = snapshot.read_bytes()
        fields |= {"bytes": len(data), "sha256": hashlib.sha256(data).hexdigest()}
        fields |= {"contents": contents, "counts": counts}
    fields |= manifest or {}
    with zipfile.ZipFile(to, "w", zipfile.ZIP_DEFLATED) as pack:
        pack.writestr("manifest.json", json.dumps(fields))
        pack.write(snapshot, "records.sqlite3")
    return to


def tampered(table: str, column: str, value: str) -> str:
    """Statements that change a column behind its trigger's back."""
    trigger = f"{table}_no_update"
    change = f"UPDATE {table} SET {column} = '{value}'"  # noqa: S608 -- a test's own words
    return f"DROP TRIGGER {trigger}; {change}; {TRIGGERS[trigger]};"


def refused(file: Path, tmp_path: Path, error: type[DayleafError], words: str) -> None:
    """The restore is refused in one sentence and leaves nothing behind."""
    before = sorted(path.name for path in tmp_path.iterdir())

    with pytest.raises(error, match=words) as caught:
        restore(file, tmp_path / "new")

    assert str(caught.value).count("\n") == 0
    assert sorted(path.name for path in tmp_path.iterdir()) == before


class TestBackup:
    def test_a_restored_home_is_equal_row_for_row(self, full: Home, file: Path, tmp_path: Path) -> None:
        manifest = restore(file, tmp_path / "new")

        new = open_home(tmp_path / "new")
        connections.close_all()
        old_contents, old_counts = contents_of(full.database)
        assert contents_of(new.database) == (old_contents, old_counts) == (manifest.contents, manifest.counts)
        assert old_counts["records_eventrow"] == 3
        assert old_counts["records_sheetrow"] == 1

    def test_a_restored_home_works(self, full: Home, file: Path, tmp_path: Path) -> None:
        restore(file, tmp_path / "new")
        assert selectors.learner_by_name(selectors.household(), "Wren").household.name == "The Wherrows"

        open_home(tmp_path / "new")
        wren = selectors.learner_by_name(selectors.household(), "Wren")
        services.note_add(household=wren.household, learner=wren, text="used real carrots", day=TUESDAY)

        assert len(selectors.events_of(wren)) == 4
        open_home(full.folder)
        assert len(selectors.events_of(selectors.learner_by_name(selectors.household(), "Wren"))) == 3

    def test_a_restored_home_is_private_and_has_a_key_of_its_own(self, full: Home, file: Path, tmp_path: Path) -> None:
        restore(file, tmp_path / "new")

        new = tmp_path / "new"
        assert stat.S_IMODE(new.stat().st_mode) == 0o700
        assert (new / "secret.key").read_text() != (full.folder / "secret.key").read_text()
        assert sorted(path.name for path in new.iterdir()) == ["dayleaf.sqlite3", "secret.key"]

    def test_caches_and_the_key_stay_at_home(self, full: Home, file: Path, tmp_path: Path) -> None:
        with zipfile.ZipFile(file) as pack:
            names = pack.namelist()
            (tmp_path / "look.sqlite3").write_bytes(pack.read("records.sqlite3"))

        with closing(sqlite3.connect(tmp_path / "look.sqlite3")) as rows:
            cached = rows.execute("SELECT count(*) FROM records_cacherow").fetchone()

        key = (full.folder / "secret.key").read_bytes().strip()
        assert names == ["manifest.json", "records.sqlite3"]
        assert cached == (0,)
        assert key not in (tmp_path / "look.sqlite3").read_bytes()

    def test_a_backup_made_while_marks_are_written_is_one_moment_in_time(
        self, full: Home, wren: Learner, tmp_path: Path
    ) -> None:
        done = threading.Event()

        def note_on_and_on() -> None:
            n = 0
            while not done.is_set():
                n += 1
                services.note_add(household=wren.household, learner=wren, text=f"note {n}", day=TUESDAY)
            connections.close_all()

        writer = threading.Thread(target=note_on_and_on)
        writer.start()
        try:
            files = [tmp_path / f"backup-{n}" for n in range(4)]
            for path in files:
                backup(full.folder, path, at=EVENING)
        finally:
            done.set()
            writer.join()

        sizes = []
        for n, path in enumerate(files):
            sizes.append(restore(path, tmp_path / f"new-{n}").counts["records_eventrow"])
        assert sizes == sorted(sizes)
        assert sizes[-1] > 3

    def test_a_file_that_is_there_is_never_overwritten(self, full: Home, file: Path) -> None:
        before = file.read_bytes()

        with pytest.raises(FileIsThere):
            backup(full.folder, file, at=EVENING)

        assert file.read_bytes() == before

    def test_a_place_that_is_not_there_is_named(self, full: Home, tmp_path: Path) -> None:
        with pytest.raises(CannotWrite, match="memory-stick"):
            backup(full.folder, tmp_path / "memory-stick" / "b", at=EVENING)

    def test_an_empty_folder_has_nothing_to_back_up(self, tmp_path: Path) -> None:
        with pytest.raises(NothingToBackUp):
            backup(tmp_path, tmp_path / "b", at=EVENING)

        assert list(tmp_path.iterdir()) == []

    def test_a_backup_of_an_older_version_is_brought_up_to_date(
        self, full: Home, wren: Learner, tmp_path: Path
    ) -> None:
        """As it was before the triggers came: the first migration only."""
        call_command("migrate", "records", "0001", verbosity=0)
        with connection.cursor() as cursor:
            cursor.execute("PRAGMA user_version = 1")
        file = tmp_path / "old"
        assert backup(full.folder, file, at=EVENING).schema == 1

        restore(file, tmp_path / "new")

        open_home(tmp_path / "new")
        assert len(selectors.events_of(wren)) == 3
        with pytest.raises(IntegrityError, match="never changed"), connection.cursor() as cursor:
            cursor.execute("DELETE FROM records_eventrow")


class TestRefusals:
    def test_a_folder_with_things_in_it_is_never_overwritten(self, full: Home, file: Path) -> None:
        before = contents_of(full.database)

        with pytest.raises(FolderIsTaken):
            restore(file, full.folder)

        assert contents_of(full.database) == before

    def test_a_file_that_is_no_archive(self, tmp_path: Path) -> None:
        letter = tmp_path / "letter.txt"
        letter.write_text("dear")

        refused(letter, tmp_path, BackupIsDamaged, "does not unpack")
        refused(tmp_path / "missing", tmp_path, NotABackup, "No such file")

    @pytest.mark.parametrize("where", [0.2, 0.5, 0.8])
    def test_a_flipped_bit(self, file: Path, tmp_path: Path, where: float) -> None:
        data = bytearray(file.read_bytes())
        data[int(len(data) * where)] ^= 0x10
        file.write_bytes(data)

        refused(file, tmp_path, BackupIsDamaged, "damaged")

    @pytest.mark.parametrize("share", [0.1, 0.5, 0.99])
    def test_a_file_cut_short(self, file: Path, tmp_path: Path, share: float) -> None:
        data = file.read_bytes()
        file.write_bytes(data[: int(len(data) * share)])

        refused(file, tmp_path, BackupIsDamaged, "does not unpack")

    @pytest.mark.parametrize("name", ["../evil", "/etc/evil", "a/../../evil", "C:\\evil", "extra.txt", "sub/"])
    def test_an_archive_with_anything_else_in_it(self, file: Path, tmp_path: Path, name: str) -> None:
        with zipfile.ZipFile(file, "a") as pack:
            pack.writestr(name, b"x")

        refused(file, tmp_path, NotABackup, "it holds")

    def test_a_link_in_the_archive(self, file: Path, tmp_path: Path) -> None:
        with zipfile.ZipFile(file) as pack:
            manifest = pack.read("manifest.json")
        link = zipfile.ZipInfo("records.sqlite3")
        link.external_attr = (stat.S_IFLNK | 0o777) << 16
        with zipfile.ZipFile(tmp_path / "link.zip", "w") as pack:
            pack.writestr("manifest.json", manifest)
            pack.writestr(link, "/etc/passwd")

        refused(tmp_path / "link.zip", tmp_path, NotABackup, "not a plain file")

    @pytest.mark.filterwarnings("ignore:Duplicate name:UserWarning")
    def test_a_part_that_is_there_twice(self, file: Path, tmp_path: Path) -> None:
        with zipfile.ZipFile(file, "a") as pack:
            pack.writestr("records.sqlite3", b"other")

        refused(file, tmp_path, NotABackup, "twice")

    def test_an_archive_that_unpacks_without_end(self, file: Path, tmp_path: Path) -> None:
        with zipfile.ZipFile(file) as pack:
            manifest = pack.read("manifest.json")
        with zipfile.ZipFile(tmp_path / "bomb.zip", "w", zipfile.ZIP_DEFLATED) as pack:
            pack.writestr("manifest.json", manifest)
            with pack.open("records.sqlite3", "w") as stream:
                for _ in range(80):
                    stream.write(bytes(1 << 20))

        refused(tmp_path / "bomb.zip", tmp_path, NotABackup, "would unpack")

    def test_an_archive_that_holds_more_than_it_says(self, file: Path, tmp_path: Path) -> None:
        with zipfile.ZipFile(file) as pack:
            size = len(pack.read("records.sqlite3"))

        refused(repacked(file, tmp_path / "b.zip", manifest={"bytes": size - 1}), tmp_path, BackupIsDamaged, "more")

    def test_a_newer_backup(self, file: Path, tmp_path: Path) -> None:
        refused(repacked(file, tmp_path / "a.zip", manifest={"schema": 9999}), tmp_path, BackupIsNewer, "newer")
        refused(repacked(file, tmp_path / "b.zip", manifest={"format": 2, "x": 1}), tmp_path, BackupIsNewer, "newer")

    @pytest.mark.parametrize("field", [{"bytes": "many"}, {"counts": 3}, {"bytes": -5}, {"bytes": 1 << 60}])
    def test_a_manifest_that_makes_no_sense(self, file: Path, tmp_path: Path, field: dict[str, Any]) -> None:
        refused(repacked(file, tmp_path / "b.zip", manifest=field), tmp_path, NotABackup, "manifest")

    def test_rows_that_were_taken_out_are_missed(self, file: Path, tmp_path: Path) -> None:
        changed = repacked(
            file,
            tmp_path / "b.zip",
            change="DROP TRIGGER records_eventrow_no_delete; DELETE FROM records_eventrow WHERE seq = 2;",
            manifest={"counts": {"records_eventrow": 3}},
        )

        refused(changed, tmp_path, BackupIsDamaged, "rows")

    @pytest.mark.parametrize(
        "change",
        [
            "CREATE TRIGGER evil AFTER INSERT ON records_eventrow BEGIN DELETE FROM records_cacherow; END;",
            """DROP TRIGGER records_eventrow_no_update;
            CREATE TRIGGER records_eventrow_no_update BEFORE UPDATE ON records_eventrow BEGIN SELECT 1; END;""",
            "CREATE VIEW evil AS SELECT * FROM records_learner;",
            "CREATE VIRTUAL TABLE evil USING fts5(words);",
            "CREATE TABLE evil (x);",
            "CREATE INDEX evil ON records_eventrow (lower(payload));",
            "DROP TABLE records_cacherow; CREATE VIEW records_cacherow AS SELECT 1 AS id;",
        ],
    )
    def test_a_database_with_foreign_things_in_it(self, file: Path, tmp_path: Path, change: str) -> None:
        refused(repacked(file, tmp_path / "b.zip", change=change), tmp_path, NotABackup, "not ours")

    @pytest.mark.parametrize(
        "change",
        [
            "ALTER TABLE records_learner ADD COLUMN evil TEXT;",
            "ALTER TABLE records_learner ADD COLUMN evil TEXT GENERATED ALWAYS AS (name) VIRTUAL;",
            "DROP TRIGGER records_eventrow_no_delete;",
            "DROP TABLE records_cacherow; CREATE TABLE records_cacherow (id);",
        ],
    )
    def test_a_database_of_another_shape(self, file: Path, tmp_path: Path, change: str) -> None:
        refused(repacked(file, tmp_path / "b.zip", change=change), tmp_path, NotABackup, "shaped")

    @pytest.mark.parametrize(
        ("table", "column"),
        [("records_eventrow", "payload"), ("records_sheetrow", "spec"), ("records_sheetrow", "pages")],
    )
    def test_a_record_that_does_not_read(self, file: Path, tmp_path: Path, table: str, column: str) -> None:
        change = tampered(table, column, '{"is": "evil"}')

        refused(repacked(file, tmp_path / "b.zip", change=change), tmp_path, NotABackup, "does not read")

    def test_a_plan_that_was_tampered_with(self, file: Path, tmp_path: Path) -> None:
        change = tampered("records_planversionrow", "plan", "{}")

        refused(repacked(file, tmp_path / "b.zip", change=change), tmp_path, NotABackup, "a plan")

    def test_a_row_that_points_nowhere(self, file: Path, tmp_path: Path) -> None:
        change = "PRAGMA foreign_keys = OFF; DELETE FROM records_household;"

        refused(repacked(file, tmp_path / "b.zip", change=change), tmp_path, BackupIsDamaged, "hang together")
