"""Forms of a chapter test: every place of the blueprint filled with an item of exactly the features asked for there.

Forms A and B are filled together, as a matching between places and items, so that they never share an item while the
rules have enough; C and D come from what A and B left, and so on.
"""

from __future__ import annotations

from dataclasses import dataclass
from random import Random
from typing import TYPE_CHECKING, Final

from dayleaf.core.errors import DayleafError
from dayleaf.core.seeds import seed_from
from dayleaf.packets.blueprint import FORMS, widened
from dayleaf.packets.pairing import Matching

if TYPE_CHECKING:
    from collections.abc import Sequence

    from dayleaf.items.model import Item
    from dayleaf.packets.blueprint import Blueprint, Candidate
    from dayleaf.packets.features import Features

LETTERS: Final = "ABCDEFGH"


class NoSuchForm(DayleafError):
    """A form that is not one of the letters there are."""

    def __init__(self, form: str) -> None:
        super().__init__(f"There is no form {form}; forms are called {', '.join(LETTERS)}.")


@dataclass(frozen=True, slots=True)
class Form:
    """One form of a test: its items in the order of the paper, with the features each was chosen for."""

    blueprint: Blueprint
    letter: str
    seed: int
    items: tuple[Item, ...]
    features: tuple[Features, ...]


@dataclass(frozen=True, slots=True)
class _Place:
    """A place of one of the two forms that are filled together."""

    form: int
    features: Features
    pool: tuple[Candidate, ...]
    few: bool


def form_of(blueprint: Blueprint, letter: str, *, seed: int) -> Form:
    """The form of this letter; the same seed gives the same form, and forms of one seed differ.

    An item comes twice on two forms only where its rule has fewer items than the forms need.

    Raises:
        NoSuchForm: the letter is none of A to H.
    """
    index = LETTERS.find(letter.upper()) if len(letter) == 1 else -1
    if index < 0:
        raise NoSuchForm(letter)
    chosen: list[list[Candidate]] = []
    earlier: list[Candidate] = []
    for pair in range(index // FORMS + 1):
        source = widened(blueprint) if pair else blueprint
        chosen = _pair(source, Random(seed_from("form", blueprint.day.id, seed, pair)), earlier)
        earlier += (one for form in chosen for one in form)
    mine = chosen[index % FORMS]
    return Form(
        blueprint,
        LETTERS[index],
        seed,
        tuple(one.item for one in mine),
        tuple(one.features for one in mine),
    )


def _pair(blueprint: Blueprint, rng: Random, earlier: Sequence[Candidate]) -> list[list[Candidate]]:
    """Two forms filled together from what `earlier` ones leave, or from everything where that is too little."""
    gone = {blueprint.thing(one) for one in earlier}
    keys = {one.item.key for one in earlier}
    wanted = [(place, plan.few) for plan in blueprint.skills for place in plan.places]
    places = []
    for form in range(FORMS):
        for features, few in wanted:
            pool = list(blueprint.pools[features])
            rng.shuffle(pool)
            fresh = tuple(one for one in pool if blueprint.thing(one) not in gone)
            places.append(_Place(form, features, fresh or tuple(pool), few))
    matching = Matching()
    order = sorted(range(len(places)), key=lambda at: (places[at].few, len(places[at].pool), at))
    for at in order:
        matching.add([blueprint.thing(one) for one in places[at].pool])
    given = {at: matching.given[number] for number, at in enumerate(order) if number in matching.given}
    filled: list[list[Candidate]] = [[] for _ in range(FORMS)]
    for at, place in enumerate(places):
        one = next((one for one in place.pool if blueprint.thing(one) == given.get(at)), None)
        filled[place.form].append(one or _left_over(blueprint, place, filled, keys))
    return filled


def _left_over(blueprint: Blueprint, place: _Place, filled: Sequence[Sequence[Candidate]], keys: set[str]) -> Candidate:
    """An item for a place that got none of its own: new to this form, in another format than on the other if it can."""
    here = {blueprint.thing(one) for one in filled[place.form]}
    elsewhere = keys | {one.item.key for form in filled for one in form}
    return min(place.pool, key=lambda one: (blueprint.thing(one) in here, one.item.key in elsewhere))
