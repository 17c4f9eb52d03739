"""The JSON that others drive the command line by: field by field as the issue and DESIGN 8 give it."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING, Any

import pytest

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

TODAY = "2027-01-12"
ITEM = ["skill", "format", "numbers", "text", "answer", "steps", "errors"]
SEEN = ["seen", "error", "p", "evidence", "rivals", "ask"]
NUMBER = (int, float)


def test_items_are_given_whole(say: Callable[..., Any]) -> None:
    data = say("items", "sub-2digit-regroup", "--format", "horiz", "--n", 40, "--seed", 3, "--json").json

    assert list(data) == ["items"]
    assert len(data["items"]) == 40
    for item in data["items"]:
        assert list(item) == ITEM
        a, b = item["numbers"]["a"], item["numbers"]["b"]
        assert item["skill"] == "sub-2digit-regroup"
        assert item["format"] == "horiz"
        assert item["text"] == f"{a} − {b} = □"
        assert item["answer"] == str(a - b)
        assert all(isinstance(step, str) and step for step in item["steps"])
        # JOB 1.7: digit by digit the smaller from the larger; a ten is opened and not taken away
        assert item["errors"]["smaller-from-larger"] == str(abs(a // 10 - b // 10) * 10 + abs(a % 10 - b % 10))
        assert item["errors"]["ten-not-reduced"] == str(a - b + 10)


def test_the_list_names_every_skill_of_the_course_with_its_formats_and_whether_it_is_built(
    say: Callable[..., Any],
) -> None:
    data = say("items", "--list", "--json").json

    assert list(data) == ["skills"]
    assert all({"skill", "formats", "built"} <= set(row) for row in data["skills"])
    rows = {row["skill"]: row for row in data["skills"]}
    assert len(rows) == len(data["skills"]) >= 200
    assert rows["sub-2digit-regroup"]["built"] is True
    assert {"vert", "horiz", "fix", "word1"} <= set(rows["sub-2digit-regroup"]["formats"])
    unbuilt = [row["skill"] for row in data["skills"] if not row["built"]]
    for skill in unbuilt[:1]:
        assert say("items", skill, "--json").err == f"No items are built for {skill} yet.\n"


def test_the_map_of_a_print_has_the_shape_of_the_design(wren: Callable[..., Any], tmp_path: Path) -> None:
    data = wren("--out", tmp_path, "--json").json

    assert list(data) == ["version", "sheets"]
    assert data["version"] == 1
    assert [(side["kind"], side["page"], side["pdf_page"]) for side in data["sheets"]] == [
        ("together", 1, 1),
        ("own", 2, 2),
        ("front", 1, 3),
        ("back", 2, 4),
    ]
    for side in data["sheets"]:
        assert set(side) == {
            "sheet", "page", "pdf_page", "kind", "lesson", "lang", "size_mm", "qr", "marks", "boxes", "items",
        }  # fmt: skip
        assert set(side["qr"]) == {"x", "y", "size", "text"}
        assert side["qr"]["text"].startswith(f"S1.{side['sheet']}.{side['page']}.")
        assert 16 <= side["qr"]["size"] <= 18
        assert len(side["marks"]) == 4
        assert all(set(mark) == {"id", "x", "y", "size"} and mark["size"] == 7 for mark in side["marks"])
        for box in side["boxes"]:
            assert_box(box, side["size_mm"])
        for item in side["items"]:
            assert set(item) == {"n", "key", "skill", "format", "numbers", "text", "answer", "errors"}
            assert all(isinstance(wrong, str) for wrong in item["errors"].values())
            assert "," not in item["answer"]


def assert_box(box: dict[str, Any], size_mm: list[float]) -> None:
    assert set(box) == {"id", "item", "part", "role", "kind", "x", "y", "w", "h", "answer"}
    assert box["role"] in {"answer", "trade"}
    allowed = {"digit": {"", *"0123456789"}, "tick": {"", "1"}, "circle": {"", "1"}, "compare": set("<>=")}
    assert box["answer"] in allowed[box["kind"]]
    assert all(isinstance(box[name], NUMBER) for name in "xywh")
    assert 0 < box["x"] < box["x"] + box["w"] < size_mm[0]
    assert 0 < box["y"] < box["y"] + box["h"] < size_mm[1]


def test_item_numbers_run_through_both_sides_and_boxes_spell_the_answers(
    wren: Callable[..., Any], tmp_path: Path
) -> None:
    data = wren("--out", tmp_path, "--json").json

    numbers: dict[str, list[int]] = {}
    for side in data["sheets"]:
        numbers.setdefault(side["sheet"], []).extend(item["n"] for item in side["items"])
        for item in side["items"]:
            boxes = [box for box in side["boxes"] if box["item"] == item["n"] and box["role"] == "answer"]
            if boxes and {box["kind"] for box in boxes} == {"digit"}:
                spelled = "".join(box["answer"] for box in sorted(boxes, key=lambda box: (box["part"], box["x"])))
                assert Counter(spelled) == Counter(item["answer"].replace(" ", "").replace("-", ""))
    assert all(ns == list(range(1, len(ns) + 1)) for ns in numbers.values())


def test_a_marking_says_what_was_seen_and_what_tomorrow_brings(
    say: Callable[..., Any], wren: Callable[..., Any], home: Path, tmp_path: Path
) -> None:
    together, own, *_ = wren("--out", tmp_path, "--json").json["sheets"]
    telling = [item for item in own["items"] if len(set(item["errors"].values())) > 1]
    wrong = ",".join(f"{item['n']}={item['errors']['smaller-from-larger']}" for item in telling[:4])
    last = own["items"][-1]["n"]

    said = say(
        "mark", own["sheet"], "--right-except", wrong, "--helped", own["items"][0]["n"], "--reached", last,
        "--home", home, "--today", TODAY, "--json",
    ).json  # fmt: skip

    assert {"sheet", "right", "of", "items", "seen", "tomorrow"} <= set(said)
    assert said["sheet"] == own["sheet"]
    assert [item["n"] for item in said["items"]] == list(range(1, last + 1))
    assert all(set(item) == {"n", "state", "answer", "helped"} for item in said["items"])
    assert {item["state"] for item in said["items"]} == {"right", "wrong"}
    assert said["right"] == said["of"] - 4
    # what was done together was helped, whatever was said
    with_help = [item["n"] for item in (*together["items"], own["items"][0])]
    assert [item["n"] for item in said["items"] if item["helped"]] == with_help
    assert list(said["seen"]) == SEEN
    assert (said["seen"]["seen"], said["seen"]["error"]) == ("habit", "smaller-from-larger")
    assert {"lesson", "back", "changed"} <= set(said["tomorrow"])
    assert said["tomorrow"]["lesson"] == "day-085"
    assert said["tomorrow"]["back"]
    assert all(set(back) == {"skill", "why"} and back["why"] for back in said["tomorrow"]["back"])
    assert said["tomorrow"]["changed"]


def test_items_left_out_and_not_reached_are_told_apart(
    say: Callable[..., Any], wren: Callable[..., Any], home: Path, tmp_path: Path
) -> None:
    side = wren("--out", tmp_path, "--json").json["sheets"][2]

    said = say("mark", side["sheet"], "--blank", "2", "--reached", "4", "--home", home, "--today", TODAY, "--json").json

    states = [item["state"] for item in said["items"]]
    assert states[:4] == ["right", "blank", "right", "right"]
    assert set(states[4:]) == {"not reached"}
    assert (said["right"], said["of"]) == (3, 4)


def test_marking_again_corrects_and_says_so(
    say: Callable[..., Any], wren: Callable[..., Any], home: Path, tmp_path: Path
) -> None:
    sheet = wren("--out", tmp_path, "--json").json["sheets"][0]["sheet"]
    first = say("mark", sheet, "--right-except", "1", "--home", home, "--today", TODAY, "--json").json
    again = say("mark", sheet, "--home", home, "--today", TODAY)
    log = say("log", "--home", home, "--json").json["events"]

    assert first["corrected"] is False
    assert again.out.startswith("This corrects the marking before.\n")
    marks = [event for event in log if event["kind"] == "marked" and event["what"]["sheet"] == sheet]
    assert len(marks) == 2
    assert marks[1]["what"]["replaces"] == marks[0]["id"]


def test_the_log_gives_every_event_in_order_with_ids_of_their_own(say: Callable[..., Any], home: Path) -> None:
    data = say("log", "--home", home, "--json").json

    assert list(data) == ["events"]
    assert all({"version", "kind", "id", "at", "day", "learner", "what"} == set(event) for event in data["events"])
    assert len({event["id"] for event in data["events"]}) == len(data["events"])
    wren = say("log", "--home", home, "--learner", "Wren", "--json").json["events"]
    assert 0 < len(wren) < len(data["events"])
    assert [event for event in data["events"] if event["learner"] == wren[0]["learner"]] == wren


def test_the_six_answers_of_job_1_7_are_a_habit_with_four_telling_items(say: Callable[..., Any]) -> None:
    six = ("62-38=36", "71-47=36", "84-29=65", "53-17=44", "90-36=66", "65-21=44")

    seen = say("explain", "--skill", "sub-2digit-regroup", *six, "--json").json

    assert list(seen) == SEEN
    assert (seen["seen"], seen["error"]) == ("habit", "smaller-from-larger")
    assert [one["text"] for one in seen["evidence"]] == ["62 − 38 = □", "71 − 47 = □", "53 − 17 = □", "90 − 36 = □"]
    assert all(set(one) == {"text", "answer", "right"} for one in seen["evidence"])
    assert seen["p"] >= 0.8
    assert seen["ask"] is None


def test_84_minus_29_is_65_alone_cannot_tell_and_asks_one_item_that_would(say: Callable[..., Any]) -> None:
    seen = say("explain", "--skill", "sub-2digit-regroup", "84-29=65", "--json").json

    assert (seen["seen"], seen["error"]) == ("cannot tell", None)
    assert set(seen["rivals"]) == {"smaller-from-larger", "ten-not-reduced"}
    assert list(seen["ask"]) == ITEM
    assert seen["ask"]["errors"]["smaller-from-larger"] != seen["ask"]["errors"]["ten-not-reduced"]


def test_right_answers_are_all_right(say: Callable[..., Any]) -> None:
    seen = say("explain", "--skill", "sub-2digit-regroup", "62-38=24", "71-47=24", "--json").json

    assert (seen["seen"], seen["error"], seen["evidence"]) == ("all right", None, [])


@pytest.mark.parametrize("verb", ["items", "explain"])
def test_every_verb_says_the_same_to_people_in_lines(verb: str, say: Callable[..., Any]) -> None:
    words = {
        "items": ("sub-2digit-regroup", "--n", 3, "--format", "horiz"),
        "explain": ("--skill", "sub-2digit-regroup", "62-38=36", "71-47=36"),
    }[verb]

    said = say(verb, *words)

    assert said.status == 0
    assert said.err == ""
    assert "{" not in said.out
