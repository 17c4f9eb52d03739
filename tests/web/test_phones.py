"""The door for phones: who comes in, with what, and for how long. Times and tries are those of the design (10)."""

from __future__ import annotations

import re
from http.client import HTTPConnection
from typing import TYPE_CHECKING

import pytest
from django.test import Client

from dayleaf.records import devices, selectors
from dayleaf.records.models import DeviceRow
from dayleaf.web import door
from dayleaf.web.through import COOKIE

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pytest_django.fixtures import Settings

    from dayleaf.records.models import Household


@pytest.fixture
def opened(household: Household, settings: Settings) -> Iterator[door.Door]:
    """The door, open on this machine's loopback address: a test never listens on a network."""
    assert household.name
    settings.PHONES_AT = "127.0.0.1"
    settings.PORT = 0
    Client().post("/phones/open")
    found = door.door()
    assert found is not None
    yield found
    door.close_door()


def phone(opened: door.Door, *, cookie: str = "") -> Client:
    """A browser on a phone, as its requests arrive."""
    client = Client(headers={"host": opened.host})
    client.defaults[door.THROUGH] = "yes"
    if cookie:
        client.cookies[COOKIE] = cookie
    return client


def over_the_wire(opened: door.Door, path: str, host: str | None = None) -> tuple[int, str | None]:
    """(status, where it leads) of a real request to the open door."""
    line = HTTPConnection(opened.address, opened.port, timeout=20)
    line.request("GET", path, headers={"Host": host or opened.host})
    answer = line.getresponse()
    answer.read()
    line.close()
    return answer.status, answer.headers["Location"]


def test_a_phone_comes_in_once_with_the_code_and_is_known_from_then_on(opened: door.Door) -> None:
    code = door.good_code(opened)
    mine, other = phone(opened), phone(opened)

    looked = mine.get(f"/join/{code}")
    joined = mine.post("/join", {"code": f" {code} ".lower(), "name": "Mara's phone"})
    second = other.post("/join", {"code": code, "name": "Another"})

    assert f'value="{code}"' in looked.content.decode(), "looking at the page uses nothing up"
    assert joined.headers["Location"] == "/photos"
    cookie = joined.cookies[COOKIE]
    assert (cookie["httponly"], cookie["samesite"]) == (True, "Strict")
    assert b"Take photos" in mine.get("/photos").content
    assert second.status_code == 422
    assert b"not good any more" in second.content
    assert [one.name for one in DeviceRow.objects.all()] == ["Mara's phone"]
    assert cookie.value not in str(DeviceRow.objects.values_list())


def test_five_wrong_codes_spoil_the_right_one(opened: door.Door) -> None:
    code = door.good_code(opened)
    assert code is not None

    for _ in range(5):
        assert phone(opened).post("/join", {"code": "ZZZZ1111"}).status_code == 422

    assert phone(opened).post("/join", {"code": code}).status_code == 422
    assert DeviceRow.objects.count() == 0


def test_a_code_is_good_for_five_minutes() -> None:
    found = door.Door("192.0.2.7", 8411)
    code = door.new_code(found, now=lambda: 1000.0)

    assert door.good_code(found, now=lambda: 1299.9) == code
    with pytest.raises(door.CodeNotGood):
        door.use_code(found, code, now=lambda: 1300.0)


def test_a_phone_that_was_not_let_in_sees_nothing_of_the_household(opened: door.Door) -> None:
    stranger = phone(opened, cookie="guessed")

    asked = [stranger.get(address) for address in ("/", "/mark/4C7Q2MX", "/children", "/photos")]
    posted = stranger.post("/mark/4C7Q2MX", {"wrong-1": "36"})

    assert {answer.headers.get("Location") for answer in asked} == {"/join"}
    assert posted.status_code == 403
    assert b"Wren" not in posted.content
    assert selectors.marking_of(selectors.sheet_find(selectors.household(), "4C7Q2MX")) is None


def test_a_phone_that_is_sent_away_or_wants_to_let_others_in_gets_nowhere(opened: door.Door) -> None:
    row, token = devices.device_join(household=selectors.household(), name="Ivo's old phone")
    known = phone(opened, cookie=token)

    inside, letting_in = known.get("/"), known.post("/phones/open")
    Client().post(f"/phones/{row.device_id}/away")

    assert inside.status_code == 200
    assert letting_in.status_code == 403
    assert known.get("/").headers["Location"] == "/join"


def test_the_door_answers_for_its_own_address_only_and_not_once_it_is_closed(opened: door.Door) -> None:
    """DNS rebinding: a page elsewhere points its own name at this machine."""
    assert over_the_wire(opened, "/mark") == (302, "/join")
    assert over_the_wire(opened, "/mark", host="evil.example")[0] == 400
    assert over_the_wire(opened, "/mark", host="localhost")[0] == 400

    Client().post("/phones/close")

    with pytest.raises(ConnectionError):
        over_the_wire(opened, "/mark")


def test_the_square_holds_the_address_with_the_code(opened: door.Door) -> None:
    """The referee is another maker of squares reading: zxing-cpp reads what segno drew, from a plain raster of it."""
    import numpy as np  # noqa: PLC0415 -- only this test
    import zxingcpp  # noqa: PLC0415 -- the same

    drawn = Client().get("/phones/code.svg").content.decode()
    runs = re.findall(r'class="qrline"[^>]*d="([^"]+)"', drawn)[0]
    side = int(int(re.findall(r'width="(\d+)"', drawn)[0]) / 6)
    grid = np.full((side, side), 255, np.uint8)
    x = y = 0.0
    for verb, numbers in re.findall(r"([Mmh])([-\d. ]+)", runs):
        parts = [float(part) for part in re.findall(r"-?[\d.]+", numbers)]
        if verb == "h":
            grid[int(y), int(x) : int(x + parts[0])] = 0
            x += parts[0]
        else:
            x, y = (parts[0], parts[1]) if verb == "M" else (x + parts[0], y + parts[1])

    (read,) = zxingcpp.read_barcodes(np.kron(grid, np.ones((6, 6), np.uint8)))

    assert read.text == f"http://{opened.host}/join/{door.good_code(opened)}"


def test_the_computer_itself_is_never_asked_for_a_code(household: Household) -> None:
    assert household.name
    assert Client().get("/join").headers["Location"] == "/phones"
