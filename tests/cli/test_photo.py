"""`dayleaf read` and `dayleaf mark --photo`, from the files that the demo prints and a pen."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

import cv2
import numpy as np
import pypdfium2
import pytest

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from .conftest import Said

    Say = Callable[..., Said]

TODAY = "2027-01-12"
DOTS = 6.0


@pytest.fixture
def printed(wren: Say, tmp_path: Path) -> tuple[Path, list[dict[str, Any]]]:
    """The folder of today's print, and its sides."""
    folder = tmp_path / "print"
    assert wren("--out", folder).status == 0
    sides: list[dict[str, Any]] = json.loads((folder / "sheets.json").read_text(encoding="utf-8"))["sheets"]
    return folder, sides


def written(folder: Path, side: dict[str, Any], *boxes: str) -> Path:
    """A scan of one side with a pencil stroke in the boxes named."""
    page = pypdfium2.PdfDocument(folder / "pages.pdf")[side["pdf_page"] - 1]
    scan = page.render(scale=DOTS * 25.4 / 72, grayscale=True).to_numpy().squeeze().copy()
    for box in side["boxes"]:
        if box["id"] in boxes:
            ends = [(box["x"] + box["w"] * x, box["y"] + box["h"] * y) for x, y in ((0.6, 0.2), (0.5, 0.8))]
            points = np.rint(np.array(ends) * DOTS).astype(np.int32)
            cv2.polylines(scan, [points], isClosed=False, color=90, thickness=5)
    path = folder / f"scan-{side['sheet']}-{side['page']}.png"
    cv2.imwrite(str(path), scan)
    return path


def test_read_prints_every_box_of_every_page(printed: tuple[Path, list[dict[str, Any]]], say: Say, home: Path) -> None:
    folder, sides = printed

    by_home = say("read", folder / "pages.pdf", "--home", home, "--json").json["pages"]
    by_map = say("read", folder / "pages.pdf", "--map", folder / "sheets.json", "--json").json["pages"]

    assert by_home == by_map
    for side, page in zip(sides, by_home, strict=True):
        assert set(page) == {"file", "page_in_file", "status", "code", "message", "sheet", "page", "boxes"}
        assert (page["status"], page["code"]) == ("read", None)
        assert (page["sheet"], page["page"]) == (side["sheet"], side["page"])
        assert list(page["boxes"]) == [box["id"] for box in side["boxes"]]
        digits = [page["boxes"][box["id"]] for box in side["boxes"] if box["kind"] == "digit"]
        assert digits
        assert all(box == {"reading": "", "certainty": 1.0, "state": "blank", "reversed": False} for box in digits)


def test_read_finds_a_stroke_and_changes_nothing(
    printed: tuple[Path, list[dict[str, Any]]], say: Say, home: Path, kept: Callable[[Path], str]
) -> None:
    folder, sides = printed
    first = sides[1]["boxes"][-1]["id"]
    scan = written(folder, sides[1], first)
    before = kept(home)

    said = say("read", scan, "--home", home, "--json")

    boxes = said.json["pages"][0]["boxes"]
    assert {name for name, box in boxes.items() if box["state"] != "blank"} == {first}
    assert kept(home) == before


def test_read_refuses_in_words_without_stopping(printed: tuple[Path, list[dict[str, Any]]], say: Say) -> None:
    folder, _ = printed
    other = folder / "letter.txt"
    other.write_text("no picture", encoding="utf-8")

    said = say("read", other, folder / "pages.pdf", "--map", folder / "sheets.json")

    assert said.status == 0
    assert said.out.splitlines()[0] == "letter.txt: This is not a photo or a scan; send JPEG, PNG, WebP or PDF."
    assert "empty" in said.out.splitlines()[1]


def test_a_map_that_is_none_is_refused(tmp_path: Path, say: Say) -> None:
    wrong = tmp_path / "wrong.json"
    for text in ("[1]", "{", '{"version": 7}'):
        wrong.write_text(text, encoding="utf-8")
        said = say("read", wrong, "--map", wrong)
        assert (said.status, said.out) == (2, "")


def test_a_sheet_with_nothing_on_it_is_not_marked(
    printed: tuple[Path, list[dict[str, Any]]], say: Say, home: Path, kept: Callable[[Path], str]
) -> None:
    folder, _ = printed
    before = kept(home)

    said = say("mark", "--photo", folder / "pages.pdf", "--home", home, "--today", TODAY)

    assert "nothing is written on it" in said.out
    assert kept(home) == before


def test_a_doubtful_box_is_asked_with_its_picture_and_recorded_once_settled(
    printed: tuple[Path, list[dict[str, Any]]], say: Say, home: Path, kept: Callable[[Path], str]
) -> None:
    folder, sides = printed
    own = [side for side in sides if side["sheet"] == sides[-1]["sheet"]]
    item = own[0]["items"][0]
    boxes = [box for box in own[0]["boxes"] if box["item"] == item["n"] and box["role"] == "answer"]
    inked = [box["id"] for box in boxes if box["answer"]]
    scans = [written(folder, own[0], *inked), *(written(folder, side) for side in own[1:])]
    before = kept(home)

    asked = say("mark", "--photo", *scans, "--home", home, "--today", TODAY, "--json").json["sheets"][0]
    first = asked["items"][0]

    assert (asked["recorded"], first["state"]) == (False, "ask")
    assert all(question["png"] for question in first["ask"])
    assert kept(home) == before

    settled = [f"{box['id']}={box['answer']}" for box in boxes]
    settled += [f"{one['n']}=blank" for one in asked["items"][1:] if one["state"] == "ask"]
    words = ("--today", TODAY, "--settle", ",".join(settled), "--json")
    sheet = say("mark", "--photo", *scans, "--home", home, *words).json["sheets"][0]

    assert sheet["recorded"]
    assert [mark["state"] for mark in sheet["marking"]["items"]] == ["right"] + ["blank"] * (len(sheet["items"]) - 1)
    assert sheet["marking"]["items"][0]["answer"] == item["answer"]


def test_settling_what_the_sheet_does_not_have_is_refused(
    printed: tuple[Path, list[dict[str, Any]]], say: Say, home: Path
) -> None:
    folder, sides = printed
    scan = written(folder, sides[0])

    for words in ("99.1.0=4", "nothing"):
        said = say("mark", "--photo", scan, "--home", home, "--today", TODAY, "--settle", words)
        assert said.status == 2
        assert words.split("=")[0] in said.err
