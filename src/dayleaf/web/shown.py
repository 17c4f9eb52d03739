"""Records as the day's page says them: short sentences and numbers inside them."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from dayleaf.learner.words import count_word
from dayleaf.plan.calendar import WEEKDAYS
from dayleaf.records.cards import Card, DayOff
from dayleaf.web.clock import weekday_and_date
from dayleaf.web.strip import Stretch, clock, lane, marks, whole_steps

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from datetime import date, time

    from dayleaf.events.model import Noted
    from dayleaf.records.models import SheetRow
    from dayleaf.records.mornings import Strip
    from dayleaf.records.seen import LastSeen

SAID = {
    "done": "Done today.",
    "half": "Half done today.",
    "not today": "Not today: it comes on the next learning day.",
}


def shown_card(card: Card | DayOff, *, today: date) -> dict[str, Any]:
    """What a child's sheet on the day's page says."""
    if isinstance(card, DayOff):
        return {
            "off": True,
            "name": card.learner.name,
            "following": weekday_and_date(card.following) if card.following else "",
            "title": card.title,
        }
    day = card.day
    return {
        "off": False,
        "key": f"{card.learner.id[:8]}-{day.id}",
        "learner": card.learner.id,
        "lesson": day.id,
        "name": card.learner.name,
        "title": lower_first(day.title),
        "number": day.number,
        "of": card.of,
        "chapter": card.chapter,
        "with_you": day.parent_minutes,
        "alone": day.child_minutes,
        "fetch": upper_first(", ".join(card.fetch)),
        "pages": day.how if day.pages else "",
        "returning": card.returning,
        "first_why": next((one for one in card.returning or () if one.why), None),
        "yesterday": shown_seen(card.seen, today=today) if card.seen else "",
        "habit": card.seen is not None and card.seen.verdict == "habit",
        "print": "Open today’s pages again" if card.printed else "Print today’s pages",
        "said": SAID.get(card.how_far or "", ""),
    }


def shown_seen(seen: LastSeen, *, today: date) -> str:
    """The last marks in a line: the day and the first of the two sentences about them."""
    day = "Yesterday" if (today - seen.day).days == 1 else WEEKDAYS[seen.day.weekday()]
    return f"{day}: {lower_first(seen.first_sentence)}"


def shown_morning(cards: Sequence[Card | DayOff], strip: Strip, *, start: time | None) -> dict[str, Any]:
    """The heading sentence and the strip, in the order that ends the morning soonest."""
    lessons = [card for card in cards if isinstance(card, Card) and card.how_far != "not today"]
    if not lessons:
        off = any(isinstance(card, DayOff) for card in cards)
        return {"heading": "A day without lessons" if off or cards else "Nothing is planned yet", "lanes": ()}
    names = {card.learner.id: card.learner.name for card in lessons}
    length = whole_steps(strip.minutes)
    lanes = [
        lane(
            names[child],
            [
                Stretch("with" if one.kind == "led" else "alone", one.start, one.minutes)
                for one in strip.stretches
                if one.learner == child
            ],
            length=length,
        )
        for child in dict.fromkeys(one.learner for one in strip.stretches)
    ]
    end = f"done by {clock(start, strip.minutes)}" if start else f"{strip.minutes} in all"
    return {
        "heading": f"About {strip.with_adult} minutes with you, {end}",
        "lanes": lanes,
        "hours": marks(length, start),
        "left_out": strip.left_out,
    }


def shown_note(note: Noted, *, names: Mapping[str, str]) -> dict[str, str]:
    """An adult's note with the day and the child it was written for."""
    child = names.get(note.head.learner or "", "")
    day = f"{note.head.day.day} {note.head.day:%B %Y}"
    return {"text": note.text, "when": f"{day}, {child}" if child else day}


def shown_unmarked(sheets: Sequence[SheetRow], *, today: date) -> str:
    """How many sheets wait for marks and from when."""
    if not sheets:
        return ""
    days = {sheet.printed.day for sheet in sheets}
    number = upper_first(count_word(len(sheets)))
    what, are = ("sheet", "is") if len(sheets) == 1 else ("sheets", "are")
    since = ""
    if len(days) == 1:
        (day,) = days
        since = " from yesterday" if (today - day).days == 1 else f" from {weekday_and_date(day)}"
    return f"{number} {what}{since} {are} not marked yet."


def upper_first(text: str) -> str:
    """The text with a capital at its start."""
    return text[:1].upper() + text[1:]


def lower_first(text: str) -> str:
    """A title after a colon: its first letter small."""
    return text[:1].lower() + text[1:]
