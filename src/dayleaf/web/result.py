"""What marking a sheet showed, as the page says it: two sentences, then what changed."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from dayleaf.web.clock import weekday_and_date
from dayleaf.web.entry import GAP

if TYPE_CHECKING:
    from dayleaf.course.model import Course
    from dayleaf.records.desk import Marking


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
