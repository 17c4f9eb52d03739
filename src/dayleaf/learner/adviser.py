"""Advice for any course and many learners, one request after another: what `dayleaf advise` answers with.

A request is a mapping with an `op`; an answer is a mapping of plain values. Nothing here reads a file or a clock.
"""

from __future__ import annotations

import random
from bisect import bisect_right
from dataclasses import dataclass, field
from datetime import date
from typing import TYPE_CHECKING, Any, Final

from dayleaf.core.errors import DayleafError
from dayleaf.core.ids import SkillId
from dayleaf.core.seeds import seed_from
from dayleaf.learner.belief import HELPED
from dayleaf.learner.graph import Graph, graph_of, graph_of_links
from dayleaf.learner.labelled import Labelled, heard
from dayleaf.learner.mind import NEVER, Mind
from dayleaf.learner.outlook import LEVEL, last_seen, look
from dayleaf.learner.pacing import MOST_BEHIND, pace, precheck, spare_day, stuck_beneath
from dayleaf.learner.review import RANDOM_SHARE
from dayleaf.learner.words import days_ago, habit_sentence, in_days, pace_sentence, stuck_sentence
from dayleaf.learner.worth import SOON_BELOW, SOON_FACTOR, worth

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from dayleaf.course.model import Course

Request = dict[str, Any]
SOON: Final = 7
"""Days ahead within which a planned lesson pulls what it needs back."""
TAUGHT, ANSWER = 0, 1


class NotARequest(DayleafError):
    """A line that is no request, or one that lacks something."""


@dataclass(slots=True)
class Learner:
    """One learner: the events so far, and the mind made from them."""

    mind: Mind
    events: list[tuple[Any, ...]] = field(default_factory=list)
    lessons: dict[int, int] = field(default_factory=dict)
    met: set[int] = field(default_factory=set)
    labelled: Labelled = field(default_factory=Labelled)
    last_day: float = NEVER
    stale: bool = False


