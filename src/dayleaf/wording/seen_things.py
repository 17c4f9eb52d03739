"""What is seen in pictures of things: counted, in groups, in places, in parts, and shapes.

Every function takes a picture's parameters and gives its description. Where the number is asked
(`question=1`) the things are told one by one, so that a listener can count what a looker counts.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from dayleaf.wording.nouns import noun
from dayleaf.wording.tables import entry, has, phrase
from dayleaf.wording.template import fill

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence


class Look:
    """A picture's parameters with their usual values, and the language it is described in."""

    __slots__ = ("_params", "lang")

    def __init__(self, params: Mapping[str, int | str | tuple[int, ...] | tuple[str, ...]], lang: str) -> None:
        self._params = params
        self.lang = lang

    def n(self, name: str, usual: int = 0) -> int:
        """A whole number."""
        return int(self._params.get(name, usual))  # type: ignore[arg-type]  # figures checks the types

    def word(self, name: str, usual: str = "") -> str:
        """A word."""
        return str(self._params.get(name, usual))

    def ns(self, name: str) -> tuple[int, ...]:
        """Whole numbers."""
        return tuple(int(one) for one in self._params.get(name, ()))  # type: ignore[union-attr]  # as above

    def words(self, name: str) -> tuple[str, ...]:
        """Words."""
        return tuple(str(one) for one in self._params.get(name, ()))  # type: ignore[union-attr]  # as above

    @property
    def asked(self) -> bool:
        """Whether the number shown is asked."""
        return self.n("question") != 0

    def say(self, code: str, **values: int | str) -> str:
        """A sentence of the section `seen`."""
        return fill(phrase("seen", code, self.lang), values, self.lang)

    def piece(self, code: str) -> str:
        """The name of one piece."""
        return phrase("piece", code, self.lang)

    def pieces(self, *counted: tuple[str, int]) -> str:
        """Pieces told one by one."""
        told = [self.piece(code) for code, n in counted for _ in range(n)]
        return ", ".join(told) or self.piece("nothing")

    def list(self, told: Iterable[object]) -> str:
        """Things in a row with commas."""
        return ", ".join(str(one) for one in told) or self.piece("nothing")

    def name(self, code: str) -> str:
        """A person's name, a thing in the plural, a word, or the code itself."""
        for section in ("person", "word"):
            if has(section, code, self.lang) and isinstance(said := entry(section, code, self.lang), str):
                return said
        return noun(code, self.lang).many if has("noun", code, self.lang) else code


def ten_frame(look: Look) -> str:
    """Filled places, rings, empty places."""
    a, b, crossed = look.n("a"), look.n("b"), look.n("crossed")
    used = 10 + b if look.n("apart") else a + b
    frames = look.n("frames") or (2 if used > 10 else 1)
    if not look.asked:
        said = look.say("frames-rings" if b else "frames", frames=frames, a=a, b=b)
        return f"{said} {look.say('crossed', n=crossed)}" if crossed else said
    gap = 10 - a if look.n("apart") and b else 0
    rest = 10 * frames - a - b - gap
    told = (("counter", a - crossed), ("crossed", crossed), ("empty", gap), ("ring", b), ("empty", rest))
    return look.say("frame-pieces", pieces=look.pieces(*told))


def counters(look: Look) -> str:
    """One group, or two in rows."""
    n, m = look.n("n"), look.n("m", -1)
    if m >= 0:
        said = look.say("rows", a=look.pieces(("counter", n)), b=look.pieces(("ring", m)))
        large = look.n("large")
        return f"{said} {look.say('larger-row', letter='AB'[large - 1])}" if large else said
    crossed = look.n("crossed")
    if look.asked:
        return look.say("list", pieces=look.pieces(("counter", n - crossed), ("crossed", crossed)))
    said = look.say("counters", n=n, layout=look.say(look.word("layout", "line")))
    return f"{said} {look.say('crossed', n=crossed)}" if crossed else said


