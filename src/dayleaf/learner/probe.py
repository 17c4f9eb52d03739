"""Down the chain to the first weak link, in at most six questions.

One link is taken to be weak, and with it all that stands on it; the others under the skill are firm. Before any
question a link is the likelier the nearer it lies to the skill and the less it is believed to be known. Each answer is
weighed by Bayes' rule, and the next question is the one whose answer is expected to tell most (largest information).
P(right) is .95 on a firm link and .06 on a weak one; an answer of each kind is thus no proof, and a link is asked
again where that tells most. Rates and the weight of nearness are assumptions without a source.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from math import log
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Collection, Mapping, Sequence

    from dayleaf.core.ids import SkillId

MOST: Final = 6
"""Questions of one probe at the most (JOB 1.10: three to six)."""
FIRM, WEAK = 0.95, 0.06
NEARER: Final = 0.85
"""A link one step farther from the skill is so much less likely to be the first weak one."""
SURE: Final = 0.9
"""From this probability on the link is named without a further question."""
DOUBT: Final = 0.02
"""What is believed is never taken for quite certain."""


@dataclass(frozen=True, slots=True)
class Probed:
    """`link` is the likeliest first weak link with its probability `p`; `ask` the next question's skill, or None.

    `chances` holds the probability of each skill under the stuck one, itself included.
    """

    ask: SkillId | None
    link: SkillId
    p: float
    chances: Mapping[SkillId, float] = field(repr=False)


def probe(
    links: Mapping[SkillId, Sequence[SkillId]],
    stuck: SkillId,
    answers: Sequence[tuple[SkillId, bool]] = (),
    *,
    known: Mapping[SkillId, float] | None = None,
    may_ask: Collection[SkillId] | None = None,
) -> Probed:
    """What the answers so far say about where the chain under `stuck` breaks, and what to ask next.

    `links` are the prerequisites of each skill; `known` the probability that a skill is firm, where something is
    believed; `may_ask` the skills that have items (all if None). Answers to skills outside the chain are passed over.
    """
    steps = steps_down(links, stuck)
    above = _above(links, steps)
    chances = {skill: NEARER**far * max(DOUBT, 1 - (known or {}).get(skill, 0.5)) for skill, far in steps.items()}
    for asked, right in answers:
        if asked in steps:
            for link in chances:
                chances[link] *= _chance(right, weak=asked in above[link])
    total = sum(chances.values())
    chances = {link: weight / total for link, weight in chances.items()}
    link = max(chances, key=lambda one: (chances[one], -steps[one]))
    ask = None
    if len(answers) < MOST and chances[link] < SURE:
        ask = _most_telling(chances, above, [one for one in steps if may_ask is None or one in may_ask])
    return Probed(ask=ask, link=link, p=chances[link], chances=chances)


def steps_down(links: Mapping[SkillId, Sequence[SkillId]], stuck: SkillId) -> dict[SkillId, int]:
    """The skill (0) and all beneath it, each with the fewest steps that lead down to it, nearest first."""
    steps = {stuck: 0}
    queue = [stuck]
    for skill in queue:
        for lower in links.get(skill, ()):
            if lower not in steps and lower in links:
                steps[lower] = steps[skill] + 1
                queue.append(lower)
    return steps


def _above(links: Mapping[SkillId, Sequence[SkillId]], steps: Mapping[SkillId, int]) -> dict[SkillId, set[SkillId]]:
    """For each link the skills of the chain that stand on it, itself included."""
    above: dict[SkillId, set[SkillId]] = {link: set() for link in steps}
    for skill in steps:
        for lower in steps_down(links, skill):
            above[lower].add(skill)
    return above


def _chance(right: bool, *, weak: bool) -> float:  # noqa: FBT001 -- an answer is right or not
    p = WEAK if weak else FIRM
    return p if right else 1 - p


def _most_telling(
    chances: Mapping[SkillId, float], above: Mapping[SkillId, Collection[SkillId]], may_ask: Sequence[SkillId]
) -> SkillId | None:
    """The question with the largest mutual information between its answer and the link; None where none tells."""
    best: tuple[float, SkillId] | None = None
    for asked in may_ask:
        weak = sum(p for link, p in chances.items() if asked in above[link])
        right = weak * WEAK + (1 - weak) * FIRM
        told = _entropy(right) - weak * _entropy(WEAK) - (1 - weak) * _entropy(FIRM)
        if told > (best[0] if best else 0.0) + 1e-12:
            best = (told, asked)
    return best[1] if best else None


def _entropy(p: float) -> float:
    return -sum(one * log(one) for one in (p, 1 - p) if one > 0)
