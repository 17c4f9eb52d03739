"""What the database itself refuses, and what is written once and never changed."""

from __future__ import annotations

import os
import stat
from datetime import UTC, date, datetime
from typing import TYPE_CHECKING

import pytest
from django.db import IntegrityError, connection, transaction

from dayleaf.core.errors import BadInput
from dayleaf.core.ids import EventId, LearnerId, LessonId, SkillId
from dayleaf.events.model import Head, Taught
from dayleaf.records import people, selectors, services
from dayleaf.records.errors import NoSuchChild, NoSuchSheet, NothingToUndo, NotThisHousehold
from dayleaf.records.folder import NotAHome, far_away
from dayleaf.records.home import HomeIsDamaged, HomeIsNewer, open_home
from dayleaf.records.models import EventRow

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from dayleaf.events.model import ItemMark
    from dayleaf.records.home import Home
    from dayleaf.records.models import Household, Learner, PrintRow

TUESDAY = date(2027, 1, 12)
EVENING = datetime(2027, 1, 12, 20, 10, tzinfo=UTC)


def taught(learner: str, *, id: str = "e1") -> Taught:  # noqa: A002 -- the event's own name for it
    head = Head(EventId(id), EVENING, TUESDAY, LearnerId(learner))
    return Taught(head, LessonId("day-084"), "done", (SkillId("sub-2digit-regroup"),))


def pragma(name: str) -> object:
    with connection.cursor() as cursor:
        cursor.execute(f"PRAGMA {name}")
        return cursor.fetchone()[0]


class TestFolder:
    @pytest.mark.skipif(os.name != "posix", reason="modes of files are a POSIX thing")
    def test_only_its_owner_can_look_into_it(self, home: Home) -> None:
        modes = {path.name: stat.S_IMODE(path.stat().st_mode) for path in home.folder.iterdir()}

        assert stat.S_IMODE(home.folder.stat().st_mode) == 0o700
        assert modes["secret.key"] == 0o600
        assert modes["dayleaf.sqlite3"] == 0o600

    def test_a_confirmed_write_survives_a_power_cut(self, home: Home) -> None:
        """SQLite's documentation: FULL (2) syncs the log at every commit, also in WAL."""
        assert home.database.exists()
        assert pragma("journal_mode") == "wal"
        assert pragma("synchronous") == 2
        assert pragma("trusted_schema") == 0

    def test_each_home_has_its_own_key_and_keeps_it(self, home: Home, tmp_path: Path) -> None:
        key = (home.folder / "secret.key").read_text()

        other = open_home(tmp_path / "other")
        again = open_home(home.folder)

        assert (again.folder / "secret.key").read_text() == key
        assert (other.folder / "secret.key").read_text() != key

    def test_a_file_is_no_home(self, tmp_path: Path) -> None:
        file = tmp_path / "letter.txt"
        file.write_text("dear")

        with pytest.raises(NotAHome, match="it is a file"):
            open_home(file)

        assert file.read_text() == "dear"

    def test_a_folder_full_of_other_things_is_left_alone(self, tmp_path: Path) -> None:
        folder = tmp_path / "photos"
        folder.mkdir(mode=0o755)
        (folder / "heron.jpg").write_bytes(b"x")

        with pytest.raises(NotAHome, match="other things"):
            open_home(folder)

        assert [path.name for path in folder.iterdir()] == ["heron.jpg"]
        assert stat.S_IMODE(folder.stat().st_mode) == 0o755

    def test_a_network_disk_is_warned_about(self, tmp_path: Path) -> None:
        """Columns of the table of mounts: fstab(5)."""
        local = "/dev/sda1 / ext4 rw 0 0\n"
        table = local + f"box:/share {tmp_path} nfs4 rw 0 0\n"

        assert far_away(tmp_path / "home", table)
        assert not far_away(tmp_path / "home", local)

    def test_records_of_a_newer_version_are_not_touched(self, home: Home) -> None:
        with connection.cursor() as cursor:
            cursor.execute("PRAGMA user_version = 9999")

        with pytest.raises(HomeIsNewer):
            open_home(home.folder)

    def test_a_damaged_database_is_said_to_be_damaged(self, tmp_path: Path) -> None:
        folder = tmp_path / "home"
        folder.mkdir()
        (folder / "dayleaf.sqlite3").write_bytes(b"not a database at all" * 100)

        with pytest.raises(HomeIsDamaged, match="backup"):
            open_home(folder)