def dot_pairs(look: Look) -> str:
    """Dots two by two."""
    n = look.n("n")
    if look.asked:
        return look.say("list", pieces=look.pieces(("dot", n)))
    said = look.say("pairs", n=n)
    return f"{said} {look.say('alone')}" if n % 2 else said


def linking_train(look: Look) -> str:
    """Striped cubes, then plain ones."""
    a, b = look.n("a"), look.n("b")
    if look.asked:
        return look.say("list", pieces=look.pieces(("striped", a), ("plain-cube", b)))
    return look.say("train", a=a, b=b)


def bundle(look: Look) -> str:
    """Bundles and sticks."""
    tens, ones, opened = look.n("tens"), look.n("ones"), look.n("opened")
    if look.asked:
        told = (("bundle", tens - opened), ("opened", opened), ("stick", ones))
        return look.say("list", pieces=look.pieces(*told))
    said = look.say("bundles", tens=tens, ones=ones)
    return f"{said} {look.say('opened-bundle', n=opened)}" if opened else said


def base_ten(look: Look) -> str:
    """Blocks from the largest."""
    counts = [(code, look.n(code)) for code in ("th", "h", "t", "o")]
    crossed = {"t": look.n("crossed_t"), "o": look.n("crossed_o")}
    if look.asked:
        told = [pair for code, n in counts for pair in _struck(code, n, crossed.get(code, 0))]
        said = look.say("list", pieces=look.pieces(*told))
    else:
        shown = [look.say(code, n=n) for code, n in counts if n or code in ("t", "o")]
        struck = [look.pieces((f"crossed_{code}", n)) for code, n in crossed.items() if n]
        said = look.say("blocks", pieces=look.list([*shown, *struck]))
    return f"{said} {look.say('traded')}" if look.n("traded") else said


def _struck(code: str, n: int, crossed: int) -> tuple[tuple[str, int], ...]:
    return ((code, n - crossed), (f"crossed_{code}", crossed)) if crossed else ((code, n),)


def pv_mat(look: Look) -> str:
    """Places with their digits, blocks or boxes."""
    digits = look.ns("digits")
    places = ("thousands", "hundreds", "tens", "ones")[-len(digits) :]
    show = look.word("show", "digits")
    told = []
    for place, digit in zip(places, digits, strict=True):
        if show == "empty":
            said = look.piece("nothing")
        elif show == "blocks" and look.asked:
            said = look.pieces((place[0] if place != "thousands" else "th", digit))
        else:
            said = look.piece("box") if digit < 0 else str(digit)
        told.append(look.say("named-list", name=noun(place, look.lang).many, pieces=said))
    return " ".join(told)


def array_dots(look: Look) -> str:
    """Rows of dots."""
    r, c = look.n("r"), look.n("c")
    if look.asked:
        return " ".join(look.say("chart-row", pieces=look.pieces(("dot", c))) for _ in range(r))
    return look.say("array", r=r, c=c)


def area_grid(look: Look) -> str:
    """Rows of squares, some hatched."""
    r, c, cells = look.n("r"), look.n("c"), set(look.ns("cells"))
    if not look.asked:
        return look.say("grid", r=r, c=c, n=len(cells))
    halves = set(look.ns("halves"))
    kinds = {**dict.fromkeys(halves, "half-hatched"), **dict.fromkeys(cells, "hatched")}
    rows = [[look.piece(kinds.get(y * c + x, "plain")) for x in range(c)] for y in range(r)]
    return " ".join(look.say("chart-row", pieces=look.list(row)) for row in rows)


def set_objects(look: Look) -> str:
    """Rings with things, or loose things in rows of ten."""
    groups, size, extra = look.n("groups"), look.n("size"), look.n("extra")
    thing = f"thing-{look.word('shape', 'dot')}"
    if not look.n("rings", 1):
        total = groups * size + extra
        rows = [min(10, total - start) for start in range(0, total, 10)]
        if look.asked:
            return " ".join(look.say("chart-row", pieces=look.pieces((thing, row))) for row in rows)
        return look.say("loose", n=total)
    if not look.asked:
        return look.say("groups", groups=groups, size=size, extra=extra)
    held = look.ns("sizes") or (size,) * groups
    rings = [look.say("named-list", name=look.piece("ring"), pieces=look.pieces((thing, n))) for n in held]
    return " ".join([*rings, look.say("list", pieces=look.pieces((thing, extra)))] if extra else rings)


