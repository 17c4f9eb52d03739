"""Knowledge tracing: a skill is known or not, is learned at each answer by chance, and may be forgotten by chance.

Here as a referee: our own model is measured against it, with and without forgetting, fitted on the same children.

References:
    [1] Corbett, Anderson 1995 (the model; worked values in CHECKS D.5).
    [2] Baum et al. 1970 (the fit by expectation and maximisation).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Iterable

    from numpy.typing import NDArray

    Floats = NDArray[np.float64]
    Truths = NDArray[np.bool_]

GUESS_MOST: Final = 0.3
SLIP_MOST: Final = 0.1
"""Bounds within which the parameters keep their meaning (CHECKS D.5)."""


@dataclass(frozen=True, slots=True)
class Tracing:
    """Chances: known at first, learned at an answer, slip, guess, forgotten at an answer; one or one a skill."""

    known: float | Floats
    learn: float | Floats
    slip: float | Floats
    guess: float | Floats
    forget: float | Floats = 0.0


def trace(answers: Iterable[bool], tracing: Tracing) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """P(right) before each answer, and P(known) after it (learning included)."""
    known, before, after = tracing.known, [], []
    for right in answers:
        p = known * (1 - tracing.slip) + (1 - known) * tracing.guess
        given = known * (1 - tracing.slip) / p if right else known * tracing.slip / (1 - p)
        known = given * (1 - tracing.forget) + (1 - given) * tracing.learn
        before.append(float(p))
        after.append(float(known))
    return tuple(before), tuple(after)


def predict(right: Truths, there: Truths, tracing: Tracing) -> Floats:
    """P(right) before each answer; axes are skill, child and turn, `there` says which turns were taken."""
    known = np.broadcast_to(_column(tracing.known), right.shape[:2]).astype(np.float64)
    slip, guess = _column(tracing.slip), _column(tracing.guess)
    learn, forget = _column(tracing.learn), _column(tracing.forget)
    chances = np.zeros(right.shape)
    for turn in range(right.shape[2]):
        p = known * (1 - slip) + (1 - known) * guess
        chances[..., turn] = p
        given = np.where(right[..., turn], known * (1 - slip) / p, known * slip / (1 - p))
        known = np.where(there[..., turn], given * (1 - forget) + (1 - given) * learn, known)
    return chances


def fit_tracing(right: Truths, there: Truths, *, forgetting: bool, rounds: int = 40) -> Tracing:
    """Parameters of each skill by expectation and maximisation; axes as in `predict`.

    Guess and slip are held within .3 and .1. A skill that few answered leans on a weak prior (one answer's worth).
    """
    skills = right.shape[0]
    known, learn, slip, guess, forget = (np.full(skills, value) for value in (0.4, 0.2, 0.08, 0.2, 0.02 * forgetting))
    found = Tracing(known, learn, slip, guess, forget)
    for _ in range(rounds):
        found = _round(right, there, found, forgetting=forgetting)
    return found


def _column(value: float | Floats) -> Floats:
    column: Floats = np.asarray(value, dtype=np.float64).reshape(-1, 1)
    return column


def _round(right: Truths, there: Truths, old: Tracing, *, forgetting: bool) -> Tracing:
    slip, guess, learn, forget = (_column(one) for one in (old.slip, old.guess, old.learn, old.forget))
    turns = right.shape[2]
    says_known = np.where(there, np.where(right, (1 - slip)[..., None], slip[..., None]), 1.0)
    says_not = np.where(there, np.where(right, guess[..., None], (1 - guess)[..., None]), 1.0)
    forward = np.zeros((*right.shape, 2))
    known = np.broadcast_to(_column(old.known), right.shape[:2])
    for turn in range(turns):
        yes, no = known * says_known[..., turn], (1 - known) * says_not[..., turn]
        total = yes + no
        forward[..., turn, 1], forward[..., turn, 0] = yes / total, no / total
        moved = forward[..., turn, 1] * (1 - forget) + forward[..., turn, 0] * learn
        known = np.where(there[..., turn], moved, known)
    gamma = np.zeros(right.shape)
    gamma[..., -1] = forward[..., -1, 1]
    learned, could, lost, had = (np.zeros(right.shape[0]) for _ in range(4))
    for turn in range(turns - 2, -1, -1):
        f1, f0 = forward[..., turn, 1], forward[..., turn, 0]
        next1 = np.maximum(f1 * (1 - forget) + f0 * learn, 1e-12)
        next0 = np.maximum(f1 * forget + f0 * (1 - learn), 1e-12)
        g = gamma[..., turn + 1]
        back = g * f1 * (1 - forget) / next1 + (1 - g) * f1 * forget / next0
        taken = there[..., turn] & there[..., turn + 1]
        learned += (g * f0 * learn / next1 * taken).sum(axis=1)
        lost += ((1 - g) * f1 * forget / next0 * taken).sum(axis=1)
        gamma[..., turn] = np.where(there[..., turn + 1], back, f1)
        could += ((1 - gamma[..., turn]) * taken).sum(axis=1)
        had += (gamma[..., turn] * taken).sum(axis=1)
    on, off = gamma * there, (1 - gamma) * there
    first = there[..., 0]
    return Tracing(
        known=_share((gamma[..., 0] * first).sum(axis=1), first.sum(axis=1), 0.4),
        learn=_share(learned, could, 0.2),
        slip=np.minimum(_share((on * ~right).sum(axis=(1, 2)), on.sum(axis=(1, 2)), 0.08), SLIP_MOST),
        guess=np.minimum(_share((off * right).sum(axis=(1, 2)), off.sum(axis=(1, 2)), 0.2), GUESS_MOST),
        forget=_share(lost, had, 0.02) if forgetting else np.zeros(right.shape[0]),
    )


def _share(part: Floats, whole: Floats, prior: float) -> Floats:
    share: Floats = np.clip((part + prior) / (whole + 1), 1e-4, 1 - 1e-4)
    return share
