"""The course as the library's pages say it: days by chapter, a guide part by part, stories, sets with their pieces."""

from __future__ import annotations

import re
from functools import cache
from typing import TYPE_CHECKING, Any, Final

from django.utils.html import conditional_escape
from django.utils.safestring import mark_safe
from django.utils.translation import gettext

from dayleaf.course.finding import index_of
from dayleaf.course.load import grade2
from dayleaf.figures.draw import draw
from dayleaf.packets.cut_outs.sets import SETS
from dayleaf.packets.printables import OF_A_CHAPTER
from dayleaf.packets.reading_pages import KINDS
from dayleaf.web.entry import SIDES
from dayleaf.wording.pictures import figure_texts, figure_words

if TYPE_CHECKING:
    from collections.abc import Sequence

    from django.utils.safestring import SafeString

    from dayleaf.course.finding import Found, Index
    from dayleaf.course.model import Course, Day
    from dayleaf.items.model import Figure
    from dayleaf.sheets.model import GuideLine, GuideSheet, PageSpec

MOST_OF_A_PIECE: Final = 200
"""So many of one piece are printed at a time, as in the terminal."""
MARGIN: Final = {
    "say": "Say",
    "do": "Do",
    "ask": "Ask",
    "answer": "Answer",
    "if-instead": "If instead",
    "watch": "Watch",
}
_STARRED: Final = re.compile(r"\*([^*]+)\*")


@cache
def search_index() -> Index:
    """Our course made ready to be searched; once is enough, and the server does it while it starts."""
    return index_of(grade2())


def days_by_chapter(course: Course) -> list[dict[str, Any]]:
    """The chapters with their days, each with its kind where it is no lesson."""
    return [
        {
            "number": chapter.number,
            "title": chapter.title,
            "aim": chapter.aim,
            "days": [
                {"number": day.number, "title": day.title, "kind": KINDS[day.kind]}
                for day in course.days
                if day.chapter == chapter.number
            ],
        }
        for chapter in course.chapters
    ]


def shown_day(course: Course, day: Day) -> dict[str, Any]:
    """What stands over a day's guide, and its neighbours."""
    return {
        "day": day,
        "kind": KINDS[day.kind],
        "chapter": course.chapters[day.chapter - 1],
        "before": day.number - 1 if day.number > 1 else None,
        "after": day.number + 1 if day.number < len(course.days) else None,
        "new": [course.skills[skill] for skill in day.new_skills],
        "refreshed": [course.skills[skill] for skill in day.refresh_skills],
        "print_outs": [
            {"word": f"{word}:{day.chapter}" if word in OF_A_CHAPTER else word, "title": _print_out(word)}
            for word in day.print_outs
            if word != "story-page" or day.chapter in course.stories
        ],
    }


def shown_guide(guide: GuideSheet) -> dict[str, Any]:
    """A guide part by part; the word in the margin stands once for lines of one kind that follow one another."""
    return {
        "title": guide.title,
        "facts": guide.facts,
        "sections": [
            {
                "heading": section.heading,
                "minutes": section.minutes,
                "core": section.core,
                "lines": [
                    {
                        "kind": line.kind,
                        "word": MARGIN.get(line.kind, ""),
                        "text": line.text,
                        "pictures": _pictures(line),
                    }
                    for line in section.lines
                ],
            }
            for section in guide.sections
        ],
        "short": guide.short,
        "bare": guide.bare,
        "tables": guide.tables,
    }


def shown_sides(sides: Sequence[PageSpec]) -> list[dict[str, Any]]:
    """The child's sides by number, each with what it is."""
    return [
        {"number": number, "title": side.title if side.title.startswith("Chapter test") else SIDES[side.kind]}
        for number, side in enumerate(sides, start=1)
    ]


def shown_found(found: Found) -> dict[str, Any]:
    """What a search found, and how much of it."""
    return {
        "nothing": found.nothing,
        "days": found.days,
        "skills": found.skills,
        "words": [{"word": word, "chapter": chapter} for word, chapter in found.words],
        "stories": found.stories,
    }


def shown_story(course: Course, chapter: int) -> dict[str, Any]:
    """A story to read aloud: its drawing, its paragraphs with the names of boats in italics, its question."""
    story = course.stories[chapter]
    told = sorted(course.stories)
    place = told.index(chapter)
    return {
        "chapter": chapter,
        "story": story,
        "word": f"story-page:{chapter}",
        "drawing": mark_safe(story.drawing) if story.drawing else "",  # noqa: S308 -- our own file, checked by check_stories
        "paragraphs": [_with_names(words) for words in story.paragraphs if words != story.question],
        "before": told[place - 1] if place else None,
        "after": told[place + 1] if place + 1 < len(told) else None,
    }


@cache
def shown_sets() -> list[dict[str, Any]]:
    """Every set to cut out with its minutes, its cautions and its pieces."""
    course = grade2()
    shown = []
    for word, made in SETS.items():
        cut, material = made(course), course.materials.get(word)
        pieces: dict[str, int] = {}
        for group in cut.groups:
            for piece in group:
                pieces[piece.name] = pieces.get(piece.name, 0) + piece.count
        shown.append(
            {
                "word": word,
                "title": cut.title[:1].upper() + cut.title[1:],
                "contents": _one_line(cut.contents),
                "minutes": material.prep_minutes if material else None,
                "first_day": material.first_day if material else None,
                "caution": cut.caution or (material.caution if material else ""),
                "pieces": [{"name": name, "count": count} for name, count in pieces.items()],
            }
        )
    return shown


def inline_figure(figure: Figure, *, lang: str = "en") -> SafeString:
    """A picture as SVG to stand inside a page, with its words for those who do not see it."""
    title, desc = figure_words(figure, lang)
    drawn = draw(figure, title=title, desc=desc, words=figure_texts(figure, lang))
    return mark_safe(drawn.svg)  # noqa: S308 -- drawn by our own room, which escapes every word


def _one_line(lines: Sequence[str]) -> str:
    """The lines of a label as one: a comma between them where a line does not end in a sign of its own."""
    return " ".join(line if line.endswith((",", ":", ";")) else f"{line}," for line in lines).rstrip(",:;")


def _pictures(line: GuideLine) -> list[dict[str, Any]]:
    return [{"letter": letter, "svg": inline_figure(figure)} for letter, figure in line.pictures]


def _print_out(word: str) -> str:
    course = grade2()
    kind, _, more = word.partition(":")
    if kind == "picture-card":
        return gettext("Picture card: %(what)s") % {"what": more.replace("-", " ")}
    material = course.materials.get(kind)
    title = material.title if material else kind.replace("-", " ")
    return title[:1].upper() + title[1:]


def _with_names(words: str) -> SafeString:
    """A paragraph with what stands between stars in italics."""
    return mark_safe(_STARRED.sub(r"<em>\1</em>", str(conditional_escape(words))))  # noqa: S308 -- escaped just now
