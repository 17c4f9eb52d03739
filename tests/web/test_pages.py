"""What the pages say and do, asked for as a browser would."""

from __future__ import annotations

import re
from datetime import date
from typing import TYPE_CHECKING, Protocol

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from dayleaf.core.ids import LessonId, SkillId
from dayleaf.course.load import grade2
from dayleaf.events.model import Marked, PlanChanged, Printed, Taught
from dayleaf.records import backs, beliefs, selectors, services
from dayleaf.records.errors import NoHousehold
from dayleaf.records.paper import child_of

if TYPE_CHECKING:
    from pytest_django.fixtures import Settings

    from dayleaf.records.models import Household, Learner

SHEET = "4C7Q2MX"
HTMX = {"HX-Request": "true"}
HABIT = {"wrong-1": "36", "wrong-2": "36", "wrong-3": "65", "wrong-4": "44", "wrong-5": "66"}


class Answer(Protocol):
    """What the test client gives back, as far as it is read here."""

    @property
    def content(self) -> bytes: ...


def words(response: Answer) -> str:
    """What a person reads: the text without its marks."""
    return " ".join(re.sub(r"<[^>]+>", " ", response.content.decode()).split())


def pages(wren: Learner) -> list[str]:
    child = f"/children/{wren.id}"
    return [
        *("/", "/week", "/mark", f"/mark/{SHEET}", "/children", child, "/year", f"/year/{wren.id}", "/settings"),
        *(f"{child}/placement", f"{child}/placement?map=yes", f"{child}/practice", f"/note/{wren.id}/day-084"),
        *(f"{child}/skills/sub-2digit-regroup", f"{child}/skills/sub-2digit-regroup/ask"),
    ]


class TestFirstVisit:
    @pytest.mark.usefixtures("home")
    def test_three_answers_lead_to_todays_pages(self) -> None:
        browser = Client()

        welcome = browser.get("/", follow=True)
        answers = {"name": ["Wren", "", "Ivo"], "weekday": ["0", "1", "3", "4"], "start": "2027-01-12"}
        today = browser.post("/begin", {**answers, "time_zone": "America/Chicago"}, follow=True)

        assert "Three questions" in words(welcome)
        assert "Wren · the first day: what you know already" in words(today)
        assert "Ivo · the first day" in words(today)
        household = selectors.household()
        assert (household.time_zone, household.paper) == ("America/Chicago", "letter")

    @pytest.mark.usefixtures("home")
    def test_everything_missing_is_said_at_once_and_nothing_is_made(self) -> None:
        response = Client().post("/begin", {"name": "", "start": "soon"})

        said = words(response)
        assert response.status_code == 422
        assert all(question in said for question in ("Who learns:", "Which days:", "From when:"))
        with pytest.raises(NoHousehold):
            selectors.household()

    @pytest.mark.usefixtures("home")
    @pytest.mark.parametrize("names", [["Wren", "wren"], ["Wren\u202e"], ["W" * 41]])
    def test_a_name_that_cannot_stand_on_paper_makes_nothing(self, names: list[str]) -> None:
        response = Client().post("/begin", {"name": names, "weekday": "0", "start": "2027-01-12"})

        assert response.status_code == 422
        with pytest.raises(NoHousehold):
            selectors.household()

    @pytest.mark.usefixtures("home")
    def test_one_day_a_week_that_cannot_hold_the_course_says_so(self) -> None:
        response = Client().post("/begin", {"name": "Wren", "weekday": "0", "start": "2027-01-12"})

        assert response.status_code == 422
        assert "do not fit" in words(response)

    def test_a_second_household_is_not_made_by_accident(self, browser: Client) -> None:
        assert browser.post("/begin", {"name": "Pip"}).headers["Location"] == "/"


