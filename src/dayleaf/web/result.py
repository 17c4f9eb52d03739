"""What marking a sheet showed, as the page says it: two sentences, then what changed."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from dayleaf.marking.answer import asked_items
from dayleaf.records import selectors
from dayleaf.web.clock import weekday_and_date
from dayleaf.web.entry import GAP, typed_answer

if TYPE_CHECKING:
    from dayleaf.course.model import Course
    from dayleaf.records.desk import Marking
    from dayleaf.records.models import SheetRow


def shown_result(marking: Marking, course: Course) -> dict[str, Any]:
    """The values of the result's template."""
    ahead = marking.tomorrow
    changed = {skill for skill, what in marking.changed if what == "added"}
    return {
        "right": marking.right,
        "of": marking.of,
        "corrected": marking.corrected,
        "sentences": marking.sentences,
        "evidence": [
            {"text": one.text.removesuffix(GAP).rstrip(" ="), "answer": one.answer, "right": one.right}
            for one in marking.seen.evidence
        ],
        "next_day": weekday_and_date(ahead.on) if ahead else "",
        "next_title": ahead.day.title if ahead else "",
        "backs": [
            {"title": course.skills[back.skill].title, "why": back.why, "new": back.skill in changed}
            for back in (ahead.backs if ahead else ())
        ],
        "dropped": [course.skills[skill].title for skill, what in marking.changed if what == "dropped"],
    }


def shown_misses(sheet: SheetRow) -> list[dict[str, Any]]:
    """The wrong items of the marks that hold, and how the child mended each at the table."""
    marking = selectors.marking_of(sheet)
    if marking is None:
        return []
    asked, mended = asked_items(selectors.pages_of(sheet)), selectors.mended_of(sheet)
    misses = []
    for mark in marking.items:
        if mark.state != "wrong":
            continue
        how = mended.get(mark.n)
        misses.append(
            {
                "n": mark.n,
                "text": asked[mark.n].item.text.removesuffix(GAP).rstrip(" ="),
                "answer": typed_answer(asked[mark.n], mark.answer) if mark.answer else "",
                "mended": "" if how is None else "mended with help" if how.with_help else "mended alone",
            }
        )
    return misses