class Adviser:
    """Holds a course graph, a plan and what happened to each learner; `reply` answers one request."""

    def __init__(self, course: Course) -> None:
        self.ours = course
        self.graph: Graph = graph_of(course)
        self.plan: list[tuple[float, tuple[int, ...]]] = []
        self.learners: dict[Any, Learner] = {}
        self._ops: dict[str, Callable[[Request], dict[str, Any]]] = {
            "answer": self._answer,
            "taught": self._taught,
            "predict": self._predict,
            "review": self._review,
            "next": self._next,
            "spare": self._spare,
            "precheck": self._precheck,
            "course": self._course,
        }

    def reply(self, request: object) -> dict[str, Any]:
        """The answer to one request; what is wrong with it is said under `error`."""
        if not isinstance(request, dict):
            return {"error": "A request is an object with an op."}
        name = request.get("op")
        op = self._ops.get(name) if isinstance(name, str) else None
        if op is None:
            return {"error": f"There is no op {name!r}; there are {', '.join(self._ops)}."}
        try:
            return op(request)
        except DayleafError as error:
            return {"error": str(error)}
        except (TypeError, ValueError, KeyError, ArithmeticError):  # what a stranger's line may hold has no end
            return {"error": f"The request {name} holds something of the wrong kind."}

    def offer(self, name: str, op: Callable[[Request], dict[str, Any]]) -> None:
        """Answer requests of another kind with `op`."""
        self._ops[name] = op

    def _course(self, request: Request) -> dict[str, Any]:
        links = _links(request.get("skills"))
        graph = graph_of_links(links, brought=self._brought(links))
        plan = _plan(request.get("plan", []), graph)
        self.graph, self.plan = graph, plan
        for learner in self.learners.values():
            learner.stale = True
        return {"ok": True, "skills": len(links), "days": len(plan)}

    def _brought(self, links: Mapping[SkillId, tuple[SkillId, ...]]) -> set[SkillId]:
        """Skills of our own course that a child brings along, where the given course has skills of ours."""
        own = graph_of(self.ours)
        return {skill for skill, level in zip(own.ids, own.level, strict=True) if level > 0 and skill in links}

    def _taught(self, request: Request) -> dict[str, Any]:
        learner, day, skill = self._who(request), _day(request), self._skill(request)
        event = (day, TAUGHT, self.graph.ids[skill])
        self._happened(learner, event)
        return {"ok": True}

    def _answer(self, request: Request) -> dict[str, Any]:
        learner, day, skill = self._who(request), _day(request), self._skill(request)
        right = request.get("correct")
        if right is not True and right is not False:
            raise NotARequest("An answer says correct: true or false.")
        choices, helped = request.get("choices"), request.get("help", False)
        if choices is not None and (isinstance(choices, bool) or not isinstance(choices, int) or choices < 1):
            raise NotARequest("The choices of an answer are a whole number, or null for a written one.")
        if helped not in (True, False, None):
            raise NotARequest("The help of an answer is true or false.")
        error = request.get("error")
        if error is not None and not isinstance(error, str):
            raise NotARequest("The error of an answer is the name of an error way, or null.")
        guess = min(1 / choices, 0.9) if choices is not None else None
        weight = HELPED if helped else 1.0
        self._happened(learner, (day, ANSWER, self.graph.ids[skill], right, weight, guess, error))
        return {"ok": True}

    def _happened(self, learner: Learner, event: tuple[Any, ...]) -> None:
        learner.events.append(event)
        if event[0] < learner.last_day:
            learner.stale = True
        if not learner.stale:
            self._take(learner, event)

    def _take(self, learner: Learner, event: tuple[Any, ...]) -> None:
        skill = self.graph.number.get(event[2])
        if skill is None:
            return
        learner.last_day = event[0]
        learner.met.add(skill)
        if event[1] == TAUGHT:
            learner.mind.teach(skill, event[0])
            learner.lessons[skill] = learner.lessons.get(skill, 0) + 1
        else:
            weight = event[4]
            if event[6] is not None or learner.labelled.ways:
                learner.labelled = heard(learner.labelled, event[2], right=event[3], error=event[6])
                weight *= 1.0 if event[3] else learner.labelled.weight(event[6])
            learner.mind.answer(skill, event[0], right=event[3], weight=weight, guess=event[5])

    def _who(self, request: Request) -> Learner:
        name = request.get("learner")
        if isinstance(name, bool) or not isinstance(name, str | int):
            raise NotARequest("A request names its learner.")
        learner = self.learners.get(name)
        if learner is None:
            learner = self.learners[name] = Learner(Mind(self.graph))
        return learner

    def _read(self, request: Request) -> Learner:
        """The learner with everything that happened read in order of days."""
        learner = self._who(request)
        if learner.stale:
            events = sorted(learner.events, key=lambda event: float(event[0]))
            fresh = Learner(Mind(self.graph), events=events)
            for event in events:
                self._take(fresh, event)
            learner.mind, learner.events, learner.lessons = fresh.mind, fresh.events, fresh.lessons
            learner.met, learner.last_day, learner.stale = fresh.met, fresh.last_day, False
            learner.labelled = fresh.labelled
        return learner

    def _skill(self, request: Request, name: object = None) -> int:
        wanted = request.get("skill") if name is None else name
        number = self.graph.number.get(SkillId(wanted)) if isinstance(wanted, str) else None
        if number is None:
            raise NotARequest(f"There is no skill {wanted!r} in the course.")
        return number

    def _predict(self, request: Request) -> dict[str, Any]:
        learner, day = self._read(request), _day(request)
        wanted = request.get("skills")
        if wanted is None:
            wanted = list(self.graph.ids)
        if not isinstance(wanted, list):
            raise NotARequest("The skills of a prediction are a list.")
        level = request.get("L", LEVEL)
        if isinstance(level, bool) or not isinstance(level, int | float):
            raise NotARequest("L is a number between 0 and 1.")
        numbers = [self._skill(request, name) for name in wanted]
        now = look(learner.mind, day)
        columns = now.p.tolist(), now.sd().tolist(), now.firm(level).tolist()
        p, sd, firm = ({self.graph.ids[one]: column[one] for one in numbers} for column in columns)
        return {"p": p, "sd": sd, "firm": firm}

    def _review(self, request: Request) -> dict[str, Any]:
        learner, day = self._read(request), _day(request)
        n, today = request.get("n", 12), request.get("today", [])
        if isinstance(n, bool) or not isinstance(n, int) or n < 0:
            raise NotARequest("The n of a review is a whole number.")
        if not isinstance(today, list):
            raise NotARequest("The skills of today are a list.")
        barred = {self._skill(request, name) for name in today}
        met = learner.met or {one for on, skills in self.plan if on < day for one in skills}
        pool = [one for one in sorted(met) if one not in barred]
        soon = self._soon(day)
        now = look(learner.mind, day)
        scores, p = worth(learner.mind, now, day).tolist(), now.p.tolist()
        for one in pool:
            if one in soon and p[one] < SOON_BELOW:
                scores[one] *= SOON_FACTOR
        chance = random.Random(seed_from(str(request["learner"]), str(day), "review"))
        at_random = int(n * RANDOM_SHARE + chance.random())
        drawn = chance.sample(pool, min(at_random, len(pool)))
        ranked = sorted((one for one in pool if one not in drawn), key=lambda one: -scores[one])
        chosen = ranked[: n - len(drawn)]
        last = last_seen(learner.mind).tolist()
        why = {}
        for one in chosen:
            needed = in_days(soon[one] - day) if one in soon else None
            why[self.graph.ids[one]] = days_ago(None if last[one] == NEVER else day - last[one], needed=needed)
        for one in drawn:
            why[self.graph.ids[one]] = "a random place"
        return {"skills": [self.graph.ids[one] for one in (*chosen, *drawn)], "why": why}

    def _soon(self, day: float) -> dict[int, float]:
        """The first day within a week on which a planned lesson needs each skill: its own, or right beneath."""
        needed: dict[int, float] = {}
        for on, skills in self.plan[bisect_right(self.plan, day, key=lambda one: one[0]) :]:
            if on > day + SOON:
                break
            for skill in skills:
                for one in (skill, *self.graph.beneath[skill]):
                    needed.setdefault(one, on)
        return needed

    def _next(self, request: Request) -> dict[str, Any]:
        learner, day, skill = self._read(request), _day(request), self._skill(request)
        lessons, waiting = learner.lessons, self._waiting(learner, day)
        found = pace(learner.mind, skill, day, lessons=lessons.get(skill, 0), waiting=waiting)
        habit = learner.labelled.habit_on(self.graph.ids[skill])
        if habit is not None and found.step in {"repeat", "re-teach"}:
            return {"advice": "re-teach", "skill": self.graph.ids[skill], "why": habit_sentence(p=found.p)}
        if found.step in {"repeat", "re-teach"}:
            stuck = stuck_beneath(learner.mind, skill, day, lessons) if found.step == "re-teach" else None
            on: int | None = skill if stuck is None else stuck
        else:
            on = self._following(learner, skill)
            stuck = None if on is None or waiting >= MOST_BEHIND else stuck_beneath(learner.mind, on, day, lessons)
        if stuck is not None:
            return {"advice": "re-teach", "skill": self.graph.ids[stuck], "why": stuck_sentence()}
        why = pace_sentence(found.step, p=found.p)
        return {"advice": found.step, "skill": None if on is None else self.graph.ids[on], "why": why}

    def _waiting(self, learner: Learner, day: float) -> int:
        """Planned lessons up to a day on skills that were not taught yet."""
        planned = {one for on, skills in self.plan if on <= day for one in skills}
        return sum(one not in learner.lessons for one in planned)

    def _following(self, learner: Learner, skill: int) -> int | None:
        """The next skill of the plan that was not taught yet."""
        order = list(dict.fromkeys(one for _on, skills in self.plan for one in skills))
        later = order[order.index(skill) + 1 :] if skill in order else order
        return next((one for one in later if one not in learner.lessons), None)

    def _spare(self, request: Request) -> dict[str, Any]:
        learner, day = self._read(request), _day(request)
        skill = spare_day(learner.mind, day, sorted(learner.met))
        return {"skill": None if skill is None else self.graph.ids[skill]}

    def _precheck(self, request: Request) -> dict[str, Any]:
        learner, day, skill = self._read(request), _day(request), self._skill(request)
        return {"n": precheck(learner.mind, skill, day)}


