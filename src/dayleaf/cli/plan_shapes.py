"""The JSON of plans: read from other programs, and written for them. `docs/plan-format.md` tells each field."""

from __future__ import annotations

import json
from collections import Counter
from datetime import date
from typing import TYPE_CHECKING, Any

from dayleaf.core.errors import BadInput, Problem
from dayleaf.core.ids import LessonId
from dayleaf.plan.calendar import learning_days
from dayleaf.plan.path_costs import first_open_day
from dayleaf.plan.run import CourseRun, RunPlan
from dayleaf.plan.year import Placed

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence
    from pathlib import Path

    from dayleaf.plan.chance import Chance
    from dayleaf.plan.check_year import Break
    from dayleaf.plan.household import HouseholdFile
    from dayleaf.plan.priced_ways import PricedWay, Refusal
    from dayleaf.plan.replan import Bent
    from dayleaf.plan.run import FamilyPlan


def plan_shape(file: HouseholdFile, plan: FamilyPlan, *, ms: float) -> dict[str, Any]:
    """A plan: its lessons in order of date, the same by learner, what each wish costs, and how sure that is."""
    return {
        "fits": True,
        "lessons": lessons_shape(plan.plans),
        "learners": [_run_shape(file, one) for one in plan.plans],
        "cost": dict(plan.cost),
        "total": plan.total,
        "proof": plan.proof,
        "bound": plan.bound,
        "ms": round(ms, 2),
    }


def lessons_shape(plans: Sequence[RunPlan]) -> list[dict[str, str]]:
    """Every lesson and its date, over all runs; whose it is where there are several."""
    rows = [(one.day, n, _whose(plans, n) | {"id": one.lesson}) for n, plan in enumerate(plans) for one in plan.placed]
    rows.sort(key=lambda row: row[:2])
    return [{**row, "date": day.isoformat()} for day, _, row in rows]


def _whose(plans: Sequence[RunPlan], n: int) -> dict[str, str]:
    run = plans[n].run
    several = Counter(one.run.learner for one in plans)
    found = {"learner": str(run.learner)} if len(plans) > 1 else {}
    return found | ({"course": str(run.course)} if several[run.learner] > 1 else {})


def _run_shape(file: HouseholdFile, plan: RunPlan) -> dict[str, Any]:
    run = plan.run
    names = {child.id: child.name for child in file.children}
    return {
        "learner": run.learner,
        "name": names.get(run.learner, run.learner),
        "course": run.course,
        "lessons": [{"id": one.lesson, "date": one.day.isoformat()} for one in plan.placed],
        "left_out": list(plan.left_out),
        "joined": [list(pair) for pair in plan.joined],
        "last": _day(plan.last),
        "spare_days": spare_days(plan),
    }


def spare_days(plan: RunPlan) -> int | None:
    """Learning days without a lesson from the first open day to the family's end; None where no end is set."""
    if plan.run.calendar.end is None:
        return None
    used, first = {one.day for one in plan.placed}, first_open_day(plan.run)
    return sum(1 for one in learning_days(plan.run.calendar) if one.day >= first and one.day not in used)


def refusal_shape(refusal: Refusal, run: CourseRun, *, ms: float) -> dict[str, Any]:
    """The honest no: what does not fit, which one rule would be enough to drop, and the ways out."""
    return {
        "fits": False,
        "lessons": [],
        "learner": run.learner,
        "course": run.course,
        "first_without_a_day": refusal.lesson,
        "needed": refusal.needed,
        "available": refusal.available,
        "rules": list(refusal.rules),
        "says": refusal.says,
        "ways": [way_shape(way) for way in refusal.ways],
        "ms": round(ms, 2),
    }


def way_shape(way: PricedWay) -> dict[str, Any]:
    """One way out with its plan of the run."""
    return {
        "name": way.name,
        "says": way.says,
        "lost": list(way.lost),
        "price": way.price,
        "total": way.total,
        "cost": dict(way.cost),
        "days_given_up": way.given_up,
        "last": _day(way.plan.last),
        "spare_days": way.spare,
        "left_out": list(way.plan.left_out),
        "joined": [list(pair) for pair in way.plan.joined],
        "lessons": [{"id": one.lesson, "date": one.day.isoformat()} for one in way.plan.placed],
    }


