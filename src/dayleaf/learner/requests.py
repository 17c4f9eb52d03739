"""What the line protocol asks about single answers and about where to begin: `written`, `ask` and `place`."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from dayleaf.core.errors import DayleafError
from dayleaf.core.ids import SkillId
from dayleaf.learner.habits import Habits
from dayleaf.learner.placement import place
from dayleaf.learner.states import NUMBER_STRANDS, Ground, ground_of
from dayleaf.learner.written import read, reading
from dayleaf.wording.say import text_of

if TYPE_CHECKING:
    from collections.abc import Mapping

    from dayleaf.course.model import Course, Skill
    from dayleaf.items.model import Item
    from dayleaf.learner.adviser import Adviser, Request
    from dayleaf.learner.graph import Graph


class NotAsked(DayleafError):
    """A request that lacks something, or names what is not there."""


def offer_requests(adviser: Adviser) -> None:
    """Let the adviser answer `written`, `ask` and `place`."""
    requests = _Requests(adviser)
    adviser.offer("written", requests.written)
    adviser.offer("ask", requests.ask)
    adviser.offer("place", requests.place)


class _Requests:
    """The habits of each learner, and the ground of the course in force."""

    def __init__(self, adviser: Adviser) -> None:
        self.adviser = adviser
        self.habits: dict[Any, Habits] = {}
        self._ground: tuple[Graph, Any, Ground] | None = None

    def written(self, request: Request) -> dict[str, Any]:
        learner, skill = self._learner(request), self._skill(request)
        numbers, answer = request.get("numbers"), request.get("answer")
        if isinstance(answer, bool) or not isinstance(answer, (int, str)):
            raise NotAsked("The answer is what was written, as a number or as text.")
        found = read(self.habits.get(learner, Habits()), skill, _numbers(numbers), answer)
        self.habits[learner] = found.state
        return {
            "habit": found.habit,
            "p": round(found.p, 6),
            "class": list(found.klass),
            "ask": _item(found.ask) if found.ask else None,
        }

    def ask(self, request: Request) -> dict[str, Any]:
        found = reading(self.habits.get(self._learner(request), Habits()), self._skill(request))
        return {"item": _item(found.ask) if found.ask else None}

    def place(self, request: Request) -> dict[str, Any]:
        answers = request.get("answers")
        if not isinstance(answers, list):
            raise NotAsked("The answers are a list of objects with skill and correct.")
        number = self.adviser.graph.number
        heard: list[tuple[SkillId, bool]] = []
        for one in answers:
            right = one.get("correct") if isinstance(one, dict) else None
            if right is not True and right is not False:
                raise NotAsked("Each answer says its skill and correct: true or false.")
            if one.get("skill") not in number:
                raise NotAsked(f"The course has no skill {one.get('skill')!r}.")
            heard.append((one["skill"], right))
        skills = self.adviser.ours.skills
        numbers = {one for one in number if one in skills and skills[one].strand in NUMBER_STRANDS}
        found = place(self.ground(), heard, judged=numbers or None)
        return {
            "ask": found.ask,
            "start": _whole(found.start),
            "belief": {skill: round(p, 4) for skill, p in found.known.items()},
        }

    def ground(self) -> Ground:
        """The ground of the course in force; made anew when another course was given."""
        graph, plan = self.adviser.graph, self.adviser.plan
        if self._ground is None or self._ground[0] is not graph or self._ground[1] is not plan:
            days = plan or (_own_plan(self.adviser.ours, graph) if _is_ours(self.adviser.ours, graph) else [])
            strands = {one: skill.strand for one, skill in self.adviser.ours.skills.items() if one in graph.number}
            self._ground = graph, plan, ground_of(graph, days, strands=strands)
        return self._ground[2]

    def _learner(self, request: Request) -> Any:
        learner = request.get("learner")
        if isinstance(learner, (dict, list)) or learner is None:
            raise NotAsked("The learner is a name or a number.")
        return learner

    def _skill(self, request: Request) -> Skill:
        skill = request.get("skill")
        found = self.adviser.ours.skills.get(SkillId(skill)) if isinstance(skill, str) else None
        if found is None:
            raise NotAsked(f"There is no skill {skill!r} whose items we know.")
        return found


def _numbers(numbers: object) -> Mapping[str, int] | list[int] | str:
    if isinstance(numbers, str):
        return numbers
    values = list(numbers.values()) if isinstance(numbers, dict) else numbers
    if not isinstance(values, list) or not all(isinstance(one, int) and not isinstance(one, bool) for one in values):
        raise NotAsked("The numbers are the rule's variables by name, or the numbers of the item in their order.")
    return numbers if isinstance(numbers, dict) else values


def _item(item: Item) -> dict[str, Any]:
    return {"skill": item.skill, "text": text_of(item, "en"), "numbers": dict(item.numbers)}


def _is_ours(course: Course, graph: Graph) -> bool:
    return all(one in course.skills for one in graph.ids)


def _own_plan(course: Course, graph: Graph) -> list[tuple[float, tuple[int, ...]]]:
    days = ((day.number, [graph.number[one] for one in day.new_skills if one in graph.number]) for day in course.days)
    return [(float(day), tuple(skills)) for day, skills in days if skills]


def _whole(day: float | None) -> float | int | None:
    return int(day) if day is not None and day == int(day) else day