class TestWrittenOnce:
    @pytest.mark.parametrize("verb", ["UPDATE {} SET household_id = household_id", "DELETE FROM {}"])
    @pytest.mark.parametrize(
        "table", ["records_eventrow", "records_printrow", "records_sheetrow", "records_planversionrow"]
    )
    def test_the_database_refuses_to_change_what_was_written(
        self, wren: Learner, print_day: Callable[..., PrintRow], verb: str, table: str
    ) -> None:
        print_day(wren)
        services.plan_set(learner=wren, plan="{}", reason="first", day=TUESDAY)

        with pytest.raises(IntegrityError, match="never changed"), connection.cursor() as cursor:
            cursor.execute(verb.format(table))

    def test_an_event_is_written_once_only(self, wren: Learner) -> None:
        services.event_append(household=wren.household, event=taught(wren.id))

        with pytest.raises(IntegrityError):
            services.event_append(household=wren.household, event=taught(wren.id))

    def test_all_events_of_a_batch_are_written_or_none(self, wren: Learner) -> None:
        batch = [taught(wren.id, id="a"), taught(wren.id, id="b"), taught(wren.id, id="a")]

        with pytest.raises(IntegrityError):
            services.events_append(household=wren.household, events=batch)

        assert selectors.events_of(wren) == ()

    def test_an_unknown_kind_of_event_does_not_get_in(self, wherrows: Household) -> None:
        with pytest.raises(IntegrityError, match="event_kind_is_known"), transaction.atomic():
            EventRow.objects.create(
                household=wherrows, event_id="x", kind="guessed", day=TUESDAY, at=EVENING, payload="{}"
            )

    def test_events_come_back_as_they_went_in(self, wren: Learner) -> None:
        written = tuple(taught(wren.id, id=f"e{n}") for n in range(5))

        services.events_append(household=wren.household, events=written)

        assert selectors.events_of(wren) == written
        assert selectors.events_of(wren, Taught) == written
        assert selectors.events_of_household(wren.household) == written

    def test_a_child_of_another_household_is_refused(self, wren: Learner) -> None:
        others = people.household_create(name="The neighbours")

        with pytest.raises(NotThisHousehold):
            services.event_append(household=others, event=taught(wren.id))

        assert selectors.events_of(wren) == ()


class TestPeople:
    def test_all_problems_of_a_household_come_at_once(self, home: Home) -> None:
        assert home.warning is None
        with pytest.raises(BadInput) as caught:
            people.household_create(name=" ", time_zone="Long Cut/Nether Sluice", paper="a5")

        assert [problem.where for problem in caught.value.problems] == ["name", "time zone", "paper"]

    @pytest.mark.parametrize("name", ["wren", " Wren ", "WREN"])
    def test_two_children_with_one_name_are_told_apart(self, wren: Learner, name: str) -> None:
        with pytest.raises(BadInput, match="tell the two apart"):
            people.learner_add(household=wren.household, name=name)

    @pytest.mark.parametrize("name", ["", "\u202eNerw", "Wr\ten", "雷恩" * 30])
    def test_a_name_that_cannot_be_printed_is_refused(self, wherrows: Household, name: str) -> None:
        with pytest.raises(BadInput):
            people.learner_add(household=wherrows, name=name)

        assert not wherrows.learners.exists()

    def test_an_unknown_child_is_answered_with_the_names(self, wren: Learner) -> None:
        people.learner_add(household=wren.household, name="Ivo")

        with pytest.raises(NoSuchChild, match="Wren, Ivo"):
            selectors.learner_by_name(wren.household, "Pell")
        assert selectors.learner_by_name(wren.household, "wREN") == wren

    def test_the_day_is_the_households_own(self, wherrows: Household) -> None:
        wherrows.time_zone = "Pacific/Auckland"

        assert selectors.today_of(wherrows, datetime(2027, 1, 12, 20, 10, tzinfo=UTC)) == date(2027, 1, 13)