def _day(request: Request) -> float:
    day = request.get("day")
    if isinstance(day, int | float) and not isinstance(day, bool) and day == day and abs(day) < 1e9:  # noqa: PLR0124 (not a number is no day)
        return float(day)
    if isinstance(day, str):
        try:
            return float(date.fromisoformat(day).toordinal())
        except ValueError:
            pass
    raise NotARequest("A day is a number, or a date as 2027-01-12.")


def _links(skills: object) -> dict[SkillId, tuple[SkillId, ...]]:
    if not isinstance(skills, list) or not skills:
        raise NotARequest("A course has a list of skills, each with its id and prereqs.")
    links: dict[SkillId, tuple[SkillId, ...]] = {}
    for one in skills:
        name, prereqs = (one.get("id"), one.get("prereqs") or []) if isinstance(one, dict) else (None, [])
        if not isinstance(name, str) or not isinstance(prereqs, list):
            raise NotARequest("Each skill of a course has an id and a list of prereqs.")
        links[SkillId(name)] = tuple(SkillId(str(lower)) for lower in prereqs)
    return links


def _plan(plan: object, graph: Graph) -> list[tuple[float, tuple[int, ...]]]:
    if not isinstance(plan, list):
        raise NotARequest("A plan is a list of days, each with its skills.")
    found = []
    for one in plan:
        skills = one.get("skills", []) if isinstance(one, dict) else None
        if not isinstance(skills, list):
            raise NotARequest("Each day of a plan has a day and a list of skills.")
        found.append((_day(one), tuple(graph.number[name] for name in skills if name in graph.number)))
    return sorted(found, key=lambda entry: entry[0])
