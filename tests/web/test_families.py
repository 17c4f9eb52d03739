"""A consultant's page: a family's file is opened, a call is set aside with a note and told again."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import TYPE_CHECKING

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile

from dayleaf.advising.files import packed
from dayleaf.trial.families import families_lived

if TYPE_CHECKING:
    from django.test import Client

    from dayleaf.advising.shared import SharedRecords
    from dayleaf.records.home import Home

TODAY = date(2027, 1, 12)
"""The day that the pages take for today."""


@pytest.fixture(scope="module")
def troubled() -> SharedRecords:
    """A virtual family with a trouble planted into it."""
    return families_lived(today=TODAY, seed=7001, families=1, troubled=1).families[0]


def handed_in(browser: Client, content: bytes) -> tuple[int, str]:
    """What comes of opening these bytes as a file: status and page."""
    answer = browser.post("/families", {"file": SimpleUploadedFile("x.shared", content)}, follow=True)
    return answer.status_code, answer.content.decode()


@pytest.mark.usefixtures("household")
def test_a_file_is_opened_set_aside_with_a_note_and_told_again(browser: Client, troubled: SharedRecords) -> None:
    assert "No family shares anything with you yet" in browser.get("/families").content.decode()

    status, text = handed_in(browser, packed(troubled, made_by="test"))
    assert (status, "1 call may help today" in text, "Ask first:" in text) == (200, True, True)

    child = troubled.terms.child
    words = {"until": "2027-02-01", "note": "on holiday until 1 February"}
    hushed = browser.post(f"/families/{child}/aside", words, follow=True).content.decode()
    assert "Nobody needs a call today" in hushed
    assert "on holiday until 1 February" in hushed

    told = browser.post(f"/families/{child}/again", follow=True).content.decode()
    assert "1 call may help today" in told


@pytest.mark.usefixtures("household")
def test_a_file_that_has_ended_or_is_none_is_refused_with_a_sentence(
    browser: Client, home: Home, troubled: SharedRecords
) -> None:
    ended = replace(troubled, terms=replace(troubled.terms, until=TODAY - timedelta(days=1)))

    for content, says in (
        (packed(ended, made_by="test"), "ended on 11 January 2027"),
        (b"no zip", "it is no zip file"),
    ):
        status, text = handed_in(browser, content)
        assert (status, says in text) == (422, True)
    assert not (home.folder / "families").exists()
    assert browser.post("/families/nobody/aside", {"until": "2027-02-01", "note": "x"}).status_code == 404