class TestSheets:
    def test_a_sheet_comes_back_byte_for_byte(self, wren: Learner, print_day: Callable[..., PrintRow]) -> None:
        print_day(wren)

        printed = selectors.print_of(wren, LessonId("day-084"))
        sheet = selectors.sheet_find(wren.household, "4c7q2mx")
        assert printed is not None
        assert (bytes(printed.guide), bytes(printed.pages), bytes(printed.key)) == (
            b"%PDF guide",
            b"%PDF pages",
            b"%PDF key",
        )
        first = selectors.spec_of(sheet).pages[0].blocks[0].items[0].item
        assert (first.numbers, first.answer, first.errors) == ({"a": 62, "b": 38}, "24", {"smaller-from-larger": "36"})
        assert selectors.pages_of(sheet)[0].items[0].key == first.key

    def test_a_strangers_sheet_gets_the_words_of_an_unknown_one(
        self, wren: Learner, print_day: Callable[..., PrintRow]
    ) -> None:
        print_day(wren)
        others = people.household_create(name="The neighbours")

        with pytest.raises(NoSuchSheet) as strange:
            selectors.sheet_find(others, "4C7Q2MX")
        with pytest.raises(NoSuchSheet) as unknown:
            selectors.sheet_find(others, "ZZZZZZZ")
        assert str(strange.value).replace("4C7Q2MX", "") == str(unknown.value).replace("ZZZZZZZ", "")

    def test_two_households_may_have_the_same_sheet_id_and_never_see_each_others(
        self, wren: Learner, print_day: Callable[..., PrintRow], marks: tuple[ItemMark, ...]
    ) -> None:
        others = people.household_create(name="The neighbours")
        pip = people.learner_add(household=others, name="Pip")
        print_day(wren)
        print_day(pip)

        services.sheet_mark(sheet=selectors.sheet_find(others, "4C7Q2MX"), items=marks, day=TUESDAY)

        assert selectors.sheet_find(wren.household, "4C7Q2MX").learner == wren
        assert selectors.sheet_find(others, "4C7Q2MX").learner == pip
        assert [sheet.learner for sheet in selectors.sheets_unmarked(wren)] == [wren]
        assert selectors.sheets_unmarked(pip) == ()

    def test_one_household_never_prints_an_id_twice(self, wren: Learner, print_day: Callable[..., PrintRow]) -> None:
        print_day(wren)

        with pytest.raises(IntegrityError):
            print_day(wren, lesson="day-085")

        assert [row.lesson for row in selectors.sheets_of(wren)] == ["day-084"]
        assert len(selectors.events_of(wren)) == 1

    def test_marking_again_corrects_and_says_what_it_corrects(
        self, wren: Learner, print_day: Callable[..., PrintRow], marks: tuple[ItemMark, ...]
    ) -> None:
        print_day(wren)
        sheet = selectors.sheet_find(wren.household, "4C7Q2MX")

        first = services.sheet_mark(sheet=sheet, items=marks[:1], day=TUESDAY)
        second = services.sheet_mark(sheet=sheet, items=marks, day=TUESDAY)

        assert first.replaces is None
        assert second.replaces == first.head.id
        assert selectors.marking_of(sheet) == second
        assert selectors.sheets_unmarked(wren) == ()

    def test_only_the_last_print_of_a_lesson_waits_for_marks(
        self, wren: Learner, print_day: Callable[..., PrintRow]
    ) -> None:
        print_day(wren)
        print_day(wren, sheet="7777777")

        assert [row.sheet_id for row in selectors.sheets_unmarked(wren)] == ["7777777"]


class TestPlans:
    def test_undo_brings_the_old_plan_back_byte_for_byte(self, wren: Learner) -> None:
        services.plan_set(learner=wren, plan='{"days":["é"]}', reason="first", day=TUESDAY)
        services.plan_set(learner=wren, plan='{"days":[]}', reason="a day off", day=TUESDAY)

        services.plan_undo(learner=wren, day=TUESDAY)

        assert selectors.plan_version(wren).plan == '{"days":["é"]}'
        with pytest.raises(NothingToUndo):
            services.plan_undo(learner=wren, day=TUESDAY)

    def test_a_plan_made_after_an_undo_grows_from_the_one_in_force(self, wren: Learner) -> None:
        first = services.plan_set(learner=wren, plan="1", reason="first", day=TUESDAY)
        services.plan_set(learner=wren, plan="2", reason="second", day=TUESDAY)
        services.plan_undo(learner=wren, day=TUESDAY)

        third = services.plan_set(learner=wren, plan="3", reason="third", day=TUESDAY)

        assert third.parent == first


class TestCaches:
    def test_a_cache_holds_until_the_next_event(self, wren: Learner) -> None:
        services.cache_keep(learner=wren, kind="beliefs", model_version="1", payload={"p": 0.5})
        before = selectors.cached(wren, "beliefs", "1")
        services.event_append(household=wren.household, event=taught(wren.id))

        assert before == {"p": 0.5}
        assert selectors.cached(wren, "beliefs", "1") is None

    def test_a_cache_of_another_model_is_not_used(self, wren: Learner) -> None:
        services.cache_keep(learner=wren, kind="beliefs", model_version="1", payload=[])

        assert selectors.cached(wren, "beliefs", "2") is None
