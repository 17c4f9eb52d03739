"""`dayleaf check --items`: what is made wrong on purpose is found, named and counted."""

from __future__ import annotations

import json
import re
from typing import TYPE_CHECKING

from click.testing import CliRunner

from dayleaf.cli import key_check
from dayleaf.cli.check import verb
from dayleaf.cli.key_check import ALIKE, AWAY, RANGE, UNDRAWN, UNTOLD, WRONG, Findings, check_skill
from dayleaf.core.ids import SkillId
from dayleaf.course.load import grade2
from dayleaf.figures.values import WrongParameter
from dayleaf.items.built import formats_built
from dayleaf.items.domain import Domain
from dayleaf.items.draw import draw_items

if TYPE_CHECKING:
    import pytest

    from dayleaf.items.model import Figure

COUNTING = grade2().skills[SkillId("count-objects-20")]
SHARE = 20
SEEN = {
    item.key: item
    for format_id in formats_built(COUNTING.id)
    for item in draw_items(COUNTING, n=SHARE, seed=1, format=format_id)
}.values()
"""What a check of sixty items looks at, twenty in each of three formats."""


def findings(skill_id: SkillId = COUNTING.id) -> Findings:
    found = Findings()
    check_skill(grade2().skills[skill_id], 60, found)
    return found


def test_a_skill_that_is_as_it_must_be_has_no_findings() -> None:
    found = findings()

    assert (found.items, found.counts, found.problems) == (60, {}, [])
    assert found.pictures >= 20


def test_a_key_that_a_second_solver_does_not_get_is_found(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(key_check, "second_answer", lambda _item: "0")

    found = findings()

    assert found.counts == {WRONG: len(SEEN)}  # an item that comes again is looked at once
    assert "computed 0" in found.problems[0].message


def test_a_number_outside_the_rule_is_found(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(Domain, "holds", lambda _self, numbers: numbers["n"] != 7)

    assert findings().counts == {RANGE: sum(item.numbers["n"] == 7 for item in SEEN)}


def test_words_that_say_the_number_of_things_are_found(monkeypatch: pytest.MonkeyPatch) -> None:
    def telling(figure: Figure, _lang: str) -> tuple[str, str]:
        return "Counters", f"There are {figure.params.get('n')} counters."

    monkeypatch.setattr(key_check, "figure_words", telling)

    found = findings()

    assert set(found.counts) == {AWAY}
    assert "the words of the picture say the answer" in found.problems[0].message


def test_a_picture_without_words_and_one_that_cannot_be_drawn_are_found(monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(figure: Figure, **_words: object) -> None:
        raise WrongParameter(kind=figure.kind, name="n", why="wrong on purpose")

    monkeypatch.setattr(key_check, "figure_words", lambda _figure, _lang: ("Things", ""))
    monkeypatch.setattr(key_check, "draw", refuse)

    counts = findings().counts

    assert counts[UNTOLD] == counts[UNDRAWN] > 0


def test_two_pictures_to_choose_from_that_sound_alike_are_found(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(key_check, "figure_words", lambda _figure, _lang: ("A shape", "Seen from the front."))

    assert findings(SkillId("share-halves-fourths")).counts[ALIKE] > 0


def test_the_whole_check_is_read_by_programs(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("dayleaf.cli.check.is_built", lambda skill_id: skill_id == COUNTING.id)

    ran = CliRunner().invoke(verb, ["--items", "30", "--json"])

    said = json.loads(ran.stdout)
    assert ran.exit_code == 0
    assert (said["skills"], said["items"], said["wrong_keys"], said["problems"]) == (1, 30, 0, [])
    assert said["figures_without_text"] == said["alt_texts_that_give_the_answer_away"] == 0


def test_a_finding_ends_with_status_2(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("dayleaf.cli.check.is_built", lambda skill_id: skill_id == COUNTING.id)
    monkeypatch.setattr(key_check, "second_answer", lambda _item: "0")

    ran = CliRunner().invoke(verb, ["--items", "30"])

    assert ran.exit_code == 2
    assert re.search(r"^[1-9]\d* wrong keys, 0 out of range", ran.stdout, re.MULTILINE)
