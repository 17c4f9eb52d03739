"""Write docs/catalogue anew: one item of every skill and format that can be made, with picture, answer and steps.

    python bench/catalogue.py [DIR]

A page for each strand, the pictures beside it as SVG, and an index. Nothing in the folder is written by hand.
"""

from __future__ import annotations

import sys
from collections import Counter
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING

from dayleaf.course.load import grade2
from dayleaf.figures.draw import draw
from dayleaf.items.built import formats_built
from dayleaf.items.draw import draw_items
from dayleaf.items.face import figures_of
from dayleaf.sheets.cells import answer_words
from dayleaf.wording import pictures, say

if TYPE_CHECKING:
    from collections.abc import Iterator

    from dayleaf.course.model import Course, Skill
    from dayleaf.items.model import Figure, Item

FOLDER = Path(__file__).resolve().parent.parent / "docs" / "catalogue"
SEED = 2027
LANG = "en"
MADE_BY = "Made by `python bench/catalogue.py`; changes by hand are lost."
WITH_HANDS = frozenset({"build", "oral", "explain", "group-ring", "graph-make"})
"""Formats that are acted out or told to the parent."""


@dataclass(slots=True)
class Pages:
    """The files of a catalogue by their path inside its folder."""

    files: dict[str, str] = field(default_factory=dict)

    def show(self, figure: Figure, name: str) -> str:
        """Keep a picture and give the line that shows it."""
        title, desc = pictures.figure_words(figure, LANG)
        drawing = draw(figure, title=title, desc=desc, words=pictures.figure_texts(figure, LANG))
        path = f"figures/{name}.svg"
        self.files[path] = drawing.svg + "\n"
        return f"![{_alt(f'{title}. {desc}' if desc else title)}]({path})"


def catalogue(course: Course) -> dict[str, str]:
    """Every file of the catalogue by its path."""
    pages = Pages()
    lines = [
        "# Catalogue of items",
        "",
        MADE_BY,
        "",
        "| strand | skills | with items | layouts |",
        "| --- | --: | --: | --: |",
    ]
    for strand, title in course.strands.items():
        skills = _skills(course, strand)
        built = [skill for skill in skills if formats_built(skill.id)]
        layouts = sum(len(formats_built(skill.id)) for skill in built)
        lines.append(f"| [{title}]({strand}.md) | {len(skills)} | {len(built)} | {layouts} |")
        pages.files.update(strand_page(course, strand))
    lines += ["", "The skills without items:", ""]
    lines += [
        f"- {course.strands[skill.strand]}: {skill.title} (`{skill.id}`, {skill.role})"
        for skill in course.skills.values()
        if not formats_built(skill.id)
    ]
    pages.files["README.md"] = "\n".join(lines) + "\n"
    return pages.files


def strand_page(course: Course, strand: str) -> dict[str, str]:
    """The page of one strand and its pictures, by path."""
    pages = Pages()
    lines = [f"# {course.strands[strand]}", "", MADE_BY]
    for skill in _skills(course, strand):
        built = [one for one in skill.formats if one in formats_built(skill.id)]
        if not built:
            continue
        lines += ["", f"## {skill.title}", "", f"`{skill.id}` · {skill.role} · {skill.number_range}"]
        for format_id in built:
            item = draw_items(skill, n=1, seed=SEED, format=format_id)[0]
            lines += ["", f"### {course.formats[format_id].name}", "", *_item(item, pages)]
        with_hands = [course.formats[one].name for one in skill.formats if one in WITH_HANDS and one not in built]
        missing = [course.formats[one].name for one in skill.formats if one not in {*built, *WITH_HANDS}]
        if with_hands:
            lines += ["", f"Acted out: {', '.join(with_hands)}."]
        if missing:
            lines += ["", f"Not made yet: {', '.join(missing)}."]
    pages.files[f"{strand}.md"] = "\n".join(lines) + "\n"
    return pages.files


def _skills(course: Course, strand: str) -> list[Skill]:
    return [skill for skill in course.skills.values() if skill.strand == strand]


def _item(item: Item, pages: Pages) -> Iterator[str]:
    yield f"*{say.instruction_for(item, LANG)}*"
    yield ""
    yield f"> {say.text_of(item, LANG)}"
    for number, figure in enumerate(figures_of(item), start=1):
        yield ""
        yield pages.show(figure, f"{item.skill}.{item.format}.{number}")
    answer = answer_words(item, LANG)
    yield ""
    yield f"Answer: **{answer}**" if answer else "The parent looks."
    yield ""
    for number, step in enumerate(say.steps_of(item, LANG), start=1):
        yield f"{number}. {step}"


def _alt(text: str) -> str:
    return text.replace("[", "(").replace("]", ")").replace("\n", " ")


def write(files: dict[str, str], folder: Path) -> None:
    """Write the files; pages and pictures of an older catalogue that are no longer in it go."""
    for old in (*folder.glob("*.md"), *folder.glob("figures/*.svg")):
        if old.relative_to(folder).as_posix() not in files:
            old.unlink()
    for path, text in files.items():
        target = folder / path
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_text(text, encoding="utf-8", newline="\n")


def main(words: list[str]) -> int:
    """Write the catalogue and say how large it is."""
    folder = Path(words[0]) if words else FOLDER
    files = catalogue(grade2())
    write(files, folder)
    kinds = Counter(Path(path).suffix for path in files)
    size = sum(len(text.encode()) for text in files.values())
    print(f"{kinds['.md']} pages and {kinds['.svg']} pictures, {size / 1e6:.2f} MB, in {folder}")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
