"""A real home in a real folder: the tests run on the same database, with the same settings, as a family does."""

from __future__ import annotations

import shutil
from datetime import UTC, date, datetime
from typing import TYPE_CHECKING

import pytest
from django.db import connections

from dayleaf.core.ids import ErrorWayId, FormatId, LessonId, SheetId, SkillId
from dayleaf.events.model import ItemMark
from dayleaf.items.model import Gap, Item, Part, Row, Step
from dayleaf.records import people, services
from dayleaf.records.home import Home, open_home
from dayleaf.sheets.model import Block, Box, MapItem, Mark, PageMap, PageSpec, Placed, Qr, SheetSpec, Typeset

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    from pytest_django.plugin import DjangoDbBlocker

    from dayleaf.records.models import Household, Learner, PrintRow

TUESDAY = date(2027, 1, 12)
EVENING = datetime(2027, 1, 12, 20, 10, tzinfo=UTC)


@pytest.fixture(scope="session")
def empty_home(tmp_path_factory: pytest.TempPathFactory, django_db_blocker: DjangoDbBlocker) -> Path:
    folder = tmp_path_factory.mktemp("template") / "home"
    with django_db_blocker.unblock():
        open_home(folder)
        connections.close_all()
    return folder


@pytest.fixture
def home(tmp_path: Path, empty_home: Path, django_db_blocker: DjangoDbBlocker) -> Iterator[Home]:
    folder = tmp_path / "home"
    shutil.copytree(empty_home, folder)
    with django_db_blocker.unblock():
        yield open_home(folder)
        connections.close_all()


@pytest.fixture
def wherrows(home: Home) -> Household:
    del home
    return people.household_create(name="The Wherrows", time_zone="Europe/London", younger_child=True)


@pytest.fixture
def wren(wherrows: Household) -> Learner:
    return people.learner_add(household=wherrows, name="Wren", born=date(2019, 5, 17))


@pytest.fixture
def print_day() -> Callable[..., PrintRow]:
    """Print a small day: one sheet with two take-aways."""

    def printed(learner: Learner, *, sheet: str = "4C7Q2MX", lesson: str = "day-084", day: date = TUESDAY) -> PrintRow:
        spec = small_sheet(SheetId(sheet), LessonId(lesson), learner.name)
        return services.day_print(
            learner=learner,
            day=day,
            at=EVENING,
            lesson=LessonId(lesson),
            skills=[SkillId("sub-2digit-regroup")],
            seed=5,
            engine="0.1.0",
            lang="en",
            paper="letter",
            sheets=[spec],
            pages=Typeset(b"%PDF pages", (small_map(spec),)),
            guide=b"%PDF guide",
            key=b"%PDF key",
        )

    return printed


def take_away(a: int, b: int) -> Item:
    return Item(
        skill=SkillId("sub-2digit-regroup"),
        format=FormatId("fill-blank"),
        numbers={"a": a, "b": b},
        prompt=Row((a, "-", b, "=", Gap("answer"))),
        parts=(Part("answer", "digits", str(a - b), width=2),),
        steps=(Step("open-a-ten", {"a": a}),),
        errors={ErrorWayId("smaller-from-larger"): "36"},
    )


def small_sheet(sheet: SheetId, lesson: LessonId, child: str) -> SheetSpec:
    items = (Placed(1, take_away(62, 38)), Placed(2, take_away(71, 47)))
    block = Block("Take away.", items, example=take_away(53, 17))
    return SheetSpec(sheet, lesson, child, (PageSpec("front", "Not enough ones", (block,)),))


def small_map(sheet: SheetSpec) -> PageMap:
    placed = [item for page in sheet.pages for block in page.blocks for item in block.items]
    return PageMap(
        sheet=sheet.id,
        page=1,
        pdf_page=1,
        kind="front",
        lesson=sheet.lesson,
        lang="en",
        size_mm=(215.9, 279.4),
        qr=Qr(180.0, 15.0, 17.0, f"S1.{sheet.id}.1.AA"),
        marks=(Mark(0, 8.0, 8.0, 7.0),),
        boxes=(Box("1.answer.1", 1, "answer", "answer", "digit", 40.0, 60.0, 12.0, 14.0, "2"),),
        items=tuple(
            MapItem(
                one.n,
                one.item.key,
                one.item.skill,
                one.item.format,
                one.item.numbers,
                "62 − 38 =",
                one.item.answer,
                one.item.errors,
            )
            for one in placed
        ),
    )


@pytest.fixture
def marks() -> tuple[ItemMark, ...]:
    return tuple(
        ItemMark(
            n,
            SkillId("sub-2digit-regroup"),
            FormatId("fill-blank"),
            f"key-{n}",
            "right" if n == 1 else "wrong",
            None if n == 1 else "36",
            helped=False,
            errors=() if n == 1 else (ErrorWayId("smaller-from-larger"),),
        )
        for n in (1, 2)
    )
