"""A photographed sheet: look at what is doubtful, then keep the marks."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.views.decorators.http import require_http_methods

from dayleaf.core.errors import BadInput
from dayleaf.course.load import grade2
from dayleaf.learner.words import count_word
from dayleaf.records import cards, selectors, settling
from dayleaf.records.coming import lesson_named
from dayleaf.web.clock import today_for
from dayleaf.web.entry import SIDES
from dayleaf.web.page import page
from dayleaf.web.result import shown_misses, shown_result
from dayleaf.web.settle import said_in, shown_lines, shown_sides
from dayleaf.web.shown import upper_first
from dayleaf.web.through import who

if TYPE_CHECKING:
    from django.http import HttpRequest, HttpResponse

    from dayleaf.records.settling import SheetSeen

KEEP = "keep"
"""The name of the button that keeps the marks; without it only what was said is kept."""


@require_http_methods(["GET", "POST"])
def settle(request: HttpRequest, sheet_id: str) -> HttpResponse:
    """The page picture with its marks and what is asked; with `keep`, the marks."""
    household = selectors.household()
    row = selectors.sheet_find(household, sheet_id)
    extra: dict[str, Any] = {}
    status = 200
    if request.method == "POST":
        said, helped, reached = said_in(request.POST)
        try:
            settling.settled_keep(row, said=said, helped=helped, reached=reached, by=who(request))
            if KEEP in request.POST:
                today = today_for(household)
                marking = settling.photo_mark(row, today=today)
                cards.cards_prepare(household, today=today)
                extra["result"] = shown_result(marking, grade2())
        except BadInput as bad:
            extra["problems"], status = bad.problems, 422
        except (settling.NotSettled, settling.NothingOnIt) as reason:
            extra["sentence"], status = str(reason), 422
    values = {**_values(settling.sheet_seen(row)), **extra}
    template = "_settle" if getattr(request, "htmx", False) else "settle"
    response = page(request, template, values, household=household, here="mark", status=status)
    if "result" in extra or "sentence" in extra:
        response.headers["HX-Reswap"] = "innerHTML show:window:top"
    return response


def _values(seen: SheetSeen) -> dict[str, Any]:
    row = seen.row
    lines = shown_lines(seen)
    marking = selectors.marking_of(row)
    asked = [line for line in lines if line.touches]
    return {
        "sheet": row.sheet_id,
        "name": row.learner.name,
        "lesson": lesson_named(row.lesson),
        "heading": _heading(seen),
        "sides": shown_sides(seen),
        "asked": asked,
        "plain": [line for line in lines if not line.touches],
        "numbers": [item.n for item in seen.items],
        "reached": seen.settled.reached,
        "lines": lines,
        "missing": [SIDES[side.kind].lower() for side in seen.unseen],
        "marked_before": marking is not None,
        "misses": shown_misses(row),
    }


def _heading(seen: SheetSeen) -> str:
    open_ones = [item for item in seen.counted if item.proposal.state == "ask"]
    if open_ones:
        number = upper_first(count_word(len(open_ones)))
        return f"{number} {'place' if len(open_ones) == 1 else 'places'} to look at"
    if seen.open:
        return "One side is not here yet" if len(seen.unseen) == 1 else "Some sides are not here yet"
    states = [item.proposal.state for item in seen.counted]
    return f"{states.count('right')} of {len(states)} right"
