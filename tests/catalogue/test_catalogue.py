"""The catalogue in docs is what the engine makes today, and every picture in it can be shown."""

from __future__ import annotations

import re
from pathlib import Path
from xml.etree import ElementTree as ET

import catalogue
import pytest

from dayleaf.course.load import grade2
from dayleaf.items.built import formats_built

ROOT = Path(__file__).resolve().parents[2]
KEPT = ROOT / "docs" / "catalogue"


@pytest.mark.parametrize("strand", ["subfact", "addfact"])
def test_a_strand_made_anew_is_the_one_that_is_kept(strand: str) -> None:
    made: dict[str, str] = catalogue.strand_page(grade2(), strand)

    kept = {path: (KEPT / path).read_text(encoding="utf-8") for path in made}

    assert made == kept


def test_every_layout_of_a_strand_has_its_item_its_answer_and_its_steps() -> None:
    page: str = catalogue.strand_page(grade2(), "subfact")["subfact.md"]

    skills = [skill for skill in grade2().skills.values() if skill.strand == "subfact"]
    layouts = sum(len(formats_built(skill.id)) for skill in skills)
    assert page.count("\n### ") == page.count("\n> ") == layouts
    assert page.count("Answer: **") + page.count("The parent looks.") == layouts
    assert len(re.findall(r"^1\. ", page, flags=re.MULTILINE)) == layouts


def test_every_picture_that_a_page_shows_is_there_and_is_described() -> None:
    shown = 0
    for page in KEPT.glob("*.md"):
        for alt, path in re.findall(r"!\[(.*)\]\((.*)\)", page.read_text(encoding="utf-8")):
            root = ET.parse(KEPT / path).getroot()  # noqa: S314 -- pictures of our own

            assert root.tag.endswith("svg")
            assert alt.strip()
            shown += 1
    assert shown == len(list(KEPT.glob("figures/*.svg"))) > 100


def test_what_is_no_longer_in_the_catalogue_goes(tmp_path: Path) -> None:
    catalogue.write({"old.md": "old", "figures/old.svg": "<svg/>"}, tmp_path)

    catalogue.write({"new.md": "new"}, tmp_path)

    assert [path.relative_to(tmp_path).as_posix() for path in tmp_path.rglob("*.*")] == ["new.md"]
