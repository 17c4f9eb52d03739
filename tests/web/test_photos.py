"""From photos to marks on the pages: what is asked, what counts, and what changes nothing.

The reader itself has its own tests; here it is told what it reads, so that every case can be made exactly.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Self

import cv2
import numpy as np
import pytest
from django.core.files.uploadedfile import SimpleUploadedFile

from dayleaf.events.model import Marked, Mended
from dayleaf.reading.model import BoxReading, PageReading
from dayleaf.records import photo_files, photos, selectors
from dayleaf.records.models import PhotoPageRow, PhotoRow
from dayleaf.web import photo_reading

if TYPE_CHECKING:
    from collections.abc import Iterator

    from django.test import Client

    from dayleaf.records.models import Household, Learner

SHEET = "4C7Q2MX"
HABIT = {1: "36", 2: "36", 3: "65", 4: "44", 5: "66", 6: "44"}
"""JOB 1.7: what a child writes who takes the smaller digit from the larger; only the last is right."""

RIGHT = {1: "24", 2: "24", 3: "55", 4: "36", 5: "54", 6: "44"}
HTMX = {"HX-Request": "true"}


def photo(seed: int = 1) -> SimpleUploadedFile:
    """A JPEG file that differs from every other seed's."""
    picture = np.random.default_rng(seed).integers(0, 255, (40, 30), np.uint8)
    return SimpleUploadedFile(f"IMG_{seed}.jpg", cv2.imencode(".jpg", picture)[1].tobytes())


def reads(answers: dict[int, str], **doubtful: str) -> PageReading:
    """The sheet with these answers, a digit a box; `b3_1_0="17"` is a doubtful box that reads 1 or else 7."""
    boxes = []
    for n, answer in answers.items():
        for place, digit in enumerate(answer.rjust(2)):
            box = BoxReading(f"{n}.1.{place}", digit.strip(), 0.999, "sure" if digit.strip() else "blank")
            if likely := doubtful.get("b" + box.id.replace(".", "_")):
                box = replace(box, reading=likely[0], certainty=0.7, state="ask", likely=tuple(likely))
            boxes.append(box)
    return PageReading("read", 1, sheet=SHEET, page=1, boxes=tuple(boxes), flat=b"\xff\xd8 a side")


def refusal(code: str, sentence: str) -> PageReading:
    return PageReading("refused", 1, code, sentence)


@dataclass
class Told:
    """A reader that reads what it is told, photo after photo."""

    pages: list[list[PageReading]]

    def __call__(self, find: object, *, with_pictures: bool) -> Told:
        assert callable(find)
        assert with_pictures
        return self

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        """Nothing to end."""

    def forget(self) -> None:
        """Nothing was seen."""

    def read(self, data: bytes) -> Iterator[PageReading]:
        assert data
        yield from self.pages.pop(0)


@pytest.fixture
def hand_in(browser: Client, monkeypatch: pytest.MonkeyPatch) -> Iterator[HandIn]:
    yield HandIn(browser, monkeypatch)
    photo_reading.wait_for_it(20)


@dataclass
class HandIn:
    """Hands a photo in and waits until it is read."""

    browser: Client
    monkeypatch: pytest.MonkeyPatch
    seed: int = 0

    def __call__(self, *pages: PageReading) -> str:
        self.seed += 1
        self.monkeypatch.setattr(photos, "Reader", Told([list(pages)]))
        self.browser.post("/photos", {"photos": photo(self.seed)})
        photo_reading.wait_for_it(20)
        return words(self.browser, "/photos")


def words(browser: Client, address: str) -> str:
    """What a person reads."""
    return " ".join(re.sub(r"<[^>]+>", " ", browser.get(address).content.decode()).split())


def settle(browser: Client, **said: str) -> str:
    """Post the page's fields; what the answer says. `item_3` stands for item-3."""
    data = {name.replace("_", "-", 1).replace("_", "."): value for name, value in said.items()}
    answer = browser.post(f"/mark/{SHEET}/photo", data, headers=HTMX)
    return " ".join(re.sub(r"<[^>]+>", " ", answer.content.decode()).split())


def markings(learner: Learner) -> list[Marked]:
    return [event for event in selectors.events_of(learner, Marked) if isinstance(event, Marked)]


def test_a_sheet_that_is_surely_right_is_marked_in_one_touch(browser: Client, wren: Learner, hand_in: HandIn) -> None:
    listed = hand_in(reads(RIGHT))

    said = settle(browser, keep="yes")

    assert "One sheet waits for your look" in listed
    assert "all is read; keep the marks" in listed
    assert "6 of 6 right." in said
    (marked,) = markings(wren)
    assert {one.state for one in marked.items} == {"right"}
    assert {(one.settled, one.by) for one in marked.evidence} == {(None, "")}
    assert len(marked.evidence) == 12


