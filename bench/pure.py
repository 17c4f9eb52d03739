"""Figures of the rooms without files and clock: course, items, pictures, beliefs, plan."""

from __future__ import annotations

import json
import random
import tomllib
from datetime import UTC, date, datetime, timedelta
from itertools import combinations, count
from pathlib import Path
from typing import TYPE_CHECKING
from xml.etree import ElementTree as ET

import numpy as np
from timed import Figure, median_ms

import dayleaf
from dayleaf.core.ids import EventId, FormatId, LearnerId, SheetId, SkillId
from dayleaf.course.load import grade2, read_course
from dayleaf.events.model import Head, ItemMark, Marked, Taught
from dayleaf.figures.draw import draw
from dayleaf.items.built import is_built
from dayleaf.items.choose import choose_items
from dayleaf.items.draw import draw_items
from dayleaf.items.model import Figure as Picture
from dayleaf.items.second import second_answer
from dayleaf.learner.belief import fold, resume
from dayleaf.learner.review import choose_back
from dayleaf.plan.calendar import LearningCalendar
from dayleaf.plan.lessons import our_courses
from dayleaf.plan.path import cheapest_run
from dayleaf.plan.run import CourseRun
from dayleaf.plan.wishes import Rules, Wishes

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from dayleaf.events.model import Event
    from dayleaf.items.model import Item

CONTENT = Path(dayleaf.__file__).parent / "content"
REGROUP = SkillId("sub-2digit-regroup")
ROW = FormatId("horiz")
START = date(2026, 9, 7)
FACE = 12


def pure_figures() -> Iterator[Figure]:
    """Every figure of the pure rooms, in the order of the house."""
    yield _course()
    yield from _items()
    yield _clock()
    yield from _beliefs()
    yield _year()


def _course() -> Figure:
    tables = {
        str(path.relative_to(CONTENT)): tomllib.loads(path.read_text("utf-8")) for path in CONTENT.rglob("*.toml")
    }
    text = json.dumps(tables)
    return Figure(
        f"course read from {len(tables)} files",
        median_ms(read_course),
        "the same data parsed from one JSON text",
        median_ms(lambda: json.loads(text)),
        "no shape check, no values, nobody can edit it",
    )


def _naive(n: int, seed: int) -> list[tuple[str, int]]:
    """Random numbers until the rule, read by eval, allows them."""
    chance = random.Random(seed)
    made: list[tuple[str, int]] = []
    while len(made) < n:
        numbers = {"a": chance.randint(21, 98), "b": chance.randint(12, 89)}
        if eval("a%10<b%10 and a>b", {}, numbers):  # noqa: S307 -- the alternative as people write it
            made.append((f"{numbers['a']} - {numbers['b']} =", numbers["a"] - numbers["b"]))
    return made


def _items() -> Iterator[Figure]:
    skill = grade2().skills[REGROUP]
    draw_items(skill, n=1, seed=0)
    seeds = count(1)
    yield Figure(
        "1,000 items drawn",
        median_ms(lambda: draw_items(skill, n=1000, seed=next(seeds))),
        "random numbers, the rule by eval, one format",
        median_ms(lambda: _naive(1000, next(seeds))),
        "no error ways, no steps, no boxes; the same item may come twice",
    )
    pages = [choose_items(skill, n=6, seed=seed, formats=[ROW]) for seed in range(40)]
    drawn = [draw_items(skill, n=6, seed=seed, format=ROW) for seed in range(40)]
    yield Figure(
        f"a page of six chosen (parts {_parted(pages):.0%} of all pairs of error ways)",
        median_ms(lambda: choose_items(skill, n=6, seed=next(seeds), formats=[ROW])),
        f"six drawn at random (parts {_parted(drawn):.0%})",
        median_ms(lambda: draw_items(skill, n=6, seed=next(seeds), format=ROW)),
        f"{_untold(drawn)} of 40 pages have under two items that tell the two commonest ways apart; chosen: "
        f"{_untold(pages)}",
    )
    made = draw_items(skill, n=1000, seed=1, format=ROW)
    rows = [f"{item.numbers['a']}-{item.numbers['b']}" for item in made]
    yield Figure(
        "1,000 answers worked out a second time",
        median_ms(lambda: [second_answer(item) for item in made]),
        "eval of the printed sum",
        median_ms(lambda: [eval(row) for row in rows]),  # noqa: S307 -- our own rows
        "cannot read a picture, a story, a gap or a comparison",
    )


def _parted(pages: Sequence[Sequence[Item]]) -> float:
    """Share of the pairs of hypotheses (error ways and the right procedure) that a page tells apart, on average."""
    shares = []
    for page in pages:
        ways = sorted({way for item in page for way in item.errors})
        replies = [tuple(item.errors.get(way, item.answer) for item in page) for way in ways]
        replies.append(tuple(item.answer for item in page))
        pairs = list(combinations(replies, 2))
        shares.append(sum(one != other for one, other in pairs) / len(pairs))
    return sum(shares) / len(shares)


