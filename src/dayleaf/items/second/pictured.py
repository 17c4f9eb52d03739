"""Items with pictures and stories, answered again without the code that made them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.items.second.almanac import almanac_answer
from dayleaf.items.second.amounts import amount_answer
from dayleaf.items.second.loops import loop_answer
from dayleaf.items.second.measures import measure_answer
from dayleaf.items.second.pictured_data import data_answer
from dayleaf.items.second.pictured_places import place_answer
from dayleaf.items.second.pictured_shapes import shape_answer
from dayleaf.items.second.pictured_stories import story_answer
from dayleaf.items.second.polygons import polygon_answer
from dayleaf.items.second.scaled import scaled_answer
from dayleaf.items.second.told import told_answer
from dayleaf.items.second.weights import weight_answer

if TYPE_CHECKING:
    from dayleaf.items.model import Item

_READERS = (
    told_answer,
    almanac_answer,
    scaled_answer,
    amount_answer,
    loop_answer,
    measure_answer,
    polygon_answer,
    weight_answer,
    story_answer,
    data_answer,
    shape_answer,
    place_answer,
)


def pictured_answer(item: Item) -> str | None:
    """The answer read from the item's prompt and picture alone; None where neither is of a kind known here."""
    return next((answer for read in _READERS if (answer := read(item)) is not None), None)
