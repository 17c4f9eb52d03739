"""Work samples lie evenly over time and strands, and show the same skill early and late."""

from __future__ import annotations

from datetime import date, timedelta

from hypothesis import given
from hypothesis import strategies as st

from dayleaf.records.samples import Candidate, choose_samples

START = date(2026, 9, 1)


def seen(day: int, *, skill: str = "add", strand: str = "num", photo: bool = False) -> Candidate:
    return Candidate(f"S{day}{skill}", START + timedelta(days=day), strand, skill, 4, 5, photo)


def test_of_a_year_of_sheets_the_first_the_middle_and_the_last_are_shown() -> None:
    chosen = choose_samples(seen(day) for day in range(0, 181, 10))

    assert [((one.candidate.day - START).days, one.place) for one in chosen] == [
        (0, "early"),
        (90, "midway"),
        (180, "late"),
    ]


def test_a_strand_shows_the_skill_that_reaches_over_the_longest_time() -> None:
    short = [seen(day, skill="count") for day in range(0, 50, 2)]
    long = [seen(day, skill="add") for day in (1, 80, 179)]

    chosen = choose_samples([*short, *long])

    assert {one.candidate.skill for one in chosen} == {"add"}


def test_a_sheet_with_a_photo_goes_before_one_without_that_is_about_as_near() -> None:
    chosen = choose_samples([seen(0), seen(98), seen(102, photo=True), seen(200)])

    assert [one.candidate.sheet for one in chosen] == ["S0add", "S102add", "S200add"]


def test_one_sheet_alone_is_shown_once_and_none_gives_none() -> None:
    assert [one.place for one in choose_samples([seen(3)])] == ["once"]
    assert choose_samples([]) == ()


@given(
    st.lists(
        st.tuples(
            st.integers(0, 200), st.sampled_from(["a", "b", "c"]), st.sampled_from(["num", "geo"]), st.booleans()
        ),
        max_size=40,
    )
)
def test_no_sheet_is_shown_twice_and_every_strand_stays_in_order(days: list[tuple[int, str, str, bool]]) -> None:
    candidates = [
        Candidate(f"S{day}", START + timedelta(days=day), strand, skill, 1, 1, photo)
        for day, skill, strand, photo in days
    ]

    chosen = choose_samples(candidates)

    sheets = [one.candidate.sheet for one in chosen]
    assert len(sheets) == len(set(sheets))
    for strand in ("num", "geo"):
        mine = [one.candidate.day for one in chosen if one.candidate.strand == strand]
        assert mine == sorted(set(mine))
        assert len(mine) <= 3