class TestToday:
    def test_the_day_is_told_in_a_sentence_before_any_detail(self, browser: Client) -> None:
        said = words(browser.get("/"))

        assert "Tuesday 12 January" in said
        assert "About 21 minutes with you, 43 in all" in said
        assert "Wren · not enough ones: two-digit take-away" in said
        assert "One sheet from yesterday is not marked yet." in said

    def test_done_is_one_touch_and_can_be_taken_back(self, browser: Client, wren: Learner) -> None:
        address = f"/said/{wren.id}/day-084"

        done = browser.post(address, {"how_far": "done"}, headers=HTMX)
        undone = browser.post(address, {"how_far": "not said"}, headers=HTMX)

        assert "Done today. Undo" in words(done)
        assert "<html" not in done.content.decode()
        assert "done half not today" in words(undone)
        said = [event.how_far for event in selectors.events_of(wren, Taught) if isinstance(event, Taught)]
        assert said == ["done", "not said"]

    def test_not_today_moves_the_plan_and_taking_it_back_brings_it_back_byte_for_byte(
        self, browser: Client, wren: Learner
    ) -> None:
        before = selectors.plan_version(wren).plan
        address = f"/said/{wren.id}/day-084"

        moved = browser.post(address, {"how_far": "not today"}, follow=True)
        plan = selectors.plan_version(wren).plan
        back = browser.post(address, {"how_far": "not said"}, follow=True)

        assert "Not today: it comes on the next learning day." in words(moved)
        assert '["day-084","2027-01-14"]' in plan
        assert selectors.plan_version(wren).plan == before
        assert "done half not today" in words(back)

    def test_a_change_of_mind_from_not_today_to_done_brings_the_plan_back(self, browser: Client, wren: Learner) -> None:
        before = selectors.plan_version(wren).plan

        browser.post(f"/said/{wren.id}/day-084", {"how_far": "not today"})
        browser.post(f"/said/{wren.id}/day-084", {"how_far": "done"})

        assert selectors.plan_version(wren).plan == before

    def test_an_unknown_word_is_refused_and_writes_nothing(self, browser: Client, wren: Learner) -> None:
        events = selectors.events_of(wren)

        response = browser.post(f"/said/{wren.id}/day-084", {"how_far": "never"})

        assert response.status_code == 422
        assert selectors.events_of(wren) == events

    def test_once_printed_the_page_says_what_stands_on_the_paper(
        self, browser: Client, wren: Learner, printed_today: str
    ) -> None:
        browser.post(f"/mark/{SHEET}", HABIT)

        said = words(browser.get("/"))

        title = grade2().skills[SkillId(printed_today)].title
        assert selectors.is_printed(wren, LessonId("day-084"))
        assert f"Comes back today {title} Why these" in said
        assert "Open today’s pages again" in said

    def test_what_was_not_worked_out_yet_is_worked_out_by_a_form_of_the_page(self, household: Household) -> None:
        browser = Client(enforce_csrf_checks=True)
        sheet = selectors.sheet_find(household, SHEET)
        services.sheet_look(sheet=sheet, skills=[], impression="all fine", day=date(2027, 1, 12))

        page = browser.get("/").content.decode()
        token = re.findall(r'name="csrfmiddlewaretoken" value="(\w+)"', page)[0]
        prepared = browser.post("/prepare", {"csrfmiddlewaretoken": token}, headers=HTMX)

        assert 'hx-trigger="load, submit"' in page
        assert "Choose now" not in words(prepared)
        assert "Why these" in words(prepared)

    def test_a_day_without_lessons_says_what_comes_next(self, browser: Client, settings: Settings) -> None:
        settings.TODAY = date(2027, 1, 13)

        said = words(browser.get("/"))

        assert "A day without lessons" in said
        assert "Next: Write it in columns, on Thursday 14 January." in said