def _parts(look: Look, whole: str, names: Sequence[str]) -> str:
    hidden = look.words("hidden")
    shown = {name: look.piece("box") if name in hidden else str(look.n(name)) for name in (whole, *names)}
    return look.say("parts", whole=shown[whole], parts=look.list(shown[name] for name in names))


def part_whole(look: Look) -> str:
    """A whole and its parts, boxes for the hidden ones."""
    return _parts(look, "whole", ("a", "b", "c") if look.n("c", -1) >= 0 else ("a", "b"))


def family_card(look: Look) -> str:
    """The whole and the two parts of a family."""
    return _parts(look, "w", ("a", "b"))


def bar_model(look: Look) -> str:
    """Parts of one bar, or two bars compared."""
    if look.word("kind", "parts") == "parts":
        return part_whole(look)
    hidden, box = look.words("hidden"), look.piece("box")
    names = [look.name(code) for code in look.words("names")] or [look.say("bar-long"), look.say("bar-short")]
    a, b = look.n("a"), look.n("b")
    shown = {"a": a, "b": b, "difference": a - b}
    told = {name: box if name in hidden else value for name, value in shown.items()}
    return look.say("compare", p=names[0], q=names[1], **told)


_CURVED: Final = frozenset({"circle", "oval", "half-circle", "drop", "heart"})
_SIDES: Final = {"triangle": 3, "pentagon": 5, "house": 5, "hexagon": 6, "l-shape": 6, "octagon": 8, "arrow": 7}
_MANY_SIDES: Final = {"cross": 12, "star": 10}


def sides_of(shape: str) -> int:
    """How many straight sides a named shape has; 0 where one is curved or it is open."""
    head = shape.split("-", maxsplit=1)[0]
    if shape in _CURVED or head == "open":
        return 0
    known = {**_SIDES, **_MANY_SIDES}
    composed = head == "house" or any(part.isdecimal() for part in shape.split("-"))
    return known.get(shape) or known.get(head if composed else shape.rsplit("-", maxsplit=1)[-1], 4)


def shapes_2d(look: Look) -> str:
    """Each shape: its name, or, where that is asked, its sides one by one."""
    names, axes = look.words("shapes"), look.ns("lines")
    told = []
    for k, shape in enumerate(names):
        said = _shape(look, shape)
        if axes and axes[k] >= 0:
            said += f" {look.say('shape-axis')}"
        told.append(look.say("lettered", letter="ABCDEFGHI"[k], said=said) if len(names) > 1 else said)
    return " ".join(told)


def _shape(look: Look, shape: str) -> str:
    if shape.startswith("open-"):
        return look.say("shape-open")
    if shape in _CURVED:
        return look.say("shape-curved")
    said = look.say("shape-sides", pieces=look.pieces(("straight", sides_of(shape))))
    cut = any(part.isdecimal() for part in shape.split("-")) or shape == "house-square-triangle"
    return f"{said} {look.say('shape-cut')}" if cut else said


def solids_3d(look: Look) -> str:
    """Solids; their names only where they are not asked."""
    solids = look.words("solids")
    told = []
    for k, solid in enumerate(solids):
        name = "solid-box" if solid == "box" else solid
        said = look.say("solid") if look.asked else f"{noun(name, look.lang).one}."
        told.append(look.say("lettered", letter="ABCDEF"[k], said=said) if len(solids) > 1 else said)
    return " ".join(told)


def fraction_shapes(look: Look) -> str:
    """Parts of a shape, hatched or plain."""
    n, k = look.n("n"), look.n("k")
    equal = look.say("equal" if look.n("equal", 1) else "unequal")
    if look.asked:
        return look.say("fraction-pieces", equal=equal, pieces=look.pieces(("hatched", k), ("plain", n - k)))
    return look.say("fraction", n=n, k=k, equal=equal)
