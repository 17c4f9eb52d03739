"""What cannot be done is said in clear lines with exit status 2, and changes nothing."""

from __future__ import annotations

import shutil
import zipfile
from typing import TYPE_CHECKING, Any

import pytest
from click.testing import CliRunner

from dayleaf.cli.main import dayleaf
from dayleaf.core.errors import DayleafError
from dayleaf.course.load import grade2
from dayleaf.items.built import is_built
from dayleaf.records import people, selectors

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

TODAY = ("--today", "2027-01-12")
"""A Tuesday; the demo family rests on Wednesdays."""
WREN = ("--learner", "Wren")


def unbuilt_lesson() -> str:
    """A lesson that cannot be printed yet; skips the test where every one can."""
    for day in grade2().days:
        if day.kind == "lesson" and not all(is_built(skill) for skill in day.front_skills):
            return day.id
    pytest.skip("every lesson can be printed")


DAY = {
    "an unknown child": (("--learner", "Bob"), "There is no child called 'Bob'; the children here are Wren, Ivo."),
    "an unknown lesson": ((*WREN, "--lesson", "day-999"), "There is no lesson called day-999; did you mean day-099"),
    "a date outside the year": ((*WREN, "--date", "2031-01-01"), "2031-01-01 lies outside this year's plan"),
    "a day off": ((*WREN, "--date", "2027-01-13"), "Wren has no lesson on 2027-01-13; the next one is on 2027-01-14."),
    "an unknown language": ((*WREN, "--lang", "fr"), "Dayleaf does not speak “fr” yet; it speaks en and es."),
    "no date at all": ((*WREN, "--date", "soon"), "soon is not a date; write it as 2027-01-12."),
    "seeds the wrong way": ((*WREN, "--items-only", "--seeds", "a:b"), "a:b is not a range of seeds"),
}


@pytest.mark.parametrize("case", DAY)
def test_a_day_that_cannot_be_printed_is_refused_in_a_sentence(
    case: str, say: Callable[..., Any], home: Path, kept: Callable[[Path], str], tmp_path: Path
) -> None:
    words, sentence = DAY[case]
    before = kept(home)

    said = say("day", "--home", home, *TODAY, "--out", tmp_path / "out", *words)

    assert_refused(said, sentence)
    assert kept(home) == before
    assert not list(tmp_path.glob("out/*"))


def test_a_lesson_whose_skills_are_not_built_says_which_and_prints_nothing(
    say: Callable[..., Any], home: Path, kept: Callable[[Path], str], tmp_path: Path
) -> None:
    lesson = unbuilt_lesson()
    before = kept(home)

    said = say("day", "--home", home, *TODAY, *WREN, "--out", tmp_path / "out", "--lesson", lesson)

    assert_refused(said, f"{lesson} cannot be printed yet: no items are built for ")
    assert kept(home) == before
    assert not list(tmp_path.glob("out/*"))


def test_a_folder_that_cannot_be_written_is_named_before_anything_is_recorded(
    say: Callable[..., Any], home: Path, kept: Callable[[Path], str], tmp_path: Path
) -> None:
    before = kept(home)
    (tmp_path / "taken").write_text("a file", encoding="utf-8")

    said = say("day", "--home", home, *TODAY, *WREN, "--out", tmp_path / "taken" / "deeper")

    assert_refused(said, f"Nothing can be written to {tmp_path / 'taken' / 'deeper'}")
    assert kept(home) == before


def test_a_name_that_the_typefaces_cannot_print_is_refused_when_it_is_entered(
    home: Path, say: Callable[..., Any], kept: Callable[[Path], str]
) -> None:
    assert say("log", "--home", home, "--json").status == 0
    before = kept(home)

    with pytest.raises(DayleafError, match="😀") as refused:
        people.learner_add(household=selectors.household(), name="Wren 😀")

    assert len(str(refused.value).splitlines()) == 1
    assert kept(home) == before


