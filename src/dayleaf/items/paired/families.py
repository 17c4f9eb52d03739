"""More to sort: equal parts, shapes and solids by what they are, tools, morning and afternoon, a rule to obey."""

from __future__ import annotations

from random import Random
from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, SkillId
from dayleaf.core.seeds import seed_from
from dayleaf.items.model import Figure, Row, Step, Word
from dayleaf.items.paired.sorting import SORT, SORTED, sorted_made
from dayleaf.items.pictured.daily_codes import DAILY
from dayleaf.items.pictured.hours import daytime_is_am
from dayleaf.items.pictured.polygons import NAMES, SQUARE_CORNERS, WITH_SIDES
from dayleaf.items.pictured.shares import SHAPES
from dayleaf.items.pictured.solids import SOLIDS
from dayleaf.items.pictured.tools import TO_MEASURE, TOOLS
from dayleaf.items.rule import SkillRule

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from dayleaf.items.rule import Made, Numbers

YES_NO = ("yes", "no")
NONE = "none-of-these"
_TURNS = (0, 20, 45, 70, 110, 160)


def _flat(look: str, size: int, angle: int) -> Figure:
    return Figure("shapes-2d", {"shapes": (look,), "sizes": (size,), "angles": (angle,), "question": 1})


def _yes(fits: bool) -> str:  # noqa: FBT001 -- one truth, said in a word
    return "yes" if fits else "no"


# equal parts


def _equal_parts(numbers: Numbers) -> Made:
    """Five shapes cut in two to four parts: equal parts, or as many unequal ones?"""
    own = (numbers["n"], numbers["s"], numbers["e"])
    rng = Random(seed_from("sort-parts", *own))
    others = [(n, s, e) for n in (2, 3, 4) for s in range(3) for e in (0, 1) if (n, s) != own[:2]]
    rest = [*rng.sample([one for one in others if one[2]], 2), *rng.sample([one for one in others if not one[2]], 2)]
    rng.shuffle(rest)
    cut = [own, *rest]
    return sorted_made(
        [Figure("fraction-shapes", {"shape": SHAPES[s], "n": n, "k": 0, "equal": e, "question": 1}) for n, s, e in cut],
        [_yes(e == 1) for _, _, e in cut],
        YES_NO,
        seen={ErrorWayId("unequal-is-fair"): ["yes"] * len(cut)},
        steps=(Step("lay-one-on-other"),),
        difficulty=0.2 + 0.1 * numbers["n"],
    )


# flat shapes

_ROUND_OR_OPEN = ("half-circle", "drop", "open-square", "open-triangle")


def _by_sides(numbers: Numbers) -> Made:
    """Two shapes of each of two numbers of sides, even and uneven ones, and two that are neither."""
    n = numbers["n"]
    other = n + 1 if n < 6 else 5
    groups = (NAMES[n], NAMES[other], NONE)
    rng = Random(seed_from("sort-sides", *numbers.values()))
    own = (WITH_SIDES[n][numbers["v"]], NAMES[n])
    far = rng.choice([name for name in NAMES if name not in {n, other}])
    rest = [
        (rng.choice([look for look in WITH_SIDES[n] if look != own[0]]), NAMES[n]),
        *((look, NAMES[other]) for look in rng.sample(WITH_SIDES[other], 2)),
        (rng.choice(WITH_SIDES[far]), NONE),
        (rng.choice(_ROUND_OR_OPEN), NONE),
    ]
    rng.shuffle(rest)
    things = [own, *rest]
    even = {looks[0] for looks in WITH_SIDES.values()}
    angles = [20 * numbers["a"], *(rng.choice(_TURNS) for _ in rest)]
    return sorted_made(
        [_flat(look, 18, angle) for (look, _), angle in zip(things, angles, strict=True)],
        [name for _, name in things],
        groups,
        seen={
            ErrorWayId("only-regular-counts"): [name if look in even else NONE for look, name in things],
            ErrorWayId("counts-start-corner-twice"): [_one_more(name, groups) for _, name in things],
        },
        steps=(Step("sides-name", {"n": n, "name": NAMES[n]}),),
        difficulty=0.3 + 0.2 * (numbers["v"] > 0),
    )


