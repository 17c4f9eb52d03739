"""What a year must keep (rules) and what a family would rather have (wishes), each in one table with its sentence."""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import TYPE_CHECKING, Final

from dayleaf.plan.lessons import AGAIN

if TYPE_CHECKING:
    from collections.abc import Mapping

    from dayleaf.plan.lessons import PlanLesson

LONG_BREAK: Final = 5
"""Days off on end from which on the first day back has no test (common practice, no source)."""

TWO_WEEKS: Final = 14

HEAVIEST: Final = 10_000
"""The greatest weight that a wish can have."""


@dataclass(frozen=True, slots=True)
class Rules:
    """The rules that a family may switch off, one by one. Order, one lesson a day and learning days always hold."""

    test_after_look_back: bool = True
    test_needs_its_minutes: bool = True
    no_test_after_break: bool = True
    no_opening_before_two_weeks_off: bool = True
    log_on_time: bool = True


@dataclass(frozen=True, slots=True)
class Wishes:
    """What each unmet wish costs, in whole numbers from 0. The weights are planning values (no source).

    What is charged stands in `WISH_SAYS`, name by name.
    """

    test_after_weekend: int = 5
    test_before_holiday: int = 5
    test_after_break: int = 8
    tests_together: int = 4
    materials_together: int = 1
    short_day: int = 2
    spread: int = 1
    pause_in_chapter: int = 1
    past_wished_end: int = 3
    join: int = 3
    leave_out_lesson: int = 12
    leave_out_look_back: int = 6
    leave_out_project: int = 8
    leave_out_spare: int = 2
    day_given_up: int = 2
    rule_dropped: int = 15


RULE_SAYS: Final[Mapping[str, str]] = {
    "test_after_look_back": "a test comes on the next learning day after its look back that is long enough",
    "test_needs_its_minutes": "a test needs a day with at least its minutes",
    "no_test_after_break": "no test on the first day after five days off or more",
    "no_opening_before_two_weeks_off": "no chapter begins on the last day before two weeks off",
    "log_on_time": "a project waits until its log has run long enough",
}

WISH_SAYS: Final[Mapping[str, str]] = {
    "test_after_weekend": "a test on the first day after two to four days without learning, or after a usual weekend",
    "test_before_holiday": "a test on the last day before a day off",
    "test_after_break": "a test on the first day after five days off or more, where that rule is switched off",
    "tests_together": "each pair of tests on one date",
    "materials_together": "each pair of lessons of two runs on one date that need the same thing of which there is one",
    "short_day": "a lesson on a day shorter than usual that has fewer minutes than the lesson needs",
    "spread": "each learning day that a chapter begins off its place when the free days are spread",
    "pause_in_chapter": "each learning day without a lesson before one that opens no chapter, and before the first",
    "past_wished_end": "each lesson after the wished end",
    "join": "each pair of lessons on one day",
    "leave_out_lesson": "each lesson left out, of a kind that has no price of its own",
    "leave_out_look_back": "each look back left out",
    "leave_out_project": "each project left out",
    "leave_out_spare": "each spare day or second helping left out",
    "day_given_up": "for ways out: each lesson day on another weekday, on a day off, or after the year's end",
    "rule_dropped": "for ways out: a rule switched off",
}

RULE_NAMES: Final = tuple(one.name for one in fields(Rules))
WISH_NAMES: Final = tuple(one.name for one in fields(Wishes))


def price_of_leaving_out(wishes: Wishes, lesson: PlanLesson) -> tuple[str, int]:
    """The wish that leaving out this lesson offends, and its price."""
    if lesson.kind == "spare" or lesson.id.endswith(AGAIN):
        return "leave_out_spare", wishes.leave_out_spare
    if lesson.kind == "project":
        return "leave_out_project", wishes.leave_out_project
    if lesson.kind in {"look-back", "look-back-all"}:
        return "leave_out_look_back", wishes.leave_out_look_back
    return "leave_out_lesson", wishes.leave_out_lesson
