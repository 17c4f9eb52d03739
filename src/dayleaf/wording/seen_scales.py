"""What is seen in pictures with scales, places and data: lines, clocks, rulers, graphs, maps, charts.

Every function takes a picture's parameters and gives its description; see `seen_things`.
"""

from __future__ import annotations

import datetime as dt
from itertools import pairwise
from typing import TYPE_CHECKING

from dayleaf.wording.nouns import noun
from dayleaf.wording.seen_scenes import line_in_parts, share_of, units_laid
from dayleaf.wording.tables import has, phrase

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from dayleaf.wording.seen_things import Look


def _time(minutes: int) -> str:
    hour, minute = divmod(minutes, 60)
    return f"{(hour - 1) % 12 + 1}:{minute:02}"


def _row(look: Look, cells: Iterable[int], blanks: Sequence[int]) -> str:
    return look.list(look.piece("gap") if n in blanks else n for n in cells)


def hundred_chart(look: Look) -> str:
    """The rows with a blank told in full; all rows of a piece."""
    lo, hi, blanks = look.n("lo", 1), look.n("hi", 100), look.ns("blanks")
    cells = look.ns("cells")
    rows: dict[int, list[int]] = {}
    for n in cells or range(lo, hi + 1):
        rows.setdefault((n - 1) // 10, []).append(n)
    told = [row for row in rows.values() if cells or set(row) & set(blanks)]
    said = [look.say("chart-row", pieces=_row(look, row, blanks)) for row in told]
    head = [] if cells else [look.say("chart", lo=lo, hi=hi)]
    marked = [*look.ns("rings"), *look.ns("hatched")]
    return " ".join([*head, *said, *([look.say("ringed", days=look.list(marked))] if marked else [])])


def _ticks_after(look: Look, n: int, labels: Sequence[int]) -> tuple[int, str]:
    """The nearest label below n, and the ticks up to n one by one."""
    step = look.n("step", 1)
    label = max((one for one in labels if one < n), default=look.n("lo"))
    return label, look.pieces(("mark", max(0, (n - label) // step)))


def number_line(look: Look) -> str:
    """The line, its labels, and what is marked on it."""
    if look.n("parts", 1) > 1:
        return line_in_parts(look)
    lo, hi, step = look.n("lo"), look.n("hi"), look.n("step", 1)
    labels = look.ns("labels") or (lo, hi)
    if labels == (-1,):
        labels = (lo, hi)
    told = [look.say("line-open")] if look.n("open") else [look.say("line-plain", lo=lo, hi=hi, step=step)]
    if not look.n("open"):
        told.append(look.say("line-labels", labels=look.list(labels)))
    told += _hops(look)
    for letter, n in zip("ABCDEFGH", look.ns("points"), strict=False):
        label, marks = _ticks_after(look, n, labels)
        said = look.say("point-after", letter=letter, label=label, pieces=marks)
        told.append(said if look.asked else look.say("point", letter=letter, n=n))
    told += [look.say("dot-at", n=n) for n in look.ns("dots")]
    arrow = look.n("arrow", -1)
    if arrow >= 0:
        told.append(_arrow(look, arrow, labels, lo, hi))
    if look.ns("blanks"):
        told.append(look.say("line-boxes"))
    return " ".join(told)


def _arrow(look: Look, arrow: int, labels: Sequence[int], lo: int, hi: int) -> str:
    if not look.asked:
        return look.say("arrow-at", n=arrow)
    if (arrow - lo) % look.n("step", 1):  # between ticks: only about where it points can be told
        share = look.say(f"share-{round(4 * (arrow - lo) / (hi - lo))}")
        return look.say("arrow-open", lo=lo, hi=hi, share=share)
    label, marks = _ticks_after(look, arrow, labels)
    return look.say("arrow-after", label=label, pieces=marks)


def _hops(look: Look) -> list[str]:
    stops, labels = look.ns("jumps"), look.words("jump_labels")
    told = []
    for k, (start, end) in enumerate(pairwise(stops)):
        label = labels[k] if k < len(labels) else ""
        last = k == len(stops) - 2 and look.n("blank_end")
        code = "hop-open" if last else "hop-box" if label == "?" else "hop"
        said = look.say(code, **{"from": start, "to": end})
        told.append(f"{said} {label}." if label not in {"", "?"} else said)
    return told


def timeline(look: Look) -> str:
    """The hours, and the hops with their times."""
    said = look.say("timeline", start=_time(look.n("start")), end=_time(look.n("end")), step=look.n("step", 15))
    stops = [_time(stop) for stop in look.ns("jumps")]
    return " ".join([said, *(look.say("hop", **{"from": a, "to": b}) for a, b in pairwise(stops))])


def clock(look: Look) -> str:
    """Where the two hands point; never the time itself."""
    if not look.n("hands", 1):
        return look.say("clock-blank")
    hour, minute = (look.n("h") - 1) % 12 + 1, look.n("m")
    if minute == 0:
        return look.say("clock-on", h=hour)
    numeral, past = (minute // 5 or 12), minute % 5
    long = look.say("long-past", n=past, numeral=numeral) if past else look.say("long-on", n=numeral)
    return look.say("clock-between", h=hour, next=hour % 12 + 1, long=long)


def clock_pair(look: Look) -> str:
    """The face and the display, one of which may be empty."""
    hidden = look.words("hidden")
    face = look.say("clock-blank") if "analog" in hidden else clock(look)
    time = _time(60 * look.n("h") + look.n("m"))
    return f"{face} {look.say('display-empty') if 'digital' in hidden else look.say('display', time=time)}"


def calendar(look: Look) -> str:
    """The month, the weekday of its first day, ringed days, and between which dates a place is empty."""
    year, month, marks = look.n("year"), look.n("month"), look.ns("marks")
    first = phrase("word", f"weekday-{dt.date(year, month, 1).weekday()}", look.lang)
    told = [look.say("month", month=phrase("word", f"month-{month}", look.lang), year=year, day=first)]
    if marks:
        told.append(look.say("ringed", days=look.list(marks)))
    for blank in look.ns("blanks"):
        if blank == 1:
            told.append(look.say("empty-before", after=blank + 1))
        else:
            told.append(look.say("empty-after", before=blank - 1))
    return " ".join(told)


def coins(look: Look) -> str:
    """Coins by name, with their values where those are printed."""
    named = [(phrase("word", f"coin-{value}", look.lang), value) for value in look.ns("coins")]
    show = look.n("show_value", 1) != 0
    return look.say("list", pieces=look.list(f"{name} {value}¢" if show else name for name, value in named))


def bills(look: Look) -> str:
    """Bills by value, then coins by name."""
    said = look.say("list", pieces=look.list(look.say("bill", n=value) for value in look.ns("bills")))
    return f"{said} {coins(look)}" if look.ns("coins") else said


def ruler(look: Look) -> str:
    """The ruler, and where a thing over it begins and ends (space by space where its length is asked)."""
    start, end, quarters = look.n("start"), look.n("end"), look.n("quarters")
    said = look.say("ruler", n=look.n("length"))
    if not end and not quarters:
        return said
    if look.asked or quarters:
        pieces = look.pieces(("space", end - start), ("quarter-space", quarters))
        return f"{said} {look.say('object-spaces', start=start, pieces=pieces)}"
    return f"{said} {look.say('object', start=start, end=end)}"


def tape_measure(look: Look) -> str:
    """Ropes with their lengths."""
    names, hidden = look.words("names"), look.ns("hidden")
    unit = noun(look.word("unit", "m"), look.lang).many
    told = []
    for k, value in enumerate(look.ns("values")):
        name = look.name(names[k]) if k < len(names) else "ABCDEF"[k]
        length = look.piece("box") if k in hidden else look.say("length", n=value, unit=unit)
        told.append(look.say("rope", name=name, length=length))
    return " ".join(told)


def objects_line(look: Look) -> str:
    """Lengths, or, where they are asked, only the order in which the things begin and end."""
    lengths = look.ns("lengths")
    if look.ns("units"):
        return units_laid(look)
    starts = look.ns("starts") or (0,) * len(lengths)
    names = [look.name(code) for code in look.words("names")] or list("ABCDEF"[: len(lengths)])
    if not look.asked:
        return " ".join(look.say("strips", name=name, n=n) for name, n in zip(names, lengths, strict=True))
    if len(lengths) == 1:
        return look.say("strip-one")
    ends = sorted(range(len(lengths)), key=lambda k: starts[k] + lengths[k])
    begins = sorted(range(len(lengths)), key=lambda k: starts[k])
    same = len(set(starts)) == 1
    head = look.say("strip-order") if same else look.say("strip-starts", letters=look.list(names[k] for k in begins))
    return f"{head} {look.say('strip-ends', letters=look.list(names[k] for k in ends))}"


def balance(look: Look) -> str:
    """What lies in the pans, and how the beam stands."""
    left, right = look.n("left"), look.n("right")
    codes = look.words("names") or (str(left), str(right))
    names = [noun(code, look.lang).one if has("noun", code, look.lang) else code for code in codes]
    lean = "level" if left == right else "leans-left" if left > right else "leans-right"
    return f"{look.say('pans', left=names[0], right=names[1])} {look.say('locked' if look.n('locked') else lean)}"


def scale(look: Look) -> str:
    """A pitcher or a thermometer: its marks, and the level mark by mark from the label below it."""
    lo, hi = (look.n("lo"), look.n("hi")) if look.n("hi") else (0, look.n("max"))
    step, level, every = look.n("step"), look.n("level"), max(1, look.n("every", 1))
    said = look.say("scale", step=step, lo=lo, hi=hi)
    if not look.asked:
        return f"{said} {look.say('level-at', level=level)}"
    first = lo if look.n("hi") else step * every
    labels = range(first, hi + 1, step * every)
    label = max((n for n in labels if n < level), default=lo)
    marks = look.pieces(("mark", (level - label) // step))
    return f"{said} {look.say('level-after', label=label, pieces=marks)}"


def tally(look: Look) -> str:
    """Bundles of five and single marks."""
    labels = look.words("labels")
    told = []
    for k, count in enumerate(look.ns("counts")):
        fives, rest = divmod(count, 5)
        pieces = look.pieces(("fives", fives), ("mark", rest))
        said = pieces if look.asked else look.say("tallies", fives=fives, rest=rest).rstrip(".")
        name = look.name(labels[k]) if labels else ""
        told.append(look.say("named-list", name=name, pieces=said) if name else look.say("list", pieces=said))
    return " ".join(told)


def table(look: Look) -> str:
    """The rows of a table."""
    head, cells, columns = look.words("head"), look.words("cells"), look.n("columns", 2)
    rows = [cells[k : k + columns] for k in range(0, len(cells), columns)]
    told = [
        [look.name(cell) if cell else look.piece("box") for cell in row] for row in ((head, *rows) if head else rows)
    ]
    return " ".join(look.say("chart-row", pieces=look.list(row)) for row in told)


def _groups(look: Look, piece: str) -> str:
    told = []
    for label, n in zip(look.words("labels"), look.ns("data"), strict=True):
        said = look.pieces((piece, max(n, 0))) if look.asked else str(n)
        told.append(look.say("named-list", name=look.name(label), pieces=said))
    return " ".join(told)


def picture_graph(look: Look) -> str:
    """The groups, counted, or picture by picture where a number is asked."""
    each = look.n("each", 1)
    said = _halved(look) if any(look.ns("halves")) else _groups(look, "picture")
    return said if each == 1 else f"{said} {look.say('each', n=each)}"


def _halved(look: Look) -> str:
    """Rows of which some end with half a picture."""
    rows = zip(look.words("labels"), look.ns("data"), look.ns("halves"), strict=True)
    told = [(label, look.pieces(("picture", n), ("half-picture", half))) for label, n, half in rows]
    return " ".join(look.say("named-list", name=look.name(label), pieces=said) for label, said in told)


def bar_graph(look: Look) -> str:
    """The groups, counted, or step by step of each bar where a number is asked."""
    said = f"{_groups(look, 'step')} {look.say('each-step', n=look.n('each'))}" if look.n("each", 1) > 1 else ""
    return said or _groups(look, "step")


def line_plot(look: Look) -> str:
    """The marks over each number."""
    told = []
    for k, n in enumerate(look.ns("data")):
        said = look.pieces(("cross", n)) if look.asked else str(n)
        told.append(look.say("named-list", name=share_of(look.n("lo") + k, look.n("parts", 1)), pieces=said))
    return " ".join(told)


def grid_map(look: Look) -> str:
    """The map, the mover and the things; a place is told by column and row in words, not by its letter."""
    columns, rows = look.n("columns", 5), look.n("rows", 5)
    told = [look.say("map", column="ABCDEFGHI"[columns - 1], row=rows)]
    for thing, place in zip(look.words("things"), look.words("places"), strict=True):
        column = phrase("order", str(ord(place[0]) - ord("A") + 1), look.lang)
        row = phrase("order", place[1:], look.lang)
        told.append(look.say("map-thing", thing=thing, column=column, row=row))
    if look.word("start"):
        told.append(look.say("map-mover", square=look.word("start")))
    if look.words("path"):
        told.append(look.say("map-path", squares=look.list(look.words("path"))))
    for mark in look.words("marks"):
        letter, _, square = mark.partition("=")
        told.append(look.say("map-mark", letter=letter, square=square))
    return " ".join(told)


def step_cards(look: Look) -> str:
    """The cards in order."""
    told = []
    for step in look.words("steps"):
        again = step.removeprefix("repeat-")
        told.append(look.say("repeat", n=int(again)) if again != step else phrase("card", step, look.lang))
    return look.say("steps", steps=look.list(told))
