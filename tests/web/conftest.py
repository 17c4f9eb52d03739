"""A household with one child in the middle of a year, in a real folder, and a browser without a window."""

from __future__ import annotations

import shutil
from datetime import UTC, date, datetime
from typing import TYPE_CHECKING

import pytest
from django.db import connections
from django.test import Client

from dayleaf.core.ids import ErrorWayId, FormatId, LessonId, SheetId, SkillId
from dayleaf.course.load import grade2
from dayleaf.items.model import Gap, Item, Part, Row
from dayleaf.plan.codec import to_json
from dayleaf.plan.kept import KeptYear
from dayleaf.records import cards, people, services
from dayleaf.records.demo import CHILDREN, plan_for
from dayleaf.records.home import Home, open_home
from dayleaf.sheets.model import Block, Box, MapItem, PageMap, PageSpec, Placed, Qr, SheetSpec, Typeset

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from pytest_django.fixtures import Settings
    from pytest_django.plugin import DjangoDbBlocker

    from dayleaf.records.models import Household, Learner
    from dayleaf.sheets.model import PageKind

TODAY = date(2027, 1, 12)
YESTERDAY = date(2027, 1, 11)
SHEET = "4C7Q2MX"
TAKE_AWAYS = ((62, 38, "36"), (71, 47, "36"), (84, 29, "65"), (53, 17, "44"), (90, 36, "66"), (65, 21, "44"))
"""JOB 1.7: six items, and what a child writes who takes the smaller digit from the larger."""


@pytest.fixture(scope="session")
def empty_home(tmp_path_factory: pytest.TempPathFactory, django_db_blocker: DjangoDbBlocker) -> Path:
    folder = tmp_path_factory.mktemp("template") / "home"
    with django_db_blocker.unblock():
        open_home(folder)
        connections.close_all()
    return folder


@pytest.fixture
def home(tmp_path: Path, empty_home: Path, django_db_blocker: DjangoDbBlocker, settings: Settings) -> Iterator[Home]:
    folder = tmp_path / "home"
    shutil.copytree(empty_home, folder)
    settings.TODAY = TODAY
    with django_db_blocker.unblock():
        yield open_home(folder)
        connections.close_all()


@pytest.fixture
def household(home: Home) -> Household:
    """The Wherrows with Wren, whose lesson today is the first with regrouping, and yesterday's sheet not marked yet."""
    assert home.warning is None
    household = people.household_create(id="a" * 32, name="The Wherrows")
    wren = people.learner_add(household=household, name="Wren")
    plan = plan_for(grade2(), CHILDREN[0], today=TODAY)
    services.plan_set(learner=wren, plan=to_json(KeptYear((plan,))), reason="first", day=plan.first)
    print_sheet(wren, SHEET)
    cards.cards_prepare(household, today=TODAY)
    return household


@pytest.fixture
def wren(household: Household) -> Learner:
    learner: Learner = household.learners.get()
    return learner


@pytest.fixture
def neighbours(household: Household) -> Household:
    """Another household in the same database, with a child and a printed sheet of its own."""
    others = people.household_create(id="f" * 32, name="The neighbours")
    assert others != household
    print_sheet(people.learner_add(household=others, name="Pip"), "7777777")
    return others


@pytest.fixture
def browser(household: Household) -> Client:
    assert household.name
    return Client()


@pytest.fixture
def printed_today(household: Household) -> str:
    """Today's lesson is printed, with one skill on the back of the paper; the skill."""
    print_sheet(household.learners.get(), "5555555", lesson="day-084", kind="back", day=TODAY)
    return "sub-2digit-regroup"


def print_sheet(
    learner: Learner, sheet: str, *, lesson: str = "day-083", kind: PageKind = "own", day: date = YESTERDAY
) -> None:
    placed = tuple(Placed(n, take_away(a, b, wrong)) for n, (a, b, wrong) in enumerate(TAKE_AWAYS, start=1))
    page = PageSpec(kind, "Not enough ones", (Block("Take away.", placed),))
    spec = SheetSpec(SheetId(sheet), LessonId(lesson), learner.name, (page,))
    services.day_print(
        learner=learner,
        day=day,
        at=datetime(2027, 1, 11, 8, 50, tzinfo=UTC),
        lesson=spec.lesson,
        skills=[SkillId("sub-2digit-regroup")],
        seed=1,
        engine="0.1.0",
        lang="en",
        paper="letter",
        sheets=[spec],
        pages=Typeset(b"%PDF-1.7 pages", (map_of(spec),)),
        guide=b"%PDF-1.7 guide",
        key=b"%PDF-1.7 key",
        id={"4C7Q2MX": "b", "7777777": "c"}.get(sheet, "d") * 32,
    )


def take_away(a: int, b: int, wrong: str) -> Item:
    return Item(
        skill=SkillId("sub-2digit-regroup"),
        format=FormatId("horiz"),
        numbers={"a": a, "b": b},
        prompt=Row((a, "-", b, "=", Gap("1"))),
        parts=(Part("1", "digits", str(a - b), width=2),),
        steps=(),
        errors={ErrorWayId("smaller-from-larger"): wrong},
    )


def map_of(sheet: SheetSpec) -> PageMap:
    placed = [one for page in sheet.pages for block in page.blocks for one in block.items]
    return PageMap(
        sheet=sheet.id,
        page=1,
        pdf_page=1,
        kind=sheet.pages[0].kind,
        lesson=sheet.lesson,
        lang="en",
        size_mm=(215.9, 279.4),
        qr=Qr(180.0, 15.0, 17.0, f"S1.{sheet.id}.1.AA"),
        marks=(),
        boxes=tuple(
            Box(f"{one.n}.1.{place}", one.n, "1", "answer", "digit", 40.0 + 15 * place, 40.0 * one.n, 12.0, 14.0, digit)
            for one in placed
            for place, digit in enumerate(one.item.answer)
        ),
        items=tuple(
            MapItem(
                one.n,
                one.item.key,
                one.item.skill,
                one.item.format,
                one.item.numbers,
                f"{one.item.numbers['a']} − {one.item.numbers['b']} = □",
                one.item.answer,
                one.item.errors,
            )
            for one in placed
        ),
    )
