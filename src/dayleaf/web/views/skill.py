"""One skill of one child: its answers, what they show, the decision, three short days, and a probe asked aloud."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final
from urllib.parse import urlencode

from django.http import Http404, HttpResponse
from django.shortcuts import redirect
from django.utils.translation import gettext
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from dayleaf.core.errors import BadInput, Problem
from dayleaf.core.ids import SkillId
from dayleaf.core.seeds import seed_from
from dayleaf.course.load import grade2
from dayleaf.items.built import is_built
from dayleaf.learner.asking import can_be_read_aloud, item_to_read
from dayleaf.learner.probe import MOST, probe, steps_down
from dayleaf.learner.words import count_word, seen_sentences
from dayleaf.packets.practice import formats_to_practise
from dayleaf.records import loose_papers, selectors
from dayleaf.records.beliefs import beliefs_kept
from dayleaf.records.coming import lesson_named
from dayleaf.records.skill_history import CHOICES, choice_made, skill_history
from dayleaf.web.clock import today_for, weekday_and_date
from dayleaf.web.entry import GAP
from dayleaf.web.page import page
from dayleaf.web.views.children import evidence
from dayleaf.wording.say import text_of
from dayleaf.wording.ways import way_phrase

if TYPE_CHECKING:
    from collections.abc import Sequence

    from django.http import HttpRequest

    from dayleaf.course.model import Skill
    from dayleaf.records.models import Learner
    from dayleaf.records.skill_history import Answered

PAPERS: Final = ("pages", "guide", "key")
ANSWERS: Final = {"right": True, "not yet": False}
MARK: Final = {"right": "right", "wrong": "wrote", "blank": "left empty"}


@require_GET
def skill(request: HttpRequest, learner: str, skill: str) -> HttpResponse:
    """The history of a skill: its answers, what was seen, what is advised, what was decided."""
    household = selectors.household()
    found, known_skill = selectors.learner_by_id(household, learner), _skill(skill)
    today = today_for(household)
    history = skill_history(found, known_skill.id)
    beliefs = beliefs_kept(found, grade2())
    known = beliefs.known(known_skill.id, today) if beliefs else None
    values: dict[str, Any] = {
        "name": found.name,
        "learner": found.id,
        "skill": known_skill,
        "word": known.word if known else "",
        "evidence": evidence(known, today=today) if known else "",
        "taught": [
            {"day": weekday_and_date(day), "title": lesson_named(lesson).title} for day, lesson in history.taught[:3]
        ],
        "answers": [_answer(one) for one in history.answers],
        "seen": seen_sentences(history.seen) if history.seen and history.seen.wrong else "",
        "telling": [
            {"text": _plain(one.text), "answer": one.answer, "right": one.right}
            for one in (history.seen.evidence if history.seen else ())
        ],
        "advice": history.advice,
        "chosen": {"what": history.chosen[0], "day": weekday_and_date(history.chosen[1])} if history.chosen else None,
        "choices": [one for one in CHOICES if one != (history.chosen or (history.advice.step,))[0]],
        "beneath": [grade2().skills[one] for one in known_skill.prereqs if one in grade2().skills],
        "chain": _on_paper(known_skill.id),
        "printable": is_built(known_skill.id),
        "aloud": can_be_read_aloud(known_skill.id),
    }
    return page(request, "skill", values, household=household, here="children")


@require_POST
def decide(request: HttpRequest, learner: str, skill: str) -> HttpResponse:
    """Keep what the adult decides of a skill."""
    household = selectors.household()
    found, known_skill = selectors.learner_by_id(household, learner), _skill(skill)
    chosen = request.POST.get("chosen", "")
    if chosen not in CHOICES:
        raise BadInput([Problem("decision", f"choose one of {', '.join(CHOICES)}")])
    advised = skill_history(found, known_skill.id).advice.step
    choice_made(found, known_skill.id, advised=advised, chosen=chosen, day=today_for(household))
    return redirect("skill", learner=found.id, skill=known_skill.id)


@require_POST
def strip(request: HttpRequest, learner: str, skill: str) -> HttpResponse:
    """Three short days with a skill on paper."""
    household = selectors.household()
    found, known_skill = selectors.learner_by_id(household, learner), _skill(skill)
    paper = request.POST.get("open", "pages")
    if paper not in PAPERS:
        raise BadInput([Problem("paper", f"there is no paper called {paper!r}")])
    prints = loose_papers.strip_paper(found, known_skill.id, today=today_for(household))
    content = prints.pages.pdf if paper == "pages" else getattr(prints, paper)
    response = HttpResponse(content, content_type="application/pdf")
    response.headers["Content-Disposition"] = f'inline; filename="three days {known_skill.id} {paper}.pdf"'
    response.headers["Cache-Control"] = "private, no-store"
    return response


@require_http_methods(["GET", "POST"])
def ask(request: HttpRequest, learner: str, skill: str) -> HttpResponse:
    """Down the chain under a skill, at most six questions read aloud; the answers travel with the form."""
    household = selectors.household()
    found, stuck = selectors.learner_by_id(household, learner), _skill(skill)
    heard = _heard(request, back="back" in request.POST)
    course = grade2()
    links = {one.id: one.prereqs for one in course.skills.values()}
    beliefs = beliefs_kept(found, course)
    firm = {one: known.firm for one, known in beliefs.known_all(today_for(household)).items()} if beliefs else None
    may = {one for one in links if can_be_read_aloud(one)}
    probed = probe(links, stuck.id, heard, known=firm, may_ask=may)
    values: dict[str, Any] = {
        "name": found.name,
        "learner": found.id,
        "skill": stuck,
        "heard": [{"skill": one, "said": "right" if right else "not yet"} for one, right in heard],
        "n": len(heard) + 1,
        "most": MOST,
        "link": course.skills[probed.link],
        "question": _question(found, probed.ask, heard) if probed.ask else None,
        "so_far": _so_far(heard),
    }
    template = "_ask" if getattr(request, "htmx", False) else "ask"
    return page(request, template, values, household=household, here="children")


def _on_paper(skill: SkillId) -> str:
    """The nearest skills of the chain as a wish for paper: two items of each, the skill itself first."""
    course = grade2()
    links = {one.id: one.prereqs for one in course.skills.values()}
    chain = [one for one in steps_down(links, skill) if formats_to_practise(course, one)]
    return urlencode([*(("skill", one) for one in chain[:MOST]), ("each", "2")]) if chain else ""


def _heard(request: HttpRequest, *, back: bool) -> tuple[tuple[SkillId, bool], ...]:
    """The answers so far and the one just given; the last one taken back where that was asked."""
    course = grade2()
    skills, said = request.POST.getlist("skill"), request.POST.getlist("said")
    heard = [
        (SkillId(one), ANSWERS[answer])
        for one, answer in zip(skills, said, strict=False)
        if one in course.skills and answer in ANSWERS
    ]
    return tuple(heard[:-1] if back else heard)[:MOST]


def _question(learner: Learner, asked: SkillId, heard: Sequence[tuple[SkillId, bool]]) -> dict[str, str]:
    skill = grade2().skills[asked]
    item = item_to_read(skill, seed=seed_from("probe", learner.id, asked, len(heard)))
    return {"skill": skill.id, "text": " ".join(text_of(item, "en").split()), "answer": item.answer, "of": skill.title}


def _so_far(heard: Sequence[tuple[SkillId, bool]]) -> str:
    right = sum(one for _, one in heard)
    if not heard:
        return ""
    return gettext("%(right)s of %(of)s right so far.") % {
        "right": count_word(right).capitalize(),
        "of": count_word(len(heard)),
    }


def _skill(name: str) -> Skill:
    found = grade2().skills.get(SkillId(name))
    if found is None:
        raise Http404
    return found


def _answer(one: Answered) -> dict[str, Any]:
    mark, item = one.mark, one.item
    text = _plain(item.text) if item else ""
    ways = [way_phrase(way, "en") for way in mark.errors[:1]] if mark.state == "wrong" else []
    return {
        "day": weekday_and_date(one.day),
        "sheet": one.sheet,
        "text": text,
        "wrote": mark.answer or "",
        "right": item.answer if item else "",
        "state": mark.state,
        "helped": mark.helped,
        "way": ways[0] if ways else "",
        "mended": one.mended,
        "corrected": one.corrected,
    }


def _plain(text: str) -> str:
    return " ".join(text.split()).removesuffix(GAP).rstrip(" =")