def _untold(pages: Sequence[Sequence[Item]]) -> int:
    two = ("smaller-from-larger", "ten-not-reduced")
    told = [
        sum(len({answer for way, answer in item.errors.items() if way in two}) == 2 for item in page) for page in pages
    ]
    return sum(items < 2 for items in told)


def _clock() -> Figure:
    figure = Picture("clock", {"h": 4, "m": 35, "hands": 1, "numerals": 1})
    return Figure(
        "a clock drawn",
        median_ms(lambda: draw(figure, title="A clock", desc="Both hands"), times=50),
        "the same strokes through xml.etree",
        median_ms(_tree_clock, times=50),
        "no check of the parameters",
    )


def _tree_clock() -> str:
    """Rim, sixty ticks, numerals and hands as a tree."""
    svg = ET.Element("svg", {"xmlns": "http://www.w3.org/2000/svg", "viewBox": "0 0 40 40", "width": "40mm"})
    ET.SubElement(svg, "title").text = "A clock"
    ET.SubElement(svg, "desc").text = "Both hands"
    ET.SubElement(svg, "circle", {"cx": "20", "cy": "20", "r": "19", "fill": "none", "stroke": "#000"})
    for tick in range(60):
        x, y = np.cos(tick * np.pi / 30), np.sin(tick * np.pi / 30)
        ends = {"x1": f"{20 + 17 * x:.2f}", "y1": f"{20 + 17 * y:.2f}", "x2": f"{20 + 19 * x:.2f}"}
        ET.SubElement(svg, "line", {**ends, "y2": f"{20 + 19 * y:.2f}", "stroke": "#000"})
    for hour in range(1, FACE + 1):
        x, y = np.sin(hour * np.pi / 6), -np.cos(hour * np.pi / 6)
        place = {"x": f"{20 + 14 * x:.2f}", "y": f"{20 + 14 * y:.2f}", "font-size": "4", "text-anchor": "middle"}
        ET.SubElement(svg, "text", place).text = str(hour)
    for length, angle in ((9, 137.5), (15, 210.0)):
        x, y = np.sin(np.radians(angle)), -np.cos(np.radians(angle))
        end = {"x2": f"{20 + length * x:.2f}", "y2": f"{20 + length * y:.2f}"}
        ET.SubElement(svg, "line", {"x1": "20", "y1": "20", **end, "stroke": "#000"})
    return ET.tostring(svg, encoding="unicode")


def _year_of_events() -> tuple[Event, ...]:
    """A whole course taught and marked, fourteen items a day, one of eight wrong (invented)."""
    chance = random.Random(84)
    events: list[Event] = []
    known: list[SkillId] = []
    for number, day in enumerate(grade2().days):
        on = START + timedelta(days=number)
        at = datetime(on.year, on.month, on.day, 18, tzinfo=UTC)
        head = [Head(EventId(f"{number}-{kind}"), at, on, LearnerId("w")) for kind in ("t", "m")]
        known += [skill for skill in (*day.new_skills, *day.front_skills) if skill not in known]
        asked = chance.choices(known, k=14) if known else []
        marks = tuple(
            ItemMark(n, skill, ROW, f"{skill}/horiz/n={n}", "right" if chance.random() < 7 / 8 else "wrong", None,
                     helped=False, errors=())
            for n, skill in enumerate(asked, start=1)
        )  # fmt: skip
        events.append(Taught(head[0], day.id, "done", tuple(day.front_skills)))
        events.append(Marked(head[1], SheetId(f"S{number:06d}"), day.id, marks))
    return tuple(events)


def _beliefs() -> Iterator[Figure]:
    course, events = grade2(), _year_of_events()
    today = events[-1].head.day
    before = fold(events[:-2], course, upto=today - timedelta(days=1))
    yield Figure(
        f"beliefs read on by one day after {len(events) - 2} events",
        median_ms(lambda: resume(before, events[-2:], upto=today)),
        "the whole year folded afresh",
        median_ms(lambda: fold(events, course, upto=today)),
        "nothing: both give the same beliefs",
    )
    beliefs = fold(events, course, upto=today)
    met = tuple(skill for skill in course.skills if is_built(skill))
    seeds = count(1)

    def chosen() -> object:
        return choose_back(beliefs, candidates=met, today_skills={REGROUP}, soon={}, day=today, n=6, seed=next(seeds))

    yield Figure(
        f"six of {len(met)} skills chosen for a back",
        median_ms(chosen),
        "six drawn at random",
        median_ms(lambda: random.Random(next(seeds)).sample(met, 6), times=50),
        "knows nothing of what is getting rusty",
    )


def _year() -> Figure:
    lessons = our_courses()[grade2().id]
    calendar = LearningCalendar(start=START, minutes=dict.fromkeys((0, 1, 3, 4), 60))
    run = CourseRun(LearnerId("wren"), grade2().id, lessons, calendar)
    return Figure(
        "180 lessons laid on a four-day year",
        median_ms(lambda: cheapest_run(run, rules=Rules(), wishes=Wishes())),
        "numpy's business days",
        median_ms(
            lambda: np.busday_offset(np.datetime64(START), np.arange(len(lessons)), roll="forward", weekmask="1101100")
        ),
        "no rules, no wishes, no minutes, no lessons that share a day",
    )
