"""What the learner room says to a parent: short, kind, exact, in sentences that name the act."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, Literal

if TYPE_CHECKING:
    from datetime import date

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