def bent_shape(bent: Bent, *, before: date | None) -> dict[str, Any]:
    """One way to go on: what moved from which date to which, when the year ends now and ended before."""
    plans = bent.plan.plans
    return {
        "way": bent.way,
        "moved": [
            _whose(plans, n) | {"id": lesson, "from": was.isoformat(), "to": _day(now)}
            for n, lesson, was, now in bent.moved
        ],
        "last": _day(bent.last),
        "last_before": _day(before),
        "past_end": bent.past_end,
        "spare_days": bent.spare,
        "left_out": [_whose(plans, n) | {"id": lesson} for n, one in enumerate(plans) for lesson in one.left_out],
        "lessons": lessons_shape(plans),
        "cost": dict(bent.plan.cost),
        "total": bent.plan.total,
    }


def breaks_shape(breaks: Iterable[Break], plans: Sequence[RunPlan]) -> list[dict[str, Any]]:
    """The rules that a plan breaks."""
    return [
        _whose(plans, one.run) | {"rule": one.rule, "lesson": one.lesson, "date": _day(one.day), "says": one.says}
        for one in breaks
    ]


def chance_shape(chance: Chance, run: CourseRun, *, by: date, needed: int, days: int) -> dict[str, Any]:
    """The chance that one run is finished by a date."""
    return {
        "learner": run.learner,
        "course": run.course,
        "by": by.isoformat(),
        "needed": needed,
        "days": days,
        "chance": round(chance.chance, 4),
        "interval": [round(chance.low, 4), round(chance.high, 4)],
        "lost_rate": round(chance.rate, 4),
    }


def read_plan(path: Path, runs: Sequence[CourseRun]) -> tuple[RunPlan, ...]:
    """The plans that a JSON file holds: an object with `lessons`, each with `id` and `date`, and whose it is.

    Raises:
        BadInput: with every problem of the file.
    """
    problems: list[Problem] = []
    rows = _rows(path, problems)
    placed: list[list[Placed]] = [[] for _ in runs]
    known = [{one.id for one in run.lessons} for run in runs]
    for n, row in enumerate(rows):
        where = f"{path.name}: lessons[{n}]"
        found = _row(row, where, problems)
        if found is None:
            continue
        fitting = [r for r, run in enumerate(runs) if _is_of(row, run) and found.lesson in known[r]]
        if len(fitting) == 1:
            placed[fitting[0]].append(found)
        elif fitting:
            problems.append(Problem(where, "names no learner and could be of several; write learner, and course too"))
        else:
            whose = f" of {row['learner']}" if row.get("learner") else ""
            problems.append(Problem(where, f"“{found.lesson}” is no lesson{whose} in this household's file"))
    if problems:
        raise BadInput(problems)
    return tuple(_run_plan(run, each) for run, each in zip(runs, placed, strict=True))


def _run_plan(run: CourseRun, placed: list[Placed]) -> RunPlan:
    order = {one.id: n for n, one in enumerate(run.lessons)}
    placed.sort(key=lambda one: (one.day, order[one.lesson]))
    kept = {one.lesson for one in placed}
    return RunPlan(run=run, placed=tuple(placed), left_out=tuple(one.id for one in run.lessons if one.id not in kept))


def _rows(path: Path, problems: list[Problem]) -> list[Any]:
    try:
        data = json.loads(path.read_text(encoding="utf-8"))
    except OSError as wrong:
        problems.append(Problem(path.name, f"cannot be read ({wrong.strerror})"))
        return []
    except (UnicodeDecodeError, ValueError, RecursionError):
        problems.append(Problem(path.name, "is no JSON"))
        return []
    rows = data.get("lessons") if isinstance(data, dict) else None
    if not isinstance(rows, list):
        problems.append(Problem(f"{path.name}: lessons", 'is missing; write {"lessons": [{"id": …, "date": …}]}'))
        return []
    return rows


def _row(row: Any, where: str, problems: list[Problem]) -> Placed | None:
    if not isinstance(row, dict) or not isinstance(row.get("id"), str) or not isinstance(row.get("date"), str):
        problems.append(Problem(where, 'needs an id and a date, as {"id": "day-001", "date": "2026-08-17"}'))
        return None
    try:
        return Placed(lesson=LessonId(row["id"]), day=date.fromisoformat(row["date"]))
    except ValueError:
        problems.append(Problem(where, f"“{row['date']}” is no date; write it as 2026-08-17"))
        return None


def _is_of(row: Mapping[str, Any], run: CourseRun) -> bool:
    return row.get("learner") in {None, run.learner} and row.get("course") in {None, run.course}


def _day(day: date | None) -> str | None:
    return None if day is None else day.isoformat()