def _one_more(name: str, groups: tuple[str, ...]) -> str:
    """The group of a shape with one corner more."""
    following = {NAMES[n]: NAMES.get(n + 1, NONE) for n in NAMES}
    counted = following.get(name, NONE)
    return counted if counted in groups else NONE


_FOUR_SIDED: tuple[tuple[str, tuple[str, ...], tuple[str, ...]], ...] = (
    ("rectangle", ("rectangle", "long-rectangle"), ("parallelogram", "trapezoid", "rhombus")),
    ("square", (), ("rhombus", "rectangle", "parallelogram")),
    ("rhombus", ("rhombus",), ("parallelogram", "rectangle", "kite")),
    ("quadrilateral", ("kite", "trapezoid"), ("pentagon", "half-circle", "hexagon")),
)


def _four_sided(numbers: Numbers) -> Made:
    """Is it one of the family? An upright square, a turned one, others of the family and some that only look so."""
    family, more, others = _FOUR_SIDED[numbers["k"]]
    rng = Random(seed_from("sort-family", numbers["k"], numbers["s"]))
    things = [("square", 0), ("square", rng.choice((30, 45, 60)))]
    things += [(look, rng.choice(_TURNS)) for look in more]
    things += [(look, rng.choice(_TURNS)) for look in rng.sample(others, min(len(others), SORTED - len(things)))]
    rng.shuffle(things)
    fits = [look == "square" or look in more for look, _ in things]
    right, out = family, f"not-{family}"
    upright = [fit and not (look == "square" and angle) for fit, (look, angle) in zip(fits, things, strict=True)]
    seen = {ErrorWayId("turned-is-different"): [right if fit else out for fit in upright]}
    if family != "square":
        named = [fit and look != "square" for fit, (look, _) in zip(fits, things, strict=True)]
        seen[ErrorWayId("square-not-rectangle")] = [right if fit else out for fit in named]
    return sorted_made(
        [_flat(look, 18, angle) for look, angle in things],
        [right if fit else out for fit in fits],
        (right, out),
        seen=seen,
        steps=(Step(f"family-{family}"),),
        difficulty=0.6,
    )


_SMALL, _BIG = 13, 22
_KINDS: tuple[tuple[str, tuple[str, ...], tuple[str, ...]], ...] = (
    ("triangle", ("triangle", "right-triangle", "tall-triangle"), ("open-triangle", "drop", "kite")),
    ("square", ("square",), ("open-square", "rhombus", "rectangle")),
    ("four-sides", ("rectangle", "kite", "trapezoid"), ("open-square", "pentagon", "half-circle")),
    ("rectangle", ("rectangle", "long-rectangle"), ("open-square", "parallelogram", "trapezoid")),
    ("hexagon", ("hexagon", "long-hexagon"), ("pentagon", "octagon", "circle")),
)


def _kind_or_not(numbers: Numbers) -> Made:
    """Small and big shapes of a kind, an open one and others: size and turn do not matter."""
    kind, looks, others = _KINDS[numbers["k"]]
    rng = Random(seed_from("sort-kind", numbers["k"], numbers["s"]))
    things = [(rng.choice(looks), _SMALL if place % 2 else _BIG) for place in range(3)]
    things += [(look, _BIG if place % 2 else _SMALL) for place, look in enumerate(others)]
    rng.shuffle(things)
    fits = [look in looks for look, _ in things]
    seen = {ErrorWayId("color-or-size-counts"): [_of(kind, size == _BIG) for _, size in things]}
    if any(look.startswith("open-") for look in others):
        seen[ErrorWayId("open-shape-ok")] = [
            _of(kind, fit or look.startswith("open-")) for fit, (look, _) in zip(fits, things, strict=True)
        ]
    return sorted_made(
        [_flat(look, size, 0 if look == "circle" else rng.choice(_TURNS)) for look, size in things],
        [_of(kind, fit) for fit in fits],
        (kind, f"not-{kind}"),
        seen=seen,
        steps=(Step("closed-and-straight", {"kind": kind}),),
        difficulty=0.5,
    )


