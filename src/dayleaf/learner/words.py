"""What the learner room says to a parent: short, kind, exact, in sentences that name the act."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, Literal

from dayleaf.wording.say import text_of
from dayleaf.wording.ways import try_next, way_phrase

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from dayleaf.learner.known import Known
    from dayleaf.learner.seen import Seen

NAMED: Final = 3
"""So many skills are named in a sentence; the others are counted."""
NUMBER_WORDS: Final = (
    *("no", "one", "two", "three", "four", "five", "six"),
    *("seven", "eight", "nine", "ten", "eleven", "twelve"),
)
WEEKDAYS: Final = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
LONG_AGO: Final = 7


@dataclass(frozen=True, slots=True)
class Reason:
    """Why a skill comes back, in numbers."""

    kind: Literal["due", "random", "no marks yet", "course list"]
    asked_days_ago: int | None = None
    taught_on: date | None = None
    asked_then: int = 0
    right_then: int = 0
    needed_on: date | None = None


def why_back(reason: Reason, *, day: date) -> str:
    """The reason as a piece of a sentence: "not seen for 24 days and needed on Thursday"."""
    if reason.kind == "random":
        return "a random place"
    if reason.kind == "no marks yet":
        return "no marks yet, so the course's own list"
    if reason.kind == "course list":
        return "from the course's own list"
    needed = "" if reason.needed_on is None else f" and needed {_when(reason.needed_on, day)}"
    return _last_time(reason, day) + needed


def count_word(n: int) -> str:
    """Numbers up to twelve as words, later ones in digits."""
    return NUMBER_WORDS[n] if 0 <= n < len(NUMBER_WORDS) else str(n)


def seen_sentences(seen: Seen) -> str:
    """What was seen and what to do about it, before anybody knows what comes next."""
    return two_sentences(seen, ())


def two_sentences(seen: Seen, tomorrow: Sequence[str], *, when: str = "Tomorrow") -> str:
    """What was seen, and what `when` brings: at most two sentences.

    `tomorrow` are the titles of the skills to name in the second sentence (those that come back, or those that
    newly do); where there are none and nothing is to be done, only the first sentence is said.
    """
    first, second = _what_was_seen(seen), _what_comes(seen, tomorrow, when)
    return f"{first} {second}" if second else first


def known_sentence(known: Known, *, day: date) -> str:
    """The evidence behind the word for a skill: "Nine of ten right, last asked on Friday."."""
    if known.last_asked is None:
        return "Not taught or asked here yet." if known.word == "not yet" else "Taught, not asked yet."
    share = f"{count_word(known.right)} of {count_word(known.asked)} right".capitalize()
    when = "today" if known.last_asked == day else _when(known.last_asked, day)
    return f"{share}, last asked {when}."


def listed(names: Sequence[str]) -> str:
    """Names in quotes, the first three of them: “A”, “B”, “C” and two more."""
    shown = [f"“{name}”" for name in names[:NAMED]]
    more = len(names) - len(shown)
    if more:
        shown.append(f"{count_word(more)} more")
    return shown[0] if len(shown) == 1 else ", ".join(shown[:-1]) + f" and {shown[-1]}"


def _what_was_seen(seen: Seen) -> str:
    if seen.seen == "habit" and seen.error is not None:
        telling = len(seen.evidence) if 2 * len(seen.evidence) > seen.fitting else seen.fitting
        share = f"{count_word(telling)} of {count_word(seen.could_show)}".capitalize()
        return f"{share} show the same habit: {way_phrase(seen.error, 'en')}."
    if seen.of == 0:
        return "There is no answer to look at yet."
    if seen.wrong == 0:
        return "This answer is right." if seen.of == 1 else f"All {count_word(seen.of)} are right."
    wrong = "This answer" if seen.of == 1 else f"{count_word(seen.wrong)} of {count_word(seen.of)}".capitalize()
    was = "is" if seen.wrong == 1 else "are"
    if seen.seen == "slip":
        return f"{wrong} {was} wrong, which looks like {'a slip' if seen.wrong == 1 else 'slips'}."
    if not seen.rivals:
        return f"{wrong} {was} wrong, in no way that we know; we can’t tell why yet."
    ways = " or ".join(way_phrase(way, "en") for way in seen.rivals[:2])
    return f"{wrong} {was} wrong, which may be {ways}; we can’t tell yet."


def _what_comes(seen: Seen, tomorrow: Sequence[str], when: str) -> str:
    back = f"{listed(tomorrow)} {'comes' if len(tomorrow) == 1 else 'come'} back" if tomorrow else ""
    if seen.seen == "habit" and seen.error is not None:
        act = try_next(seen.error, "en").rstrip(".")
        act = f"before the page: {act[0].lower()}{act[1:]}"
    elif seen.ask is not None:
        act = f"ask “{' '.join(text_of(seen.ask, 'en').split())}”, which would tell more"
    else:
        act = ""
    said = "; ".join(piece for piece in (act, back) if piece)
    return f"{when}, {said}." if said else ""


def _last_time(reason: Reason, day: date) -> str:
    ago = reason.asked_days_ago
    if ago is None:
        if reason.taught_on is None:
            return "from earlier, not asked yet"
        return f"taught {_when(reason.taught_on, day)}, not asked yet"
    if reason.right_then == reason.asked_then:
        return f"not seen for {ago} days" if ago >= LONG_AGO else "all right last time"
    if reason.asked_then == 1:
        result = "not right"
    else:
        result = f"{count_word(reason.right_then)} of {count_word(reason.asked_then)} right"
    return f"not seen for {ago} days, {result} then" if ago >= LONG_AGO else f"{result} last time"


def _when(one: date, day: date) -> str:
    """A day within the week by its weekday, one farther off by its date."""
    if abs((one - day).days) < LONG_AGO:
        return f"on {WEEKDAYS[one.weekday()]}"
    return f"on {one.day} {_MONTHS[one.month - 1]}"


_MONTHS: Final = (
    *("January", "February", "March", "April", "May", "June"),
    *("July", "August", "September", "October", "November", "December"),
)


def days_ago(days: float | None, *, needed: str | None) -> str:
    """Why a skill comes back, without dates: "not seen for 24 days and needed in 3 days"."""
    if days is None:
        seen = "not asked yet"
    elif days < 1:
        seen = "asked today"
    else:
        seen = "seen yesterday" if days < 2 else f"not seen for {days:.0f} days"
    return f"{seen} and needed {needed}" if needed else seen


def in_days(days: float) -> str:
    """How far off a day is: "tomorrow", "in 3 days"."""
    return "tomorrow" if days <= 1 else f"in {days:.0f} days"


def pace_sentence(step: Literal["go on", "repeat", "re-teach", "skip"], *, p: float) -> str:
    """The evidence for a step after a lesson, and what would change it: two short sentences."""
    about = f"About {count_word(round(10 * p))} of ten would be right tomorrow"
    if step == "skip":
        return "All answers before the lesson were right, so it can be left out. It stays among what comes back."
    if step == "go on":
        return f"{about}: go on. Fewer than half right on its next turn would change that."
    if step == "repeat":
        return f"{about}: one more day with it. Eight of twelve right would change that."
    return f"{about} after two lessons: show it in another way. Eight of twelve right would change that."


def habit_sentence(*, p: float) -> str:
    """Why a lesson is shown another way when its misses are one habit: two short sentences."""
    about = f"About {count_word(round(10 * p))} of ten would be right tomorrow"
    return f"{about}, and the misses show one habit: show it in another way. A page without it would change that."


def stuck_sentence() -> str:
    """Why what lies beneath comes first: two short sentences."""
    return (
        "What the lesson stands on is not there yet: take that once more first. "
        "Eight of twelve right on it would change that."
    )