def test_nothing_counts_against_a_child_before_somebody_looked(browser: Client, wren: Learner, hand_in: HandIn) -> None:
    hand_in(reads(HABIT))

    early = settle(browser, item_1="36", item_2="36", keep="yes")
    before = markings(wren)
    late = settle(browser, **{f"item_{n}": answer for n, answer in HABIT.items() if n < 6}, keep="yes")

    assert "One more look at items 3, 4, 5" in early
    assert before == []
    assert "1 of 6 right." in late
    assert "taking the smaller digit from the larger" in late
    assert "Comes back on Thursday 14 January" in late
    (marked,) = markings(wren)
    assert [one.answer for one in marked.items] == list(HABIT.values())
    looked = {one.box: (one.settled, one.by) for one in marked.evidence if one.settled is not None}
    assert looked == {str(n): (HABIT[n], "this computer") for n in range(1, 6)}


def test_a_doubtful_digit_is_asked_with_what_it_may_be_and_the_key_makes_none_right(
    browser: Client, wren: Learner, hand_in: HandIn
) -> None:
    hand_in(reads(RIGHT, b1_1_1="49", b3_1_0="53"))

    page = browser.get(f"/mark/{SHEET}/photo").content.decode()
    half = settle(browser, box_1_1_1="4")
    again = words(browser, f"/mark/{SHEET}/photo")
    done = settle(browser, box_1_1_1="4", box_3_1_0="blank", keep="yes")

    assert "Two places to look at" in page
    for value in ("4", "9", "blank"):
        assert f'name="box-1.1.1" value="{value}"' in page
    assert "One place to look at" in half
    assert "One place to look at" in again, "what was said is kept before the marks are"
    assert "5 of 6 right." in done, "the person who settled the box has seen it: there is nothing more to ask"
    last = markings(wren)[-1]
    assert (last.items[0].state, last.items[2].state, last.items[2].answer) == ("right", "wrong", "5")
    evidence = {one.box: one for one in last.evidence}
    assert (evidence["1.1.1"].reading, evidence["1.1.1"].certainty, evidence["1.1.1"].settled) == ("4", 0.7, "4")
    assert evidence["3.1.0"].settled == ""


def test_a_whole_answer_can_be_typed_and_what_cannot_be_one_changes_nothing(
    browser: Client, wren: Learner, hand_in: HandIn
) -> None:
    hand_in(reads({**RIGHT, 2: "21"}))

    wrong = settle(browser, typed_2="many", keep="yes")
    right = settle(browser, typed_2="24", keep="yes")

    assert "item 2 is answered in digits" in wrong
    assert "6 of 6 right." in right
    assert len(markings(wren)) == 1


def test_marks_from_a_photo_are_corrected_by_a_new_event_that_names_the_one_before(
    browser: Client, wren: Learner, hand_in: HandIn
) -> None:
    hand_in(reads(RIGHT))

    settle(browser, keep="yes")
    again = settle(browser, typed_4="44", helped="2", reached="5", keep="yes")

    first, second = markings(wren)
    assert "4 of 5 right. The earlier marks of this sheet are corrected." in again
    assert second.replaces == first.head.id
    assert [one.state for one in second.items] == ["right", "right", "right", "wrong", "right", "not reached"]
    assert [one.n for one in second.items if one.helped] == [2]


def test_a_mending_stands_beside_the_first_answer_and_can_be_taken_back(
    browser: Client, wren: Learner, hand_in: HandIn
) -> None:
    hand_in(reads({**RIGHT, 3: "65"}))
    settle(browser, item_3="65", keep="yes")

    asked = words(browser, f"/mark/{SHEET}")
    done = browser.post(f"/mark/{SHEET}/mended", {"n": "3", "how": "with help"}, headers=HTMX).content.decode()
    browser.post(f"/mark/{SHEET}/mended", {"n": "3", "how": "not so"})
    refused = browser.post(f"/mark/{SHEET}/mended", {"n": "1", "how": "alone"})

    assert "Mended at the table? The first answer stays beside it. 3. 84 − 29: wrote 65 alone with help" in asked
    assert "mended with help" in done
    assert refused.status_code == 422
    said = [event for event in selectors.events_of(wren, Mended) if isinstance(event, Mended)]
    assert [(one.n, one.with_help, one.taken_back) for one in said] == [(3, True, False), (3, False, True)]
    assert selectors.mended_of(selectors.sheet_find(wren.household, SHEET)) == {}
    assert markings(wren)[-1].items[2].state == "wrong"


@pytest.mark.parametrize(
    ("code", "sentence"),
    [
        ("unknown-sheet", "The sheet 7777777 was not printed here."),
        ("two-sheets", "There are two sheets in one picture; take one picture of each."),
        ("not-a-sheet", "No sheet is seen here: a sheet has a square mark in each corner."),
    ],
)
def test_a_refused_photo_is_answered_in_a_sentence_and_not_kept(
    hand_in: HandIn, browser: Client, code: str, sentence: str
) -> None:
    said = hand_in(refusal(code, sentence))

    row = PhotoRow.objects.get()
    assert f"Not read {sentence}" in said
    assert list(photo_files.folder().iterdir()) == []
    browser.post(f"/photos/{row.sha256}/1/away")
    assert "Not read" not in words(browser, "/photos")
    assert PhotoRow.objects.count() == 0