def _of(kind: str, fits: bool) -> str:  # noqa: FBT001 -- one truth, said in a word
    return kind if fits else f"not-{kind}"


def _has_square_corner(numbers: Numbers) -> Made:
    """Five shapes, turned: has it a square corner?"""
    own = (numbers["k"], 20 * numbers["a"])
    rng = Random(seed_from("sort-corners", *own))
    with_one = [k for k, (_, count, _) in enumerate(SQUARE_CORNERS) if count and k != own[0]]
    without = [k for k, (_, count, _) in enumerate(SQUARE_CORNERS) if not count and k != own[0]]
    rest = [(k, rng.choice(_TURNS)) for k in (*rng.sample(with_one, 2), *rng.sample(without, 2))]
    rng.shuffle(rest)
    shown = [(*SQUARE_CORNERS[k], angle) for k, angle in (own, *rest)]
    return sorted_made(
        [_flat(look, 18, angle) for look, _, _, angle in shown],
        [_yes(count > 0) for _, count, _, _ in shown],
        YES_NO,
        seen={
            ErrorWayId("turned-is-different"): [_yes(count > 0 and angle == 0) for _, count, _, angle in shown],
            ErrorWayId("longer-arms-bigger"): [_yes(equal > 0) for _, _, equal, _ in shown],
        },
        steps=(Step("lay-the-checker", {"n": shown[0][1]}),),
        difficulty=0.2 + 0.1 * numbers["a"],
    )


# solids

_ALIKE: Mapping[str, str] = {"cone": "pyramid", "pyramid": "cone", "cylinder": "cone", "sphere": "cylinder"}


def _solids(numbers: Numbers) -> Made:
    """Five solids: those of one name, of the name that is often mixed up with it, and others."""
    name = SOLIDS[numbers["k"]]
    second = _ALIKE.get(name, "pyramid")
    groups = (name, second, NONE)
    others = [solid for solid in SOLIDS if solid not in {name, second} and {name, solid} != {"cube", "box"}]
    rng = Random(seed_from("sort-solids", numbers["k"], numbers["s"]))
    rest = [second, *rng.sample(others, 2), rng.choice((name, second))]
    rng.shuffle(rest)
    things = [name, *rest]
    swap = {"cone": "pyramid", "pyramid": "cone"}
    seen: dict[ErrorWayId, Sequence[str]] = {}
    if swap.get(name) == second:
        seen[ErrorWayId("cone-pyramid-mixed")] = [
            swap.get(solid, NONE) if solid in groups else NONE for solid in things
        ]
    return sorted_made(
        [Figure("solids-3d", {"solids": (solid,), "question": 1}) for solid in things],
        [solid if solid in groups else NONE for solid in things],
        groups,
        seen=seen,
        steps=(Step("solid-is", {"solid": name}),),
        difficulty=0.4,
    )


# tools and units for lengths


def _tool_or_unit(numbers: Numbers) -> Made:
    """Six things to measure: with which tool (q = 0), in which unit (q = 1)?"""
    k, by_unit = numbers["k"], numbers["q"] == 1
    rng = Random(seed_from("sort-tools", k, numbers["q"]))
    rest = [at for at in range(len(TO_MEASURE)) if at != k]
    chosen = [k, *(rng.choice([at for at in rest if TO_MEASURE[at][1] == tool]) for tool in TOOLS)]
    chosen += rng.sample([at for at in rest if at not in chosen], SORTED - len(set(chosen)))
    things = [TO_MEASURE[at] for at in dict.fromkeys(chosen)]
    groups = ("cm", "m") if by_unit else TOOLS
    unsure, one_tool = ErrorWayId("unit-size-unsure"), ErrorWayId("one-tool-for-all")
    seen = (
        {unsure: [{"cm": "m", "m": "cm"}[unit] for _, _, unit in things]}
        if by_unit
        else {one_tool: ["ruler"] * len(things)}
    )
    return sorted_made(
        [Row((Word(f"thing-{thing}"),)) for thing, _, _ in things],
        [unit if by_unit else tool for _, tool, unit in things],
        groups,
        seen=seen,
        steps=tuple(Step(_WHY[tool]) for tool in dict.fromkeys(tool for _, tool, _ in things)),
        difficulty=0.4,
    )


