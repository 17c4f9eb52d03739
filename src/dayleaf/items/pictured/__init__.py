"""Skills that live in pictures and stories: data, shapes, time, length, steps on a grid."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.items.pictured import (
    areas,
    clocks,
    coins,
    graphs,
    group_stories,
    hours,
    inches,
    lengths,
    line_plots,
    long_stories,
    maps,
    money,
    months,
    number_stories,
    polygons,
    scales,
    shapes,
    shares,
    solids,
    tasks,
    times,
    tools,
    turns,
    weights,
    word_stories,
)

if TYPE_CHECKING:
    from dayleaf.items.rule import SkillRule

RULES: tuple[SkillRule, ...] = (
    *number_stories.RULES,
    *word_stories.RULES,
    *graphs.RULES,
    *clocks.RULES,
    *scales.RULES,
    *lengths.RULES,
    *maps.RULES,
    *shapes.RULES,
    *solids.RULES,
    *tasks.RULES,
    *tools.RULES,
    *inches.RULES,
    *turns.RULES,
    *polygons.RULES,
    *weights.RULES,
    *line_plots.RULES,
    *coins.RULES,
    *money.RULES,
    *group_stories.RULES,
    *times.RULES,
    *hours.RULES,
    *long_stories.RULES,
    *areas.RULES,
    *shares.RULES,
    *months.RULES,
)