class TestMarking:
    def test_all_right_is_one_touch(self, browser: Client, wren: Learner) -> None:
        response = browser.post(f"/mark/{SHEET}", headers=HTMX)

        assert "6 of 6 right." in words(response)
        (marked,) = selectors.events_of(wren, Marked)
        assert isinstance(marked, Marked)
        assert {mark.state for mark in marked.items} == {"right"}

    def test_a_habit_is_named_in_two_sentences_with_what_comes_back(self, browser: Client) -> None:
        """JOB 1.7: five of these six are explained by taking the smaller digit from the larger."""
        response = browser.post(f"/mark/{SHEET}", HABIT, headers=HTMX)

        said = words(response)
        assert "1 of 6 right." in said
        assert "show the same habit: taking the smaller digit from the larger." in said
        assert "62 − 38" in said
        assert "Comes back on Thursday 14 January" in said

    def test_marking_again_corrects_and_says_so(self, browser: Client, wren: Learner) -> None:
        browser.post(f"/mark/{SHEET}", {"wrong-3": "65"}, headers=HTMX)

        page = browser.get(f"/mark/{SHEET}")
        again = browser.post(f"/mark/{SHEET}", {"blank": ["2"], "helped": ["4"], "reached": "5"}, headers=HTMX)

        assert 'name="wrong-3" value="65"' in page.content.decode()
        assert "4 of 5 right. The earlier marks of this sheet are corrected." in words(again)
        last = selectors.marking_of(selectors.sheet_find(wren.household, SHEET))
        assert last is not None
        states = [mark.state for mark in last.items]
        assert states == ["right", "blank", "right", "right", "right", "not reached"]
        assert [mark.n for mark in last.items if mark.helped] == [4]

    def test_what_cannot_be_read_is_wrong_without_an_answer(self, browser: Client, wren: Learner) -> None:
        browser.post(f"/mark/{SHEET}", {"wrong-2": "?"})

        last = selectors.marking_of(selectors.sheet_find(wren.household, SHEET))
        assert last is not None
        assert (last.items[1].state, last.items[1].answer) == ("wrong", None)

    def test_all_problems_are_listed_and_nothing_is_kept(self, browser: Client, wren: Learner) -> None:
        posted = {"wrong-1": "24", "wrong-2": "many", "wrong-9": "5", "blank": "3", "wrong-3": "65"}

        response = browser.post(f"/mark/{SHEET}", posted, headers=HTMX)

        said = words(response)
        assert response.status_code == 422
        assert all(f"item {n} " in said for n in (1, 2, 3, 9))
        assert selectors.events_of(wren, Marked) == ()

    def test_without_scripts_the_whole_page_comes_back_with_what_was_typed(self, browser: Client) -> None:
        response = browser.post(f"/mark/{SHEET}", {"wrong-2": "many"})

        assert response.status_code == 422
        assert 'name="wrong-2" value="many"' in response.content.decode()

    def test_marks_change_what_is_believed_at_once(self, browser: Client, wren: Learner) -> None:
        browser.post(f"/mark/{SHEET}", HABIT)

        said = words(browser.get(f"/children/{wren.id}"))
        assert "Subtract 2-digit numbers, opening a ten 1 of 6 right, last asked today; " in said


class TestPapers:
    @pytest.mark.parametrize("paper", ["pages", "guide", "key"])
    def test_a_printed_paper_comes_back_byte_for_byte(self, browser: Client, paper: str) -> None:
        response = browser.get(f"/papers/{'b' * 32}/{paper}.pdf")

        assert response.content == f"%PDF-1.7 {paper}".encode()
        assert response.headers["Content-Type"] == "application/pdf"
        assert response.headers["Content-Disposition"] == f'inline; filename="Wren day-083 {paper}.pdf"'

    def test_a_lesson_printed_before_is_not_printed_anew(self, browser: Client, wren: Learner) -> None:
        response = browser.post(f"/print/{wren.id}/day-083", {"open": "key"})

        assert response.headers["Location"] == f"/papers/{'b' * 32}/key.pdf"
        assert len(selectors.events_of(wren, Printed)) == 1

    def test_the_fonts_come_from_this_machine(self, browser: Client) -> None:
        for name in ("source-sans-3", "literata", "lexend"):
            response = browser.get(f"/fonts/{name}.ttf")
            assert response.content[:4] == b"\x00\x01\x00\x00"  # the TrueType signature
        assert browser.get("/fonts/other.ttf").status_code == 404


class TestLookOfThePages:
    def test_a_childs_choices_hold_from_the_next_print_on(self, browser: Client, wren: Learner) -> None:
        chosen = {"hand": "left", "boxes": "large", "sheets": "one", "fewer": "yes"}

        browser.post(f"/children/{wren.id}/pages", chosen)

        child = child_of(selectors.learner_by_id(wren.household, wren.id))
        assert (child.look.left_handed, child.look.large_boxes, child.two_sheets) == (True, True, False)
        assert child.fewer_items

    def test_a_choice_that_does_not_exist_changes_nothing(self, browser: Client, wren: Learner) -> None:
        answer = browser.post(f"/children/{wren.id}/pages", {"hand": "both", "boxes": "large", "sheets": "one"})

        assert answer.status_code == 422
        assert "not one of right, left" in answer.content.decode()
        assert child_of(selectors.learner_by_id(wren.household, wren.id)).look.large_boxes is False