SKILLS = {
    "an unknown skill": (
        ("items", "sub-2digit-regruop"),
        "There is no skill called sub-2digit-regruop. Did you mean sub-2digit-regroup?",
    ),
    "an unknown skill to explain": (("explain", "--skill", "taking-tea", "1-1=0"), "There is no skill called taking-"),
    "an unknown format": (
        ("items", "sub-2digit-regroup", "--format", "sung"),
        "sub-2digit-regroup is not asked as sung; it is asked as vert, ",
    ),
    "a language without words": (("items", "sub-2digit-regroup", "--lang", "fr", "--json"), "“fr”"),
    "no skill": (("items",), "Name a skill, or ask for --list."),
    "no items": (("items", "sub-2digit-regroup", "--n", "0"), "0 is not in the range"),
    "a problem of another skill": (("explain", "--skill", "sub-2digit-regroup", "12+7=19"), "“12+7=19”"),
}


@pytest.mark.parametrize("case", SKILLS)
def test_items_and_explain_refuse_what_they_do_not_know(case: str, say: Callable[..., Any]) -> None:
    words, sentence = SKILLS[case]

    assert_refused(say(*words), sentence)


def test_every_answer_that_cannot_be_read_is_named_at_once(say: Callable[..., Any]) -> None:
    said = say("explain", "--skill", "sub-2digit-regroup", "62-38", "71-47=36", "12+7=19", "boat")

    assert said.status == 2
    assert said.out == ""
    assert [line.partition(":")[0] for line in said.err.splitlines()] == ["“62-38”", "“12+7=19”", "“boat”"]


def test_marks_that_do_not_fit_the_sheet_are_all_named(
    say: Callable[..., Any], wren: Callable[..., Any], home: Path, kept: Callable[[Path], str], tmp_path: Path
) -> None:
    front = wren("--out", tmp_path, "--json").json["sheets"][2]
    right = front["items"][0]["answer"]
    before = kept(home)

    said = say(
        "mark", front["sheet"], "--right-except", f"1={right},99=5,3,3", "--blank", "3,x", "--helped", "77",
        "--home", home, *TODAY, "--json",
    )  # fmt: skip

    assert said.status == 2
    assert said.out == ""
    lines = said.err.splitlines()
    wanted = (
        f"item 1: {right} is the right answer",
        "item 99: is not on this sheet",
        "item 3: is named twice",
        "item 3: is both answered and blank",
        "blank: “x” is not an item's number",
        "item 77: ",
    )
    for start in wanted:
        assert sum(line.startswith(start) for line in lines) == 1, start
    assert len(lines) == 6
    assert kept(home) == before


def test_an_unknown_sheet_is_refused(say: Callable[..., Any], home: Path, kept: Callable[[Path], str]) -> None:
    before = kept(home)

    assert_refused(say("mark", "7777777", "--home", home, *TODAY), "No sheet '7777777' was printed here")
    assert kept(home) == before


@pytest.mark.parametrize(
    "words",
    [("log",), ("plan",), ("mark", "7777777"), ("backup", "b.dayleaf"), ("day", *WREN, "--out", "o")],
    ids=lambda words: words[0],
)
def test_a_folder_without_a_household_is_said_to_have_none_and_is_not_made(
    words: tuple[str, ...], say: Callable[..., Any], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)

    assert_refused(say(*words, "--home", tmp_path / "nobody"), "There is no household in ")
    assert list(tmp_path.iterdir()) == []


def test_a_demo_never_mixes_with_a_household_that_is_there(
    say: Callable[..., Any], home: Path, kept: Callable[[Path], str]
) -> None:
    before = kept(home)

    assert_refused(say("demo", "--home", home, *TODAY), "This folder already holds ")
    assert kept(home) == before


