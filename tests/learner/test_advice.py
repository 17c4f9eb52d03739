"""Go on, fix up, re-teach. The rule (8 of 12) stands in DESIGN 9; its chances are those of a binomial."""

from __future__ import annotations

from math import comb

import pytest

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.events.model import ItemMark, ItemState
from dayleaf.learner.advice import advise
from dayleaf.learner.seen import Seen

REGROUP = SkillId("sub-2digit-regroup")
SIGNS: dict[str, ItemState] = {"r": "right", "w": "wrong", "b": "blank", "n": "not reached", "h": "right"}


def marks(signs: str, skill: SkillId = REGROUP) -> list[ItemMark]:
    return [
        ItemMark(
            n=n,
            skill=skill,
            format=FormatId("vert"),
            key=str(n),
            state=SIGNS[sign],
            answer=None,
            helped=sign == "h",
            errors=(),
        )
        for n, sign in enumerate(signs, start=1)
    ]


HABIT = Seen(
    seen="habit",
    error=ErrorWayId("smaller-from-larger"),
    p=0.99,
    evidence=(),
    rivals=(),
    ask=None,
    wrong=4,
    of=12,
)


@pytest.mark.parametrize(
    ("signs", "step", "right", "of"),
    [
        ("rrrrrrrrwwww", "go on", 8, 12),
        ("rrrrrrrwwwww", "fix up", 7, 12),
        ("rrrrrrwwwwww", "fix up", 6, 12),
        ("rrrrrwwwwwww", "re-teach", 5, 12),
        ("rrrrww", "go on", 4, 6),
        ("rrrwww", "fix up", 3, 6),
        ("rrbbbb", "re-teach", 2, 6),
        ("rrr", "look again", 3, 3),
        ("", "look again", 0, 0),
        ("rrrrnnnnnn", "go on", 4, 4),
        ("hhhhhhrrr", "look again", 3, 3),
        ("wwwwwwrrrrrrrrrrrr", "go on", 12, 12),
    ],
)
def test_eight_of_the_last_twelve_is_enough_to_go_on(signs: str, step: str, right: int, of: int) -> None:
    advice = advise(marks(signs), skills={REGROUP})

    assert (advice.step, advice.right, advice.of) == (step, right, of)


def test_a_habit_is_fixed_up_before_going_on() -> None:
    assert advise(marks("rrrrrrrrwwww"), skills={REGROUP}, seen=HABIT).step == "fix up"
    assert advise(marks("rwwwwwww"), skills={REGROUP}, seen=HABIT).step == "re-teach"


def test_other_skills_do_not_count() -> None:
    others = marks("wwwwwwww", SkillId("add-make-ten-9"))

    assert advise([*marks("rrrr"), *others], skills={REGROUP}).step == "go on"


def test_the_evidence_is_one_sentence_with_its_numbers() -> None:
    assert advise(marks("rrrrrrrrwwww"), skills={REGROUP}).evidence == (
        "Eight of the last twelve answers were right: enough to go on."
    )


def test_the_rule_lets_through_as_many_children_as_the_binomial_says() -> None:
    # all 2^12 answer patterns, weighted by a child who is right 7 times in 10, against the closed form
    p = 0.7
    passed = 0.0
    for pattern in range(2**12):
        signs = "".join("r" if pattern >> n & 1 else "w" for n in range(12))
        if advise(marks(signs), skills={REGROUP}).step == "go on":
            passed += p ** signs.count("r") * (1 - p) ** signs.count("w")

    assert passed == pytest.approx(sum(comb(12, k) * p**k * (1 - p) ** (12 - k) for k in range(8, 13)))