class TestStrangers:
    def test_another_households_sheet_gets_the_words_of_an_unknown_one(
        self, browser: Client, neighbours: Household
    ) -> None:
        strange = browser.get("/mark/7777777")
        unknown = browser.get("/mark/ZZZZZZZ")

        assert neighbours.sheets.get().sheet_id == "7777777"
        assert strange.status_code == unknown.status_code == 404
        assert words(strange).replace("7777777", "") == words(unknown).replace("ZZZZZZZ", "")

    def test_nothing_of_another_household_is_shown_marked_or_printed(
        self, browser: Client, wren: Learner, neighbours: Household
    ) -> None:
        pip = neighbours.learners.get()

        answers = [
            browser.get(f"/papers/{'c' * 32}/pages.pdf"),
            browser.get(f"/children/{pip.id}"),
            browser.get(f"/year/{pip.id}"),
            browser.post(f"/print/{pip.id}/day-083"),
            browser.post(f"/children/{pip.id}/pages", {"hand": "left", "boxes": "large", "sheets": "one"}),
            browser.post(f"/said/{pip.id}/day-083", {"how_far": "done"}),
            browser.post("/mark/7777777", {"wrong-1": "36"}),
        ]

        assert {answer.status_code for answer in answers} == {404}
        assert len(selectors.events_of(pip)) == 1
        assert all("Pip" not in words(browser.get(address)) for address in pages(wren))

    @pytest.mark.parametrize("address", ["/nothing", "/mark/ZZZZZZZ", "/children/nobody", "/year/nobody"])
    def test_what_is_not_there_is_said_in_words(self, browser: Client, address: str) -> None:
        response = browser.get(address)

        assert response.status_code == 404
        assert "Back to today" in words(response)

    def test_a_form_from_elsewhere_is_refused(self, household: Household, wren: Learner) -> None:
        strange = Client(enforce_csrf_checks=True)

        response = strange.post(f"/said/{wren.id}/day-084", {"how_far": "done"})

        assert household.name
        assert response.status_code == 403
        assert "not handed out by this page" in words(response)
        assert selectors.events_of(wren, Taught) == ()

    def test_another_name_for_this_machine_is_refused(self, browser: Client) -> None:
        """DNS rebinding: a page elsewhere points its own name at this machine."""
        assert browser.get("/", headers={"host": "evil.example"}).status_code == 400


class TestEveryPage:
    def test_no_page_runs_or_loads_anything_of_its_own_or_from_elsewhere(self, browser: Client, wren: Learner) -> None:
        for address in pages(wren):
            response = browser.get(address)
            html = response.content.decode()

            assert response.status_code == 200
            assert "default-src 'self'" in response.headers["Content-Security-Policy"]
            assert not re.search(r"<style|\sstyle=|<script(?![^>]*\ssrc=)|\son\w+=", html)
            assert "//" not in html.replace("http://testserver/", "/")  # this machine's own address, for a calendar

    def test_looking_writes_nothing_and_never_reads_the_log_through(
        self, browser: Client, wren: Learner, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        def never(*_: object, **__: object) -> None:
            pytest.fail("a page that is only looked at must not work anything out")

        browser.get("/")
        for module, name in ((beliefs, "fold"), (beliefs, "resume"), (backs, "choose_back")):
            monkeypatch.setattr(module, name, never)

        for address in pages(wren):
            with CaptureQueriesContext(connection) as queries:
                browser.get(address)
            assert all(query["sql"].startswith("SELECT") for query in queries), address

    def test_no_page_uses_words_that_weigh_on_people(self, browser: Client, wren: Learner) -> None:
        """LOOK, Voice: the words that are never used."""
        never = r"\b(failed|behind|weak|easy|should|oops|great job|awesome)\b|!"
        for address in pages(wren):
            assert not re.search(never, words(browser.get(address)), re.IGNORECASE), address

    def test_undoing_leaves_the_events_as_they_were_written(self, browser: Client, wren: Learner) -> None:
        browser.post(f"/said/{wren.id}/day-084", {"how_far": "not today"})
        browser.post(f"/said/{wren.id}/day-084", {"how_far": "not said"})

        reasons = [event.reason for event in selectors.events_of(wren, PlanChanged) if isinstance(event, PlanChanged)]
        assert reasons == ["first", "no lesson on 2027-01-12", "undo: no lesson on 2027-01-12"]
