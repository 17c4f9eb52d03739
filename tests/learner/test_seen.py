"""Why answers are wrong.

Referees: the worked table of JOB 1.7 and CHECKS D.1. The odds behind are checked in test_habits.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from dayleaf.core.ids import ErrorWayId, FormatId, LessonId, SheetId, SkillId
from dayleaf.course.load import grade2
from dayleaf.events.model import ItemMark
from dayleaf.items.domain import domain_of
from dayleaf.items.make import make
from dayleaf.learner.seen import Seen, explain, habits_in_marks, seen_in_marks
from dayleaf.learner.words import seen_sentences, two_sentences
from dayleaf.sheets.model import MapItem, PageMap, Qr

if TYPE_CHECKING:
    from dayleaf.items.model import Item

COURSE = grade2()
SKILL = COURSE.skills[SkillId("sub-2digit-regroup")]
ROW = FormatId("horiz")
SFL = ErrorWayId("smaller-from-larger")
TNR = ErrorWayId("ten-not-reduced")

JOB_1_7 = ((62, 38, "36"), (71, 47, "36"), (84, 29, "65"), (53, 17, "44"), (90, 36, "66"), (65, 21, "44"))


def item(a: int, b: int) -> Item:
    return make(SKILL, ROW, {"a": a, "b": b})


def seen(*written: tuple[int, int, str]) -> Seen:
    return explain(COURSE, SKILL, [(item(a, b), answer) for a, b, answer in written])


def right(a: int, b: int) -> tuple[int, int, str]:
    return a, b, str(a - b)


def test_the_six_answers_of_job_1_7_name_the_habit_with_its_four_telling_items() -> None:
    found = seen(*JOB_1_7)

    assert (found.seen, found.error) == ("habit", SFL)
    assert found.p > 0.99
    assert [(telling.text, telling.answer, telling.right) for telling in found.evidence] == [
        ("62 − 38 = □", "36", "24"),
        ("71 − 47 = □", "36", "24"),
        ("53 − 17 = □", "44", "36"),
        ("90 − 36 = □", "66", "54"),
    ]
    assert (found.rivals, found.ask, found.wrong, found.of) == ((), None, 5, 6)


def test_84_minus_29_is_65_alone_cannot_tell_and_asks_an_item_that_would() -> None:
    found = seen((84, 29, "65"))

    assert (found.seen, found.error) == ("cannot tell", None)
    assert found.rivals == (SFL, TNR)
    assert found.ask is not None
    assert found.ask.skill == SKILL.id
    assert domain_of(SKILL).holds(found.ask.numbers)
    # the two ways agree whenever the ones differ by exactly five (JOB 1.7), so the new item's do not
    assert found.ask.numbers["b"] % 10 - found.ask.numbers["a"] % 10 != 5
    assert found.ask.errors[SFL] != found.ask.errors[TNR]
    assert found.ask.key != item(84, 29).key
    assert seen((84, 29, "65")) == found


def test_the_item_to_ask_gives_both_rivals_and_the_right_procedure_an_answer_of_their_own() -> None:
    found = seen((84, 29, "65"))

    assert found.ask is not None
    assert len({found.ask.answer, found.ask.errors[SFL], found.ask.errors[TNR]}) == 3


def test_earlier_marks_count_with_the_newest() -> None:
    first, second = frozen(1, item(62, 38)), frozen(2, item(71, 47))
    earlier = habits_in_marks(COURSE, [mark(first, "36")], [page(first)])

    # one wrong answer a day: neither day alone names a habit, together they do
    assert seen_in_marks(COURSE, [mark(second, "36")], [page(second)]).seen == "cannot tell"
    found = seen_in_marks(COURSE, [mark(second, "36")], [page(second)], before=earlier)
    assert (found.seen, found.error, found.wrong, found.of) == ("habit", SFL, 1, 1)


def test_the_habit_is_called_as_the_skill_of_the_items_calls_it() -> None:
    hundreds = COURSE.skills[SkillId("sub-3digit-regroup-hundreds")]
    items = [make(hundreds, ROW, {"a": a, "b": b}) for a, b in ((425, 283), (718, 264), (936, 472))]

    # the same procedure is a ten not reduced in one skill and a hundred not reduced here
    found = explain(COURSE, hundreds, [(one, one.errors[ErrorWayId("hundred-not-reduced")]) for one in items])

    assert (found.seen, found.error) == ("habit", "hundred-not-reduced")


def test_one_wrong_answer_never_names_a_habit() -> None:
    # CHECKS D.1: never name a way from one wrong answer that several ways explain; here not from one at all
    found = seen((62, 38, "36"))

    assert (found.seen, found.rivals) == ("cannot tell", (SFL,))
    assert found.ask is not None


def test_one_wrong_answer_of_many_that_no_way_gives_is_a_slip() -> None:
    found = seen(right(62, 38), right(71, 47), right(84, 29), right(53, 17), (90, 36, "55"))

    assert (found.seen, found.error, found.evidence, found.ask) == ("slip", None, (), None)
    assert found.p > 0.99


def test_one_wrong_answer_of_a_way_that_was_not_used_elsewhere_is_a_slip() -> None:
    found = seen((62, 38, "36"), right(71, 47), right(84, 29), right(53, 17), right(90, 36), right(52, 26))

    assert found.seen == "slip"


def test_two_wrong_answers_of_one_way_among_right_ones_are_not_waved_away_as_slips() -> None:
    found = seen((62, 38, "36"), (71, 47, "36"), right(84, 29), right(53, 17), right(90, 36), right(52, 26))

    assert (found.seen, found.rivals) == ("cannot tell", (SFL,))


def test_many_wrong_answers_in_no_known_way_are_no_slips() -> None:
    found = seen((62, 38, "1"), (71, 47, "2"), (84, 29, "3"), right(53, 17), right(90, 36))

    assert (found.seen, found.rivals) == ("cannot tell", ())


def test_all_right_is_all_right_and_nothing_at_all_tells_nothing() -> None:
    assert seen(right(62, 38), right(71, 47)).seen == "all right"
    assert seen().seen == "cannot tell"


@pytest.mark.parametrize("way", [SFL, TNR, ErrorWayId("zero-minus-is-digit"), ErrorWayId("sign-ignored")])
def test_a_virtual_child_with_a_way_is_recognised_whenever_the_items_show_it(way: ErrorWayId) -> None:
    items = [item(a, b) for a, b in ((62, 38), (71, 47), (83, 29), (53, 17), (90, 36), (70, 43))]

    found = explain(COURSE, SKILL, [(one, one.errors[way]) for one in items])

    assert (found.seen, found.error) == ("habit", way)


def frozen(n: int, one: Item, skill: str = "sub-2digit-regroup") -> MapItem:
    return MapItem(
        n=n,
        key=one.key,
        skill=SkillId(skill),
        format=one.format,
        numbers=one.numbers,
        text="",
        answer=one.answer,
        errors=one.errors,
    )


def page(*items: MapItem) -> PageMap:
    return PageMap(
        sheet=SheetId("ABC2345"),
        page=1,
        pdf_page=1,
        kind="own",
        lesson=LessonId("day-084"),
        lang="en",
        size_mm=(215.9, 279.4),
        qr=Qr(x=0, y=0, size=17, text=""),
        marks=(),
        boxes=(),
        items=items,
    )


def mark(of: MapItem, wrote: str | None, *, helped: bool = False) -> ItemMark:
    return ItemMark(
        n=of.n,
        skill=of.skill,
        format=of.format,
        key=of.key,
        state="right" if wrote == of.answer else "wrong",
        answer=wrote,
        helped=helped,
        errors=(),
    )


def test_a_wrong_letter_of_two_tells_less_than_a_wrong_number() -> None:
    even = COURSE.skills[SkillId("compare-2digit")]
    items = [make(even, FormatId("choose"), {"a": a, "b": b}) for a, b in ((33, 79), (95, 89), (44, 53))]

    found = explain(COURSE, even, [(items[0], "33"), (items[1], "95"), (items[2], "53")])

    # one of three between two letters: a guess hits it half of the time
    assert found.seen == "slip"


def test_marks_of_two_skills_are_pooled_by_the_way_they_share() -> None:
    one_digit = COURSE.skills[SkillId("sub-2digit-1digit-regroup")]
    first = frozen(1, item(62, 38))
    second = frozen(2, make(one_digit, ROW, {"a": 53, "b": 7}), "sub-2digit-1digit-regroup")

    # each skill alone shows one wrong answer; together they show the habit (53−7=54, skills.yaml's own example)
    found = seen_in_marks(COURSE, [mark(first, "36"), mark(second, "54")], [page(first, second)])

    assert (found.seen, found.error) == ("habit", SFL)
    assert seen_in_marks(COURSE, [mark(first, "36")], [page(first)]).seen == "cannot tell"


def test_helped_items_say_nothing_and_an_answer_that_was_not_keyed_is_wrong_in_no_known_way() -> None:
    items = [frozen(n, item(a, b)) for n, (a, b, _) in enumerate(JOB_1_7, start=1)]

    helped = [mark(one, "36", helped=True) for one in items]
    assert seen_in_marks(COURSE, helped, [page(*items)]).of == 0

    silent = seen_in_marks(COURSE, [mark(items[0], None)], [page(*items)])
    assert (silent.seen, silent.wrong, silent.rivals, silent.ask) == ("cannot tell", 1, (), None)


def test_the_first_sentence_tells_the_habit_as_job_1_7_does() -> None:
    words = two_sentences(seen(*JOB_1_7), ["Fill the ten"])

    assert words.startswith("Four of six show the same habit: taking the smaller digit from the larger. Tomorrow, ")
    assert words.endswith("; “Fill the ten” comes back.")
    assert words.count(". ") == 1


@pytest.mark.parametrize(
    "written",
    [
        JOB_1_7,
        ((84, 29, "65"),),
        ((62, 38, "36"),),
        ((62, 38, "1"),),
        tuple(right(a, b) for a, b, _ in JOB_1_7),
        (*(right(a, b) for a, b, _ in JOB_1_7[:4]), (90, 36, "55")),
        (),
    ],
)
def test_what_is_said_is_at_most_two_kind_sentences(written: tuple[tuple[int, int, str], ...]) -> None:
    for words in (seen_sentences(seen(*written)), two_sentences(seen(*written), ["A", "B", "C", "D", "E"])):
        assert words.endswith(".")
        assert words.count(". ") <= 1
        assert "!" not in words
        # the words of LOOK that are never said
        never = ("failed", "behind", "weak", "easy", "should", "oops", "great job", "awesome")
        assert not [word for word in never if word in words.lower()]