def test_a_damaged_backup_is_refused_and_makes_no_folder(say: Callable[..., Any], home: Path, tmp_path: Path) -> None:
    whole = tmp_path / "whole.dayleaf"
    assert say("backup", whole, "--home", home).status == 0
    data = whole.read_bytes()
    cut, bent, text = (tmp_path / name for name in ("cut", "bent", "text"))
    cut.write_bytes(data[: len(data) // 2])
    middle = len(data) // 2
    bent.write_bytes(data[:middle] + bytes(byte ^ 0xFF for byte in data[middle : middle + 64]) + data[middle + 64 :])
    text.write_text("not a backup", encoding="utf-8")

    for broken in (cut, bent, text, tmp_path / "absent"):
        assert_refused(say("restore", broken, "--home", tmp_path / "new"), broken.name)
        assert not (tmp_path / "new").exists()


def test_a_backup_with_a_path_outside_is_refused(say: Callable[..., Any], home: Path, tmp_path: Path) -> None:
    whole = tmp_path / "whole.dayleaf"
    assert say("backup", whole, "--home", home).status == 0
    with zipfile.ZipFile(whole, "a") as pack:
        pack.writestr("../outside.txt", "hello")

    assert_refused(say("restore", whole, "--home", tmp_path / "new" / "home"), "whole.dayleaf")
    assert not (tmp_path / "new").exists() or list((tmp_path / "new").iterdir()) == []
    assert not (tmp_path / "outside.txt").exists()


def test_a_restore_never_writes_over_a_household(
    say: Callable[..., Any], home: Path, kept: Callable[[Path], str], tmp_path: Path
) -> None:
    assert say("backup", tmp_path / "b", "--home", home).status == 0
    before = kept(home)

    assert_refused(say("restore", tmp_path / "b", "--home", home), "nothing is ever overwritten")
    assert kept(home) == before


def test_a_backup_restored_elsewhere_tells_the_same_story(say: Callable[..., Any], home: Path, tmp_path: Path) -> None:
    assert say("backup", tmp_path / "b", "--home", home).status == 0
    assert say("restore", tmp_path / "b", "--home", tmp_path / "new").status == 0

    assert say("log", "--home", tmp_path / "new", "--json").out == say("log", "--home", home, "--json").out


def test_every_problem_of_a_broken_course_is_listed_with_its_file(
    say: Callable[..., Any], content: Path, tmp_path: Path
) -> None:
    copy = tmp_path / "content"
    shutil.copytree(content, copy)
    skills = sorted((copy / "grade2" / "skills").rglob("*.toml"))
    skills[0].write_text("title = ", encoding="utf-8")
    days = sorted((copy / "grade2" / "chapters").rglob("day-0*.toml"))
    days[3].write_text(days[3].read_text("utf-8").replace("adult = ", "adult = -"), "utf-8")

    said = say("check", "--content", copy)

    assert said.status == 2
    assert said.err == f"{len(said.out.splitlines())} problems.\n"
    assert any(skills[0].name in line for line in said.out.splitlines())
    assert any(days[3].name in line for line in said.out.splitlines())
    assert "Traceback" not in said.out + said.err


def test_a_lesson_missing_from_the_course_is_a_problem(say: Callable[..., Any], content: Path, tmp_path: Path) -> None:
    shutil.copytree(content, tmp_path / "content")
    (tmp_path / "content" / "grade2" / "chapters" / "01" / "day-005.toml").unlink()

    said = say("check", "--content", tmp_path / "content")

    assert said.status == 2
    assert "grade2/chapters/01/day-006.toml: file name: is day 6 where day 5 is next" in said.out


def test_a_verb_that_is_none_is_refused() -> None:
    said = CliRunner().invoke(dayleaf, ["teach"])

    assert said.exit_code == 2
    assert "No such command 'teach'" in said.stderr


def assert_refused(said: Any, sentence: str) -> None:
    """Status 2, nothing on the standard output, the sentence in one line, and no traceback."""
    assert said.status == 2
    assert said.out == ""
    assert any(sentence in line for line in said.err.splitlines()), said.err
    assert "Traceback" not in said.err
