"""A morning as JSON for other programs."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from dayleaf.plan.morning_words import adult_rows, moment

if TYPE_CHECKING:
    from collections.abc import Mapping
    from datetime import date

    from dayleaf.core.ids import LearnerId
    from dayleaf.plan.morning_model import MorningNeeds, MorningPlan


def morning_data(
    needs: MorningNeeds, plan: MorningPlan, *, day: date, names: Mapping[LearnerId, str]
) -> dict[str, Any]:
    """The morning as plain data; minutes count from its start, clock times (`at`) are there only with a start."""
    titles = {block.id: block.title for block in needs.blocks}

    def at(minute: int) -> dict[str, str]:
        return {} if plan.start is None else {"at": moment(plan.start, minute)}

    return {
        "date": day.isoformat(),
        "start": None if plan.start is None else moment(plan.start, 0),
        "minutes": plan.minutes,
        **({"ends": moment(plan.start, plan.minutes)} if plan.start is not None else {}),
        "sessions": [
            {
                "learner": one.learner,
                "name": names.get(one.learner, one.learner),
                "block": one.block,
                "title": titles[one.block],
                "phase": one.phase,
                "kind": one.kind,
                "start": one.start,
                "minutes": one.minutes,
                **at(one.start),
                "uses": list(one.uses),
            }
            for one in plan.sessions
        ],
        "with_adult": [
            {"learner": child, "block": block, "start": start, "minutes": end - start, **at(start)}
            for child, block, start, end in adult_rows(plan)
        ],
        "left_out": [{"learner": one.learner, "block": one.block, "says": one.says} for one in plan.left_out],
        "price": plan.price,
        "cost": dict(plan.cost),
        "total": plan.total,
        "proof": plan.proof,
        "bound": {"price": plan.price_bound, "minutes": plan.finish_bound, "total": plan.wishes_bound},
        "how": plan.how,
    }