def test_putting_the_sentence_of_one_page_away_leaves_the_other_pages_of_its_file(
    browser: Client, hand_in: HandIn
) -> None:
    said = hand_in(reads(RIGHT), replace(refusal("blurred", "The picture is blurred."), page_in_file=2))
    sha256 = PhotoRow.objects.get().sha256

    browser.post(f"/photos/{sha256}/2/away")

    assert "Page 2: The picture is blurred." in said
    after = words(browser, "/photos")
    assert "blurred" not in after
    assert "all is read; keep the marks" in after
    assert browser.post(f"/photos/{sha256}/1/away").status_code == 404


def test_the_same_side_twice_counts_once_until_the_first_photo_is_taken_away(browser: Client, hand_in: HandIn) -> None:
    hand_in(reads(RIGHT))
    first = PhotoRow.objects.get()

    twice = hand_in(reads(HABIT))
    same_file = browser.post("/photos", {"photos": photo(1)})
    kept = photos.sides_seen(selectors.sheet_find(selectors.household(), SHEET))
    browser.post(f"/photos/{first.sha256}/remove")
    third = hand_in(reads(HABIT))

    assert "Side 1 of the sheet 4C7Q2MX is here twice; the first one counts." in twice
    assert "This photo is here already; it counts once." in same_file.content.decode()
    assert [side.photo for side in kept] == [first.sha256]
    assert "five places to look at" in third


def test_what_is_no_photo_is_named_and_the_others_are_read(browser: Client, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(photos, "Reader", Told([[reads(RIGHT)]]))
    heic = SimpleUploadedFile("IMG_7.heic", b"\0\0\0\x18ftypheic" + bytes(40))
    text = SimpleUploadedFile("list.txt", b"eggs, flour")

    answer = browser.post("/photos", {"photos": [heic, photo(), text]})
    photo_reading.wait_for_it(20)

    said = " ".join(re.sub(r"<[^>]+>", " ", answer.content.decode()).split())
    assert answer.status_code == 422
    assert "IMG_7.heic: This photo is in the HEIC format; set the camera to JPEG, or send the photo as JPEG." in said
    assert "list.txt: This is not a photo or a scan; send JPEG, PNG, WebP or PDF." in said
    assert [row.state for row in PhotoRow.objects.all()] == ["read"]


def test_more_photos_than_anybody_sends_are_answered_in_words(browser: Client) -> None:
    many = [SimpleUploadedFile(f"{n}.jpg", b"\xff\xd8\xff") for n in range(101)]

    answer = browser.post("/photos", {"photos": many})

    assert answer.status_code == 400
    assert b"at most 100 photos" in answer.content
    assert PhotoRow.objects.count() == 0


def test_taking_a_photo_away_leaves_the_marks(browser: Client, wren: Learner, hand_in: HandIn) -> None:
    hand_in(reads(RIGHT))
    settle(browser, keep="yes")
    sha256 = PhotoRow.objects.get().sha256
    side = browser.get(f"/photos/{sha256}/1.jpg")

    browser.post(f"/photos/{sha256}/remove")

    assert side.content.startswith(b"\xff\xd8")
    assert browser.get(f"/photos/{sha256}/1.jpg").status_code == 404
    assert browser.get(f"/mark/{SHEET}/photo").status_code == 404
    assert list(photo_files.folder().iterdir()) == []
    assert len(markings(wren)) == 1


def test_a_sheet_that_nobody_wrote_on_is_not_a_sheet_of_misses(browser: Client, wren: Learner, hand_in: HandIn) -> None:
    hand_in(reads(dict.fromkeys(RIGHT, "")))

    said = settle(browser, keep="yes")

    assert "Nothing is written on this sheet" in said
    assert markings(wren) == []


def test_another_households_photos_are_never_shown(browser: Client, neighbours: Household, hand_in: HandIn) -> None:
    hand_in(reads(RIGHT))
    PhotoRow.objects.update(household=neighbours)
    PhotoPageRow.objects.update(household=neighbours)
    sha256 = PhotoRow.objects.get().sha256

    answers = [
        browser.get(f"/photos/{sha256}/1.jpg"),
        browser.post(f"/photos/{sha256}/remove"),
        browser.get("/mark/7777777/photo"),
        browser.post("/mark/7777777/photo", {"keep": "yes"}),
        browser.post("/mark/7777777/mended", {"n": "1", "how": "alone"}),
    ]

    assert {answer.status_code for answer in answers} == {404}
    assert "4C7Q2MX" not in words(browser, "/photos")


def test_looking_at_photos_writes_nothing_and_weighs_on_nobody(browser: Client, hand_in: HandIn) -> None:
    """LOOK, Voice: the words that are never used."""
    hand_in(reads(HABIT, b6_1_0="47"))
    never = r"\b(failed|behind|weak|easy|should|oops|great job|awesome)\b|!"

    for address in ("/photos", f"/mark/{SHEET}/photo", "/phones"):
        html = browser.get(address).content.decode()
        assert not re.search(r"<style|\sstyle=|<script(?![^>]*\ssrc=)|\son\w+=", html)
        assert not re.search(never, words(browser, address), re.IGNORECASE), address
