"""Content lines of a calendar file: escaping, folding, and the changes of a time zone (RFC 5545)."""

from __future__ import annotations

import unicodedata
from datetime import UTC, date, datetime, time, timedelta
from typing import TYPE_CHECKING, Final
from zoneinfo import ZoneInfo

if TYPE_CHECKING:
    from collections.abc import Iterator

OCTETS: Final = 75
"""The longest line without its line end, in octets (RFC 5545, 3.1)."""


def plain(text: str) -> str:
    """The text without control characters; line ends and tabs become single spaces."""
    spaced = " ".join(text.split())
    return "".join(sign for sign in spaced if unicodedata.category(sign) not in ("Cc", "Cs"))


def text_value(text: str) -> str:
    """A TEXT value: backslash, semicolon and comma escaped (RFC 5545, 3.3.11)."""
    return text.replace("\\", "\\\\").replace(";", "\\;").replace(",", "\\,")


def line(name: str, value: str) -> str:
    """A content line, not yet folded."""
    return f"{name}:{value}"


def folded(content: str) -> Iterator[str]:
    """The line in pieces of at most 75 octets, each but the first begun by a space, no character ever cut."""
    piece, size = "", 0
    for sign in content:
        octets = len(sign.encode())
        if size + octets > OCTETS:
            yield piece
            piece, size = " ", 1
        piece += sign
        size += octets
    yield piece


def zone_lines(zone: str, *, first: date, last: date) -> list[str]:
    """VTIMEZONE with every change of the zone's clock from `first` to `last`, and the state before it."""
    tz = ZoneInfo(zone)
    begin = datetime.combine(first - timedelta(days=1), time(), tzinfo=UTC)
    end = datetime.combine(last + timedelta(days=2), time(), tzinfo=UTC)
    lines = ["BEGIN:VTIMEZONE", f"TZID:{zone}"]
    moment = begin
    lines += _observance(begin, tz)
    while (moment := _next_change(moment, end, tz)) < end:
        lines += _observance(moment, tz)
    return [*lines, "END:VTIMEZONE"]


def _next_change(after: datetime, end: datetime, tz: ZoneInfo) -> datetime:
    """The first second in UTC after a moment at which the zone's offset is another; `end` where there is none."""
    here = after
    while here < end and _offset(here + timedelta(days=1), tz) == _offset(after, tz):
        here += timedelta(days=1)
    if here >= end:
        return end
    low, high = here, here + timedelta(days=1)
    while high - low > timedelta(seconds=1):
        middle = low + timedelta(seconds=(high - low) // timedelta(seconds=2))
        low, high = (middle, high) if _offset(middle, tz) == _offset(after, tz) else (low, middle)
    return high


def _observance(since: datetime, tz: ZoneInfo) -> list[str]:
    before, here = _offset(since - timedelta(seconds=1), tz), since.astimezone(tz)
    kind = "DAYLIGHT" if here.dst() else "STANDARD"
    onset = (since + before).replace(tzinfo=None)
    return [
        f"BEGIN:{kind}",
        f"DTSTART:{onset:%Y%m%dT%H%M%S}",
        f"TZOFFSETFROM:{_signed(before)}",
        f"TZOFFSETTO:{_signed(_offset(since, tz))}",
        f"TZNAME:{here.tzname()}",
        f"END:{kind}",
    ]


def _offset(moment: datetime, tz: ZoneInfo) -> timedelta:
    return moment.astimezone(tz).utcoffset() or timedelta(0)


def _signed(offset: timedelta) -> str:
    seconds = round(offset.total_seconds())
    hours, rest = divmod(abs(seconds), 3600)
    minutes, seconds_left = divmod(rest, 60)
    return f"{'-' if seconds < 0 else '+'}{hours:02d}{minutes:02d}" + (f"{seconds_left:02d}" if seconds_left else "")