_WHY = {"ruler": "small-needs-cm", "meter-stick": "long-needs-m", "tape": "round-needs-tape"}


# before and after noon


def _half_days(numbers: Numbers) -> Made:
    """Six things that happen in a day, told with what makes their time plain."""
    told = tuple(DAILY)
    rng = Random(seed_from("sort-half-days", numbers["i"]))
    own = told[numbers["i"]]
    before = [what for what in told if DAILY[what][0] < 12 and what != own]
    after = [what for what in told if DAILY[what][0] >= 12 and what != own]
    rest = [*rng.sample(before, 2), *rng.sample(after, 3)]
    rng.shuffle(rest)
    things = [own, *rest]
    hours = [DAILY[what][0] for what in things]
    right = ["am" if hour < 12 else "pm" for hour in hours]
    turned = {"am": "pm", "pm": "am"}
    return sorted_made(
        [Row((Word(f"daily-{what}"),)) for what in things],
        right,
        ("am", "pm"),
        seen={
            ErrorWayId("pm-is-dark"): [daytime_is_am(hour) for hour in hours],
            ErrorWayId("noon-midnight-mixed"): [
                turned[half] if hour % 12 == 0 else half for half, hour in zip(right, hours, strict=True)
            ],
        },
        steps=(Step("before-noon"), Step("from-noon")),
        difficulty=0.5,
    )


# if … then


def _obey(numbers: Numbers) -> Made:
    """Six numbers and one rule: right if the number is even, up if not."""
    told = [numbers["a"], numbers["b"], numbers["c"]]
    rng = Random(seed_from("sort-if", *told))
    told += rng.sample([n for n in range(1, 21) if n not in told], SORTED - len(told))
    right = ["go-right" if n % 2 == 0 else "go-up" for n in told]
    return sorted_made(
        [Row((n,)) for n in told],
        right,
        ("go-right", "go-up"),
        seen={ErrorWayId("condition-forgotten"): [right[0]] * len(told)},
        steps=(Step("check-each-number"),),
        difficulty=0.4,
    )


def _asks_even(numbers: Numbers) -> bool:
    return numbers["k"] == 0


def _one_name(numbers: Numbers) -> bool:
    """A cube is a box, too: a table of cubes and boxes would have two right ticks for a cube."""
    return SOLIDS[numbers["k"]] != "box"


RULES: tuple[SkillRule, ...] = (
    SkillRule(SkillId("frac-equal-parts"), formats={SORT: _equal_parts}),
    SkillRule(SkillId("polygon-sides-corners"), formats={SORT: _by_sides}),
    SkillRule(SkillId("quadrilaterals-sort"), formats={SORT: _four_sided}),
    SkillRule(SkillId("shapes-2d-attributes"), formats={SORT: _kind_or_not}),
    SkillRule(SkillId("shape-square-corner"), formats={SORT: _has_square_corner}),
    SkillRule(SkillId("solids-name"), formats={SORT: _solids}, fits={SORT: _one_name}),
    SkillRule(SkillId("choose-length-tool-unit"), formats={SORT: _tool_or_unit}),
    SkillRule(SkillId("time-am-pm"), formats={SORT: _half_days}),
    SkillRule(SkillId("code-if-then"), formats={SORT: _obey}, fits={SORT: _asks_even}),
)
